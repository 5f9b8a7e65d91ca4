#include "analysis/job/check_valve_place.h"

#include "analysis/duty/case_solver.h"
#include "analysis/duty/suction_lift.h"

#include <algorithm>

namespace headmark {

namespace {

bool isCheckValve(const RunItem& item) {
    const auto* fitting = std::get_if<FittingItem>(&item);
    return fitting && fitting->code.starts_with("check_");
}

// The same site with the valve on the other side of the pump.
std::optional<Site> moved(const Site& site, bool fromInlet) {
    Site other = site;
    Run& from = fromInlet ? other.suction : other.delivery;
    const auto valve = std::find_if(from.begin(), from.end(), isCheckValve);
    if (valve == from.end()) return std::nullopt;
    RunItem item = *valve;
    // There it is of the size of the pipe it stands in.
    auto& fitting = std::get<FittingItem>(item);
    fitting.size.clear();
    fitting.bore.reset();
    from.erase(valve);
    if (fromInlet)
        other.delivery.insert(other.delivery.begin(), item);
    else
        other.suction.push_back(item);
    return other;
}

// NPSH available is known without a curve of what the pump requires.
double available_m(const CaseSolver& solver, const CaseAnswer& answer) {
    const PipeTree tree = solver.model().tree(solver.settingOf(answer.setting), solver.returnKv_m3_h()).tree;
    return npshAvailable_m(solver.model(), tree, answer.duty->flow.inCubicMetresPerSecond());
}

} // namespace

std::optional<WorkingStep> checkValvePlace(const PreparedJob& prepared, std::size_t pump,
                                           std::span<const CaseAnswer> cases) {
    const Site& site = prepared.job().site;
    if (!site.source || isSubmersedSource(site.source->kind) || drawsFromMains(site)) return std::nullopt;
    if (!site.source->levelsGiven || site.source->low < site.pumpLevel) return std::nullopt;
    const CaseAnswer* most = nullptr;
    for (const CaseAnswer& answer : cases) {
        const bool drawn = answer.duty && !answer.fillingEmptyMain;
        if (drawn && (!most || answer.duty->flow > most->duty->flow)) most = &answer;
    }
    if (!most) return std::nullopt;
    const bool atInlet = std::ranges::any_of(site.suction, isCheckValve);
    const auto other = moved(site, atInlet);
    if (!other) return std::nullopt;
    const auto changed = prepared.withSite(*other);
    if (!changed) return std::nullopt;
    const CaseAnswer there = changed->answer(pump, most->setting);
    if (!there.duty) return std::nullopt;
    const double here_m = available_m(prepared.solver(pump), *most);
    const double there_m = available_m(changed->solver(pump), there);
    const double inlet_m = atInlet ? here_m : there_m, delivery_m = atInlet ? there_m : here_m;
    return WorkingStep{"check-valve-place",
                       most->name,
                       {{"behind_m", delivery_m}, {"before_m", inlet_m}},
                       {"cost_m", delivery_m - inlet_m}};
}

} // namespace headmark
