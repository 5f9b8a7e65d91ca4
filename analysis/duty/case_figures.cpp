// The figures of a solved case: efficiency, power, NPSH, zones.
#include "analysis/duty/case_cautions.h"

#include "analysis/irrigation/leaf_law.h"
#include "analysis/irrigation/uniformity.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr double kGravity = factor::kStandardGravity_m_s2;

double returnFlow_m3_s(const SiteTree& tree, const Crossing& at) {
    for (std::size_t i = 0; i < tree.outflows.size(); ++i) {
        if (tree.outflows[i].kind == OutflowOf::Kind::tankReturn) return at.solution.outflow_m3_s[i];
    }
    return 0.0;
}

std::optional<EfficiencyAnswer> efficiencyOf(const JudgedState& s, const Crossing& duty) {
    const Density density = s.model->water().density;
    const auto best = s.pump->bestPoint(density);
    if (!best || best->flow_m3_s <= 0.0) return std::nullopt;
    EfficiencyAnswer e;
    if (const auto at = s.pump->efficiencyAt(duty.flow_m3_s, duty.head_m, density)) {
        e.atDuty = Efficiency::fromShare(*at);
    }
    e.best = Efficiency::fromShare(best->efficiency);
    e.bestFlow = Flow::fromCubicMetresPerSecond(best->flow_m3_s);
    e.shareOfBestFlow = duty.flow_m3_s / best->flow_m3_s;
    e.limits = bandLimits(*s.pump, *best);
    e.band = bandOf(e.shareOfBestFlow, e.limits);
    return e;
}

std::optional<PowerAnswer> powerOf(const JudgedState& s, const Crossing& duty) {
    const Density density = s.model->water().density;
    PowerAnswer p;
    p.hydraulic =
        Power::fromWatts(density.inKilogramsPerCubicMetre() * kGravity * duty.flow_m3_s * duty.head_m);
    const auto shaft = s.pump->shaftAt_W(duty.flow_m3_s, duty.head_m, density);
    const auto input = s.pump->inputAt_W(duty.flow_m3_s, duty.head_m, density);
    if (!shaft && !input) return std::nullopt; // no curve tells
    if (shaft) p.shaft = Power::fromWatts(*shaft);
    if (input) p.input = Power::fromWatts(*input);
    const double delivered_m3_s = duty.flow_m3_s - returnFlow_m3_s(*s.tree, duty);
    if (input && delivered_m3_s > 1e-12) {
        p.kilowattHoursPerCubicMetre = *input / delivered_m3_s / factor::kKilowattHour_J;
    }
    return p;
}

std::optional<NpshAnswer> npshOf(const JudgedState& s, const Crossing& duty) {
    // Only a required curve makes it an answer; a known system curve has no suction side.
    if (!suctionKnown(s.model->site()) || !s.pump->npshRequired) return std::nullopt;
    NpshAnswer n;
    n.available = Head::fromMetres(npshAvailable_m(*s.model, s.tree->tree, duty.flow_m3_s));
    if (s.pump->npshRequired->contains(duty.flow_m3_s)) {
        n.required = Head::fromMetres(s.pump->npshRequired->at(duty.flow_m3_s));
        n.margin = n.available - *n.required;
    }
    return n;
}

ZoneAnswer::OfOneEmitter ofOneEmitter(const Emitters& emitters, const ZoneHeads& heads) {
    const UniformityInputs of{emitters.variation.value_or(0.0), emitters.perPlant, heads.lowestFlow_m3_s,
                              heads.meanFlow_m3_s};
    return {Flow::fromCubicMetresPerSecond(heads.lowestFlow_m3_s),
            Flow::fromCubicMetresPerSecond(heads.meanFlow_m3_s),
            Flow::fromCubicMetresPerSecond(heads.highestFlow_m3_s), emissionUniformityShare(of)};
}

} // namespace

void fillDuty(const CautionInputs& in, const Crossing& duty, CaseAnswer& a) {
    const JudgedState& s = *in.judged;
    a.duty = DutyPoint{
        Flow::fromCubicMetresPerSecond(duty.flow_m3_s), Head::fromMetres(duty.head_m), duty.stable, {}, {}};
    a.efficiency = efficiencyOf(s, duty);
    a.power = powerOf(s, duty);
    a.npsh = npshOf(s, duty);
    for (std::size_t i = 0; i < s.tree->outflows.size(); ++i) {
        const OutflowOf& of = s.tree->outflows[i];
        const double flow_m3_s = duty.solution.outflow_m3_s[i];
        if (of.kind == OutflowOf::Kind::tankReturn)
            a.tankReturnFlow = Flow::fromCubicMetresPerSecond(flow_m3_s);
        if (of.kind != OutflowOf::Kind::zone) continue;
        const ZoneHeads heads =
            zoneHeads(*s.model, of.zone, duty.solution.outflowHead_m[i] - s.tree->tree.outflows[i].level_m);
        const Density density = s.model->water().density;
        const Zone& zone = s.model->site().zones[of.zone];
        a.zones.push_back({s.model->site().zones[of.zone].name,
                           Flow::fromCubicMetresPerSecond(flow_m3_s),
                           GaugePressure::fromPascals(pressureOf_Pa(heads.lowest_m, density)),
                           GaugePressure::fromPascals(pressureOf_Pa(heads.highest_m, density)),
                           true,
                           {}});
        if (!zone.emitters.whole) a.zones.back().emitter = ofOneEmitter(zone.emitters, heads);
    }
    // The tree visits zones by take-off; the answer lists them in job order.
    std::stable_sort(a.zones.begin(), a.zones.end(), [&](const ZoneAnswer& x, const ZoneAnswer& y) {
        const auto at = [&](const std::string& name) {
            const auto& zones = s.model->site().zones;
            return std::find_if(zones.begin(), zones.end(), [&](const Zone& z) { return z.name == name; });
        };
        return at(x.name) < at(y.name);
    });
}

} // namespace headmark
