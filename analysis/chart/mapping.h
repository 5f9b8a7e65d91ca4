#pragma once
// From pixels to the printed figures of a chart, from its pins.
//   u = (s(flow) - centre)/halfRange, v likewise for the left value axis; s is the identity or log10
//   upright      x = a0 + a1 u              y = b0 + b2 v
//   affine       x = a0 + a1 u + a2 v       y = b0 + b1 u + b2 v
//   perspective  x = (a0 + a1 u + a2 v)/w   y = (b0 + b1 u + b2 v)/w   with w = 1 + c1 u + c2 v
//   right axis   v = r0 + r1 s(value) scaled likewise: the same paper, another scale
// x, y are themselves pixels scaled to about [-1, 1] over the pins, one scale for both directions.
// A pin's clicked pixel is the measurement, sigma_px in each direction; a pin without flow (or value) has
// that coordinate as an unknown of its own: all three models keep straight lines straight, so the best such
// coordinate is the foot of the perpendicular on the line of its known figure, and what is left of the pin is
// one distance. Without left values the right axis is the paper's own and r0, r1 fall away.
// Maximum likelihood by Ceres, covariance from the pins' sigmas alone
// (not scaled by the residuals), so that it says what the clicking allows.
// Rulings whose figures are known (ruling_figures.h) enter as pins without the other figure, a few along
// each, with the scatter the page itself shows (ruling_scatter.h), one that lies far off the others left out;
// where the pins then lie within five of their sigmas, that mapping is taken. What is left of curled paper is
// a smooth warp on top (paper_warp.h), du and dv as polynomials of (u, v); pins of a right axis that stand on
// rulings are taken for these. Covariance then holds what all places share as well (PageDrift). Model left
// out: the simplest from which no richer one takes away more chi-square than chance does (levels and why in
// mapping_solver.cpp). Where chance explains the pins under no model (0.001), the model of the least reduced
// chi-square, with the covariance scaled up by it, and `pinsDisagree`.

#include "analysis/chart/reading.h"
#include "analysis/core/result.h"

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

namespace headmark {

// In the chart's printed units.
struct AxisPoint {
    double flow = 0.0, value = 0.0;
};

// One printed scale as the model sees it: scaled = (s(figure) - centre)/halfRange.
struct ScaledAxis {
    AxisScale scale = AxisScale::linear;
    double centre = 0.0, halfRange = 0.0; // of s(figure); halfRange 0: no such axis on this chart

    [[nodiscard]] double scaledFrom(double figure) const;
    [[nodiscard]] double figureFrom(double scaled) const;
    [[nodiscard]] double figureByScaled(double scaled) const; // derivative of the above
};

// a0 a1 a2 b0 b1 b2 c1 c2 r0 r1; those the model does not have are zero (r1: one).
inline constexpr std::size_t kMappingParameters = 10;
using MappingParameters = std::array<double, kMappingParameters>;

// A ruling of the grid at a known flow (upright) or value, at some places along it.
struct KnownRuling {
    bool upright = false;
    double figure = 0.0;
    std::vector<PixelPoint> places;
    std::optional<double> right = std::nullopt; // of a level one that a right axis has a mark on
};

// The correction for curled paper: u + sum cu_k T_k(u, v) and likewise v, T_k products of powers of u and v
// up to the fourth together; none beyond the rulings (held at their rim).
class SmoothWarp {
  public:
    static constexpr int kDegree = 4, kTerms = 15;
    using Coefficients = Eigen::Matrix<double, kTerms, 1>;

    bool active = false;
    Coefficients u = Coefficients::Zero(), v = Coefficients::Zero();
    double rim = 1.05; // of |u| and |v|

    [[nodiscard]] static Coefficients terms(double atU, double atV);
    [[nodiscard]] Eigen::Vector2d shift(double atU, double atV) const;
    [[nodiscard]] Eigen::Matrix2d byPlace(double atU, double atV) const; // d(u, v corrected)/d(u, v)
};

// Errors that all places of the page share besides those of the parameters, each independent of the others
// and one sigma great: a shift of all figures (what print did to rulings one by one it may have done to a
// line: by no more than the line's own places scatter, unless rulings are farther apart than print), waves
// that the mapping does not follow (sine and cosine of the place, four lengths down to half the chart), and
// the error of the warp.
struct PageDrift {
    static constexpr int kWaves = 4;
    std::array<double, 2> shift_px{}, wave_px{}; // in x and in y
    std::vector<SmoothWarp::Coefficients> ofU, ofV;

    [[nodiscard]] std::size_t count() const;
    // Of a line whose places scatter so much: 0 in x, 1 in y.
    [[nodiscard]] double shiftOf_px(std::size_t way, double scatter_px) const;
};

class ChartMapping {
  public:
    [[nodiscard]] MappingModel model() const { return model_; }
    // Whether the pins gave this value axis a scale; asking the functions below for another is an error.
    [[nodiscard]] bool hasAxis(ValueAxis axis) const;

