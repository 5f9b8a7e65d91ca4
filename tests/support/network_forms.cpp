#include "support/network_forms.h"

#include "analysis/pipework/element.h"

#include <algorithm>
#include <cmath>

namespace headmark::testing {

namespace {

Run runOf(const reference::Way& way, const std::optional<reference::Regulator>& regulator,
          double pascalsPerMetre) {
    Run run;
    for (const auto& p : way.pipes) {
        PipeItem pipe;
        pipe.kind.bore = Length::fromMetres(p.bore_m);
        pipe.kind.roughness = Length::fromMetres(p.roughness_m);
        pipe.length = Length::fromMetres(p.length_m);
        run.emplace_back(pipe);
    }
    for (const auto& f : way.fittings) {
        FittingItem fitting;
        fitting.k = f.k;
        fitting.bore = Length::fromMetres(f.bore_m);
        run.emplace_back(fitting);
    }
    for (double kv : way.kv_m3_h) {
        FittingItem fitting;
        fitting.kv_m3_h = kv;
        run.emplace_back(fitting);
    }
    for (const auto& f : way.filters) {
        FilterItem filter;
        filter.loss = Pressure::fromPascals(f.loss_m * pascalsPerMetre);
        filter.at = Flow::fromCubicMetresPerSecond(f.at_m3_s);
        filter.exponent = f.exponent;
        run.emplace_back(filter);
    }
    if (regulator) {
        RegulatorItem item;
        item.set = GaugePressure::fromPascals(regulator->set_m * pascalsPerMetre);
        item.leastLoss = Pressure::fromPascals(regulator->leastLoss_m * pascalsPerMetre);
        run.emplace_back(item);
    }
    return run;
}

} // namespace

PipeTree pipeTreeOf(const reference::Network& network) {
    ElementContext context;
    context.density = Density::fromKilogramsPerCubicMetre(kNetworkDensity_kg_m3);
    context.viscosity = KinematicViscosity::fromSquareMetresPerSecond(network.viscosity_m2_s);
    const double pascalsPerMetre = kNetworkDensity_kg_m3 * network.gravity_m_s2;
    PipeTree tree;
    tree.sourceLevel_m = network.sourceLevel_m;
    const auto fill = [&](const reference::Way& way, const std::optional<reference::Regulator>& raw,
                          Chain& chain, std::optional<Regulator>& regulator) {
        const auto elements = elementsOf(runOf(way, raw, pascalsPerMetre), context);
        for (const Element& element : elements.value()) {
            if (element.kind == ElementKind::regulator) {
                regulator = Regulator{raw->level_m + element.set_m, element.leastLoss_m};
            } else {
                chain.add(element, context, FilterState::clean, 0.0);
            }
        }
        chain.addCrack(way.crack_m);
    };
    std::optional<Regulator> none;
    fill(network.suction, {}, tree.suction, none);
    for (const auto& branch : network.branches) {
        tree.edges.push_back({});
        tree.edges.back().parent = branch.parent;
        fill(branch.way, branch.regulator, tree.edges.back().chain, tree.edges.back().regulator);
    }
    for (const auto& outlet : network.outlets) {
        TreeOutflow outflow;
        outflow.edge = outlet.branch;
        outflow.level_m = outlet.level_m;
        outflow.law.kind = outlet.compensating ? OutflowLaw::Kind::compensating : OutflowLaw::Kind::power;
        outflow.law.flowAt_m3_s = outlet.flowAt_m3_s;
        outflow.law.headAt_m = outlet.headAt_m;
        outflow.law.inverseExponent = 1.0 / outlet.exponent;
        tree.outflows.push_back(outflow);
    }
    return tree;
}

LossAt PolynomialHead::at(double flow_m3_s) const {
    const double q = flow_m3_s / together_;
    double head = 0.0, slope = 0.0;
    for (std::size_t k = coefficients_.size(); k-- > 0;) {
        slope = slope * q + head;
        head = head * q + coefficients_[k];
    }
    return {head, slope / together_};
}

namespace {

// The generator's dice.
struct Dice {
    std::mt19937_64& random;
    double between(double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    }
    bool chance(double share) { return between(0.0, 1.0) < share; }
    int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); }
};

double boreFor_m(double flow_m3_s, double velocity_m_s) {
    return std::sqrt(flow_m3_s / velocity_m_s / 0.7854);
}

reference::Way wayFor(Dice& dice, double flow_m3_s, double longest_m) {
    reference::Way way;
    const double bore = boreFor_m(flow_m3_s, dice.between(0.2, 2.0));
    const double roughness = dice.chance(0.7) ? dice.between(1e-6, 1e-5) : dice.between(5e-5, 3e-4);
    way.pipes.push_back({bore, dice.between(1.0, longest_m), roughness});
    if (dice.chance(0.3))
        way.pipes.push_back({bore * dice.between(0.8, 1.0), dice.between(1.0, 10.0), roughness});
    if (dice.chance(0.5)) way.fittings.push_back({dice.between(0.2, 6.0), bore});
    if (dice.chance(0.3)) way.kv_m3_h.push_back(flow_m3_s * 3600.0 * dice.between(1.5, 6.0));
    if (dice.chance(0.15)) way.crack_m = dice.between(0.1, 1.5);
    return way;
}

struct Grower {
    Dice dice;
    reference::Network n;

