// The shift plan as a table to key into a controller.
#include "app/words/findings_shifts.h"

#include "app/words/caution_words.h"
#include "app/words/findings_parts.h"
#include "app/words/number_words.h"

#include <QCoreApplication>

#include <cmath>

namespace headmark {

namespace {

constexpr const char* kContext = "Findings";

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Findings", text)

std::vector<QStringList> stationRows(const ShiftPlanFinding& plan, const Phrasing& p) {
    std::vector<QStringList> rows;
    for (std::size_t i = 0; i < plan.shifts.size(); ++i) {
        const auto& shift = plan.shifts[i];
        for (std::size_t s = 0; s < shift.stations.size(); ++s) {
            rows.push_back({s == 0 ? QString::number(i + 1) : QString(),
                            shift.start.empty() ? QString::number(shift.beginMinute)
                                                : QString::fromStdString(shift.start),
                            QString::number(shift.stations[s].station),
                            QString::fromStdString(shift.zones[s]), QString::number(shift.minutes),
                            quantityNumber("flow_m3_h", shift.stations[s].flow.inCubicMetresPerHour(), p)});
        }
    }
    return rows;
}

void writeTotals(TextPage& page, const ShiftPlanFinding& plan, const Job& job, const Phrasing& p) {
    page.item(
        p.text(kContext, HM_WORDS("Together %1.")).arg(quantityWords("min", plan.total.inMinutes(), p)));
    if (plan.totalEnergy_kWh) {
        page.item(
            p.text(kContext, HM_WORDS("Energy: %1.")).arg(quantityWords("kWh", *plan.totalEnergy_kWh, p)));
    }
    if (plan.cost) page.item(p.text(kContext, HM_WORDS("Cost: %1.")).arg(costWords(*plan.cost, job, p)));
    if (plan.tank.empty()) return;
    const auto& last = plan.tank.back();
    page.item(p.text(kContext, HM_WORDS("The source holds %1 at the beginning and %2 at the end."))
                  .arg(quantityWords("m3", plan.tank.front().left.inCubicMetres(), p),
                       quantityWords("m3", last.left.inCubicMetres(), p)));
}

} // namespace

QString durationWords(double minutes, const Phrasing& p) {
    const auto whole = std::lround(minutes);
    if (whole < 60) return p.text(kContext, HM_WORDS("%1 min")).arg(whole);
    return p.text(kContext, HM_WORDS("%1 h %2 min")).arg(whole / 60).arg(whole % 60);
}

QString costWords(double cost, const Job& job, const Phrasing& p) {
    return p.text(kContext, HM_WORDS("%1 %2"))
        .arg(figure(cost, 4, 2, p.locale), QString::fromStdString(job.energy.currency));
}

QString objectiveWords(ShiftObjective objective, const Phrasing& p) {
    switch (objective) {
    case ShiftObjective::energy:
        return p.text(kContext, HM_WORDS("least energy"));
    case ShiftObjective::shifts:
        return p.text(kContext, HM_WORDS("fewest shifts"));
    case ShiftObjective::time:
        break;
    }
    return p.text(kContext, HM_WORDS("least time"));
}

QString provenWords(const ShiftPlanFinding& plan, const Phrasing& p) {
    if (plan.proven) return p.text(kContext, HM_WORDS("proven: no division into shifts does better"));
    return p.text(kContext, HM_WORDS("not proven: a better plan saves %1 at most"))
        .arg(quantityWords("gap_share", plan.gapShare, p));
}

void writeShifts(TextPage& page, const PumpFindings& pump, const Job& job, const Phrasing& p) {
    if (!pump.shiftPlan) return;
    const ShiftPlanFinding& plan = *pump.shiftPlan;
    page.blank();
    page.paragraph(p.text(kContext, HM_WORDS("Shift plan (usual water, clean filter)")));
    if (!plan.shifts.empty()) {
        const bool timed = !plan.shifts.front().start.empty();
        const std::vector<TextColumn> columns{
            {{p.text(kContext, HM_WORDS("Shift"))}, 5, true},
            {{timed ? p.text(kContext, HM_WORDS("Start")) : p.text(kContext, HM_WORDS("After min"))},
             9,
             true},
            {{p.text(kContext, HM_WORDS("Station"))}, 7, true},
            {{p.text(kContext, HM_WORDS("Zone"))}, 36, false},
            {{p.text(kContext, HM_WORDS("Minutes"))}, 7, true},
            {{QStringLiteral("m³/h")}, 8, true}};
        page.table(columns, stationRows(plan, p));
        writeTotals(page, plan, job, p);
    }
    for (const Caution& caution : plan.cautions) {
        const QString remedy = caution.remedy.empty() ? QString() : remedySentence(caution, p);
        page.item((cautionSentence(caution, p) + QLatin1Char(' ') + remedy).trimmed());
    }
}

} // namespace headmark
