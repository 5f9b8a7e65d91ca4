#pragma once
// From pixels to the printed figures of a chart, from its pins.
//   u = (s(flow) - centre)/halfRange, v likewise for the left value axis; s is the identity or log10
//   upright      x = a0 + a1 u              y = b0 + b2 v
//   affine       x = a0 + a1 u + a2 v       y = b0 + b1 u + b2 v
//   perspective  x = (a0 + a1 u + a2 v)/w   y = (b0 + b1 u + b2 v)/w   with w = 1 + c1 u + c2 v
//   right axis   v = r0 + r1 s(value) scaled likewise: the same paper, another scale
// A pin's clicked pixel is the measurement, sigma_px in each direction; a pin without flow (or value) has that
// coordinate as an unknown of its own. Maximum likelihood by Ceres, covariance from the pins' sigmas alone
// (not scaled by the residuals), so that it says what the clicking allows.
// Model left out: the simplest whose residuals the pins' sigmas explain (chi-square at kModelSignificance).
// Where no model explains the pins, the one of the least reduced chi-square, with the covariance scaled up by
// it, and `pinsDisagree`.

#include "analysis/chart/reading.h"
#include "analysis/core/result.h"

#include <Eigen/Core>

#include <optional>
#include <vector>

namespace headmark {

// In the chart's printed units.
struct AxisPoint {
    double flow = 0.0, value = 0.0;
};

class ChartMapping {
  public:
    [[nodiscard]] MappingModel model() const { return model_; }

    // A pixel to printed figures. Total for upright and affine; for perspective, pixels beyond the vanishing
    // line have no meaning (asserted finite within the page by solveMapping).
    [[nodiscard]] AxisPoint axisFromPixel(PixelPoint at, ValueAxis axis) const;
    [[nodiscard]] PixelPoint pixelFromAxis(AxisPoint at, ValueAxis axis) const;

    // d(flow, value)/d(x, y) at a pixel, printed units per pixel.
    [[nodiscard]] Eigen::Matrix2d axisByPixel(PixelPoint at, ValueAxis axis) const;
    // d(flow, value)/d(parameters) at a fixed pixel: 2 x parameters.
    [[nodiscard]] Eigen::Matrix2Xd axisByParameters(PixelPoint at, ValueAxis axis) const;
    // Of the free parameters, latent coordinates of half pins left out.
    [[nodiscard]] const Eigen::MatrixXd& covariance() const { return covariance_; }
    // One sigma of (flow, value) at a pixel from the pins' errors alone, as a 2 x 2 covariance.
    [[nodiscard]] Eigen::Matrix2d axisCovariance(PixelPoint at, ValueAxis axis) const;

    [[nodiscard]] const std::vector<double>& pinResiduals_px() const { return pinResiduals_px_; }
    [[nodiscard]] double rms_px() const { return rms_px_; }
    // The pins lie farther from where they should than their sigmas allow.
    [[nodiscard]] bool pinsDisagree() const { return pinsDisagree_; }
    [[nodiscard]] double chiSquare() const { return chiSquare_; }
    [[nodiscard]] int degreesOfFreedom() const { return degreesOfFreedom_; }

  private:
    friend class MappingSolver;
    MappingModel model_ = MappingModel::upright;
    // to be completed by the implementation: scales, parameters
    Eigen::MatrixXd covariance_;
    std::vector<double> pinResiduals_px_;
    double rms_px_ = 0.0, chiSquare_ = 0.0;
    int degreesOfFreedom_ = 0;
    bool pinsDisagree_ = false;
};

// Errors, place "pins" or "pins[2].value":
//   "too-few-pinned" (what: flow, left or right; found)     fewer than two different figures on an axis in use
//   "not-on-log-scale" (found)                               a figure not above zero on a log axis
//   "pins-in-a-row" (none)          the clicked pixels do not span the paper in both directions
//   "pins-too-close" (what, distance_px)   two figures of an axis pinned nearly at one place
//   "mapping-needs-pins" (model, pins, needed)   a forced model has more unknowns than the pins have figures
//   "mapping-not-found" (model)     the solver did not settle
[[nodiscard]] Result<ChartMapping> solveMapping(const Reading& reading);

} // namespace headmark
