#include "analysis/practice/motor_current.h"

#include "analysis/core/assertion.h"

#include <numbers>

namespace headmark {

double motorCurrent_A(Power input, int phases, double volts, double powerFactor) {
    HEADMARK_ASSERT((phases == 1 || phases == 3) && volts > 0.0 && powerFactor > 0.0, "a supply as offered");
    return input.inWatts() / ((phases == 3 ? std::numbers::sqrt3 : 1.0) * volts * powerFactor);
}

} // namespace headmark
