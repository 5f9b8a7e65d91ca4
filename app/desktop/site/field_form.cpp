#include "app/desktop/site/field_form.h"

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/site/item_words.h"

#include <QHBoxLayout>
#include <QSignalBlocker>

namespace headmark {

namespace {

// Words that may be longer than their field, then what the field is for.
QString inFull(const QString& words, const QString& tip) {
    return tip.isEmpty() || words.isEmpty() ? words + tip : words + QLatin1Char('\n') + tip;
}

} // namespace

FieldForm::FieldForm(Desk& desk, QWidget* parent) : QWidget(parent), desk_(desk), layout_(new QGridLayout) {
    layout_->setContentsMargins(10, 8, 10, 8);
    layout_->setVerticalSpacing(6);
    layout_->setColumnStretch(1, 1);
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, 0);
    outer->addLayout(layout_);
    outer->addStretch(1);
}

void FieldForm::edit(const QString& step, const Document::Change& change) {
    if (!refreshing_) desk_.document.edit(step, change);
}

void FieldForm::put(const QString& label, QWidget* field, const QString& tip,
                    std::function<bool(const Workspace&)> shown) {
    const int row = layout_->rowCount();
    QLabel* words = nullptr;
    if (label.isEmpty()) {
        layout_->addWidget(field, row, 0, 1, 2);
    } else {
        words = new QLabel(label);
        words->setToolTip(tip);
        words->setBuddy(field);
        layout_->addWidget(words, row, 0);
        layout_->addWidget(field, row, 1);
    }
    if (!shown) return;
    refreshers_.push_back([this, words, field, shown] {
        const bool now = shown(desk_.document.workspace());
        if (words) words->setVisible(now);
        field->setVisible(now);
    });
}

NumberEntry* FieldForm::add(const Number& field) {
    auto* entry = new NumberEntry;
    entry->setAccessibleName(field.label);
    entry->setMinimumWidth(fontMetrics().averageCharWidth() * 8);
    auto* unit = faintLabel({});
    unit->setWordWrap(false);
    unit->setMinimumWidth(fontMetrics().averageCharWidth() * 5);
    auto* both = new QWidget;
    auto* line = new QHBoxLayout(both);
    line->setContentsMargins(0, 0, 0, 0);
    line->addWidget(entry, 1);
    line->addWidget(unit);
    both->setFocusProxy(entry);
    put(field.label, both, field.tip, field.shown);
    if (!field.tip.isEmpty()) both->setToolTip(field.tip);
    connect(entry, &NumberEntry::entered, this, [this, field](Figure figure) {
        const Figure base = figure ? Figure(baseFigure(field.quantity, *figure, desk_.units())) : Figure();
        edit(field.step, [&](Workspace& workspace) { field.set(workspace, base); });
    });
    refreshers_.push_back([this, entry, unit, field] {
        const Workspace& workspace = desk_.document.workspace();
        if (field.shown && !field.shown(workspace)) return;
        const DisplayUnits& units = desk_.units();
        entry->setRange(field.range.shown(field.quantity, units, field.mayBeEmpty));
        const Figure base = field.get(workspace);
        const Figure shown = base ? Figure(shownFigure(field.quantity, *base, units)) : Figure();
        entry->setFigure(shown, shown ? enoughDecimals(*shown) : -1);
        const QString symbol = field.unit.isEmpty() ? unitSymbol(field.quantity, units) : field.unit;
        unit->setText(symbol);
        unit->setVisible(!symbol.isEmpty());
    });
    return entry;
}

QComboBox* FieldForm::add(const Choice& field) {
    auto* combo = new QComboBox;
    combo->addItems(field.words);
    combo->setAccessibleName(field.label);
    combo->setToolTip(field.tip);
    combo->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    combo->setMinimumContentsLength(5);
    put(field.label, combo, field.tip, field.shown);
    connect(combo, &QComboBox::activated, this, [this, field](int index) {
        edit(field.step, [&](Workspace& workspace) { field.set(workspace, index); });
    });
    refreshers_.push_back([this, combo, field] {
        const Workspace& workspace = desk_.document.workspace();
        if (field.shown && !field.shown(workspace)) return;
        const QSignalBlocker quiet(combo);
        if (field.wordsOf) {
            combo->clear();
            combo->addItems(field.wordsOf(workspace));
        }
        combo->setCurrentIndex(field.get(workspace));
        combo->setToolTip(inFull(combo->currentText(), field.tip));
    });
    return combo;
}

QLineEdit* FieldForm::add(const Text& field) {
    auto* line = new QLineEdit;
    line->setAccessibleName(field.label);
    line->setToolTip(field.tip);
    put(field.label, line, field.tip, field.shown);
    connect(line, &QLineEdit::editingFinished, this, [this, line, field] {
        if (!line->isModified() || refreshing_) return;
        line->setModified(false);
        if (!field.set(line->text())) line->setText(field.get(desk_.document.workspace()));
    });
    refreshers_.push_back([this, line, field] {
        const Workspace& workspace = desk_.document.workspace();
        if (field.shown && !field.shown(workspace)) return;
        if (line->hasFocus() && line->isModified()) return;
        line->setText(field.get(workspace));
        if (!line->hasFocus()) line->setCursorPosition(0); // its beginning is seen where it is long
        line->setToolTip(inFull(line->text(), field.tip));
    });
    return line;
}

QCheckBox* FieldForm::add(const Tick& field) {
    auto* box = new QCheckBox(field.words);
    box->setToolTip(field.tip);
    put({}, box, field.tip, field.shown);
    connect(box, &QCheckBox::clicked, this, [this, field](bool on) {
        edit(field.step, [&](Workspace& workspace) { field.set(workspace, on); });
    });
    refreshers_.push_back([this, box, field] {
        const Workspace& workspace = desk_.document.workspace();
        if (!field.shown || field.shown(workspace)) box->setChecked(field.get(workspace));
    });
    return box;
}

CatalogueEdit* FieldForm::add(const Pipe& field) {
    auto* edit = new CatalogueEdit(pipeChoices());
    edit->setAccessibleName(field.label);
    edit->setToolTip(tr("Type a few words, such as \"16 ldpe\", and choose with Return."));
    put(field.label, edit, edit->toolTip(), field.shown);
    connect(edit, &CatalogueEdit::chosen, this, [this, field](int index) {
        const PipeKind kind = std::get<PipeItem>(pipeChoices()[static_cast<std::size_t>(index)].item).kind;
        this->edit(field.step, [&](Workspace& workspace) { field.set(workspace, kind); });
    });
    refreshers_.push_back([this, edit, field] {
        const Workspace& workspace = desk_.document.workspace();
        if (field.shown && !field.shown(workspace)) return;
        const PipeKind* kind = field.get(workspace);
        edit->setShown(kind ? tr("%1, %2").arg(pipeName(*kind), pipeSize(*kind)) : QString());
    });
    return edit;
}

void FieldForm::addHeading(const QString& words, std::function<bool(const Workspace&)> shown) {
    auto* label = new QLabel(words);
    label->setFont(titleFont());
    label->setWordWrap(true);
    put({}, label, {}, std::move(shown));
}

void FieldForm::addNote(const QString& words, std::function<bool(const Workspace&)> shown) {
    put({}, faintLabel(words), {}, std::move(shown));
}

void FieldForm::addWidget(QWidget* widget) { layout_->addWidget(widget, layout_->rowCount(), 0, 1, 2); }

void FieldForm::refresh() {
    if (refreshing_) return;
    refreshing_ = true;
    for (const auto& refresher : refreshers_)
        refresher();
    refreshing_ = false;
}

} // namespace headmark
