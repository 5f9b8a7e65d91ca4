#pragma once
// The inner problem of mapping.h: scaled pins in, parameters out. All in scaled units (paper and pixels about
// [-1, 1]); the only place of the mapping that knows the solver.
//   full pin   r = ((x, y)_model(u, v) - (x, y))/sigma, two residuals
//   half pin   r = distance of (x, y) from the line u = const (or v = const)/sigma, one residual

#include "analysis/chart/mapping.h"

#include <Eigen/Core>

#include <cstddef>
#include <optional>
#include <vector>

namespace headmark::mapping_detail {

struct ScaledPin {
    double x = 0.0, y = 0.0, sigma = 1.0;
    std::optional<double> u, v; // v in the scale of the pin's own axis
    bool onOwnScale = false;    // v = r0 + r1 (this v)
};

struct PinSolution {
    MappingParameters parameters{};
    double chiSquare = 0.0;
    Eigen::MatrixXd jacobian; // residuals x free parameters
};

// Least squares from `start`, the parameters not in `free` held. None where it does not settle.
[[nodiscard]] std::optional<PinSolution> settle(const std::vector<ScaledPin>& pins,
                                                const std::vector<std::size_t>& free,
                                                const MappingParameters& start);

// (J'J)^-1 by singular values; none where the pins leave a parameter open.
[[nodiscard]] std::optional<Eigen::MatrixXd> covarianceFrom(const Eigen::MatrixXd& jacobian);

// How far the pin lies from where its figures put it, scaled pixels; 0 for a pin without figures.
[[nodiscard]] double distanceOf(const ScaledPin& pin, const MappingParameters& parameters);

} // namespace headmark::mapping_detail
