#pragma once
// From samples read off a chart to a curve: errors in both axes, a mapping error shared by all samples.
//   minimise sum rho( (y_i - P(Q_i))^2 / s_i^2 ),  s_i^2 = s_y^2 + P'(Q_i)^2 s_Q^2 - 2 P'(Q_i) s_Qy
// (effective variance with the slope inside the weights: for a straight line exactly York's solution), P in
// the Legendre basis of polynomial_curve.h, rho Cauchy's loss at kRobustScale sigmas, or none.
// Degree: AICc over 1 to 6 among the fits that keep the quantity's sense (CurveSense); samples close to each
// other carry the same ink, so the count that enters is the effective one, n (1-r)/(1+r), r the lag-one
// correlation of the residuals.
// Covariance: (A' W A)^-1 by Ceres, times the greater of 1 and the reduced chi-square, times (1+r)/(1-r),
// plus G C G' for the shared parameters theta (the mapping's), G = d(coefficients)/d(theta) to first order.
// Sources: York, Evensen, Martinez Lopez, De Basabe Delgado, Am. J. Phys. 72 (2004) 367; Orear, Am. J. Phys.
// 50 (1982) 912 (effective variance); AICc, Hurvich and Tsai, Biometrika 76 (1989) 297.

#include "analysis/core/result.h"
#include "analysis/curve/fit_points.h"
#include "analysis/curve/polynomial_curve.h"

#include <Eigen/Core>

#include <optional>
#include <utility>
#include <vector>

namespace headmark {

// One sample with its own error; SI of the quantity.
struct MeasuredSample {
    double flow_m3_s = 0.0, value = 0.0;
    double varianceFlow = 0.0, varianceValue = 0.0, covariance = 0.0;
};

// The error all samples share: d(flow), d(value) of each sample by each shared parameter, and their
// covariance. Empty: none.
struct SharedError {
    Eigen::MatrixXd flowBy;  // samples x parameters
    Eigen::MatrixXd valueBy; // samples x parameters
    Eigen::MatrixXd covariance;
};

struct SampleFitOptions {
    CurveSense sense = CurveSense::any;
    std::optional<int> degree; // forced, to 10; left out: chosen
    int highestDegree = 6;
    bool robust = true;
    bool scaleByResiduals = true; // false: the samples' sigmas are taken at their word
    // The range of the curve; left out: from the least to the greatest sample flow.
    std::optional<std::pair<double, double>> range_m3_s;
};

struct SampleFit {
    PolynomialCurve curve; // with its whole covariance, shared error included
    double rms = 0.0, greatestResidual = 0.0; // vertical, in the value's unit
    double chiSquare = 0.0;                   // of the samples' own errors, before any scaling
    double effectiveCount = 0.0;
    bool breaksSense = false; // only of a forced degree
};

// Errors: "too-few-points" (points), "repeated-flow" (all at one flow), "degree-too-high" (degree, points),
// "curve-not-settled" (degree).
[[nodiscard]] Result<SampleFit> fitSamples(const std::vector<MeasuredSample>& samples,
                                           const SampleFitOptions& options, const SharedError& shared = {});

} // namespace headmark
