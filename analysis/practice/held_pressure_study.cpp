// A pump switched by pressure: its band against the curve and against what the zones need, the vessel, the
// starts and runs. A set point held by speed is in set_point_study.cpp.

#include "analysis/duty/case_cautions.h"
#include "analysis/duty/needs.h"
#include "analysis/irrigation/leaf_law.h"
#include "analysis/practice/motor_catalogue.h"
#include "analysis/practice/set_point.h"
#include "analysis/practice/study_parts.h"
#include "analysis/practice/vessel.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

// Head at the pump's outlet, above the pump, with a flow and a head of the pump.
double outlet_m(const InstallationQuestion& q, WaterLevel level, double flow_m3_s, double head_m) {
    const SiteModel& model = q.solver->model();
    CaseSetting setting;
    setting.open.assign(model.site().zones.size(), false);
    setting.level = level;
    const PipeTree tree = model.tree(setting, q.solver->returnKv_m3_h()).tree;
    return tree.sourceLevel_m + head_m - suctionLoss_m(tree, flow_m3_s) - model.site().pumpLevel.inMetres();
}

double outlet_kPa(const InstallationQuestion& q, WaterLevel level, double flow_m3_s, double head_m) {
    return pressureOfHead_kPa(outlet_m(q, level, flow_m3_s, head_m), q.solver->model().water().density);
}

// Flow at which the outlet's pressure is as asked, low water; the curve's ends where it never is.
double flowAt_m3_s(const InstallationQuestion& q, GaugePressure wanted) {
    const PumpModel pump = q.solver->pump().atSpeed(1.0);
    const double wanted_m = headOf_m(wanted - GaugePressure{}, q.solver->model().water().density);
    const auto reaches = [&](double flow_m3_s) {
        return outlet_m(q, WaterLevel::low, flow_m3_s, pump.head.at(flow_m3_s)) >= wanted_m;
    };
    double low = std::max(0.0, pump.head.flowOfMaximum()), high = pump.head.greatest_m3_s();
    if (reaches(high)) return high;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (reaches(middle) ? low : high) = middle;
    }
    return low;
}

double highestCutOut_kPa(const InstallationQuestion& q) {
    return q.rules().value("cut_out_share") * weakestShutOff_kPa(*q.solver);
}

void judgeBand(const InstallationQuestion& q, const Vessel& v, Study& study) {
    const PumpModel pump = q.solver->pump().atSpeed(1.0);
    const double top_m3_s = std::max(0.0, pump.head.flowOfMaximum());
    const double weakest_kPa = weakestShutOff_kPa(*q.solver);
    study.figures.push_back(
        {"held-shut-off",
         "pump",
         {{"shut_off_kPa", outlet_kPa(q, WaterLevel::low, top_m3_s, pump.head.at(top_m3_s))},
          {"cut_out_kPa", v.cutOut.inKilopascals()}},
         {"weakest_kPa", weakest_kPa}});
    if (v.cutOut.inKilopascals() >= weakest_kPa) {
        study.cautions.push_back({"cut-out-never-reached",
                                  Severity::danger,
                                  "site",
                                  {{"cut_out_kPa", v.cutOut.inKilopascals()}, {"limit_kPa", weakest_kPa}},
                                  "lower-the-cut-out",
                                  {{"cut_out_kPa", highestCutOut_kPa(q)}},
                                  "head curve at no flow, low water, low end of delivery"});
    }
    if (v.precharge > v.cutIn) {
        const AbsolutePressure air = q.solver->model().air();
        const double cutIn_kPa = (air + (v.cutIn - GaugePressure{})).inKilopascals();
        const double precharge_kPa = q.rules().value("vessel_precharge") * cutIn_kPa - air.inKilopascals();
        study.cautions.push_back(
            {"precharge-above-cut-in",
             Severity::warning,
             "site",
             {{"precharge_kPa", v.precharge.inKilopascals()}, {"limit_kPa", v.cutIn.inKilopascals()}},
             "lower-the-precharge",
             {{"precharge_kPa", std::max(0.0, std::floor(precharge_kPa))}},
             q.rules().source("vessel_precharge")});
    }
}

