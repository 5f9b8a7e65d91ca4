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

// Whether a regulator on the way to the outflow is holding back.
bool heldBack(const JudgedState& s, const Crossing& at, std::size_t outflow) {
    for (int e = s.tree->tree.outflows[outflow].edge; e >= 0;
         e = s.tree->tree.edges[static_cast<std::size_t>(e)].parent) {
        if (at.solution.regulating[static_cast<std::size_t>(e)]) return true;
    }
    return false;
}

template <class Do>
void forEachZone(const JudgedState& s, const Crossing& at, Do&& visit) {
    for (std::size_t i = 0; i < s.tree->outflows.size(); ++i) {
        if (s.tree->outflows[i].kind != OutflowOf::Kind::zone) continue;
        const std::size_t zone = s.tree->outflows[i].zone;
        const double head_m = at.solution.outflowHead_m[i] - s.tree->tree.outflows[i].level_m;
        visit(zone, zoneHeads(*s.model, zone, head_m), at.solution.outflow_m3_s[i], i);
    }
}

} // namespace

// The energy line's top over the lowest level. Spares the walk along the runs in the usual case.
bool ratingsInReach(const JudgedState& s, double top_m) {
    const Site& site = s.model->site();
    double lowest_m = std::min(site.pumpLevel.inMetres(), s.tree->tree.sourceLevel_m);
    double least_Pa = s.pump->greatestPressure ? s.pump->greatestPressure->inPascals() : 1e300;
    const auto look = [&](const std::vector<Element>& elements) {
        for (const Element& e : elements) {
            if (e.riseTo) lowest_m = std::min(lowest_m, e.riseTo->inMetres());
            if (e.rating) least_Pa = std::min(least_Pa, 1e3 * *s.warm.rating_kPa(e));
        }
    };
    look(s.model->suction());
    look(s.model->delivery());
    for (std::size_t z = 0; z < site.zones.size(); ++z) {
        look(s.model->branch(z));
        lowest_m = std::min(lowest_m, site.zones[z].level.inMetres());
    }
    if (const Element* back = s.model->returnPipe(); back && back->rating)
        least_Pa = std::min(least_Pa, 1e3 * *s.warm.rating_kPa(*back));
    return pressureOf_Pa(top_m - lowest_m, s.model->water().density) >= least_Pa * (1.0 - 1e-6);
}

bool suctionKnown(const Site& site) { return !site.system && site.source && site.source->levelsGiven; }

Cautions lowerBreaches(const JudgedState& s, const Crossing& at) {
    Cautions out;
    const Density density = s.model->water().density;
    forEachZone(s, at, [&](std::size_t zone, const ZoneHeads& heads, double flow_m3_s, std::size_t outflow) {
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
        // Some emitters under no pressure: without a limit of their own they would be passed over.
        if (z.laterals && heads.lowest_m <= 0.0 && !z.emitters.least) {
            out.push_back({"emitters-without-water",
                           Severity::warning,
                           zonePlace(zone),
                           {{"zone", z.name}, {"short_of_m", -heads.lowest_m}},
                           "fewer-zones-or-wider-pipe",
                           {},
                           "energy balance"});
        }
        const double limit_kPa = z.emitters.least ? z.emitters.least->inKilopascals() : 0.0;
        const double found_kPa = kilopascals(heads.lowest_m, density);
        if (z.emitters.least && found_kPa < limit_kPa * (1.0 - kRounding)) {
            out.push_back(
                {"pressure-low",
                 Severity::warning,
                 zonePlace(zone),
                 {{"zone", z.name}, {"pressure_kPa", found_kPa}, {"limit_kPa", limit_kPa}},
                 heldBack(s, at, outflow) ? "set-the-regulator-higher" : "fewer-zones-or-wider-pipe",
                 {},
                 "emitter's working range"});
        }
    });
    return out;
}

Cautions upperBreaches(const JudgedState& s, const Crossing& at) {
    Cautions out;
    const Density density = s.model->water().density;
    forEachZone(s, at, [&](std::size_t zone, const ZoneHeads& heads, double, std::size_t) {
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
    if (!ratingsInReach(s, std::max(at.solution.rootHead_m, s.tree->tree.sourceLevel_m))) return out;
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
        const auto limit_kPa = s.warm.rating_kPa(*item.element);
        if (limit_kPa && kilopascals(highest_m, density) > *limit_kPa * (1.0 + kRounding)) {
            Facts facts{{"pressure_kPa", kilopascals(highest_m, density)}, {"limit_kPa", *limit_kPa}};
            for (Fact& fact : warmFacts(*item.element, s.warm, s.model->temperature()))
                facts.push_back(std::move(fact));
            out.push_back({"pipe-rating",
                           Severity::danger,
                           item.place,
                           std::move(facts),
                           "pipe-of-higher-rating",
                           {},
                           "nominal pressure of the pipe, catalogue"});
        }
    }
    return out;
}

Cautions flowCeilingBreaches(const JudgedState& s, const Crossing& at) {
    Cautions out;
    const auto broken = [](const Element& e, double flow_m3_s) {
        return e.greatestFlow && flow_m3_s > e.greatestFlow->inCubicMetresPerSecond() * (1.0 + kRounding);
    };
    bool any = std::any_of(s.model->suction().begin(), s.model->suction().end(),
                           [&](const Element& e) { return broken(e, at.flow_m3_s); });
    for (std::size_t edge = 0; edge < s.tree->edgeElements.size() && !any; ++edge) {
        for (const EdgeElement& which : s.tree->edgeElements[edge]) {
            any = any || broken(s.model->element(which), at.solution.edgeFlow_m3_s[edge]);
        }
    }
    if (!any) return out; // the usual case, asked thousands of times for zones at once
    for (const EnergyLineItem& item : energyLine(*s.model, *s.tree, at.solution, s.filter)) {
        if (!item.element || !broken(*item.element, item.flow_m3_s)) continue;
        out.push_back({"filter-flow",
                       Severity::warning,
                       item.place,
                       {{"flow_m3_h", item.flow_m3_s * 3600.0},
                        {"limit_m3_h", item.element->greatestFlow->inCubicMetresPerHour()}},
                       "larger-filter",
                       {},
                       "greatest flow of the filter, catalogue"});
    }
    return out;
}

Cautions inletAndMotorBreaches(const JudgedState& s, const Crossing& at) {
    Cautions out;
    if (s.pump->npshRequired && suctionKnown(s.model->site()) &&
        s.pump->npshRequired->contains(at.flow_m3_s)) {
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
        auto shaft_W = s.pump->shaftAt_W(at.flow_m3_s, at.head_m, s.model->water().density);
        // A printed power belongs to the printed head; a pump delivered with more head at the same efficiency
        // draws more. Power from an efficiency curve has that in it already.
        const double printed_m = s.pump->head.contains(at.flow_m3_s) ? s.pump->head.at(at.flow_m3_s) : 0.0;
        if (shaft_W && s.pump->power && printed_m > 0.0) *shaft_W *= std::max(1.0, at.head_m / printed_m);
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
