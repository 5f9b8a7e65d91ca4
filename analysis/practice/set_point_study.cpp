// A set point held by speed: the speed each case asks for, its power and its zones' pressures.

#include "analysis/duty/held_duty.h"
#include "analysis/irrigation/leaf_law.h"
#include "analysis/practice/set_point.h"
#include "analysis/practice/study_parts.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

const Zone* zoneNamed(const Site& site, const std::string& name, std::size_t& index) {
    for (index = 0; index < site.zones.size(); ++index) {
        if (site.zones[index].name == name) return &site.zones[index];
    }
    return nullptr;
}

// Pressure at the pump's outlet, of its energy line.
double outlet_kPa(const InstallationQuestion& q, double level_m) {
    const SiteModel& model = q.solver->model();
    return pressureOfHead_kPa(level_m - model.site().pumpLevel.inMetres(), model.water().density);
}

void addPower(const CaseAnswer& a, Study& study) {
    if (!a.power || (!a.power->shaft && !a.power->input)) return;
    const bool input = a.power->input.has_value();
    study.figures.push_back({input ? "input-at-set-point" : "shaft-at-set-point",
                             a.name,
                             {{"flow_m3_h", a.duty->flow.inCubicMetresPerHour()},
                              {"head_m", a.duty->head.inMetres()},
                              {"speed_share", *a.heldSpeedShare}},
                             input ? Fact{"input_kW", a.power->input->inKilowatts()}
                                   : Fact{"shaft_kW", a.power->shaft->inKilowatts()}});
}

// Energy at the shaft for a cubic metre, at the speed that holds the set point and at full speed.
void addSaving(const InstallationQuestion& q, const CaseAnswer& a, Study& study) {
    if (!a.power || !a.power->shaft || a.duty->flow.inCubicMetresPerSecond() <= 0.0) return;
    const SiteModel& model = q.solver->model();
    const PumpModel full = q.solver->pump().atSpeed(a.setting.speedShare);
    const SiteTree tree = model.tree(q.solver->settingOf(a.setting), q.solver->returnKv_m3_h());
    TreeSolver solver(tree.tree);
    const Crossings crossings = findCrossings(solver, full.head);
    const Crossing* duty = crossings.duty();
    if (!duty || duty->flow_m3_s <= 0.0) return;
    const auto full_W = full.shaftAt_W(duty->flow_m3_s, duty->head_m, model.water().density);
    if (!full_W) return;
    const double slow_kWh =
        a.power->shaft->inWatts() / (a.duty->flow.inCubicMetresPerSecond() * factor::kKilowattHour_J);
    const double full_kWh = *full_W / (duty->flow_m3_s * factor::kKilowattHour_J);
    study.figures.push_back({"energy-saved-by-speed",
                             a.name,
                             {{"slow_kWh_m3", slow_kWh}, {"full_kWh_m3", full_kWh}},
                             {"share", 1.0 - slow_kWh / full_kWh}});
}

// Of one zone the case in which least pressure reaches it.
void addWorst(Caution caution, Study& study) {
    const auto pressureOf = [](const Caution& c) {
        return std::get<double>(findFact(c.values, "pressure_kPa")->value);
    };
    for (Caution& known : study.cautions) {
        if (known.code != caution.code || known.place != caution.place) continue;
        if (pressureOf(caution) < pressureOf(known)) known = std::move(caution);
        return;
    }
    study.cautions.push_back(std::move(caution));
}

void addZones(const InstallationQuestion& q, const CaseAnswer& a, GaugePressure hold, Study& study) {
    for (const ZoneAnswer& z : a.zones) {
        std::size_t index = 0;
        const Zone* zone = zoneNamed(q.solver->model().site(), z.name, index);
        if (!zone) continue;
        study.figures.push_back({"zone-at-set-point",
                                 z.name,
                                 {{"case", a.name},
                                  {"hold_kPa", hold.inKilopascals()},
                                  {"highest_kPa", z.highest.inKilopascals()}},
                                 {"pressure_kPa", z.lowest.inKilopascals()}});
        constexpr double kRounding = 1e-9;
        if (!zone->emitters.least ||
            z.lowest.inKilopascals() >= zone->emitters.least->inKilopascals() * (1.0 - kRounding))
            continue;
        const auto enough = setPointFor(*q.solver, a.setting, index);
        addWorst({"zone-short-at-set-point",
                  Severity::warning,
                  "zones[" + std::to_string(index) + "]",
                  {{"zone", z.name},
                   {"case", a.name},
                   {"hold_kPa", hold.inKilopascals()},
                   {"pressure_kPa", z.lowest.inKilopascals()},
                   {"limit_kPa", zone->emitters.least->inKilopascals()}},
                  enough ? "raise-the-set-point" : "fewer-zones-or-wider-pipe",
                  enough ? Facts{{"hold_kPa", enough->inKilopascals()}} : Facts{},
                  "emitter's working range"},
                 study);
    }
}

