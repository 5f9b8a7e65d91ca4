// What is said of a case where a switch or a drive holds the pressure, and where no valve is open.
#include "analysis/duty/case_cautions.h"
#include "analysis/duty/suction_lift.h"

#include "analysis/irrigation/leaf_law.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr const char* kHeatSource = "a pump against shut valves heats its water";

double kilopascals(double head_m, const CaseSolver& solver) {
    return pressureOf_Pa(head_m, solver.model().water().density) / 1e3;
}

} // namespace

double weakestShutOff_kPa(const CaseSolver& solver) {
    const SiteModel& model = solver.model();
    const PumpModel pump = solver.pump().atSpeed(1.0);
    const double flow_m3_s = std::max(0.0, pump.head.flowOfMaximum());
    CaseSetting shut;
    shut.open.assign(model.site().zones.size(), false);
    shut.level = WaterLevel::low;
    const PipeTree tree = model.tree(shut).tree;
    const double share = solver.limits().asDelivered ? 1.0 - pump.deliveredShare : 1.0;
    const double outlet_m = tree.sourceLevel_m + share * pump.head.at(flow_m3_s) -
                            suctionLoss_m(tree, flow_m3_s) - model.site().pumpLevel.inMetres();
    return kilopascals(outlet_m, solver);
}

Caution noFlowCaution(const CautionInputs& in, const CaseAnswer& a) {
    const Site& site = in.solver->model().site();
    const bool held = site.control == ControlKind::pressureHeld;
    const double weakest_kPa = held && site.vessel ? weakestShutOff_kPa(*in.solver) : 0.0;
    const bool switched = held && site.vessel && site.vessel->cutOut.inKilopascals() < weakest_kPa;
    if (switched || in.solver->heldOutlet_m()) {
        return {"no-flow-must-stop",
                Severity::note,
                "pump",
                {{"side", std::string(switched ? "switch" : "drive")}, {"head_m", a.duty->head.inMetres()}},
                "fit-a-stop",
                {},
                kHeatSource};
    }
    Caution c{"no-flow",
              Severity::danger,
              "pump",
              {{"shut_off_m", a.duty->head.inMetres()}},
              drawsFromMains(site) ? "stop-without-return" : "fit-a-tank-return",
              {},
              kHeatSource};
    if (held && site.vessel) {
        c.remedy = "lower-the-cut-out";
        c.remedyValues = {{"cut_out_kPa", in.solver->limits().rules.value("cut_out_share") * weakest_kPa}};
    }
    return c;
}

Cautions heldCautions(const CautionInputs& in, const CaseAnswer& a) {
    const Site& site = in.solver->model().site();
    if (site.control != ControlKind::pressureHeld || site.system) return {};
    if (!site.hold) {
        return {{"pressure-held-not-judged", Severity::note, "site", {}, "see-the-held-pressure", {}, ""}};
    }
    const double hold_kPa = site.hold->inKilopascals();
    if (a.heldSpeedShare) {
        return {{"held-at-set-point",
                 Severity::note,
                 "site",
                 {{"hold_kPa", hold_kPa}, {"speed_share", *a.heldSpeedShare}},
                 "",
                 {},
                 "affinity laws"}};
    }
    if (!a.duty) return {};
    const double root_m = in.printed->duty()->solution.rootHead_m - site.pumpLevel.inMetres();
    return {{"answered-at-full-speed",
             Severity::note,
             "site",
             {{"hold_kPa", hold_kPa}, {"outlet_kPa", kilopascals(root_m, *in.solver)}},
             "",
             {},
             "affinity laws"}};
}

} // namespace headmark
