#include "analysis/duty/judgement.h"

#include "analysis/duty/energy_line.h"
#include "analysis/irrigation/leaf_law.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

std::string zonePlace(std::size_t zone) { return "zones[" + std::to_string(zone) + "]"; }

double kilopascals(double head_m, Density density) { return pressureOf_Pa(head_m, density) / 1e3; }

// A pressure or flow meets its limit up to this share, so that rounding decides nothing.
constexpr double kRounding = 1e-9;

template <class Do>
void forEachZone(const JudgedState& s, const Crossing& at, Do&& visit) {
    for (std::size_t i = 0; i < s.tree->outflows.size(); ++i) {
        if (s.tree->outflows[i].kind != OutflowOf::Kind::zone) continue;
        const std::size_t zone = s.tree->outflows[i].zone;
        const double head_m = at.solution.outflowHead_m[i] - s.tree->tree.outflows[i].level_m;
        visit(zone, zoneHeads(*s.model, zone, head_m), at.solution.outflow_m3_s[i]);
    }
}

} // namespace

Cautions lowerBreaches(const JudgedState& s, const Crossing& at) {
    Cautions out;
    const Density density = s.model->water().density;
    forEachZone(s, at, [&](std::size_t zone, const ZoneHeads& heads, double flow_m3_s) {
        const Zone& z = s.model->site().zones[zone];
        if (flow_m3_s <= 0.0) {
            out.push_back({"zone-without-water",
                           Severity::danger,
                           zonePlace(zone),
                           {{"zone", z.name}, {"short_of_m", -heads.lowest_m}},
                           "lower-the-zone-or-stronger-pump",
                           {},
                           "energy balance"});
            return;
        }
        const double limit_kPa = z.emitters.least ? z.emitters.least->inKilopascals() : 0.0;
        const double found_kPa = kilopascals(heads.lowest_m, density);
        if (z.emitters.least && found_kPa < limit_kPa * (1.0 - kRounding)) {
            out.push_back({"pressure-low",
                           Severity::warning,
                           zonePlace(zone),
                           {{"zone", z.name}, {"pressure_kPa", found_kPa}, {"limit_kPa", limit_kPa}},
                           "fewer-zones-or-wider-pipe",
                           {},
                           "emitter's working range"});
        }
    });
    return out;
}

Cautions upperBreaches(const JudgedState& s, const Crossing& at) {
    Cautions out;
    const Density density = s.model->water().density;
    forEachZone(s, at, [&](std::size_t zone, const ZoneHeads& heads, double) {
        const Zone& z = s.model->site().zones[zone];
        if (!z.emitters.greatest) return;
        const double limit_kPa = z.emitters.greatest->inKilopascals();
        const double found_kPa = kilopascals(heads.highest_m, density);
        if (found_kPa > limit_kPa * (1.0 + kRounding)) {
            out.push_back({"pressure-high",
                           Severity::warning,
                           zonePlace(zone),
                           {{"zone", z.name}, {"pressure_kPa", found_kPa}, {"limit_kPa", limit_kPa}},
                           "fit-a-regulator",
                           {{"set_kPa", limit_kPa}},
                           "emitter's working range"});
        }
    });
    for (const EnergyLineItem& item : energyLine(*s.model, *s.tree, at.solution, s.filter)) {
        const double highest_m =
            std::max(item.energyBefore_m - item.levelBefore_m, item.energyAfter_m - item.levelAfter_m);
        if (!item.element) {
            if (s.pump->greatestPressure &&
                kilopascals(item.energyAfter_m - item.levelAfter_m, density) >
                    s.pump->greatestPressure->inKilopascals() * (1.0 + kRounding)) {
                out.push_back(
                    {"pump-pressure",
                     Severity::danger,
                     "pump",
                     {{"pressure_kPa", kilopascals(item.energyAfter_m - item.levelAfter_m, density)},
                      {"limit_kPa", s.pump->greatestPressure->inKilopascals()}},
                     "lower-inlet-pressure-or-other-pump",
                     {},
                     "rating given for the pump"});
            }
            continue;
        }
        if (item.element->rating &&
            kilopascals(highest_m, density) > item.element->rating->inKilopascals() * (1.0 + kRounding)) {
            out.push_back({"pipe-rating",
                           Severity::danger,
                           item.place,
                           {{"pressure_kPa", kilopascals(highest_m, density)},
                            {"limit_kPa", item.element->rating->inKilopascals()}},
                           "pipe-of-higher-rating",
                           {},
                           "nominal pressure of the pipe, catalogue"});
        }
    }
    return out;
}

Cautions flowCeilingBreaches(const JudgedState& s, const Crossing& at) {
    Cautions out;
    const auto check = [&](const Element& e, double flow_m3_s, const std::string& place) {
        if (!e.greatestFlow || flow_m3_s <= e.greatestFlow->inCubicMetresPerSecond() * (1.0 + kRounding))
            return;
        out.push_back(
            {"filter-flow",
             Severity::warning,
             place,
             {{"flow_m3_h", flow_m3_s * 3600.0}, {"limit_m3_h", e.greatestFlow->inCubicMetresPerHour()}},
             "larger-filter",
             {},
             "greatest flow of the filter, catalogue"});
    };
    for (const EnergyLineItem& item : energyLine(*s.model, *s.tree, at.solution, s.filter)) {
        if (item.element) check(*item.element, item.flow_m3_s, item.place);
    }
    return out;
}

Cautions inletAndMotorBreaches(const JudgedState& s, const Crossing& at) {
    Cautions out;
    if (s.pump->npshRequired && !s.model->site().system && s.pump->npshRequired->contains(at.flow_m3_s)) {
        const double required_m = s.pump->npshRequired->at(at.flow_m3_s);
        const double available_m = npshAvailable_m(*s.model, s.tree->tree, at.flow_m3_s);
        const double needed_m = npshMarginNeeded_m(*s.limits, required_m);
        if (available_m - required_m < needed_m - kRounding) {
            out.push_back({"npsh-margin",
                           available_m < required_m ? Severity::danger : Severity::warning,
                           "suction",
                           {{"available_m", available_m},
                            {"required_m", required_m},
                            {"margin_m", available_m - required_m},
                            {"limit_m", needed_m}},
                           "wider-or-shorter-suction",
                           {},
                           "ANSI/HI 9.6.1 guidance"});
        }
    }
    if (s.pump->motor && s.pump->motor->rated) {
        const auto shaft_W = s.pump->shaftAt_W(at.flow_m3_s, at.head_m, s.model->water().density);
        if (shaft_W && *shaft_W > s.pump->motor->rated->inWatts() * (1.0 + kRounding)) {
            out.push_back({"motor-overload",
                           Severity::danger,
                           "pump",
                           {{"shaft_kW", *shaft_W / 1e3}, {"limit_kW", s.pump->motor->rated->inKilowatts()}},
                           "larger-motor-or-less-flow",
                           {},
                           "motor's rated power"});
        }
    }
    return out;
}

bool hasUpperLimits(const JudgedState& s) {
    if (s.pump->greatestPressure || (s.pump->motor && s.pump->motor->rated) || s.pump->npshRequired)
        return true;
    for (const OutflowOf& o : s.tree->outflows) {
        if (o.kind == OutflowOf::Kind::zone && s.model->site().zones[o.zone].emitters.greatest) return true;
    }
    return false;
}

} // namespace headmark
