#pragma once
// How fast a pump heats its water.
//   through the pump   dT = (g H/cp)(1/efficiency - 1)
//   shut in            dT/dt = P/(m cp)       all shaft power stays in the casing's water
//   a return that carries the heat away at a rise of dT passes Q = P/(rho cp dT)
// cp = 4184 J/(kg K), water near 20 C. Source: Karassik, Pump Handbook, minimum flow (from memory); the
// worked figures are checked in tests/published. Heat lost through the casing is left out: the careful side.

#include "analysis/units/quantities.h"

namespace headmark {

inline constexpr double kHeatOfWater_J_kgK = 4184.0;

// Kelvin. Efficiency above 0.
[[nodiscard]] double temperatureRise_K(Head head, Efficiency efficiency);
// Kelvin per minute.
[[nodiscard]] double shutInHeating_K_min(Power shaft, double water_kg);
[[nodiscard]] Flow returnFlowForRise(Power shaft, Density density, double rise_K);

} // namespace headmark