bool watering(const CaseAnswer& a) { return !a.fillingEmptyMain && !a.setting.zonesOpen.empty(); }

// Pressure that a case's zones need at the pump's outlet; empty where none can be named.
std::optional<double> neededOutlet_kPa(const InstallationQuestion& q, const CaseAnswer& a) {
    const auto need =
        needOf(q.solver->model(), q.solver->settingOf(a.setting), a.name, q.solver->returnKv_m3_h());
    if (!need) return std::nullopt;
    return outlet_kPa(q, a.setting.level, need->flow.inCubicMetresPerSecond(), need->head.inMetres());
}

// The zones see no more than the cut-in while the pump waits for it.
void judgeCutIn(const InstallationQuestion& q, const Vessel& v, Study& study) {
    std::optional<double> most_kPa;
    std::string name;
    for (const CaseAnswer& a : q.cases) {
        const auto needed_kPa = watering(a) ? neededOutlet_kPa(q, a) : std::nullopt;
        if (!needed_kPa || (most_kPa && *needed_kPa <= *most_kPa)) continue;
        most_kPa = needed_kPa;
        name = a.name;
    }
    if (!most_kPa) return;
    study.figures.push_back(
        {"cut-in-needed", name, {{"cut_in_kPa", v.cutIn.inKilopascals()}}, {"needed_kPa", *most_kPa}});
    const double cutIn_kPa = std::ceil(*most_kPa);
    if (v.cutIn.inKilopascals() >= *most_kPa) return;
    const bool inReach = cutIn_kPa < highestCutOut_kPa(q);
    study.cautions.push_back(
        {"cut-in-below-need",
         Severity::warning,
         "site",
         {{"cut_in_kPa", v.cutIn.inKilopascals()}, {"limit_kPa", *most_kPa}, {"case", name}},
         inReach ? "raise-the-cut-in" : "pump-with-more-head",
         inReach ? Facts{{"cut_in_kPa", cutIn_kPa}} : Facts{},
         "emitter's working range"});
}

// The strongest pump delivered that runs in a case puts more on the switch than the cut-out.
void judgeCutOut(const InstallationQuestion& q, const Vessel& v, Study& study) {
    double most_kPa = v.cutOut.inKilopascals();
    const CaseAnswer* worst = nullptr;
    for (const CaseAnswer& a : q.cases) {
        if (!watering(a) || !a.duty || a.duty->flow.inCubicMetresPerSecond() <= 0.0) continue;
        const bool strong = q.solver->limits().asDelivered && a.deliveredHigh;
        const Flow flow = strong ? a.deliveredHigh->flow : a.duty->flow;
        const Head head = strong ? a.deliveredHigh->head : a.duty->head;
        const double here_kPa =
            outlet_kPa(q, a.setting.level, flow.inCubicMetresPerSecond(), head.inMetres());
        if (here_kPa <= most_kPa) continue;
        most_kPa = here_kPa;
        worst = &a;
    }
    if (!worst) return;
    const auto needed_kPa = neededOutlet_kPa(q, *worst);
    const bool dry = needed_kPa && v.cutIn.inKilopascals() < *needed_kPa;
    const bool inReach = std::ceil(most_kPa) <= highestCutOut_kPa(q);
    study.cautions.push_back(
        {"cuts-out-while-watering",
         dry ? Severity::warning : Severity::note,
         "site",
         {{"cut_out_kPa", v.cutOut.inKilopascals()}, {"pressure_kPa", most_kPa}, {"case", worst->name}},
         inReach ? "raise-the-cut-out" : "start-with-the-zones",
         inReach ? Facts{{"cut_out_kPa", std::ceil(most_kPa)}} : Facts{},
         "energy equation"});
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
    const auto middle =
        GaugePressure::fromKilopascals(0.5 * (v.cutIn.inKilopascals() + v.cutOut.inKilopascals()));
    b.pump = Flow::fromCubicMetresPerSecond(flowAt_m3_s(q, middle));
    return b;
}

