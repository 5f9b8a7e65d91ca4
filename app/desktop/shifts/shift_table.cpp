#include "app/desktop/shifts/shift_table.h"

#include "app/desktop/frame/screen_phrasing.h"
#include "app/words/number_words.h"

#include <QHeaderView>
#include <QSignalBlocker>

#include <algorithm>

namespace headmark {

namespace {

enum Column { kShift, kStation, kZone, kStart, kMinutes, kFlow, kEnergy, kColumns };

QTableWidgetItem* cell(const QString& text, bool figure) {
    auto* item = new QTableWidgetItem(text);
    item->setTextAlignment((figure ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    return item;
}

} // namespace

ShiftTable::ShiftTable(QWidget* parent) : QTableWidget(0, kColumns, parent) {
    setAccessibleName(tr("What to key into the controller"));
    verticalHeader()->hide();
    horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    horizontalHeader()->setSectionResizeMode(kZone, QHeaderView::Stretch);
    horizontalHeader()->setSectionsClickable(false);
    horizontalHeader()->setHighlightSections(false);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setSelectionMode(QAbstractItemView::ContiguousSelection);
    setShowGrid(false);
    setWordWrap(true);
    setTabKeyNavigation(false);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff); // the column scrolls
    setHorizontalScrollBarPolicy(Qt::ScrollBarAsNeeded);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(this, &QTableWidget::currentCellChanged, this, [this](int row) {
        if (!filling_ && row >= 0 && row < static_cast<int>(shifts_.size()))
            emit shiftChosen(static_cast<int>(shifts_[static_cast<std::size_t>(row)]));
    });
}

void ShiftTable::show(const ShiftNight& night) {
    filling_ = true;
    clearSpans();
    shifts_.clear();
    const Phrasing phrasing = screenPhrasing();
    const bool timed = night.begin_min.has_value();
    setHorizontalHeaderLabels({tr("Shift"), tr("Station"), tr("Zone"),
                               timed ? tr("Start") : tr("Start after"), tr("Min"), night.units.flowSymbol(),
                               tr("kWh")});
    for (int c = 0; c < kColumns; ++c)
        horizontalHeaderItem(c)->setTextAlignment((c == kZone ? Qt::AlignLeft : Qt::AlignRight) |
                                                  Qt::AlignVCenter);
    int rows = 0;
    for (const auto& shift : night.plan.shifts)
        rows += static_cast<int>(shift.stations.size());
    setRowCount(rows);
    int row = 0;
    for (std::size_t s = 0; s < night.plan.shifts.size(); ++s) {
        const auto& shift = night.plan.shifts[s];
        const auto stations = static_cast<int>(shift.stations.size());
        setItem(row, kShift, cell(QString::number(s + 1), true));
        setItem(
            row, kEnergy,
            cell(shift.energy_kWh ? quantityNumber("kWh", *shift.energy_kWh, phrasing) : QString(), true));
        if (stations > 1) {
            setSpan(row, kShift, stations, 1);
            setSpan(row, kEnergy, stations, 1);
        }
        for (std::size_t i = 0; i < shift.stations.size(); ++i, ++row) {
            setItem(row, kStation, cell(QString::number(shift.stations[i].station), true));
            setItem(row, kZone, cell(QString::fromStdString(shift.zones[i]), false));
            setItem(row, kStart, cell(night.timeOf(shift.beginMinute), true));
            setItem(row, kMinutes, cell(QString::number(shift.minutes), true));
            setItem(row, kFlow, cell(figureText(night.units.figure(shift.stations[i].flow)), true));
            shifts_.push_back(s);
        }
    }
    const bool energy = night.plan.totalEnergy_kWh.has_value();
    setColumnHidden(kEnergy, !energy);
    fitHeight();
    filling_ = false;
}

void ShiftTable::fitHeight() {
    resizeRowsToContents();
    int height = horizontalHeader()->sizeHint().height() + 2 * frameWidth() + 2;
    for (int row = 0; row < rowCount(); ++row)
        height += rowHeight(row);
    setFixedHeight(height);
}

void ShiftTable::resizeEvent(QResizeEvent* event) {
    QTableWidget::resizeEvent(event);
    if (event->oldSize().width() != event->size().width()) fitHeight();
}

void ShiftTable::select(std::optional<std::size_t> shift) {
    const QSignalBlocker quiet(this);
    clearSelection();
    if (!shift) return;
    const auto first = std::find(shifts_.begin(), shifts_.end(), *shift);
    const auto count = std::count(shifts_.begin(), shifts_.end(), *shift);
    if (first == shifts_.end()) return;
    const int top = static_cast<int>(first - shifts_.begin());
    setRangeSelected({top, 0, top + static_cast<int>(count) - 1, kColumns - 1}, true);
    viewport()->update();
}

QString ShiftTable::text() const {
    QStringList lines;
    QStringList titles;
    for (int c = 0; c < kColumns; ++c) {
        if (!isColumnHidden(c)) titles << horizontalHeaderItem(c)->text();
    }
    lines << titles.join(QLatin1Char('\t'));
    for (int row = 0; row < rowCount(); ++row) {
        QStringList cells;
        for (int c = 0; c < kColumns; ++c) {
            if (!isColumnHidden(c)) cells << (item(row, c) ? item(row, c)->text() : QString());
        }
        lines << cells.join(QLatin1Char('\t'));
    }
    return lines.join(QLatin1Char('\n'));
}

} // namespace headmark
