#include "analysis/duty/case_cautions.h"

#include "analysis/duty/energy_line.h"
#include "analysis/irrigation/leaf_law.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

bool lifts(const JudgedState& s) { return s.tree->tree.sourceLevel_m < s.model->site().pumpLevel.inMetres(); }

void velocityCautions(const JudgedState& s, const Crossing& duty, Cautions& out) {
    const std::string_view suctionRule = lifts(s) ? "v_suction_lift_max" : "v_suction_max";
    const double suctionLimit = s.limits->rules.value(suctionRule);
    const double mainLimit = s.limits->rules.value("v_delivery_main_max");
    for (const EnergyLineItem& item : energyLine(*s.model, *s.tree, duty.solution, s.filter)) {
        if (!item.element || item.element->kind != ElementKind::pipe) continue;
        const bool suction = item.place.starts_with("suction");
        const double v = item.velocity_m_s();
        if (item.place == "tank_return") continue;
        if (v <= (suction ? suctionLimit : mainLimit)) {
            const double re = item.element->bore_m * v / s.model->water().viscosity.inSquareMetresPerSecond();
            if (s.model->context().friction == FrictionMethod::darcy && re > kLaminarEnd &&
                re < kTurbulentStart) {
                out.push_back({"transition-flow",
                               Severity::note,
                               item.place,
                               {{"reynolds", re}},
                               "",
                               {},
                               "between laminar and turbulent flow, Re 2000 to 4000"});
            }
            continue;
        }
        // v = Q/A: the bore at which the limit is just kept
        const double bore_mm =
            1e3 * item.element->bore_m * std::sqrt(v / (suction ? suctionLimit : mainLimit));
        out.push_back({suction ? "suction-velocity" : "main-velocity",
                       suction ? Severity::warning : Severity::note,
                       item.place,
                       {{"velocity_m_s", v}, {"limit_m_s", suction ? suctionLimit : mainLimit}},
                       "wider-bore",
                       {{"bore_mm", bore_mm}},
                       s.limits->rules.source(suction ? suctionRule : "v_delivery_main_max")});
    }
}

// A diaphragm valve that takes too little pressure neither opens nor shuts reliably. One caution for all: the
// valve with the least, and the names of the other zones.
void zoneValveCautions(const JudgedState& s, const Crossing& duty, Cautions& out) {
    constexpr double kNeeded_kPa = 10.0; // common practice, no source
    struct Slack {
        double loss_kPa;
        EdgeElement which;
    };
    std::vector<Slack> slack;
    for (std::size_t edge = 0; edge < s.tree->edgeElements.size(); ++edge) {
        const double flow_m3_s = duty.solution.edgeFlow_m3_s[edge];
        if (flow_m3_s <= 0.0) continue;
        for (const EdgeElement& which : s.tree->edgeElements[edge]) {
            const Element& e = s.model->element(which);
            if (which.run != EdgeElement::Run::branch || e.code != "solenoid_valve") continue;
            const double loss_m = elementLoss_m(e, s.model->context(), s.filter, 0.0, flow_m3_s);
            const double loss_kPa = pressureOf_Pa(loss_m, s.model->water().density) / 1e3;
            if (loss_kPa < kNeeded_kPa) slack.push_back({loss_kPa, which});
        }
    }
    if (slack.empty()) return;
    std::stable_sort(slack.begin(), slack.end(),
                     [](const Slack& a, const Slack& b) { return a.which.zone < b.which.zone; });
    const auto least = std::min_element(
        slack.begin(), slack.end(), [](const Slack& a, const Slack& b) { return a.loss_kPa < b.loss_kPa; });
    const auto& zones = s.model->site().zones;
    std::string others;
    for (const Slack& one : slack) {
        const std::string& name = zones[one.which.zone].name;
        if (one.which.zone == least->which.zone || others.find('"' + name + '"') != std::string::npos)
            continue;
        others += (others.empty() ? "\"" : ", \"") + name + '"';
    }
    Facts facts{
        {"zone", zones[least->which.zone].name}, {"loss_kPa", least->loss_kPa}, {"limit_kPa", kNeeded_kPa}};
    if (!others.empty()) {
        facts.push_back({"side", std::string("several")});
        facts.push_back({"other_zones", others});
    }
    out.push_back({"zone-valve-slack",
                   Severity::note,
                   "zones",
                   std::move(facts),
                   "smaller-zone-valve",
                   {},
                   "common practice, no source"});
}