// Full speed gives less, or the source alone brings more.
void sayNotHeld(const InstallationQuestion& q, const CaseAnswer& a, GaugePressure hold, Study& study) {
    const SiteModel& model = q.solver->model();
    const SiteTree tree = model.tree(q.solver->settingOf(a.setting), q.solver->returnKv_m3_h());
    TreeSolver solver(tree.tree);
    const TreeSolution asked = solvedAtOutlet(solver, *q.solver->heldOutlet_m());
    if (asked.pumpHead_m <= 0.0) {
        study.cautions.push_back({"set-point-below-source",
                                  Severity::warning,
                                  "site",
                                  {{"hold_kPa", hold.inKilopascals()},
                                   {"source_kPa", outlet_kPa(q, solver.demandAtHead(0.0).rootHead_m)},
                                   {"case", a.name}},
                                  "set-point-above-source",
                                  {},
                                  "energy equation"});
        return;
    }
    const PumpModel full = q.solver->pump().atSpeed(a.setting.speedShare);
    const Crossings crossings = findCrossings(solver, full.head);
    const Crossing* duty = crossings.duty();
    Facts remedy;
    if (duty) remedy = {{"hold_kPa", std::floor(outlet_kPa(q, duty->solution.rootHead_m))}};
    study.cautions.push_back(
        {"set-point-not-held",
         Severity::warning,
         "site",
         {{"hold_kPa", hold.inKilopascals()}, {"flow_m3_h", asked.flow_m3_s * 3600.0}, {"case", a.name}},
         duty ? "lower-the-set-point" : "pump-with-more-head",
         std::move(remedy),
         "affinity laws"});
}

void addCase(const InstallationQuestion& q, const CaseAnswer& a, GaugePressure hold, Study& study) {
    if (!a.heldSpeedShare) return sayNotHeld(q, a, hold, study);
    if (!a.duty) return; // beyond the chart, as the case says
    study.figures.push_back({"speed-for-set-point",
                             a.name,
                             {{"hold_kPa", hold.inKilopascals()},
                              {"flow_m3_h", a.duty->flow.inCubicMetresPerHour()},
                              {"head_m", a.duty->head.inMetres()}},
                             {"speed_share", *a.heldSpeedShare}});
    addPower(a, study);
    addZones(q, a, hold, study);
    addSaving(q, a, study);
}

} // namespace

std::optional<GaugePressure> setPointFor(const CaseSolver& solver, const Case& setting, std::size_t zone) {
    const SiteModel& model = solver.model();
    const auto& least = model.site().zones[zone].emitters.least;
    if (!least) return std::nullopt;
    const SiteTree tree = model.tree(solver.settingOf(setting), solver.returnKv_m3_h());
    const auto outflow = std::find_if(tree.outflows.begin(), tree.outflows.end(), [&](const OutflowOf& o) {
        return o.kind == OutflowOf::Kind::zone && o.zone == zone;
    });
    if (outflow == tree.outflows.end()) return std::nullopt;
    const auto at = static_cast<std::size_t>(outflow - tree.outflows.begin());
    const double needed_m = headOf_m(*least - GaugePressure{}, model.water().density);
    const PumpModel full = solver.pump().atSpeed(setting.speedShare);
    const double share = solver.limits().asDelivered ? full.deliveredShare : 0.0;
    TreeSolver treeSolver(tree.tree);
    const double pump_m = model.site().pumpLevel.inMetres();
    const auto outlet_m = [&](double hold_kPa) {
        return pump_m + headOf_m(Pressure::fromKilopascals(hold_kPa), model.water().density);
    };
    const auto enough = [&](double hold_kPa) {
        const TreeSolution& s = solvedAtOutlet(treeSolver, outlet_m(hold_kPa));
        return zoneHeads(model, zone, s.outflowHead_m[at] - tree.tree.outflows[at].level_m).lowest_m >=
               needed_m;
    };
    int low = 0; // whole kPa
    int high = static_cast<int>(std::ceil(pressureOfHead_kPa(
        tree.tree.sourceLevel_m + full.head.at(full.head.flowOfMaximum()) - pump_m, model.water().density)));
    if (high <= 0 || !enough(high)) return std::nullopt;
    while (high - low > 1) {
        const int middle = low + (high - low) / 2;
        (enough(middle) ? high : low) = middle;
    }
    const TreeSolution& s = solvedAtOutlet(treeSolver, outlet_m(high));
    if (speedFor(full.head, 1.0 - share, s.flow_m3_s, s.pumpHead_m).where != SpeedAt::Where::held)
        return std::nullopt;
    return GaugePressure::fromKilopascals(high);
}

void addSetPoint(const InstallationQuestion& q, GaugePressure hold, Study& study) {
    const auto outlet_m = q.solver->heldOutlet_m();
    if (!outlet_m) return;
    for (const CaseAnswer& a : q.cases) {
        if (!a.fillingEmptyMain && !a.setting.zonesOpen.empty()) addCase(q, a, hold, study);
    }
    // Below this speed the pump holds the set point against shut valves and moves nothing.
    const PumpModel full = q.solver->pump().atSpeed(1.0);
    const double head_m = *outlet_m - q.solver->model().sourceLevel_m(WaterLevel::low);
    const SpeedAt idle = speedFor(full.head, 1.0, std::max(0.0, full.head.least_m3_s()), head_m);
    if (idle.where != SpeedAt::Where::held) return;
    study.figures.push_back({"least-useful-speed",
                             "",
                             {{"hold_kPa", hold.inKilopascals()}, {"head_m", head_m}},
                             {"speed_share", idle.share}});
}

} // namespace headmark
