// No valve open: how fast the pump heats its water, and what a tank return does about it.

#include "analysis/duty/case_cautions.h"
#include "analysis/duty/suction_lift.h"
#include "analysis/practice/heating.h"
#include "analysis/practice/study_parts.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace headmark {

namespace {

// Shaft power at no flow, or at the least flow that is known.
std::optional<Power> shutInPower(const CaseSolver& solver, double speedShare) {
    const PumpModel pump = solver.pump().atSpeed(speedShare);
    const Density density = solver.model().water().density;
    const double least = std::max(0.0, pump.head.least_m3_s());
    const double most = pump.head.greatest_m3_s();
    constexpr int kLooks = 20; // efficiency alone says nothing at no flow: the first flow that tells
    for (int i = 0; i <= kLooks; ++i) {
        const double flow = least + (most - least) * i / kLooks;
        if (const auto shaft_W = pump.shaftAt_W(flow, pump.head.at(flow), density))
            return Power::fromWatts(*shaft_W);
    }
    return std::nullopt;
}

double greatestWater_C(const InstallationQuestion& q) { return q.rules().value("water_temp_max_general"); }

double water_C(const InstallationQuestion& q) { return q.water.inCelsius(); }

// A pressure is held by letting nothing out, and into the mains no water may be led.
bool mayReturn(const Site& site) {
    return site.control != ControlKind::pressureHeld && !drawsFromMains(site);
}

// Whether anything shuts the water off while the pump runs: an open end without a valve lets it run. What
// stands by the pump to take it out by hand does not count, a valve at the end or one that is driven does.
bool canBeShut(const SiteModel& model) {
    if (!model.site().end) return true;
    bool last = true;
    for (auto e = model.delivery().rbegin(); e != model.delivery().rend(); ++e) {
        if (e->kind == ElementKind::pipe) last = false;
        const bool check = e->code.starts_with("check_") || e->code.starts_with("double_check");
        const bool valve = !check && e->code.find("valve") != std::string::npos;
        if (valve && (last || e->code == "solenoid_valve")) return true;
    }
    return false;
}

void sayStop(const InstallationQuestion& q, double minutes, Study& study) {
    const Site& site = q.solver->model().site();
    const bool held = site.control == ControlKind::pressureHeld;
    const bool stops =
        held && (!site.vessel || site.vessel->cutOut.inKilopascals() < weakestShutOff_kPa(*q.solver));
    study.cautions.push_back({"must-stop-when-shut",
                              stops ? Severity::note : Severity::warning,
                              "pump",
                              {{"minutes", minutes}, {"limit_C", greatestWater_C(q)}},
                              held ? "fit-a-stop" : "stop-without-return",
                              {},
                              q.rules().source("water_temp_max_general")});
}

void addHeating(const InstallationQuestion& q, Power shaft, Study& study) {
    const double casing_kg = q.facts.casing ? q.facts.casing->inLitres() : q.rules().value("casing_water");
    const double rate = shutInHeating_K_min(shaft, casing_kg);
    study.figures.push_back(
        {"shut-in-heating",
         "",
         {{"shaft_W", shaft.inWatts()}, {"water_kg", casing_kg}, {"heat_J_kgK", kHeatOfWater_J_kgK}},
         {"rate_K_min", rate}});
    const double minutes = (greatestWater_C(q) - water_C(q)) / rate;
    study.figures.push_back({"shut-in-minutes",
                             "",
                             {{"limit_C", greatestWater_C(q)}, {"water_C", water_C(q)}, {"rate_K_min", rate}},
                             {"minutes", minutes}});
    if (!mayReturn(q.solver->model().site())) return sayStop(q, minutes, study);
    const Flow byHeat =
        returnFlowForRise(shaft, q.solver->model().water().density, q.rules().value("return_rise"));
    study.cautions.push_back({"no-tank-return",
                              Severity::warning,
                              "pump",
                              {{"minutes", minutes}, {"limit_C", greatestWater_C(q)}},
                              "fit-a-return-of",
                              {{"flow_m3_h", byHeat.inCubicMetresPerHour()}},
                              q.rules().source("water_temp_max_general")});
}

// The return as found by heat, and as found by the share of best flow that spares bearings and seals.
void addSizes(const InstallationQuestion& q, Power shaft, Study& study) {
    const Density density = q.solver->model().water().density;
    const double rise_K = q.rules().value("return_rise");
    study.figures.push_back(
        {"return-by-heat",
         "",
         {{"shaft_W", shaft.inWatts()},
          {"density_kg_m3", density.inKilogramsPerCubicMetre()},
          {"heat_J_kgK", kHeatOfWater_J_kgK},
          {"rise_K", rise_K}},
         {"flow_m3_h", returnFlowForRise(shaft, density, rise_K).inCubicMetresPerHour()}});
    const auto best = q.solver->pump().atSpeed(1.0).bestPoint(density);
    if (!best) return;
    const double share = q.rules().value("min_flow_share");
    study.figures.push_back({"return-by-share",
                             "",
                             {{"share", share}, {"best_flow_m3_h", best->flow_m3_s * 3600.0}},
                             {"flow_m3_h", share * best->flow_m3_s * 3600.0}});
}

// The fixed orifice that may stand for the set valve: both pass the same flow at the same difference,
//   Kv sqrt(dp/1 bar) m3/h = Cd (pi/4) d^2 sqrt(2 dp/rho)
// Cd 0.61 of a sharp edge, wide pipe on both sides (from memory; handbooks say 0.60 to 0.62).
void addOrifice(const InstallationQuestion& q, Study& study) {
    const auto kv_m3_h = q.solver->returnKv_m3_h();
    if (!kv_m3_h || *kv_m3_h <= 0.0) return;
    constexpr double kDischarge = 0.61, kBar_Pa = 1e5, kWater_kg_m3 = 1000.0; // of the definition of Kv
    const double area_m2 = *kv_m3_h / 3600.0 / (kDischarge * std::sqrt(2.0 * kBar_Pa / kWater_kg_m3));
    study.figures.push_back({"return-orifice",
                             "",
                             {{"kv_m3_h", *kv_m3_h}, {"discharge", kDischarge}},
                             {"bore_mm", 1e3 * std::sqrt(4.0 * area_m2 / std::numbers::pi)}});
}

void addReturnDuty(const InstallationQuestion& q, const CaseAnswer& shut, Power shaft, Study& study) {
    const double flow_m3_h = shut.tankReturnFlow->inCubicMetresPerHour();
    if (flow_m3_h <= 0.0) return;
    const double density = q.solver->model().water().density.inKilogramsPerCubicMetre();
    const double rise_K = shaft.inWatts() * 3600.0 / (density * flow_m3_h * kHeatOfWater_J_kgK);
    study.figures.push_back({"return-rise",
                             "",
                             {{"shaft_W", shaft.inWatts()},
                              {"density_kg_m3", density},
                              {"flow_m3_h", flow_m3_h},
                              {"heat_J_kgK", kHeatOfWater_J_kgK}},
                             {"rise_K", rise_K}});
    const double litres = q.rules().value("bucket");
    study.figures.push_back({"return-bucket",
                             "",
                             {{"bucket_l", litres}, {"flow_m3_h", flow_m3_h}},
                             {"seconds", 3.6 * litres / flow_m3_h}});
    addOrifice(q, study);
    const double limit_K = q.rules().value("return_rise");
    if (rise_K > limit_K) {
        study.cautions.push_back({"return-too-small",
                                  Severity::warning,
                                  "tank_return",
                                  {{"rise_K", rise_K}, {"limit_K", limit_K}},
                                  "fit-a-return-of",
                                  {{"flow_m3_h", flow_m3_h * rise_K / limit_K}},
                                  q.rules().source("return_rise")});
    }
}

void addShares(const InstallationQuestion& q, Study& study) {
    for (const CaseAnswer& a : q.cases) {
        if (a.fillingEmptyMain || !a.duty || !a.tankReturnFlow || a.setting.zonesOpen.empty()) continue;
        const double duty = a.duty->flow.inCubicMetresPerHour();
        if (duty <= 0.0) continue;
        study.figures.push_back(
            {"return-share",
             a.name,
             {{"return_m3_h", a.tankReturnFlow->inCubicMetresPerHour()}, {"flow_m3_h", duty}},
             {"share", a.tankReturnFlow->inCubicMetresPerHour() / duty}});
    }
}

// All shaft power ends in the source's water while nothing is drawn.
void addTankBalance(const InstallationQuestion& q, Power shaft, Study& study) {
    const auto& source = q.solver->model().site().source;
    if (!source || !source->volume) return;
    const double density = q.solver->model().water().density.inKilogramsPerCubicMetre();
    const double volume_m3 = source->volume->inCubicMetres();
    study.figures.push_back(
        {"source-warming",
         "",
         {{"shaft_W", shaft.inWatts()},
          {"density_kg_m3", density},
          {"volume_m3", volume_m3},
          {"heat_J_kgK", kHeatOfWater_J_kgK}},
         {"rate_K_h", shaft.inWatts() * 3600.0 / (density * volume_m3 * kHeatOfWater_J_kgK)}});
}

// Into air and above high water: else the return drains the source back through the pump, or is choked.
void judgeOutlet(const InstallationQuestion& q, Study& study) {
    const auto& back = q.solver->model().site().tankReturn;
    if (!back || !back->outletLevel) return;
    const double high_m = q.solver->model().sourceLevel_m(WaterLevel::high);
    if (back->outletLevel->inMetres() > high_m) return;
    study.cautions.push_back({"return-under-water",
                              Severity::note,
                              "tank_return",
                              {{"outlet_m", back->outletLevel->inMetres()}, {"high_water_m", high_m}},
                              "raise-the-return",
                              {},
                              "common practice, no source"});
}

} // namespace

Study shutInStudy(const InstallationQuestion& q) {
    Study study{"shut-in", {}, {}};
    judgeOutlet(q, study);
    if (!canBeShut(q.solver->model())) return study;
    const CaseAnswer* shut = shutInCase(q.cases);
    // Against shut valves a drive slows the pump down to where it just holds the set point.
    const auto shaft = shutInPower(*q.solver, shut ? shut->heldSpeedShare.value_or(1.0) : 1.0);
    if (!shaft) {
        study.cautions.push_back(
            {"shut-in-power-unknown", Severity::note, "pump", {}, "ask-maker-for-power", {}, ""});
        return study;
    }
    const bool returns = shut && shut->tankReturnFlow;
    if (!returns)
        addHeating(q, *shaft, study);
    else
        addReturnDuty(q, *shut, *shaft, study);
    if (returns || mayReturn(q.solver->model().site())) addSizes(q, *shaft, study);
    if (!returns) return study;
    addShares(q, study);
    addTankBalance(q, *shaft, study);
    return study;
}

} // namespace headmark
