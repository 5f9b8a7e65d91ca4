#include "app/desktop/charts/axes_card.h"
#include "app/desktop/frame/screen_phrasing.h"

#include "app/desktop/charts/chart_words.h"
#include "app/desktop/charts/flow_layout.h"
#include "app/desktop/frame/theme.h"
#include "app/words/caution_words.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr double kDisagreeSigmas = 3.0; // as far as chance hardly puts a click

// A named field that stays with its name where the line ends.
QWidget* named(const QString& name, QWidget* field) {
    auto* both = new QWidget;
    auto* layout = new QVBoxLayout(both);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(1);
    auto* label = faintLabel(name);
    label->setWordWrap(false);
    label->setBuddy(field);
    layout->addWidget(label);
    layout->addWidget(field);
    return both;
}

} // namespace

AxesCard::AxesCard(ChartSession& session, QWidget* parent)
    : Card(tr("What the axes say"), parent), session_(session), said_(wrappedLabel({}, this)),
      doubts_(wrappedLabel({}, this)) {
    content().addWidget(said_);
    content().addWidget(doubts_);
    auto* units = new FlowLayout;
    addUnit(*units, tr("Flow in"), Dimension::flow, &PrintedUnits::flow);
    addUnit(*units, tr("Head in"), Dimension::head, &PrintedUnits::head);
    addUnit(*units, tr("Efficiency in"), Dimension::efficiency, &PrintedUnits::efficiency);
    addUnit(*units, tr("Power in"), Dimension::power, &PrintedUnits::power);
    addUnit(*units, tr("NPSH required in"), Dimension::head, &PrintedUnits::npshRequired);
    flowScale_ = addScale(*units, tr("Flow axis"), &Reading::flowScale);
    valueScale_ = addScale(*units, tr("Value axes"), &Reading::valueScale);
    content().addLayout(units);
    connect(&session_, &ChartSession::changed, this, &AxesCard::follow);
    connect(&session_, &ChartSession::sheetChanged, this, &AxesCard::follow);
    connect(&session_.desk, &Desk::themeChanged, this, &AxesCard::follow);
    follow();
}

void AxesCard::addUnit(QLayout& to, const QString& name, Dimension dimension,
                       std::string PrintedUnits::*unit) {
    auto* box = new QComboBox(this);
    for (const Unit& row : unitTable()) {
        if (row.dimension == dimension)
            box->addItem(symbolWords(std::string(row.symbol)),
                         QString::fromUtf8(row.symbol.data(), static_cast<qsizetype>(row.symbol.size())));
    }
    box->setAccessibleName(tr("%1, as printed").arg(name));
    box->setToolTip(tr("The unit that is printed on the chart, whatever unit the desk shows."));
    connect(box, &QComboBox::activated, this, [this, box, unit] {
        const std::string symbol = box->currentData().toString().toStdString();
        session_.changeSheet(tr("Change a printed unit"),
                             [&](Reading& reading) { reading.printedUnits.*unit = symbol; });
    });
    to.addWidget(named(name, box));
    units_.push_back({box, unit});
}

QComboBox* AxesCard::addScale(QLayout& to, const QString& name, AxisScale Reading::*scale) {
    auto* box = new QComboBox(this);
    box->addItem(tr("even scale"));
    box->addItem(tr("logarithmic"));
    box->setAccessibleName(name);
    connect(box, &QComboBox::activated, this, [this, scale](int index) {
        session_.changeSheet(tr("Change a scale"), [&](Reading& reading) {
            reading.*scale = index == 1 ? AxisScale::log10 : AxisScale::linear;
        });
    });
    to.addWidget(named(name, box));
    return box;
}

QString AxesCard::pinsSentence() const {
    const auto reading = session_.reading();
    if (!reading) return {};
    const auto pins = static_cast<int>(reading->pins.size());
    if (pins == 0)
        return tr(
            "No pin yet. Place one where a printed flow and a printed value meet, such as the origin, and "
            "one at the far corner of the grid.");
    const ChartMapping* mapping = session_.mapping();
    if (!mapping || !session_.isUpToDate()) {
        const ChartAnswer* answer = session_.answer();
        const bool few = answer && std::any_of(answer->errors.begin(), answer->errors.end(),
                                               [](const Error& e) { return e.code == "too-few-pinned"; });
        if (few || pins < 2)
            return tr("Pins so far: %n. Two different flows and two different values must be pinned.",
                      nullptr, pins);
        if (!mapping) return {};
    }
    switch (mapping->model()) {
    case MappingModel::upright:
        return tr("Pins that fix the axes: %n. The page lies straight.", nullptr, pins);
    case MappingModel::affine:
        return tr("Pins that fix the axes: %n. The page lies turned or stretched, which is allowed for.",
                  nullptr, pins);
    case MappingModel::perspective:
        break;
    }
    return tr("Pins that fix the axes: %n. The page was taken at an angle, which is allowed for.", nullptr,
              pins);
}

QStringList AxesCard::doubts() const {
    QStringList words;
    const auto reading = session_.reading();
    const ChartAnswer* answer = session_.answer();
    if (!reading || !answer) return words;
    for (const Error& error : answer->errors) {
        const bool ofLine = error.place.rfind("lines[", 0) == 0;
        if (!ofLine && error.code != "too-few-pinned" && answer->page) words << plainSentence(error);
    }
    if (!answer->mapping || !session_.isUpToDate()) return words;
    const auto& residuals = answer->mapping->pinResiduals_px();
    bool named = false;
    for (std::size_t i = 0; i < std::min(residuals.size(), reading->pins.size()); ++i) {
        const double sigma_px = reading->pins[i].sigma_px.value_or(reading->sigmas.pin_px);
        if (residuals[i] <= kDisagreeSigmas * sigma_px) continue;
        named = true;
        words << tr("%1 lies %2 px from where the other pins put it: look at it in large, and at the figures "
                    "it "
                    "bears.")
                     .arg(pinName(i, *reading), figureText(residuals[i], 1));
        words.back()[0] = words.back()[0].toUpper();
    }
    if (named || !answer->lines) return words;
    for (const Caution& caution : answer->lines->mappingCautions)
        words << cautionSentence(caution, screenPhrasing());
    return words;
}

void AxesCard::follow() {
    if (session_.isDragging()) return;
    const auto reading = session_.reading();
    setVisible(reading != nullptr);
    if (!reading) return;
    const QString said = pinsSentence();
    said_->setText(said);
    said_->setVisible(!said.isEmpty());
    const QStringList doubtful = doubts();
    doubts_->setText(doubtful.join(QLatin1Char('\n')));
    doubts_->setVisible(!doubtful.isEmpty());
    QPalette p = doubts_->palette();
    p.setColor(QPalette::WindowText, theme().warning);
    doubts_->setPalette(p);
    for (const UnitBox& unit : units_)
        unit.box->setCurrentIndex(
            unit.box->findData(QString::fromStdString(reading->printedUnits.*unit.unit)));
    flowScale_->setCurrentIndex(reading->flowScale == AxisScale::log10 ? 1 : 0);
    valueScale_->setCurrentIndex(reading->valueScale == AxisScale::log10 ? 1 : 0);
}

} // namespace headmark
