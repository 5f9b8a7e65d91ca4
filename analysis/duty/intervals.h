#pragma once
// 95 % intervals of a duty point from what the site description and the chart's reading do not know exactly.
// Never mixed with what the maker may deliver.
//   linear:      u^2 = sum (df/dp_j sigma_j)^2, derivatives by central differences over +-1 sigma, through
//                the whole tree; each curve's own error enters by its sigma at the duty flow, the whole curve
//                moved up and down by it (JCGM 100:2008, 5.1.2)
//   Monte Carlo: draws of every parameter and of every curve's coefficients (JCGM 101:2008), 2.5 and 97.5
//                percentiles; slower, for checking and for strongly bent cases
// The figures: flow, head, NPSH available and its margin, efficiency, shaft power, power from the supply.
// Each moves with the duty flow, and with the curve it is read from. A power that follows from the efficiency
// takes in the errors of head and efficiency, an efficiency that follows from the power those of head and
// power. Simplifications: the errors of several curves count as independent, though lines of one chart share
// its pins; the motor's efficiency counts as exact. The half width of the linear interval is 1.96 u (normal).
// No power and no efficiency goes below zero.

#include "analysis/duty/case_solver.h"

#include <cstdint>

namespace headmark {

struct DutyIntervals {
    bool ok = false; // false: no duty, or a draw by one sigma already loses it
    Interval95<Flow> flow;
    Interval95<Head> head;
    Interval95<Head> npshAvailable;
    std::optional<Interval95<Head>> npshMargin;
    std::optional<Interval95<Efficiency>>
        efficiency; // empty: no curve tells, or only on one side of the duty
    std::optional<Interval95<Power>> shaft, input;
    int draws = 0;     // Monte Carlo: draws that had a duty
    int lostDraws = 0; // draws whose duty left the chart or the pump's reach
};

[[nodiscard]] DutyIntervals linearIntervals(const CaseSolver& solver, const Case& setting);

[[nodiscard]] DutyIntervals monteCarloIntervals(const CaseSolver& solver, const Case& setting, int draws,
                                                std::uint32_t seed);

} // namespace headmark
