#include "analysis/duty/crossings.h"

#include "analysis/duty/pump_model.h"

#include <algorithm>
#include <cmath>

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

void solveRising(TreeSolver& solver, const PumpCurve& head, double factor, double from, double to, Crossings& out) {
    const double step = (to - from) / kLooksPerRisingPiece;
    double a = from, fa = excess(solver, head, factor, a, out);
    if (from <= 0.0 && fa <= 0.0) fa = -1e-15; // no flow at no flow is not a duty point
    for (int i = 1; i <= kLooksPerRisingPiece; ++i) {
        const double b = i == kLooksPerRisingPiece ? to : from + i * step;
        const double fb = excess(solver, head, factor, b, out);
        if ((fa < 0.0) != (fb < 0.0)) {
            double lo = a, hi = b, flo = fa;
            while (hi - lo > kFlowTolerance * head.greatest_m3_s()) {
                const double mid = 0.5 * (lo + hi);
                const double fm = excess(solver, head, factor, mid, out);
                if ((fm < 0.0) == (flo < 0.0)) {
                    lo = mid;
                    flo = fm;
                } else {
                    hi = mid;
                }
            }
            const double flow = 0.5 * (lo + hi);
            excess(solver, head, factor, flow, out);
            // More drawn than pumped to the left of it: the flow grows towards the crossing and stays.
            out.all.push_back({flow, factor * head.at(flow), fa > 0.0, solver.solution()});
        }
        a = b;
        fa = fb;
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
    const int where = solveFalling(solver, head, factor, std::max(0.0, head.least_m3_s()), head.greatest_m3_s(), out);
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
