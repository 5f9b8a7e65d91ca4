#pragma once
// The middle one of some values; the upper of the two middle ones where their number is even. 0 of nothing.
// And what it says of a scatter about zero that is normal but for outliers: one sigma.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace headmark {

[[nodiscard]] inline double medianOf(std::vector<double> values) {
    if (values.empty()) return 0.0;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

[[nodiscard]] inline double normalSpreadOf(std::vector<double> off) {
    for (double& one : off)
        one = std::abs(one);
    constexpr double kMedianToSigma = 1.4826;
    return kMedianToSigma * medianOf(std::move(off));
}

} // namespace headmark