// Where the energy line runs below a pipe that is under way to the zones the pressure is below the air's: air
// comes out of the water and is drawn in at joints.
void negativePressureCaution(const JudgedState& s, const Crossing& duty, Cautions& out) {
    double lowest_m = -1e-6; // rounding
    std::string place;
    for (const EnergyLineItem& item : energyLine(*s.model, *s.tree, duty.solution, s.filter)) {
        if (!item.element || item.flow_m3_s <= 0.0) continue;
        if (item.place.starts_with("suction") || item.place == "tank_return") continue;
        const double head_m = item.energyAfter_m - item.levelAfter_m;
        if (head_m >= lowest_m) continue;
        lowest_m = head_m;
        place = item.place;
    }
    if (place.empty()) return;
    out.push_back({"negative-pressure",
                   Severity::warning,
                   place,
                   {{"pressure_kPa", pressureOf_Pa(lowest_m, s.model->water().density) / 1e3}},
                   "lower-the-high-point",
                   {},
                   "energy line below the pipe"});
}

void curveCautions(const CautionInputs& in, const CaseAnswer& a, Cautions& out) {
    const PumpModel& pump = *in.judged->pump;
    const double ratio = in.solver->pump().runRatio * a.heldSpeedShare.value_or(in.setting->speedShare);
    if (ratio < 0.7 - 1e-9 || ratio > 1.1 + 1e-9) {
        out.push_back({"speed-range",
                       Severity::warning,
                       "pump",
                       {{"speed_share", ratio}, {"lowest_share", 0.7}, {"highest_share", 1.1}},
                       "chart-at-that-speed",
                       {},
                       "affinity laws, common practice, no source"});
    }
    const double top = pump.head.flowOfMaximum();
    if (top > pump.head.least_m3_s() + 1e-6 * pump.head.greatest_m3_s() &&
        !pump.head.turningPoints().empty()) {
        out.push_back({"curve-droops",
                       Severity::note,
                       "pump",
                       {{"flow_m3_h", top * 3600.0}, {"head_m", pump.head.at(top)}},
                       "keep-right-of-top",
                       {},
                       "shape of the head curve"});
    }
    if (a.duties.size() > 1) {
        out.push_back({"several-crossings",
                       Severity::warning,
                       "pump",
                       {{"crossings", static_cast<std::int64_t>(a.duties.size())}},
                       "keep-right-of-top",
                       {},
                       "head curve and system curve"});
    }
    if (!pump.npshRequired && !in.judged->model->site().system) {
        out.push_back({"npsh-unknown", Severity::note, "pump", {}, "ask-maker-for-npsh", {}, ""});
    } else if (a.npsh && !a.npsh->required) {
        out.push_back({"npsh-beyond-curve",
                       Severity::warning,
                       "pump",
                       {{"flow_m3_h", a.duty->flow.inCubicMetresPerHour()}},
                       "ask-maker-for-npsh",
                       {},
                       ""});
    }
    if (!a.efficiency && a.duty) {
        out.push_back({"efficiency-unknown", Severity::note, "pump", {}, "ask-maker-for-efficiency", {}, ""});
    }
    if (pump.efficiency && pump.power && a.duty) {
        const double q = a.duty->flow.inCubicMetresPerSecond(), h = a.duty->head.inMetres();
        const Density density = in.judged->model->water().density;
        if (pump.efficiency->contains(q) && pump.power->contains(q) && q > 0.0 &&
            pump.efficiency->at(q) > 0.0) {
            const auto fromEfficiency =
                powerFromEfficiency(q, h, pump.efficiency->at(q), density.inKilogramsPerCubicMetre());
            const auto given = pump.shaftAt_W(q, h, density);
            if (fromEfficiency && given && std::abs(*given / *fromEfficiency - 1.0) > 0.03) {
                out.push_back({"power-efficiency-disagree",
                               Severity::warning,
                               "pump",
                               {{"shaft_kW", *given / 1e3},
                                {"from_efficiency_kW", *fromEfficiency / 1e3},
                                {"off_share", *given / *fromEfficiency - 1.0},
                                {"limit_share", 0.03}},
                               "check-the-curves",
                               {},
                               "P = rho g Q H / efficiency"});
            }
        }
    }
}

void siteCautions(const CautionInputs& in, Cautions& out) {
    const SiteModel& m = *in.judged->model;
    if (m.site().end) {
        for (const Element& e : m.delivery()) {
            if (e.code == "exit") {
                out.push_back({"exit-counted-twice",
                               Severity::warning,
                               "delivery[" + std::to_string(e.item) + "]",
                               {},
                               "drop-the-exit",
                               {},
                               "the velocity head is lost at the end without being listed"});
            }
        }
    }
    if (m.site().tankReturn && !in.solver->returnReachesSetFlow()) {
        out.push_back({"return-cannot-pass",
                       Severity::warning,
                       "tank_return",
                       {{"flow_m3_h", m.site().tankReturn->setFlow->inCubicMetresPerHour()}},
                       "wider-return",
                       {},
                       "energy balance with every zone shut"});
    }
}

double shutOff_m(const PumpModel& pump) { return pump.head.at(std::max(0.0, pump.head.least_m3_s())); }

} // namespace

