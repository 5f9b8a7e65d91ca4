#include "app/desktop/installation/first_start.h"

#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/words/part_words.h"

#include <QHeaderView>

#include <algorithm>

namespace headmark {

namespace {

enum Column { kWhat, kExpected, kRead, kColumns };
constexpr int kRowAir_px = 6; // so that rows of two lines stand apart
constexpr double kWhatShare = 0.6;

} // namespace

std::vector<FirstStartRow> firstStartRows(const std::vector<CommissioningRow>& steps,
                                          const Phrasing& phrasing) {
    std::vector<FirstStartRow> rows;
    for (const CommissioningRow& step : steps) {
        const CommissioningWords words = commissioningWords(step, phrasing);
        QStringList numbers;
        for (const std::size_t part : step.parts)
            numbers << QString::number(part + 1);
        QString what = words.what;
        if (!numbers.isEmpty()) what += FirstStart::tr(" (part %1)").arg(numbers.join(QStringLiteral(", ")));
        rows.push_back(
            {what, words.expected,
             words.unit.isEmpty() ? QStringLiteral("☐") : QStringLiteral("__________ %1").arg(words.unit)});
    }
    return rows;
}

FirstStart::FirstStart(QWidget* parent) : QTableWidget(0, kColumns, parent) {
    setAccessibleName(tr("What to do and read at the first start"));
    setHorizontalHeaderLabels({tr("What"), tr("Expected"), tr("Read")});
    for (int c = 0; c < kColumns; ++c)
        horizontalHeaderItem(c)->setTextAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    verticalHeader()->hide();
    setShowGrid(false);
    setAlternatingRowColors(true);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setSelectionMode(QAbstractItemView::NoSelection);
    setFocusPolicy(Qt::NoFocus); // read, not worked in
    setTabKeyNavigation(false);
    setWordWrap(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff); // the page scrolls
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    horizontalHeader()->setSectionsClickable(false);
    horizontalHeader()->setHighlightSections(false);
}

void FirstStart::show(const std::vector<CommissioningRow>& steps) {
    const auto rows = firstStartRows(steps, screenPhrasing());
    setRowCount(static_cast<int>(rows.size()));
    for (int row = 0; row < rowCount(); ++row) {
        const FirstStartRow& words = rows[static_cast<std::size_t>(row)];
        int column = 0;
        for (const QString& text : {words.what, words.expected, words.blank}) {
            QTableWidgetItem* one = item(row, column);
            if (!one) setItem(row, column, one = new QTableWidgetItem);
            one->setText(text);
            one->setTextAlignment(Qt::AlignLeft | Qt::AlignVCenter);
            one->setForeground(column == kRead ? theme().faint : theme().text);
            ++column;
        }
    }
    fit();
}

void FirstStart::fit() {
    const int read = std::max(sizeHintForColumn(kRead), horizontalHeader()->sectionSizeHint(kRead));
    const int left = std::max(0, viewport()->width() - read);
    setColumnWidth(kWhat, static_cast<int>(kWhatShare * left));
    setColumnWidth(kExpected, left - columnWidth(kWhat));
    setColumnWidth(kRead, read);
    resizeRowsToContents();
    for (int row = 0; row < rowCount(); ++row)
        setRowHeight(row, rowHeight(row) + kRowAir_px);
    setFixedHeight(sizeHint().height());
}

QSize FirstStart::sizeHint() const {
    return {QTableWidget::sizeHint().width(),
            2 * frameWidth() + horizontalHeader()->sizeHint().height() + verticalHeader()->length()};
}

void FirstStart::resizeEvent(QResizeEvent* event) {
    QTableWidget::resizeEvent(event);
    if (event->oldSize().width() != event->size().width()) fit();
}

void FirstStart::changeEvent(QEvent* event) {
    QTableWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange) fit();
}

} // namespace headmark
