#pragma once
// Current a motor draws.
//   single phase  I = P/(V cos phi)      three phases  I = P/(sqrt(3) V cos phi)     P: electrical input
// Steady state only; a direct start draws several times as much for a moment.

#include "analysis/units/quantities.h"

namespace headmark {

// Amperes. `phases` 1 or 3; volts and power factor above 0.
[[nodiscard]] double motorCurrent_A(Power input, int phases, double volts, double powerFactor);

} // namespace headmark