// The table's figure; a motor on one phase bears half of it, as the table notes.
double startsAllowed(const InstallationQuestion& q) {
    const auto& motor = q.solver->pump().motor;
    // Without a rating that of the common small pumps: 30 starts an hour in the table.
    constexpr double kUsualRating_kW = 1.5, kOnePhase = 0.5;
    const double rated_kW = motor && motor->rated ? motor->rated->inKilowatts() : kUsualRating_kW;
    const auto supply = supplyOf(q);
    const bool onePhase = supply && supply->phases == 1;
    return q.rules().valueForPower("starts_per_hour_pump", rated_kW) * (onePhase ? kOnePhase : 1.0);
}

void addVessel(const InstallationQuestion& q, const Vessel& v, const Between& b, Study& study) {
    study.figures.push_back({"vessel-drawdown",
                             "site",
                             {{"vessel_l", v.volume.inLitres()},
                              {"precharge_kPa", b.precharge.inKilopascals()},
                              {"cut_in_kPa", b.cutIn.inKilopascals()},
                              {"cut_out_kPa", b.cutOut.inKilopascals()}},
                             {"volume_l", b.drawdown.inLitres()}});
    const double allowed = startsAllowed(q);
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

// A run fills the drawdown with what the zone leaves: t = U/(Q - q).
void addRun(const InstallationQuestion& q, const Vessel& v, const Between& b, Flow draw,
            const std::string& zone, Study& study) {
    if (draw.inCubicMetresPerSecond() >= flowAt_m3_s(q, v.cutOut) || draw >= b.pump) return; // never cuts out
    const double spare_m3_s = (b.pump - draw).inCubicMetresPerSecond();
    const double run_s = b.drawdown.inCubicMetres() / spare_m3_s;
    study.figures.push_back({"vessel-run",
                             zone,
                             {{"volume_l", b.drawdown.inLitres()},
                              {"flow_m3_h", b.pump.inCubicMetresPerHour()},
                              {"draw_m3_h", draw.inCubicMetresPerHour()}},
                             {"seconds", run_s}});
    const double least_s = q.rules().value("run_time_min");
    if (run_s >= least_s || v.cutOut <= v.cutIn) return;
    const Volume needed =
        vesselForDrawdown(Volume::fromCubicMetres(least_s * spare_m3_s), b.precharge, b.cutIn, b.cutOut);
    study.cautions.push_back({"runs-too-short",
                              Severity::warning,
                              "site",
                              {{"seconds", run_s}, {"limit_s", least_s}, {"zone", zone}},
                              "larger-vessel",
                              {{"volume_l", needed.inLitres()}},
                              q.rules().source("run_time_min")});
}

// While the smallest zone alone draws.
void addSmallestZone(const InstallationQuestion& q, const Vessel& v, const Between& b, Study& study) {
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
    addRun(q, v, b, *least, name, study);
}

} // namespace

Study heldPressureStudy(const InstallationQuestion& q) {
    Study study{"held-pressure", {}, {}};
    const Site& site = q.solver->model().site();
    if (site.control != ControlKind::pressureHeld) return study;
    if (site.vessel) {
        const Vessel& vessel = *site.vessel;
        judgeBand(q, vessel, study);
        judgeCutIn(q, vessel, study);
        judgeCutOut(q, vessel, study);
        const Between between = betweenOf(q, vessel);
        addVessel(q, vessel, between, study);
        addSmallestZone(q, vessel, between, study);
    }
    if (site.hold) addSetPoint(q, *site.hold, study);
    return study;
}

} // namespace headmark
