#include "app/desktop/installation/whole_table.h"

#include <QHeaderView>
#include <QResizeEvent>

#include <algorithm>

namespace headmark {

namespace {

constexpr int kRowAir_px = 6; // so that rows of two lines stand apart

} // namespace

WholeTable::WholeTable(const QStringList& headings, int first, double share, QWidget* parent)
    : QTableWidget(0, static_cast<int>(headings.size()), parent), first_(first), share_(share) {
    setHorizontalHeaderLabels(headings);
    for (int c = 0; c < columnCount(); ++c)
        horizontalHeaderItem(c)->setTextAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    verticalHeader()->hide();
    setShowGrid(false);
    setAlternatingRowColors(true);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setTabKeyNavigation(false);
    setWordWrap(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    horizontalHeader()->setSectionsClickable(false);
    horizontalHeader()->setHighlightSections(false);
}

void WholeTable::put(int row, int column, const QString& text, const QColor& colour, bool figure) {
    QTableWidgetItem* one = item(row, column);
    if (!one) setItem(row, column, one = new QTableWidgetItem);
    one->setText(text);
    one->setTextAlignment((figure ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    one->setForeground(colour);
}

void WholeTable::fit() {
    int left = viewport()->width();
    for (int c = 0; c < columnCount(); ++c) {
        if (c == first_ || c == first_ + 1) continue;
        const int own = std::max(sizeHintForColumn(c), horizontalHeader()->sectionSizeHint(c));
        setColumnWidth(c, own);
        left -= own;
    }
    left = std::max(0, left);
    setColumnWidth(first_, static_cast<int>(share_ * left));
    setColumnWidth(first_ + 1, left - columnWidth(first_));
    resizeRowsToContents();
    for (int row = 0; row < rowCount(); ++row)
        setRowHeight(row, rowHeight(row) + kRowAir_px);
    setFixedHeight(sizeHint().height());
}

QSize WholeTable::sizeHint() const {
    return {QTableWidget::sizeHint().width(),
            2 * frameWidth() + horizontalHeader()->sizeHint().height() + verticalHeader()->length()};
}

void WholeTable::resizeEvent(QResizeEvent* event) {
    QTableWidget::resizeEvent(event);
    if (event->oldSize().width() != event->size().width()) fit();
}

void WholeTable::changeEvent(QEvent* event) {
    QTableWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange) fit();
}

} // namespace headmark
