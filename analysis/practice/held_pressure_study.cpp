// A pump switched by pressure: its band against the curve, the vessel, the starts. A set point held by speed:
// the speed each case asks for and what it saves.

#include "analysis/practice/study_parts.h"
#include "analysis/practice/vessel.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

double headOf_m(GaugePressure p, Density density) {
    return p.inPascals() / (density.inKilogramsPerCubicMetre() * kStudyGravity_m_s2);
}

// Pressure at the pump's outlet with a flow through it, low water.
double outlet_m(const InstallationQuestion& q, double flow_m3_s) {
    const SiteModel& model = q.solver->model();
    const PumpModel pump = q.solver->pump().atSpeed(1.0);
    CaseSetting setting;
    setting.open.assign(model.site().zones.size(), false);
    setting.level = WaterLevel::low;
    const PipeTree tree = model.tree(setting, q.solver->returnKv_m3_h()).tree;
    return tree.sourceLevel_m + pump.head.at(flow_m3_s) - tree.suction.at(flow_m3_s).loss_m -
           model.site().pumpLevel.inMetres();
}

// Flow at which the outlet's pressure is as asked; the curve's ends where it never is.
double flowAt_m3_s(const InstallationQuestion& q, double wanted_m) {
    const PumpModel pump = q.solver->pump().atSpeed(1.0);
    double low = std::max(pump.head.least_m3_s(), pump.head.flowOfMaximum());
    double high = pump.head.greatest_m3_s();
    if (outlet_m(q, high) >= wanted_m) return high;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (outlet_m(q, middle) >= wanted_m ? low : high) = middle;
    }
    return low;
}

void judgeBand(const InstallationQuestion& q, const Vessel& v, Study& study) {
    const Density density = q.solver->model().water().density;
    const PumpModel pump = q.solver->pump().atSpeed(1.0);
    const double top_m = outlet_m(q, std::max(pump.head.least_m3_s(), pump.head.flowOfMaximum()));
    // The weakest pump delivered must still reach cut-out.
    const double short_m =
        q.solver->limits().asDelivered
            ? pump.deliveredShare * strongestShutOff_m(*q.solver) / (1.0 + pump.deliveredShare)
            : 0.0;
    const double weakest_kPa = pressureOfHead_kPa(top_m - short_m, density);
    study.figures.push_back(
        {"held-shut-off",
         "pump",
         {{"shut_off_kPa", pressureOfHead_kPa(top_m, density)}, {"cut_out_kPa", v.cutOut.inKilopascals()}},
         {"weakest_kPa", weakest_kPa}});
    if (v.cutOut.inKilopascals() >= weakest_kPa) {
        study.cautions.push_back({"cut-out-never-reached",
                                  Severity::danger,
                                  "site",
                                  {{"cut_out_kPa", v.cutOut.inKilopascals()}, {"limit_kPa", weakest_kPa}},
                                  "lower-the-cut-out",
                                  {{"cut_out_kPa", 0.95 * weakest_kPa}},
                                  "head curve at no flow, low water, low end of delivery"});
    }
}

// The vessel between its pressures, and what the pump gives halfway between them.
struct Between {
    AbsolutePressure precharge, cutIn, cutOut;
    Volume drawdown;
    Flow pump;
};

Between betweenOf(const InstallationQuestion& q, const Vessel& v) {
    const AbsolutePressure air = q.solver->model().air();
    const auto absolute = [&](GaugePressure p) { return air + (p - GaugePressure{}); };
    Between b{absolute(v.precharge), absolute(v.cutIn), absolute(v.cutOut), {}, {}};
    b.drawdown = vesselDrawdown(v.volume, b.precharge, b.cutIn, b.cutOut);
    const Density density = q.solver->model().water().density;
    const double middle_m = 0.5 * (headOf_m(v.cutIn, density) + headOf_m(v.cutOut, density));
    b.pump = Flow::fromCubicMetresPerSecond(flowAt_m3_s(q, middle_m));
    return b;
}

