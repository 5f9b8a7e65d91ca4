#include "app/desktop/installation/ordered_pair_edit.h"

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/site/item_words.h"

#include <QGridLayout>

namespace headmark {

OrderedPairEdit::OrderedPairEdit(Desk& desk, About about, QWidget* parent)
    : QWidget(parent), desk_(desk), about_(std::move(about)), complaint_(wrappedLabel({})) {
    auto* layout = new QGridLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setVerticalSpacing(6);
    layout->setColumnStretch(1, 1);
    for (std::size_t i = 0; i < entries_.size(); ++i) {
        const Field& field = about_.fields[i];
        const int row = static_cast<int>(i);
        auto* label = new QLabel(field.label);
        label->setToolTip(field.tip);
        auto* entry = new NumberEntry;
        entry->setAccessibleName(field.label);
        entry->setMinimumWidth(fontMetrics().averageCharWidth() * 8);
        label->setBuddy(entry);
        units_[i] = faintLabel({});
        units_[i]->setWordWrap(false);
        units_[i]->setMinimumWidth(fontMetrics().averageCharWidth() * 5);
        layout->addWidget(label, row, 0);
        layout->addWidget(entry, row, 1);
        layout->addWidget(units_[i], row, 2);
        entries_[i] = entry;
        connect(entry, &NumberEntry::entered, this, &OrderedPairEdit::take);
    }
    layout->addWidget(complaint_, 2, 0, 1, 3);
    complaint_->hide();
    setTabOrder(entries_[0], entries_[1]);
}

OrderedPairEdit::Figure OrderedPairEdit::typed(std::size_t which) const {
    const Figure figure = entries_[which]->figure();
    return figure ? Figure(baseFigure(about_.quantity, *figure, desk_.units())) : Figure();
}

void OrderedPairEdit::complain(const QString& why) {
    complaint_->setText(why);
    complaint_->setVisible(!why.isEmpty());
    QPalette colours = complaint_->palette();
    colours.setColor(QPalette::WindowText, theme().danger);
    complaint_->setPalette(colours);
    for (NumberEntry* entry : entries_)
        entry->setAccessibleDescription(why);
}

void OrderedPairEdit::take() {
    for (const NumberEntry* entry : entries_) {
        if (!entry->complaint().isEmpty()) return; // it says so itself
    }
    const Pair pair{typed(0), typed(1)};
    if (about_.bothOrNone && pair[0].has_value() != pair[1].has_value()) {
        complain(about_.oneMissing);
        return;
    }
    if (pair[0] && pair[1] && *pair[0] >= *pair[1]) {
        complain(about_.notAscending);
        return;
    }
    complain({});
    desk_.document.edit(about_.step, [&](Workspace& workspace) { about_.set(workspace, pair); });
    refresh();
}

void OrderedPairEdit::refresh() {
    const Pair pair = about_.get(desk_.document.workspace());
    if (!complaint().isEmpty()) {
        if (pair == shown_) return; // what was typed stands there with its complaint
        complain({});
    }
    shown_ = pair;
    for (std::size_t i = 0; i < entries_.size(); ++i) {
        entries_[i]->setRange(about_.range.shown(about_.quantity, desk_.units(), true));
        const Figure shown =
            pair[i] ? Figure(shownFigure(about_.quantity, *pair[i], desk_.units())) : Figure();
        entries_[i]->setFigure(shown, shown ? enoughDecimals(*shown) : -1);
        units_[i]->setText(about_.unit.isEmpty() ? unitSymbol(about_.quantity, desk_.units()) : about_.unit);
    }
}

} // namespace headmark
