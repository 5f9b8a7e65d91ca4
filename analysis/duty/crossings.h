#pragma once
// Every place where a pump's head curve meets the system curve within the flows the chart was read over.
// Where the head curve falls there is at most one; it is solved directly. Where it rises (a drooping curve)
// the difference between what the tree draws at the curve's head and the flow itself is looked at in steps
// and every change of sign closed in on; where it only dips towards zero between two looks, the dip is
// searched. Stable: the system curve is the steeper one there, so that a disturbance dies out.

#include "analysis/curve/pump_curve.h"
#include "analysis/pipework/tree_solver.h"

#include <vector>

namespace headmark {

struct Crossing {
    double flow_m3_s = 0.0;
    double head_m = 0.0;
    bool stable = true;
    TreeSolution solution; // flows and heads of the whole tree there
};

enum class Miss {
    none,
    pumpTooWeak, // nowhere enough head: the static head is above what the curve reaches
    belowRange,  // the meeting point lies left of the flows read
    aboveRange,  // it lies right of them
    notConverged
};

struct Crossings {
    std::vector<Crossing> all; // ascending flow
    Miss miss = Miss::none;    // why `all` is empty
    int iterations = 0;
    double energyResidual_m = 0.0;

    // The stable crossing at the highest flow, or null.
    [[nodiscard]] const Crossing* duty() const;
};

// `factor` multiplies the head (as delivered). The solver keeps its last solution as the next start.
[[nodiscard]] Crossings findCrossings(TreeSolver& solver, const PumpCurve& head, double factor = 1.0);

// Only the duty point, where the head curve is known to fall throughout: one solve.
[[nodiscard]] Crossings findDutyOnFallingCurve(TreeSolver& solver, const PumpCurve& head,
                                               double factor = 1.0);

} // namespace headmark
