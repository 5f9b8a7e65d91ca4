#include "analysis/duty/needs.h"

#include "analysis/irrigation/lateral.h"
#include "analysis/irrigation/leaf_law.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

// Head above the zone's level at its branch's end that brings the worst emitter to its limit.
double limitHead_m(const SiteModel& model, std::size_t zone) {
    const Zone& z = model.site().zones[zone];
    const Density density = model.water().density;
    const Emitters& e = z.emitters;
    const Pressure limit = e.least                ? *e.least - GaugePressure{}
                           : e.law.compensating() ? *e.law.regulatedFrom
                                                  : e.law.at;
    const double target_m = headOf_m(limit, density);
    if (!z.laterals) return target_m;
    // Bisection on the inlet head: the lowest outlet's head rises with it.
    double low = 0.0, high = target_m + 1.0;
    const OutflowLaw outlet = outletLaw(e.law, density);
    const auto lowest = [&](double inlet_m) {
        return lateralAtInlet(*z.laterals, outlet, model.context(), inlet_m).lowestHead_m;
    };
    while (lowest(high) < target_m && high < 1e4)
        high *= 2.0;
    for (int i = 0; i < 60 && high - low > 1e-9; ++i) {
        const double mid = 0.5 * (low + high);
        (lowest(mid) < target_m ? low : high) = mid;
    }
    return high;
}

} // namespace

std::optional<Need> needOf(const SiteModel& model, const CaseSetting& setting, const std::string& name,
                           std::optional<double> returnKv_m3_h) {
    const SiteTree site = model.tree(setting, returnKv_m3_h);
    const PipeTree& tree = site.tree;
    std::vector<double> edgeFlow(tree.edges.size(), 0.0), needed(tree.outflows.size(), 0.0);
    double total_m3_s = 0.0;
    bool any = false;
    for (std::size_t i = 0; i < tree.outflows.size(); ++i) {
        if (site.outflows[i].kind != OutflowOf::Kind::zone) continue;
        any = true;
        needed[i] = limitHead_m(model, site.outflows[i].zone);
        const double flow = tree.outflows[i].law.flowAtHead_m3_s(needed[i]);
        total_m3_s += flow;
        for (int e = tree.outflows[i].edge; e >= 0; e = tree.edges[static_cast<std::size_t>(e)].parent) {
            edgeFlow[static_cast<std::size_t>(e)] += flow;
        }
    }
    if (!any) return std::nullopt;

    double root_m = -1e300;
    for (std::size_t i = 0; i < tree.outflows.size(); ++i) {
        if (site.outflows[i].kind != OutflowOf::Kind::zone) continue;
        double head_m = tree.outflows[i].level_m + needed[i];
        for (int e = tree.outflows[i].edge; e >= 0; e = tree.edges[static_cast<std::size_t>(e)].parent) {
            const TreeEdge& edge = tree.edges[static_cast<std::size_t>(e)];
            if (edge.regulator) {
                // What the regulator lets through is too little: no pump can help.
                if (head_m > edge.regulator->setLevel_m + 1e-6) return std::nullopt;
                head_m += edge.regulator->leastLoss_m;
            }
            head_m += edge.chain.at(edgeFlow[static_cast<std::size_t>(e)]).loss_m;
        }
        root_m = std::max(root_m, head_m);
    }
    // What the return passes at that head at the pump's outlet.
    for (std::size_t i = 0; i < tree.outflows.size(); ++i) {
        if (site.outflows[i].kind != OutflowOf::Kind::tankReturn) continue;
        const TreeEdge& edge = tree.edges[static_cast<std::size_t>(tree.outflows[i].edge)];
        double low = 0.0, high = 1.0;
        const auto lost = [&](double q) {
            return edge.chain.at(q).loss_m + tree.outflows[i].law.at(q).loss_m;
        };
        for (int k = 0; k < 80; ++k) {
            const double mid = 0.5 * (low + high);
            (lost(mid) < root_m - tree.outflows[i].level_m ? low : high) = mid;
        }
        total_m3_s += low;
    }
    const double pump_m = root_m - tree.sourceLevel_m + tree.suction.at(total_m3_s).loss_m;
    return Need{name, Flow::fromCubicMetresPerSecond(total_m3_s), Head::fromMetres(pump_m)};
}

} // namespace headmark