void addVessel(const InstallationQuestion& q, const Vessel& v, const Between& b, Study& study) {
    study.figures.push_back({"vessel-drawdown",
                             "site",
                             {{"vessel_l", v.volume.inLitres()},
                              {"precharge_kPa", b.precharge.inKilopascals()},
                              {"cut_in_kPa", b.cutIn.inKilopascals()},
                              {"cut_out_kPa", b.cutOut.inKilopascals()}},
                             {"volume_l", b.drawdown.inLitres()}});
    const auto& motor = q.solver->pump().motor;
    // Without a rating that of the common small pumps: 30 starts an hour in the table.
    constexpr double kUsualRating_kW = 1.5;
    const double rated_kW = motor && motor->rated ? motor->rated->inKilowatts() : kUsualRating_kW;
    const double allowed = q.rules().valueForPower("starts_per_hour_pump", rated_kW);
    const double most = mostStartsPerHour(b.drawdown, b.pump);
    study.figures.push_back(
        {"vessel-starts",
         "site",
         {{"flow_m3_h", b.pump.inCubicMetresPerHour()}, {"volume_l", b.drawdown.inLitres()}},
         {"starts_h", most}});
    if (most <= allowed || v.cutOut <= v.cutIn) return;
    const Volume needed = vesselForDrawdown(usefulVolumeFor(b.pump, allowed), b.precharge, b.cutIn, b.cutOut);
    study.cautions.push_back({"too-many-starts",
                              Severity::warning,
                              "site",
                              {{"starts_h", most}, {"limit_h", allowed}},
                              "larger-vessel",
                              {{"volume_l", needed.inLitres()}},
                              q.rules().source("starts_per_hour_pump")});
}

// Starts while the smallest zone alone draws.
void addSmallestZone(const InstallationQuestion& q, const Between& b, Study& study) {
    std::optional<Flow> least;
    std::string name;
    for (const CaseAnswer& a : q.cases) {
        for (const ZoneAnswer& z : a.zones) {
            if (z.flow.inCubicMetresPerSecond() <= 0.0 || (least && z.flow >= *least)) continue;
            least = z.flow;
            name = z.name;
        }
    }
    if (!least || b.drawdown.inLitres() <= 0.0) return;
    study.figures.push_back({"starts-smallest-zone",
                             name,
                             {{"draw_m3_h", least->inCubicMetresPerHour()},
                              {"flow_m3_h", b.pump.inCubicMetresPerHour()},
                              {"volume_l", b.drawdown.inLitres()}},
                             {"starts_h", startsPerHour(b.drawdown, b.pump, *least)}});
}

// What the open zones draw while the pump's outlet stands at the set point.
struct Held {
    double flow_m3_s = 0.0, pumpHead_m = 0.0;
};

std::optional<Held> heldAt(const InstallationQuestion& q, const CaseAnswer& a, double wanted_m) {
    const SiteModel& model = q.solver->model();
    const SiteTree tree = model.tree(q.solver->settingOf(a.setting), q.solver->returnKv_m3_h());
    TreeSolver solver(tree.tree);
    const double root_m = model.site().pumpLevel.inMetres() + wanted_m;
    // The suction takes more the more is drawn: the outlet rises with the head the pump adds.
    double low = root_m - tree.tree.sourceLevel_m, high = low + 30.0;
    const auto rootAt = [&](double head_m) { return solver.demandAtHead(head_m).rootHead_m; };
    if (low <= 0.0 || rootAt(high) < root_m) return std::nullopt;
    for (int i = 0; i < 50; ++i) {
        const double middle = 0.5 * (low + high);
        (rootAt(middle) < root_m ? low : high) = middle;
    }
    const TreeSolution& solved = solver.demandAtHead(high);
    return Held{solved.flow_m3_s, high};
}

// Speed at which the pump adds that head at that flow (affinity laws); empty beyond 110 % or its curve.
std::optional<double> speedFor(const InstallationQuestion& q, const Held& held) {
    double low = 0.3, high = 1.1;
    const auto reaches = [&](double share) {
        const PumpModel pump = q.solver->pump().atSpeed(share);
        return pump.head.contains(held.flow_m3_s) && pump.head.at(held.flow_m3_s) >= held.pumpHead_m;
    };
    if (!reaches(high)) return std::nullopt;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (reaches(middle) ? high : low) = middle;
    }
    return high;
}

