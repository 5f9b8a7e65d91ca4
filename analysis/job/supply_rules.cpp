#include "analysis/job/supply_rules.h"

#include "analysis/duty/suction_lift.h"
#include "analysis/job/shift_finding.h"
#include "analysis/practice/study_parts.h"

#include <algorithm>
#include <numeric>

namespace headmark {

namespace {

bool fromNature(std::string_view kind) {
    constexpr std::string_view kKinds[] = {"pond_lake", "open_channel", "well_shallow", "well_deep"};
    return std::ranges::find(kKinds, kind) != std::end(kKinds);
}

} // namespace

Cautions supplyRules(const CaseSolver& solver, std::span<const CaseAnswer> cases) {
    Cautions out;
    const Site& site = solver.model().site();
    const Rules& rules = solver.limits().rules;
    if (!site.source) return out;
    const Flow most = Flow::fromCubicMetresPerSecond(greatestDuty_m3_s(cases));
    const double consent_l_min = rules.value("booster_consent_flow");
    if (drawsFromMains(site) && most.inLitresPerMinute() > consent_l_min)
        out.push_back({"supplier-consent",
                       Severity::warning,
                       "source",
                       {{"flow_l_min", most.inLitresPerMinute()}, {"limit_l_min", consent_l_min}},
                       "ask-the-supplier-first",
                       {},
                       rules.source("booster_consent_flow")});
    const std::vector<double> needs_m3 = dailyNeeds_m3(site);
    const double day_m3 = std::accumulate(needs_m3.begin(), needs_m3.end(), 0.0);
    const double licence_m3 = rules.value("abstraction_threshold");
    if (fromNature(site.source->kind) && day_m3 > licence_m3)
        out.push_back({"abstraction-licence",
                       Severity::note,
                       "source",
                       {{"need_m3", day_m3}, {"limit_m3", licence_m3}},
                       "ask-for-the-licence",
                       {},
                       rules.source("abstraction_threshold")});
    return out;
}

} // namespace headmark
