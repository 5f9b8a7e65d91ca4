#pragma once
// What several studies need of a site: heads as pressures, bores, the strongest flow asked of the pump.

#include "analysis/practice/installation.h"

#include <numbers>

namespace headmark {

inline constexpr double kStudyGravity_m_s2 = factor::kStandardGravity_m_s2;

[[nodiscard]] inline double areaOf_m2(double bore_m) { return std::numbers::pi / 4.0 * bore_m * bore_m; }

[[nodiscard]] inline double pressureOfHead_kPa(double head_m, Density density) {
    return head_m * density.inKilogramsPerCubicMetre() * kStudyGravity_m_s2 / 1e3;
}

// Water in a run's pipes; m3.
[[nodiscard]] double volumeOf_m3(const std::vector<Element>& run);

// The pump at its running speed and the head it holds against shut valves, as delivered at most.
[[nodiscard]] double strongestShutOff_m(const CaseSolver& solver);

// The greatest flow through the pump in any case of use (not while the main fills), the high end of delivery
// included; 0 without a duty.
[[nodiscard]] double greatestDuty_m3_s(std::span<const CaseAnswer> cases);

// No zone open, nothing filling: the answer of that case, or null.
[[nodiscard]] const CaseAnswer* shutInCase(std::span<const CaseAnswer> cases);

} // namespace headmark
