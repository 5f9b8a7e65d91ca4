#include "analysis/irrigation/uniformity.h"

#include <algorithm>
#include <cmath>

namespace headmark {

double emissionUniformityShare(const UniformityInputs& in) {
    if (in.meanFlow_m3_s <= 0.0) return 0.0;
    constexpr double kLowestQuarter = 1.27; // ASABE EP405.1
    const double alike = 1.0 - kLowestQuarter * in.variationShare / std::sqrt(in.emittersPerPlant);
    return std::max(0.0, alike) * in.lowestFlow_m3_s / in.meanFlow_m3_s;
}

} // namespace headmark
