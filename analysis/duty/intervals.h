#pragma once
// 95 % intervals of a duty point from what the site description and the chart's reading do not know exactly.
// Never mixed with what the maker may deliver.
//   linear:      u^2 = sum (df/dp_j sigma_j)^2, derivatives by central differences over +-1 sigma, through
//   the whole
//                tree; the head curve's own error enters by its sigma at the duty point (JCGM
//                100:2008, 5.1.2)
//   Monte Carlo: draws of every parameter and of the curve's coefficients (JCGM 101:2008), 2.5 and 97.5
//   percentiles;
//                slower, for checking and for strongly bent cases
// The NPSH margin takes in the error of the curve of NPSH required as well.
// Simplification: the errors of head and NPSH required count as independent, though both may come from one
// chart and share its pins. Efficiency and power have no intervals yet.
// The half width of the linear interval is 1.96 u (normal).

#include "analysis/duty/case_solver.h"

#include <cstdint>

namespace headmark {

struct DutyIntervals {
    bool ok = false; // false: no duty, or a draw by one sigma already loses it
    Interval95<Flow> flow;
    Interval95<Head> head;
    Interval95<Head> npshAvailable;
    std::optional<Interval95<Head>> npshMargin;
    int draws = 0;     // Monte Carlo: draws that had a duty
    int lostDraws = 0; // draws whose duty left the chart or the pump's reach
};

[[nodiscard]] DutyIntervals linearIntervals(const CaseSolver& solver, const Case& setting);

[[nodiscard]] DutyIntervals monteCarloIntervals(const CaseSolver& solver, const Case& setting, int draws,
                                                std::uint32_t seed);

} // namespace headmark
