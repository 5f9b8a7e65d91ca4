#include "app/desktop/site/site_questions.h"

#include "app/desktop/site/item_words.h"
#include "app/desktop/site/site_ranges.h"
#include "app/desktop/site/site_words.h"

#include <QSignalBlocker>

#include <cmath>

namespace headmark {

namespace {

const PipeItem* onlyPipe(const Site& site) {
    return site.delivery.size() == 1 ? std::get_if<PipeItem>(&site.delivery.front()) : nullptr;
}

// Heights are asked as "below" or "above" the pump, so never negative.
FigureRange heightRange() { return {0.0, range::kLevel_m.greatest}; }

} // namespace

bool isQuestionSite(const Site& site) {
    return site.suction.empty() && onlyPipe(site) && site.zones.size() == 1 &&
           site.zones.front().branch.empty() && site.zones.front().emitters.whole &&
           site.zones.front().takeoff.empty() && !site.tankReturn && !site.end && !site.system &&
           site.control == ControlKind::withZones && site.pumpLevel == Level();
}

SiteQuestions::SiteQuestions(Desk& desk, QWidget* parent)
    : Card(tr("A new site, in a few questions"), parent), desk_(desk), grid_(new QGridLayout),
      where_(new QComboBox), emittersWhere_(new QComboBox), pipe_(new CatalogueEdit(pipeChoices())) {
    where_->addItems({tr("below the pump"), tr("above the pump")});
    where_->setAccessibleName(tr("Whether the water stands below or above the pump"));
    emittersWhere_->addItems({tr("above the pump"), tr("below the pump")});
    emittersWhere_->setAccessibleName(tr("Whether the emitters stand above or below the pump"));
    grid_->setColumnMinimumWidth(0, fontMetrics().averageCharWidth() * 24);
    grid_->setColumnStretch(0, 5); // the fields stand near their questions
    grid_->setColumnStretch(4, 5);
    grid_->setHorizontalSpacing(8);
    grid_->setVerticalSpacing(8);
    water_ = ask(tr("How far off the pump is the water's level?"),
                 tr("In the driest time; all heights count from the pump."), where_, waterUnit_);
    grid_->addWidget(wrappedLabel(tr("Which pipe leads to the beds?")), grid_->rowCount(), 0);
    pipe_->setAccessibleName(tr("Which pipe leads to the beds"));
    pipe_->setPlaceholderText(tr("type, such as 50 pe100"));
    pipe_->setMinimumWidth(fontMetrics().averageCharWidth() * 16);
    grid_->addWidget(pipe_, grid_->rowCount() - 1, 1, 1, 3);
    length_ = ask(tr("How long is it?"), {}, nullptr, lengthUnit_);
    flow_ = ask(tr("How much do the emitters take?"), {}, nullptr, flowUnit_);
    pressure_ = ask(tr("At which pressure?"),
                    tr("As the emitter's sheet says, such as 2 bar for sprinklers."), nullptr, pressureUnit_);
    height_ = ask(tr("How high do they stand?"), {}, emittersWhere_, heightUnit_);
    content().addLayout(grid_);
    content().addStretch(1);
    auto* line = new QHBoxLayout;
    line->addWidget(faintLabel(tr("Suction, fittings, filter and further zones are added in detail.")), 1);
    auto* more = plainButton(tr("More detail"));
    more->setToolTip(tr("The whole run as a table, and every figure of water, zones and control."));
    connect(more, &QPushButton::clicked, this, &SiteQuestions::moreAsked);
    line->addWidget(more);
    content().addLayout(line);
    connectAnswers();
    goOnAtReturn();
    refresh();
}

// Return takes an answer and asks the next question; a figure that cannot be taken keeps the place.
void SiteQuestions::goOnAtReturn() {
    const std::pair<NumberEntry*, QLineEdit*> steps[] = {
        {water_, pipe_}, {length_, flow_}, {flow_, pressure_}, {pressure_, height_}};
    for (const auto& [from, to] : steps) {
        connect(from, &QLineEdit::returnPressed, this, [from = from, to = to] {
            if (from->complaint().isEmpty()) to->setFocus(Qt::TabFocusReason);
        });
    }
}

void SiteQuestions::showEvent(QShowEvent* event) {
    Card::showEvent(event);
    // When the window around it is shown as well, unless the questions have gone by then.
    QMetaObject::invokeMethod(
        water_,
        [this] {
            if (isVisible()) water_->setFocus(Qt::TabFocusReason);
        },
        Qt::QueuedConnection);
}

NumberEntry* SiteQuestions::ask(const QString& question, const QString& why, QWidget* before, QLabel*& unit) {
    const int row = grid_->rowCount();
    auto* words = wrappedLabel(question);
    words->setToolTip(why);
    auto* entry = new NumberEntry;
    entry->setAccessibleName(question);
    entry->setMinimumWidth(fontMetrics().averageCharWidth() * 9);
    words->setBuddy(entry);
    unit = faintLabel({});
    unit->setWordWrap(false);
    grid_->addWidget(words, row, 0);
    grid_->addWidget(entry, row, 1);
    grid_->addWidget(unit, row, 2);
    if (before) grid_->addWidget(before, row, 3);
    if (!why.isEmpty()) entry->setPlaceholderText(QString());
    return entry;
}

void SiteQuestions::connectAnswers() {
    connect(water_, &NumberEntry::entered, this, [this] { takeWater(); });
    connect(where_, &QComboBox::activated, this, [this] { takeWater(); });
    connect(pipe_, &CatalogueEdit::chosen, this, [this](int index) {
        const PipeKind kind = std::get<PipeItem>(pipeChoices()[static_cast<std::size_t>(index)].item).kind;
        desk_.document.edit(tr("Choose the pipe"), [&](Workspace& w) {
            std::get<PipeItem>(w.job.site.delivery.front()).kind = kind;
        });
        length_->setFocus(Qt::TabFocusReason);
    });
    connect(length_, &NumberEntry::entered, this, [this](std::optional<double> figure) {
        const Length length = desk_.units().lengthFrom(*figure);
        desk_.document.edit(tr("Change the length of the pipe"), [&](Workspace& w) {
            std::get<PipeItem>(w.job.site.delivery.front()).length = length;
        });
    });
    connect(flow_, &NumberEntry::entered, this, [this](std::optional<double> figure) {
        const Flow flow = desk_.units().flowFrom(*figure);
        desk_.document.edit(tr("Change the zone's flow"),
                            [&](Workspace& w) { w.job.site.zones.front().emitters.law.nominal = flow; });
    });
    connect(pressure_, &NumberEntry::entered, this, [this](std::optional<double> figure) {
        const Pressure pressure = desk_.units().pressureFrom(*figure) - GaugePressure();
        desk_.document.edit(tr("Change the zone's pressure"),
                            [&](Workspace& w) { w.job.site.zones.front().emitters.law.at = pressure; });
    });
    const auto takeHeight = [this] {
        if (!height_->figure()) return;
        const double sign = emittersWhere_->currentIndex() == 0 ? 1.0 : -1.0;
        const Level level = desk_.units().levelFrom(sign * *height_->figure());
        desk_.document.edit(tr("Change the zone's level"),
                            [&](Workspace& w) { w.job.site.zones.front().level = level; });
    };
    connect(height_, &NumberEntry::entered, this, takeHeight);
    connect(emittersWhere_, &QComboBox::activated, this, takeHeight);
}

void SiteQuestions::takeWater() {
    if (!water_->figure()) return;
    const double sign = where_->currentIndex() == 0 ? -1.0 : 1.0;
    const Level level = desk_.units().levelFrom(sign * *water_->figure());
    desk_.document.edit(tr("Change the water level"),
                        [&](Workspace& w) { moveUsualLevel(w.job.site, level); });
}

void SiteQuestions::refresh() {
    const Site& site = desk_.document.job().site;
    if (!isQuestionSite(site)) return;
    const DisplayUnits& units = desk_.units();
    const auto put = [&](NumberEntry* entry, QLabel* unit, const FigureRange& allowed, Quantity quantity,
                         double shown) {
        entry->setRange(allowed.shown(quantity, units));
        // What stands marked to be typed over stays so when an answer comes in between.
        const bool marked = entry->hasFocus() && !entry->isModified() && entry->hasSelectedText();
        entry->setFigure(shown, enoughDecimals(shown));
        if (marked) entry->selectAll();
        unit->setText(unitSymbol(quantity, units));
    };
    const double water = site.source ? units.figure(site.source->usual) : 0.0;
    put(water_, waterUnit_, heightRange(), Quantity::level, std::abs(water));
    if (water != 0.0) where_->setCurrentIndex(water < 0.0 ? 0 : 1);
    const PipeItem& pipe = *onlyPipe(site);
    pipe_->setShown(tr("%1, %2").arg(pipeName(pipe.kind), pipeSize(pipe.kind)));
    put(length_, lengthUnit_, range::kPipeLength_m, Quantity::length, units.figure(pipe.length));
    const Zone& zone = site.zones.front();
    put(flow_, flowUnit_, range::kZoneFlow_m3_h, Quantity::flow, units.figure(zone.emitters.law.nominal));
    put(pressure_, pressureUnit_, range::kEmitterPressure_kPa, Quantity::pressure,
        units.figure(GaugePressure() + zone.emitters.law.at));
    const double height = units.figure(zone.level);
    put(height_, heightUnit_, heightRange(), Quantity::level, std::abs(height));
    if (height != 0.0) emittersWhere_->setCurrentIndex(height > 0.0 ? 0 : 1);
}

} // namespace headmark
