#include "app/desktop/installation/parts_table.h"

#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/words/part_words.h"

#include <QSignalBlocker>

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

PartsTable::PartsTable(QWidget* parent)
    : WholeTable({tr("No."), tr("Part"), tr("What it is for"), tr("From")}, kPart, kPartShare, parent) {
    setAccessibleName(tr("Parts in the order the water meets them"));
    horizontalHeaderItem(kNumber)->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
    horizontalHeaderItem(kOrigin)->setToolTip(tr(
        "In the run: the job lists it. Adapter: put in where ends or sizes change. Added: good practice."));
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setSelectionMode(QAbstractItemView::SingleSelection);
    connect(this, &QTableWidget::currentCellChanged, this, [this](int row) {
        if (!filling_ && row >= 0) emit partChosen(row);
    });
}

void PartsTable::show(const ConnectionSheet& sheet) {
    const Phrasing phrasing = screenPhrasing();
    const QColor text = theme().text, faint = theme().faint;
    filling_ = true;
    setRowCount(static_cast<int>(sheet.parts.size()));
    for (int row = 0; row < rowCount(); ++row) {
        const PlacedPart& part = sheet.parts[static_cast<std::size_t>(row)];
        put(row, kNumber, QString::number(row + 1), text, true);
        put(row, kPart, placedPartWords(part, phrasing), text);
        put(row, kPurpose, partPurpose(part.purpose, phrasing), faint);
        put(row, kOrigin, originWords(part), faint);
    }
    filling_ = false;
    fit();
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
