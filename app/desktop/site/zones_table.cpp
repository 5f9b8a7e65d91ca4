#include "app/desktop/site/zones_table.h"

#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/site/item_words.h"
#include "app/words/caution_words.h"

#include <QHeaderView>
#include <QSignalBlocker>

#include <algorithm>

namespace headmark {

namespace {

enum Column { kName, kValve, kFlow, kPressure, kLimits, kNeed, kTakeoff, kLevel, kColumns };

const ZoneAnswer* answerOf(const CaseAnswer* answer, const std::string& zone) {
    if (!answer) return nullptr;
    const auto found = std::find_if(answer->zones.begin(), answer->zones.end(),
                                    [&](const ZoneAnswer& z) { return z.name == zone; });
    return found == answer->zones.end() ? nullptr : &*found;
}

QString needWords(const Zone& zone) {
    if (zone.area && zone.needDepthPerDay) {
        return ZonesTable::tr("%1 mm on %2 m²")
            .arg(exactFigure(zone.needDepthPerDay->inMillimetres()),
                 exactFigure(zone.area->inSquareMetres()));
    }
    return zone.needPerDay ? ZonesTable::tr("%1 m³").arg(exactFigure(zone.needPerDay->inCubicMetres()))
                           : ZonesTable::tr("not stated");
}

// "0.8 to 1.8 bar", or the one limit there is.
QString limitWords(const Zone& zone, const DisplayUnits& units) {
    const auto &least = zone.emitters.least, &greatest = zone.emitters.greatest;
    if (least && greatest)
        return ZonesTable::tr("%1 to %2").arg(figureText(units.figure(*least)), units.text(*greatest));
    if (least) return ZonesTable::tr("at least %1").arg(units.text(*least));
    if (greatest) return ZonesTable::tr("at most %1").arg(units.text(*greatest));
    return ZonesTable::tr("no limits");
}

// What the zone breaks in this case.
QString breachWords(const CaseAnswer& answer, const std::string& zone) {
    for (const Caution& c : answer.cautions) {
        const Fact* fact = c.stops ? findFact(c.values, "zone") : nullptr;
        const auto* name = fact ? std::get_if<std::string>(&fact->value) : nullptr;
        if (name && *name == zone) return cautionLabel(c.code, screenPhrasing());
    }
    return ZonesTable::tr("outside");
}

} // namespace

ZonesTable::ZonesTable(Desk& desk, QWidget* parent)
    : Card(tr("The zones in the shown case"), parent), desk_(desk), table_(new QTableWidget(0, kColumns)) {
    table_->setAccessibleName(tr("Zones"));
    table_->verticalHeader()->hide();
    table_->setShowGrid(false);
    table_->setAlternatingRowColors(true);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setTabKeyNavigation(false);
    table_->setWordWrap(false);
    table_->horizontalHeader()->setSectionsClickable(false);
    table_->horizontalHeader()->setHighlightSections(false);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table_->horizontalHeader()->setStretchLastSection(true);
    content().addWidget(table_, 1);
    connect(table_, &QTableWidget::currentCellChanged, this, [this](int row) {
        if (!filling_ && row >= 0) emit zoneChosen(row);
    });
}

void ZonesTable::put(int row, int column, const QString& text, bool figure, const QColor& colour) {
    QTableWidgetItem* item = table_->item(row, column);
    if (!item) table_->setItem(row, column, item = new QTableWidgetItem);
    item->setText(text);
    item->setTextAlignment((figure ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    item->setForeground(colour.isValid() ? colour : theme().text);
}

void ZonesTable::fillRow(int row, const Zone& zone, const CaseAnswer* answer) {
    const Theme& t = theme();
    const DisplayUnits& units = desk_.units();
    put(row, kName, QString::fromStdString(zone.name));
    put(row, kNeed, needWords(zone), true, zone.needPerDay || zone.area ? t.text : t.faint);
    put(row, kTakeoff,
        zone.takeoff.empty() ? tr("end of the delivery") : QString::fromStdString(zone.takeoff));
    put(row, kLevel, exactFigure(units.figure(zone.level)), true);
    const ZoneAnswer* got = answerOf(answer, zone.name);
    const bool open = answer && std::find(answer->setting.zonesOpen.begin(), answer->setting.zonesOpen.end(),
                                          zone.name) != answer->setting.zonesOpen.end();
    put(row, kValve, !answer ? QString() : open ? tr("open") : tr("shut"), false, open ? t.good : t.faint);
    if (!got) {
        put(row, kFlow, {});
        put(row, kPressure, {});
        put(row, kLimits, limitWords(zone, units), false, t.faint);
        return;
    }
    put(row, kFlow, figureText(units.figure(got->flow)), true);
    const QString low = figureText(units.figure(got->lowest)), high = figureText(units.figure(got->highest));
    put(row, kPressure, low == high ? low : tr("%1 to %2").arg(low, high), true);
    const bool limited = zone.emitters.least || zone.emitters.greatest;
    const QString limits = limitWords(zone, units);
    put(row, kLimits,
        !got->withinLimits ? breachWords(*answer, zone.name)
        : limited          ? tr("within %1").arg(limits)
                           : limits,
        false, got->withinLimits ? t.good : t.danger);
    table_->item(row, kLimits)->setToolTip(tr("Limits: %1").arg(limits));
}

void ZonesTable::refresh() {
    const auto answer = desk_.answers.latest();
    const Site& site = desk_.document.job().site;
    const DisplayUnits& units = desk_.units();
    filling_ = true;
    table_->setHorizontalHeaderLabels({tr("Zone"), tr("Valve"), tr("Flow %1").arg(units.flowSymbol()),
                                       tr("Emitters %1").arg(units.pressureSymbol()), tr("Limits"),
                                       tr("Need a day"), tr("Leaves at"),
                                       tr("Level %1").arg(units.lengthSymbol())});
    for (int c = 0; c < kColumns; ++c) {
        const bool figure = c == kFlow || c == kPressure || c == kNeed || c == kLevel;
        table_->horizontalHeaderItem(c)->setTextAlignment((figure ? Qt::AlignRight : Qt::AlignLeft) |
                                                          Qt::AlignVCenter);
    }
    table_->setRowCount(static_cast<int>(site.zones.size()));
    const CaseAnswer* shown = answer->shownCase ? &*answer->shownCase : nullptr;
    for (int row = 0; row < table_->rowCount(); ++row)
        fillRow(row, site.zones[static_cast<std::size_t>(row)], shown);
    filling_ = false;
}

void ZonesTable::select(int zone) {
    const QSignalBlocker quiet(table_);
    if (zone < 0 || zone >= table_->rowCount()) {
        table_->clearSelection();
    } else {
        table_->setCurrentCell(zone, 0);
    }
}

} // namespace headmark
