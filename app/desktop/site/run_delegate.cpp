#include "app/desktop/site/run_delegate.h"

#include "app/desktop/frame/desk.h"
#include "app/desktop/frame/number_entry.h"
#include "app/desktop/frame/rail.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/site/catalogue_edit.h"
#include "app/desktop/site/item_words.h"
#include "app/desktop/site/run_edits.h"
#include "app/desktop/site/run_model.h"
#include "app/desktop/site/site_ranges.h"

#include <QApplication>
#include <QComboBox>
#include <QPainter>

namespace headmark {

namespace {

const RunModel& runModel(const QModelIndex& index) { return *qobject_cast<const RunModel*>(index.model()); }

NumberEntry::Range rangeOf(const RunModel::Row& row, int column, const RunItem* item,
                           const DisplayUnits& units) {
    if (column == RunModel::kCount) return range::kCount.plain();
    if (row.kind == RunModel::Kind::tankReturn) return range::kPipeLength_m.shown(Quantity::length, units);
    if (!item) return range::kLevel_m.shown(Quantity::level, units);
    if (std::holds_alternative<PipeItem>(*item)) return range::kPipeLength_m.shown(Quantity::length, units);
    if (std::holds_alternative<RegulatorItem>(*item))
        return range::kSetPressure_kPa.shown(Quantity::pressure, units);
    const auto* fitting = std::get_if<FittingItem>(item);
    return fitting && fitting->k ? range::kLossCoefficient.plain() : range::kKv_m3_h.plain();
}

} // namespace

RunDelegate::RunDelegate(Desk& desk, QObject* parent) : QStyledItemDelegate(parent), desk_(desk) {}

void RunDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                        const QModelIndex& index) const {
    QStyleOptionViewItem styled = option;
    if (index.data(RunModel::kHeadingRole).toBool()) {
        styled.font.setWeight(QFont::DemiBold);
        styled.palette.setColor(QPalette::Text, theme().faint);
        painter->fillRect(option.rect, theme().sunken);
    }
    const int gravity = index.data(RunModel::kGravityRole).toInt();
    if (index.column() == RunModel::kNote && gravity >= 0 && !index.data().toString().isEmpty()) {
        const Sign sign = gravity >= 2 ? Sign::danger : gravity == 1 ? Sign::warning : Sign::note;
        const int side = QFontMetrics(option.font).height();
        // Background and selection only.
        const QStyle& style = option.widget ? *option.widget->style() : *QApplication::style();
        style.drawPrimitive(QStyle::PE_PanelItemViewItem, &styled, painter, option.widget);
        QStyleOptionViewItem moved = styled;
        moved.rect.adjust(side + 2, 0, 0, 0);
        QStyledItemDelegate::paint(painter, moved, index);
        const QRectF where(option.rect.left() + 3, option.rect.center().y() - side / 2.0, side, side);
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        paintSign(*painter, where, sign);
        painter->restore();
        return;
    }
    QStyledItemDelegate::paint(painter, styled, index);
}

QSize RunDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    QSize hint = QStyledItemDelegate::sizeHint(option, index);
    const int side = QFontMetrics(option.font).height();
    hint.setHeight(side + side / 2);
    if (index.column() == RunModel::kNote) hint.rwidth() += side + 4;
    return hint;
}

QWidget* RunDelegate::itemEditor(QWidget* parent, const QModelIndex& index) const {
    const RunSpot spot = runModel(index).rowAt(index.row()).spot;
    const RunItem* item = itemAt(desk_.document.job().site, spot);
    if (!item) return nullptr;
    if (std::holds_alternative<TakeoffItem>(*item)) return new QLineEdit(parent);
    auto* edit = new CatalogueEdit(catalogueChoices(), parent);
    auto* self = const_cast<RunDelegate*>(this);
    connect(edit, &CatalogueEdit::chosen, self, [self, edit] {
        emit self->commitData(edit);
        emit self->closeEditor(edit);
    });
    return edit;
}

QWidget* RunDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&,
                                   const QModelIndex& index) const {
    const RunModel::Row& row = runModel(index).rowAt(index.row());
    const RunItem* item = itemAt(desk_.document.job().site, row.spot);
    QWidget* editor = nullptr;
    if (index.column() == RunModel::kItem) {
        editor = itemEditor(parent, index);
    } else if (index.column() == RunModel::kSize && item) {
        auto* combo = new QComboBox(parent);
        const auto choices = sizeChoices(*item);
        for (const SizeChoice& choice : choices)
            combo->addItem(choice.words);
        combo->setCurrentText(itemSize(*item));
        editor = combo;
    } else {
        auto* entry = new NumberEntry(parent);
        entry->setRange(rangeOf(row, index.column(), item, desk_.units()));
        editor = entry;
    }
    if (!editor) return nullptr;
    editor->setAutoFillBackground(true);
    editor->setAccessibleName(index.model()->headerData(index.column(), Qt::Horizontal).toString());
    return editor;
}

// Once: an answer that comes while somebody types, or between Return and the commit, changes nothing here.
void RunDelegate::setEditorData(QWidget* editor, const QModelIndex& index) const {
    static const char* const kFilled = "filled";
    if (editor->property(kFilled).toBool()) return;
    editor->setProperty(kFilled, true);
    if (auto* entry = qobject_cast<NumberEntry*>(editor)) {
        const double figure = index.data(RunModel::kFigureRole).toDouble();
        if (!entry->isModified()) entry->setFigure(figure, enoughDecimals(figure));
        return;
    }
    if (auto* edit = qobject_cast<CatalogueEdit*>(editor)) {
        if (!edit->isModified()) edit->setText(index.data().toString());
        return;
    }
    if (auto* line = qobject_cast<QLineEdit*>(editor)) {
        const RunItem* item = itemAt(desk_.document.job().site, runModel(index).rowAt(index.row()).spot);
        const auto* takeoff = item ? std::get_if<TakeoffItem>(item) : nullptr;
        if (takeoff && !line->isModified()) line->setText(QString::fromStdString(takeoff->name));
    }
}

void RunDelegate::setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const {
    if (auto* entry = qobject_cast<NumberEntry*>(editor)) {
        if (const auto figure = entry->figure()) {
            model->setData(index, *figure);
        } else {
            emit desk_.said(entry->complaint(), true);
        }
    } else if (auto* edit = qobject_cast<CatalogueEdit*>(editor)) {
        if (edit->chosenIndex() < 0) return;
        const RunSpot spot = runModel(index).rowAt(index.row()).spot;
        const RunItem* old = itemAt(desk_.document.job().site, spot);
        if (!old) return;
        RunItem item = catalogueChoices()[static_cast<std::size_t>(edit->chosenIndex())].item;
        keepFigures(*old, item);
        replaceItem(desk_.document, spot, item, tr("Replace %1 by %2").arg(itemName(*old), itemName(item)));
    } else if (auto* combo = qobject_cast<QComboBox*>(editor)) {
        model->setData(index, combo->currentIndex());
    } else if (auto* line = qobject_cast<QLineEdit*>(editor)) {
        model->setData(index, line->text());
    }
}

} // namespace headmark
