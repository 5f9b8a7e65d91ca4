#include "app/desktop/installation/parts_table.h"

#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/words/part_words.h"

#include <QHeaderView>
#include <QSignalBlocker>

#include <algorithm>

namespace headmark {

namespace {

enum Column { kNumber, kPart, kPurpose, kOrigin, kColumns };
constexpr int kRowAir_px = 6;       // so that rows of two lines stand apart
constexpr double kPartShare = 0.36; // of the width that part and purpose share with the rest

QString originWords(const PlacedPart& part) {
    if (part.part == "pump") return {};
    switch (part.origin) {
    case PartOrigin::run:
        return PartsTable::tr("in the run");
    case PartOrigin::adapter:
        return PartsTable::tr("adapter");
    case PartOrigin::added:
        break;
    }
    return PartsTable::tr("added");
}

} // namespace

PartsTable::PartsTable(QWidget* parent) : QTableWidget(0, kColumns, parent) {
    setAccessibleName(tr("Parts in the order the water meets them"));
    setHorizontalHeaderLabels({tr("No."), tr("Part"), tr("What it is for"), tr("From")});
    for (int c = 0; c < kColumns; ++c)
        horizontalHeaderItem(c)->setTextAlignment((c == kNumber ? Qt::AlignRight : Qt::AlignLeft) |
                                                  Qt::AlignVCenter);
    horizontalHeaderItem(kOrigin)->setToolTip(tr(
        "In the run: the job lists it. Adapter: put in where ends or sizes change. Added: good practice."));
    verticalHeader()->hide();
    setShowGrid(false);
    setAlternatingRowColors(true);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setTabKeyNavigation(false);
    setWordWrap(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff); // the page scrolls
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    horizontalHeader()->setSectionsClickable(false);
    horizontalHeader()->setHighlightSections(false);
    connect(this, &QTableWidget::currentCellChanged, this, [this](int row) {
        if (!filling_ && row >= 0) emit partChosen(row);
    });
}

void PartsTable::show(const ConnectionSheet& sheet) {
    const Phrasing phrasing = screenPhrasing();
    filling_ = true;
    setRowCount(static_cast<int>(sheet.parts.size()));
    const auto put = [&](int row, int column, const QString& text, bool faint = false) {
        QTableWidgetItem* one = item(row, column);
        if (!one) setItem(row, column, one = new QTableWidgetItem);
        one->setText(text);
        one->setTextAlignment((column == kNumber ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
        one->setForeground(faint ? theme().faint : theme().text);
    };
    for (int row = 0; row < rowCount(); ++row) {
        const PlacedPart& part = sheet.parts[static_cast<std::size_t>(row)];
        put(row, kNumber, QString::number(row + 1));
        put(row, kPart, placedPartWords(part, phrasing));
        put(row, kPurpose, partPurpose(part.purpose, phrasing), true);
        put(row, kOrigin, originWords(part), true);
    }
    filling_ = false;
    fit();
}

void PartsTable::fit() {
    const int numbers = std::max(sizeHintForColumn(kNumber), horizontalHeader()->sectionSizeHint(kNumber));
    const int origins = std::max(sizeHintForColumn(kOrigin), horizontalHeader()->sectionSizeHint(kOrigin));
    const int left = std::max(0, viewport()->width() - numbers - origins);
    setColumnWidth(kNumber, numbers);
    setColumnWidth(kPart, static_cast<int>(kPartShare * left));
    setColumnWidth(kPurpose, left - columnWidth(kPart));
    setColumnWidth(kOrigin, origins);
    resizeRowsToContents();
    for (int row = 0; row < rowCount(); ++row)
        setRowHeight(row, rowHeight(row) + kRowAir_px);
    setFixedHeight(sizeHint().height());
}

QSize PartsTable::sizeHint() const {
    const int frame = 2 * frameWidth();
    return {QTableWidget::sizeHint().width(),
            frame + horizontalHeader()->sizeHint().height() + verticalHeader()->length()};
}

void PartsTable::resizeEvent(QResizeEvent* event) {
    QTableWidget::resizeEvent(event);
    if (event->oldSize().width() != event->size().width()) fit();
}

void PartsTable::changeEvent(QEvent* event) {
    QTableWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange) fit();
}

void PartsTable::select(int part) {
    const QSignalBlocker quiet(this);
    setCurrentCell(part, kPart);
}

QString PartsTable::text() const {
    QStringList lines;
    for (int row = -1; row < rowCount(); ++row) {
        QStringList cells;
        for (int column = 0; column < kColumns; ++column)
            cells << (row < 0 ? horizontalHeaderItem(column) : item(row, column))->text();
        lines << cells.join(QLatin1Char('\t'));
    }
    return lines.join(QLatin1Char('\n')) + QLatin1Char('\n');
}

} // namespace headmark
