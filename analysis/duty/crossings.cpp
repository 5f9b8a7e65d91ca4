#include "analysis/duty/crossings.h"

#include "analysis/duty/pump_model.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace headmark {

namespace {

constexpr int kLooksPerRisingPiece = 48;
constexpr double kFlowTolerance = 1e-11; // share of the chart's greatest flow

void note(const TreeSolution& s, Crossings& out) {
    out.iterations += s.iterations;
    out.energyResidual_m = std::max(out.energyResidual_m, s.energyResidual_m);
}

// One falling piece. Returns where the solution lies: -1 left of it, 0 inside (added), +1 right, 2 stalled.
int solveFalling(TreeSolver& solver, const PumpCurve& head, double factor, double from, double to,
                 Crossings& out) {
    const FallingHead source(head, factor, from, to);
    const TreeSolution& s = solver.solve(source);
    note(s, out);
    if (s.state != TreeSolution::State::converged) return 2;
    const double slack = 1e-9 * to;
    if (s.flow_m3_s > to + slack) return 1;
    const bool dead = s.flow_m3_s <= 0.0 && !solver.tree().outflows.empty();
    if (dead || s.flow_m3_s < from - slack) return -1;
    out.all.push_back({s.flow_m3_s, factor * head.at(s.flow_m3_s), true, s});
    return 0;
}

// What the tree draws at the pump's head there, less the flow: negative where the pump is too weak.
double excess(TreeSolver& solver, const PumpCurve& head, double factor, double flow, Crossings& out) {
    const TreeSolution& s = solver.demandAtHead(factor * head.at(flow));
    note(s, out);
    return s.flow_m3_s - flow;
}

struct Look {
    double flow, excess;
    [[nodiscard]] bool weak() const { return excess < 0.0; }
};

// Between two looks of one sign the excess may touch the other sign: golden section towards zero, until it
// does.
std::optional<Look> dipBetween(TreeSolver& solver, const PumpCurve& head, double factor, Look a, Look b,
                               Crossings& out) {
    constexpr double kGolden = 0.6180339887498949;
    constexpr int kSteps = 30;
    const bool weak = a.weak();
    const auto look = [&](double flow) { return Look{flow, excess(solver, head, factor, flow, out)}; };
    Look c = look(b.flow - kGolden * (b.flow - a.flow)), d = look(a.flow + kGolden * (b.flow - a.flow));
    for (int i = 0; i < kSteps; ++i) {
        if (c.weak() != weak) return c;
        if (d.weak() != weak) return d;
        if (std::abs(c.excess) < std::abs(d.excess)) {
            b = d;
            d = c;
            c = look(b.flow - kGolden * (b.flow - a.flow));
        } else {
            a = c;
            c = d;
            d = look(a.flow + kGolden * (b.flow - a.flow));
        }
    }
    return std::nullopt;
}

// The crossing between two looks of different sign, by bisection.
void closeIn(TreeSolver& solver, const PumpCurve& head, double factor, Look a, Look b, Crossings& out) {
    const bool stable =
        !a.weak(); // more drawn than pumped to the left of it: the flow grows towards it and stays
    while (b.flow - a.flow > kFlowTolerance * head.greatest_m3_s()) {
        const double mid = 0.5 * (a.flow + b.flow);
        const Look m{mid, excess(solver, head, factor, mid, out)};
        (m.weak() == a.weak() ? a : b) = m;
    }
    const double flow = 0.5 * (a.flow + b.flow);
    excess(solver, head, factor, flow, out);
    out.all.push_back({flow, factor * head.at(flow), stable, solver.solution()});
}

void solveRising(TreeSolver& solver, const PumpCurve& head, double factor, double from, double to,
                 Crossings& out) {
    std::vector<Look> looks;
    for (int i = 0; i <= kLooksPerRisingPiece; ++i) {
        const double q = i == kLooksPerRisingPiece ? to : from + (to - from) / kLooksPerRisingPiece * i;
        looks.push_back({q, excess(solver, head, factor, q, out)});
    }
    // No flow at no flow is not a duty point.
    if (from <= 0.0 && looks.front().excess <= 0.0) looks.front().excess = -1e-15;
    std::vector<Look> dips;
    for (std::size_t i = 1; i + 1 < looks.size(); ++i) {
        const Look &a = looks[i - 1], &m = looks[i], &b = looks[i + 1];
        const bool oneSign = a.weak() == m.weak() && m.weak() == b.weak();
        if (!oneSign || std::abs(m.excess) > std::abs(a.excess) || std::abs(m.excess) > std::abs(b.excess))
            continue;
        if (const auto dip = dipBetween(solver, head, factor, a, b, out)) dips.push_back(*dip);
    }
    looks.insert(looks.end(), dips.begin(), dips.end());
    std::sort(looks.begin(), looks.end(), [](const Look& a, const Look& b) { return a.flow < b.flow; });
    for (std::size_t i = 1; i < looks.size(); ++i) {
        if (looks[i - 1].weak() != looks[i].weak())
            closeIn(solver, head, factor, looks[i - 1], looks[i], out);
    }
}

// Every outlet shut: the pump stands at its shut-off head.
Crossings noOutflow(TreeSolver& solver, const PumpCurve& head, double factor) {
    Crossings out;
    if (head.contains(0.0)) {
        const TreeSolution& s = solver.demandAtHead(factor * head.at(0.0));
        out.all.push_back({0.0, factor * head.at(0.0), true, s});
    } else {
        out.miss = Miss::belowRange;
    }
    return out;
}

Miss missOf(int where, const PumpCurve& head) {
    if (where == 2) return Miss::notConverged;
    if (where > 0) return Miss::aboveRange;
    return head.contains(0.0) ? Miss::pumpTooWeak : Miss::belowRange;
}

} // namespace

const Crossing* Crossings::duty() const {
    const auto found = std::find_if(all.rbegin(), all.rend(), [](const Crossing& c) { return c.stable; });
    return found == all.rend() ? nullptr : &*found;
}

Crossings findDutyOnFallingCurve(TreeSolver& solver, const PumpCurve& head, double factor) {
    if (solver.tree().outflows.empty()) return noOutflow(solver, head, factor);
    Crossings out;
    const int where =
        solveFalling(solver, head, factor, std::max(0.0, head.least_m3_s()), head.greatest_m3_s(), out);
    if (where != 0) out.miss = missOf(where, head);
    return out;
}

Crossings findCrossings(TreeSolver& solver, const PumpCurve& head, double factor) {
    const std::vector<double> turns = head.turningPoints();
    if (solver.tree().outflows.empty()) return noOutflow(solver, head, factor);
    std::vector<double> ends{std::max(0.0, head.least_m3_s())};
    for (double t : turns) {
        if (t > ends.front()) ends.push_back(t);
    }
    ends.push_back(head.greatest_m3_s());

    Crossings out;
    int last = -1;
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
        const bool rises = head.at(ends[i + 1]) > head.at(ends[i]);
        if (rises) {
            solveRising(solver, head, factor, ends[i], ends[i + 1], out);
            last = excess(solver, head, factor, ends[i + 1], out) > 0.0 ? 1 : -1;
        } else {
            last = solveFalling(solver, head, factor, ends[i], ends[i + 1], out);
        }
    }
    if (out.all.empty()) out.miss = missOf(last, head);
    return out;
}

} // namespace headmark