Caution missCaution(const CautionInputs& in) {
    const PumpModel& pump = *in.judged->pump;
    const Miss miss = in.printed->crossings.miss;
    // All crossings unstable: nothing to run at.
    if (miss == Miss::none) {
        return {"no-stable-duty",
                Severity::danger,
                "pump",
                {},
                "keep-right-of-top",
                {},
                "head curve and system curve"};
    }
    if (miss == Miss::pumpTooWeak) {
        double static_m = std::numeric_limits<double>::infinity();
        for (const TreeOutflow& o : in.judged->tree->tree.outflows) {
            static_m = std::min(static_m, o.level_m - in.judged->tree->tree.sourceLevel_m);
        }
        const double top_m = pump.head.at(pump.head.flowOfMaximum());
        return {"pump-too-weak",
                Severity::danger,
                "pump",
                {{"greatest_head_m", top_m}, {"static_head_m", static_m}},
                "pump-with-more-head",
                {},
                "energy balance"};
    }
    if (miss == Miss::notConverged) {
        return {"not-converged",
                Severity::danger,
                "",
                {{"residual_m", in.printed->crossings.energyResidual_m}},
                "check-the-site",
                {},
                ""};
    }
    const bool right = miss == Miss::aboveRange;
    const double end = right ? pump.head.greatest_m3_s() : pump.head.least_m3_s();
    const std::string code = in.fillingEmptyMain && right ? "run-out" : "beyond-chart";
    return {code,
            Severity::warning,
            "pump",
            {{"side", std::string(right ? "right" : "left")},
             {"chart_end_m3_h", end * 3600.0},
             {"head_there_m", pump.head.at(end)}},
            code == "run-out" ? "fill-slowly"
            : right           ? "throttle-or-longer-curve"
                              : "curve-from-zero",
            {},
            "the chart is not continued beyond what was read"};
}

Caution deliveredMissCaution(const CautionInputs& in, bool highEnd) {
    const SolvedPoint& p = highEnd ? *in.high : *in.low;
    const PumpModel& pump = p.slowed ? *p.slowed : *in.judged->pump;
    if (!highEnd && p.crossings.miss == Miss::pumpTooWeak) {
        return {"delivered-too-weak",
                Severity::danger,
                "pump",
                {{"head_share", pump.deliveredShare}, {"shut_off_m", shutOff_m(pump) * p.factor}},
                "pump-with-more-head",
                {},
                "maker's tolerance, ISO 9906 grades"};
    }
    const bool right = p.crossings.miss == Miss::aboveRange;
    return {"delivered-beyond-chart",
            Severity::warning,
            "pump",
            {{"side", std::string(right ? "right" : "left")},
             {"head_share", pump.deliveredShare},
             {"chart_end_m3_h", (right ? pump.head.greatest_m3_s() : pump.head.least_m3_s()) * 3600.0}},
            right ? "throttle-or-longer-curve" : "curve-from-zero",
            {},
            "maker's tolerance, ISO 9906 grades"};
}

Caution bandCaution(const CaseAnswer& a, Severity severity) {
    if (!a.efficiency) {
        return {"efficiency-unknown", severity, "pump", {}, "ask-maker-for-efficiency", {}, ""};
    }
    return {a.efficiency->band == Band::outside ? "outside-allowable-band" : "outside-preferred-band",
            severity,
            "pump",
            {{"share_of_best_flow", a.efficiency->shareOfBestFlow},
             {"best_flow_m3_h", a.efficiency->bestFlow.inCubicMetresPerHour()}},
            "pump-nearer-its-best-flow",
            {},
            "ANSI/HI 9.6.3"};
}

Cautions adviceCautions(const CautionInputs& in, const CaseAnswer& a) {
    Cautions out;
    const Crossing* duty = in.printed->duty();
    curveCautions(in, a, out);
    siteCautions(in, out);
    for (Caution& c : heldCautions(in, a))
        out.push_back(std::move(c));
    addSuctionCautions(*in.judged, duty, out);
    if (!duty) return out;
    if (!in.judged->model->site().system) {
        velocityCautions(*in.judged, *duty, out);
        if (!in.fillingEmptyMain) negativePressureCaution(*in.judged, *duty, out);
        zoneValveCautions(*in.judged, *duty, out);
    }
    if (!in.high->duty() && in.high->crossings.miss == Miss::aboveRange) {
        out.push_back(deliveredMissCaution(in, true));
    }
    // With every zone shut only the return runs: that the pump is outside its band there is no news.
    const bool returnOnly = a.zones.empty() && a.tankReturnFlow;
    if (returnOnly) return out;
    if (a.efficiency && duty->flow_m3_s > 0.0 && a.efficiency->band == Band::outside) {
        out.push_back(bandCaution(a, Severity::warning));
    } else if (a.efficiency && duty->flow_m3_s > 0.0 && a.efficiency->band == Band::allowable) {
        out.push_back(bandCaution(a, Severity::note));
    }
    return out;
}

} // namespace headmark
