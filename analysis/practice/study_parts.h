#pragma once
// What several studies need of a site: heads as pressures, bores, the strongest flow asked of the pump.

#include "analysis/practice/installation.h"
#include "analysis/practice/motor_catalogue.h"

#include <numbers>

namespace headmark {

inline constexpr double kStudyGravity_m_s2 = factor::kStandardGravity_m_s2;

[[nodiscard]] inline double areaOf_m2(double bore_m) { return std::numbers::pi / 4.0 * bore_m * bore_m; }

[[nodiscard]] inline double pressureOfHead_kPa(double head_m, Density density) {
    return head_m * density.inKilogramsPerCubicMetre() * kStudyGravity_m_s2 / 1e3;
}

// Water in a run's pipes; m3.
[[nodiscard]] double volumeOf_m3(const std::vector<Element>& run);

// The head against shut valves at full running speed of the strongest pump that may be delivered: whatever a
// job asks the cases to be judged by, since what it bursts harms people, and a drive may fail to slow it
// down.
[[nodiscard]] double strongestShutOff_m(const CaseSolver& solver);

// Of one case, the high end of delivery included; 0 without a duty.
[[nodiscard]] double greatestOf_m3_s(const CaseAnswer& answer);

// The greatest flow through the pump in any case of use (not while the main fills), the high end of delivery
// included; 0 without a duty.
[[nodiscard]] double greatestDuty_m3_s(std::span<const CaseAnswer> cases);

// The same behind the tank return: the flow of the main.
[[nodiscard]] double greatestDelivered_m3_s(std::span<const CaseAnswer> cases);

// Volts and phases of the motor's supply, as the plate or its words tell; of one that is not said what is
// usual with the other.
[[nodiscard]] std::optional<MotorSupply> supplyOf(const PumpModel& pump, std::optional<double> volts,
                                                  std::optional<int> phases);
[[nodiscard]] std::optional<MotorSupply> supplyOf(const InstallationQuestion& question);

// Of the place where a branch leaves the main, where a pipe of the main up to there says it.
[[nodiscard]] std::optional<double> takeoffLevel_m(const SiteModel& model, const std::string& takeoff);

// No zone open, nothing filling: the answer of that case, or null.
[[nodiscard]] const CaseAnswer* shutInCase(std::span<const CaseAnswer> cases);

} // namespace headmark
