#pragma once
// Where the solver of a mapping begins: each model's parameters by plain linear least squares, sigmas of the
// pins apart. Pins without a flow or a value help with the figure they have.

#include "analysis/chart/mapping.h"
#include "analysis/chart/pin_residuals.h"

#include <optional>
#include <vector>

namespace headmark::mapping_detail {

// Places of r0 and r1 among the parameters.
inline constexpr std::size_t kRight0 = 8, kRight1 = 9;

[[nodiscard]] MappingParameters uprightStart(const std::vector<ScaledPin>& pins, bool rightIsOwnScale);

// Empty where the pins do not determine it.
[[nodiscard]] std::optional<MappingParameters> affineStart(const std::vector<ScaledPin>& pins,
                                                           bool rightIsOwnScale);
[[nodiscard]] std::optional<MappingParameters> perspectiveStart(const std::vector<ScaledPin>& pins,
                                                                const MappingParameters& near);

} // namespace headmark::mapping_detail
