#include "analysis/practice/submergence.h"

#include "analysis/core/assertion.h"

#include <cmath>

namespace headmark {

Length leastSubmergence(Length mouth, Velocity through) {
    const double d_m = mouth.inMetres();
    HEADMARK_ASSERT(d_m > 0.0, "a mouth has a bore");
    const double froude =
        std::abs(through.inMetresPerSecond()) / std::sqrt(factor::kStandardGravity_m_s2 * d_m);
    return Length::fromMetres(d_m * (1.0 + 2.3 * froude));
}

} // namespace headmark