    // A pixel to printed figures. Total for upright and affine; for perspective, pixels beyond the vanishing
    // line have no meaning (solveMapping refuses one that crosses the pins and clicks; beyond it the figures
    // stay finite).
    [[nodiscard]] AxisPoint axisFromPixel(PixelPoint at, ValueAxis axis) const;
    [[nodiscard]] PixelPoint pixelFromAxis(AxisPoint at, ValueAxis axis) const;

    // d(flow, value)/d(x, y) at a pixel, printed units per pixel.
    [[nodiscard]] Eigen::Matrix2d axisByPixel(PixelPoint at, ValueAxis axis) const;
    // d(flow, value)/d(parameters, then the parts of the drift) at a fixed pixel: 2 x both. `scatter_px`: of
    // the places of the line the pixel lies on.
    [[nodiscard]] Eigen::Matrix2Xd
    axisByParameters(PixelPoint at, ValueAxis axis,
                     double scatter_px = std::numeric_limits<double>::infinity()) const;
    // Of the free parameters, latent coordinates of half pins left out, and of the parts of the drift.
    [[nodiscard]] const Eigen::MatrixXd& covariance() const { return covariance_; }
    // One sigma of (flow, value) at a pixel from the mapping's error alone, as a 2 x 2 covariance.
    [[nodiscard]] Eigen::Matrix2d axisCovariance(PixelPoint at, ValueAxis axis) const;

    [[nodiscard]] const std::vector<double>& pinResiduals_px() const { return pinResiduals_px_; }
    [[nodiscard]] double rms_px() const { return rms_px_; }
    // The pins lie farther from where they should than their sigmas allow.
    [[nodiscard]] bool pinsDisagree() const { return pinsDisagree_; }
    [[nodiscard]] double chiSquare() const { return chiSquare_; }
    [[nodiscard]] int degreesOfFreedom() const { return degreesOfFreedom_; }
    // Rulings that entered (0: the pins alone), and the greatest shift of the curled paper's correction.
    [[nodiscard]] std::size_t rulings() const { return rulings_; }
    [[nodiscard]] double warp_px() const { return warp_px_; }

  private:
    friend class MappingSolver;
    struct Place { // scaled: of the paper, and the pixel it lies at
        double u = 0.0, v = 0.0, x = 0.0, y = 0.0;
        double flatU = 0.0, flatV = 0.0; // u and v with the curl taken out
    };
    [[nodiscard]] const ScaledAxis& valueAxis(ValueAxis axis) const;
    [[nodiscard]] bool onOwnScale(ValueAxis axis) const;
    [[nodiscard]] double ownScaled(double v, ValueAxis axis) const; // v to the axis's own scaled figure
    [[nodiscard]] Place placeOf(PixelPoint at) const;
    [[nodiscard]] Eigen::Matrix2d pixelByPlace(const Place& place) const;
    [[nodiscard]] Eigen::Vector2d figuresByScaled(const Place& place, ValueAxis axis) const;
    void widenByDrift(); // the covariance, by the parts of the drift
    void addDrift(Eigen::Matrix2Xd& by, const Place& place, PixelPoint at, ValueAxis axis,
                  double scatter_px) const;
    MappingModel model_ = MappingModel::upright;
    PixelPoint centre_;       // of the pins
    double halfExtent_ = 1.0; // pixels per scaled unit
    ScaledAxis flow_, left_, right_;
    bool rightIsOwnScale_ = false; // r0, r1 are free
    MappingParameters parameters_{};
    std::vector<std::size_t> free_; // which of the parameters, in the order of the covariance
    Eigen::MatrixXd covariance_;
    std::vector<double> pinResiduals_px_;
    double rms_px_ = 0.0, chiSquare_ = 0.0;
    int degreesOfFreedom_ = 0;
    bool pinsDisagree_ = false;
    SmoothWarp warp_;
    PageDrift drift_;
    std::size_t rulings_ = 0;
    double warp_px_ = 0.0;
};

// Errors, place "pins" or "pins[2].value":
//   "too-few-pinned" (what: flow, left or right; found)     fewer than two different figures on an axis in
//   use "not-on-log-scale" (found)                               a figure not above zero on a log axis
//   "pins-in-a-row" (none)          the clicked pixels do not span the paper in both directions
//   "pins-too-close" (what, distance_px)   two figures of an axis pinned nearly at one place
//   "mapping-needs-pins" (model, pins, needed)   a forced model has more unknowns than the pins have figures
//   "mapping-not-found" (model)     the solver did not settle
[[nodiscard]] Result<ChartMapping> solveMapping(const Reading& reading);
// The same, refined by rulings where they agree with the pins.
[[nodiscard]] Result<ChartMapping> solveMapping(const Reading& reading,
                                                const std::vector<KnownRuling>& rulings);

} // namespace headmark