// Energy at the shaft for a cubic metre, at the speed that holds the set point and at full speed.
void addSaving(const InstallationQuestion& q, const CaseAnswer& a, const Held& held, double share,
               Study& study) {
    const Density density = q.solver->model().water().density;
    const PumpModel slow = q.solver->pump().atSpeed(share);
    const auto slow_W = slow.shaftAt_W(held.flow_m3_s, held.pumpHead_m, density);
    if (!slow_W || held.flow_m3_s <= 0.0 || !a.power || !a.power->shaft || !a.duty) return;
    const double full_m3_s = a.duty->flow.inCubicMetresPerSecond();
    if (full_m3_s <= 0.0) return;
    const double slow_kWh = *slow_W / (held.flow_m3_s * factor::kKilowattHour_J);
    const double full_kWh = a.power->shaft->inWatts() / (full_m3_s * factor::kKilowattHour_J);
    study.figures.push_back({"energy-saved-by-speed",
                             a.name,
                             {{"slow_kWh_m3", slow_kWh}, {"full_kWh_m3", full_kWh}},
                             {"share", 1.0 - slow_kWh / full_kWh}});
}

void holdCase(const InstallationQuestion& q, const CaseAnswer& a, GaugePressure hold, Study& study) {
    const Density density = q.solver->model().water().density;
    const auto held = heldAt(q, a, headOf_m(hold, density));
    if (!held) return;
    const auto share = speedFor(q, *held);
    if (!share || *share > 1.0) {
        const bool runs = a.duty.has_value();
        const double flow = runs ? a.duty->flow.inCubicMetresPerSecond() : 0.0;
        const double within = runs ? outlet_m(q, flow) : outlet_m(q, q.solver->pump().head.greatest_m3_s());
        study.cautions.push_back(
            {"set-point-not-held",
             Severity::warning,
             "site",
             {{"hold_kPa", hold.inKilopascals()}, {"flow_m3_h", held->flow_m3_s * 3600.0}, {"case", a.name}},
             "lower-the-set-point",
             {{"hold_kPa", pressureOfHead_kPa(within, density)}},
             "affinity laws"});
        return;
    }
    study.figures.push_back({"speed-for-set-point",
                             a.name,
                             {{"hold_kPa", hold.inKilopascals()},
                              {"flow_m3_h", held->flow_m3_s * 3600.0},
                              {"head_m", held->pumpHead_m}},
                             {"speed_share", *share}});
    addSaving(q, a, *held, *share, study);
}

void addSetPoint(const InstallationQuestion& q, GaugePressure hold, Study& study) {
    const Density density = q.solver->model().water().density;
    for (const CaseAnswer& a : q.cases) {
        if (!a.fillingEmptyMain && !a.setting.zonesOpen.empty()) holdCase(q, a, hold, study);
    }
    // Below this speed the pump holds the set point against shut valves and moves nothing.
    const double least = std::max(0.0, q.solver->pump().head.least_m3_s());
    const SiteModel& model = q.solver->model();
    const double head_m =
        headOf_m(hold, density) + model.site().pumpLevel.inMetres() - model.sourceLevel_m(WaterLevel::low);
    if (const auto idle = speedFor(q, {least, head_m})) {
        study.figures.push_back({"least-useful-speed",
                                 "",
                                 {{"hold_kPa", hold.inKilopascals()}, {"head_m", head_m}},
                                 {"speed_share", *idle}});
    }
}

} // namespace

Study heldPressureStudy(const InstallationQuestion& q) {
    Study study{"held-pressure", {}, {}};
    const Site& site = q.solver->model().site();
    if (site.control != ControlKind::pressureHeld) return study;
    if (site.vessel) {
        judgeBand(q, *site.vessel, study);
        const Between between = betweenOf(q, *site.vessel);
        addVessel(q, *site.vessel, between, study);
        addSmallestZone(q, between, study);
    }
    if (site.hold) addSetPoint(q, *site.hold, study);
    return study;
}

} // namespace headmark
