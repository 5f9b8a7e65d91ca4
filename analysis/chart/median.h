#pragma once
// The middle one of some values; the upper of the two middle ones where their number is even. 0 of nothing.

#include <algorithm>
#include <cstddef>
#include <vector>

namespace headmark {

[[nodiscard]] inline double medianOf(std::vector<double> values) {
    if (values.empty()) return 0.0;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

} // namespace headmark
