#include "app/desktop/installation/rules_delegate.h"

#include "app/desktop/frame/desk.h"
#include "app/desktop/frame/number_entry.h"
#include "app/desktop/installation/guards_ranges.h"
#include "app/desktop/installation/rules_model.h"
#include "app/desktop/site/item_words.h"
#include "app/document/display_units.h"

namespace headmark {

namespace {

const char* const kFilled = "filled"; // what stood in the editor at first

} // namespace

RulesDelegate::RulesDelegate(Desk& desk, QObject* parent) : QStyledItemDelegate(parent), desk_(desk) {}

// Rows of several lines apart from each other, and room for the editor.
QSize RulesDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    QSize hint = QStyledItemDelegate::sizeHint(option, index);
    hint.rheight() += option.fontMetrics.height() / 2;
    return hint;
}

QWidget* RulesDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&,
                                     const QModelIndex& index) const {
    auto* entry = new NumberEntry(parent);
    entry->setRange(range::kRule.plain(true));
    entry->setAutoFillBackground(true);
    entry->setAccessibleName(index.siblingAtColumn(RulesModel::kRule).data().toString());
    return entry;
}

// Once: an answer that comes while somebody types changes nothing here.
void RulesDelegate::setEditorData(QWidget* editor, const QModelIndex& index) const {
    auto* entry = qobject_cast<NumberEntry*>(editor);
    if (!entry || entry->property(kFilled).isValid()) return;
    const double figure = index.data(RulesModel::kFigureRole).toDouble();
    entry->setFigure(figure, enoughDecimals(figure));
    entry->setProperty(kFilled, entry->text());
}

// A figure that was only looked at is not set.
void RulesDelegate::setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const {
    const auto* entry = qobject_cast<NumberEntry*>(editor);
    if (!entry || entry->text() == entry->property(kFilled).toString()) return;
    if (!entry->complaint().isEmpty()) {
        const auto typed = parsedFigure(entry->text());
        const bool nothing = typed && *typed < range::kRule.least;
        emit desk_.said(nothing ? tr("A rule's figure is above 0.") : entry->complaint(), true);
        return;
    }
    const auto figure = entry->figure();
    model->setData(index, figure ? QVariant(*figure) : QVariant());
}

} // namespace headmark