    int branch(int parent, double flow_m3_s, double longest_m, double level_m, double regulated) {
        reference::Branch b;
        b.parent = parent;
        b.way = wayFor(dice, flow_m3_s, longest_m);
        if (dice.chance(regulated)) b.regulator = {level_m, dice.between(6.0, 25.0), dice.between(0.0, 1.5)};
        n.branches.push_back(b);
        return static_cast<int>(n.branches.size()) - 1;
    }

    void zone(int at, double flow_m3_s) {
        reference::Outlet o;
        o.level_m = dice.chance(0.08) ? dice.between(40.0, 90.0) : dice.between(-3.0, 9.0);
        o.branch = branch(at, flow_m3_s, 60.0, o.level_m, 0.3);
        if (dice.chance(0.2)) o.branch = branch(o.branch, flow_m3_s, 20.0, o.level_m, 0.1);
        o.flowAt_m3_s = flow_m3_s;
        o.headAt_m = dice.between(4.0, 20.0);
        o.compensating = dice.chance(0.25);
        o.exponent = o.compensating ? 0.5 : dice.chance(0.4) ? 0.5 : dice.between(0.4, 1.0);
        n.outlets.push_back(o);
    }
};

} // namespace

reference::Network randomNetwork(std::mt19937_64& random, int leastZones, int mostZones) {
    Grower g{{random}, {}};
    Dice& dice = g.dice;
    const int zones = dice.whole(leastZones, mostZones);
    std::vector<double> flows;
    double left = 0.0;
    for (int i = 0; i < zones; ++i) {
        flows.push_back(dice.between(0.2, 6.0) / 3600.0);
        left += flows.back();
    }
    const double total = left;
    g.n.viscosity_m2_s = dice.between(0.6e-6, 1.7e-6);
    g.n.sourceLevel_m = dice.between(-5.0, 2.0);
    g.n.suction = wayFor(dice, total, 10.0);
    if (dice.chance(0.3)) {
        reference::Branch back;
        back.way.pipes.push_back({0.0155, dice.between(3.0, 15.0), 7e-6});
        back.way.kv_m3_h.push_back(dice.between(0.1, 1.0));
        g.n.branches.push_back(back);
        // the velocity head of the return's bore at 1 l/s
        const double v = 1e-3 / (0.7853981633974483 * 0.0155 * 0.0155);
        g.n.outlets.push_back({0, g.n.sourceLevel_m, 1e-3, v * v / (2.0 * 9.80665), 0.5, false});
    }
    int main = g.branch(-1, left, 120.0, 0.0, 0.1);
    if (dice.chance(0.5)) {
        g.n.branches.back().way.filters.push_back({dice.between(0.5, 4.0), total, dice.between(1.6, 2.0)});
    }
    for (int next = 0; next < zones;) {
        const int here = std::min(zones - next, dice.chance(0.4) ? dice.whole(2, 5) : 1);
        double flow = 0.0;
        for (int i = 0; i < here; ++i)
            flow += flows[static_cast<std::size_t>(next + i)];
        // Several zones here may have a sub-main of their own.
        const int at =
            here > 1 && dice.chance(0.7) ? g.branch(main, flow, 80.0, dice.between(-2.0, 4.0), 0.3) : main;
        for (int i = 0; i < here; ++i)
            g.zone(at, flows[static_cast<std::size_t>(next + i)]);
        next += here;
        left -= flow;
        if (next < zones) main = g.branch(main, left, 60.0, dice.between(0.0, 3.0), 0.05);
    }
    const double shutOff = dice.between(25.0, 55.0), rated = total * dice.between(0.5, 1.6);
    const double linear = dice.between(0.0, 0.2), cubic = dice.between(0.0, 0.15);
    const double square = dice.between(0.05, 0.45);
    g.n.pump = {shutOff, -linear * shutOff / rated, -square * shutOff / (rated * rated),
                -cubic * shutOff / (rated * rated * rated)};
    return g.n;
}

reference::Network plainNetwork(int zones, int partsPerWay) {
    reference::Network n;
    const double each = 2.0 / 3600.0;
    const double total = each * zones;
    n.sourceLevel_m = -1.5;
    n.suction.pipes.push_back({boreFor_m(total, 1.0), 6.0, 7e-6});
    n.suction.fittings.push_back({2.0, n.suction.pipes[0].bore_m});
    int main = -1;
    for (int z = 0; z < zones; ++z) {
        reference::Branch b;
        b.parent = main;
        const double behind = each * (zones - z);
        b.way.pipes.push_back({boreFor_m(behind, 1.2), 12.0, 7e-6});
        for (int k = 1; k < partsPerWay; ++k)
            b.way.fittings.push_back({0.5, b.way.pipes[0].bore_m});
        n.branches.push_back(b);
        main = static_cast<int>(n.branches.size()) - 1;
        reference::Branch side;
        side.parent = main;
        side.way.pipes.push_back({boreFor_m(each, 1.2), 20.0, 7e-6});
        for (int k = 1; k < partsPerWay; ++k)
            side.way.fittings.push_back({0.8, side.way.pipes[0].bore_m});
        n.branches.push_back(side);
        const int end = static_cast<int>(n.branches.size()) - 1;
        n.outlets.push_back({end, 0.1 * (z % 7), each, 10.0, 0.5, false});
    }
    n.pump = {42.0, 0.0, -20.0 / (total * total)};
    return n;
}

} // namespace headmark::testing
