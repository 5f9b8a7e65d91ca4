#pragma once
// From samples read off a chart to a curve: errors in both axes, a mapping error shared by all samples.
//   minimise sum rho( (y_i - P(Q_i))^2 / s_i^2 ),  s_i^2 = s_y^2 + P'(Q_i)^2 s_Q^2 - 2 P'(Q_i) s_Qy
// (effective variance with the slope inside the weights: for a straight line exactly York's solution), P in
// the Legendre basis of polynomial_curve.h, rho Cauchy's loss at 2.385 sigmas (of the greater of the samples'
// own and what the median of the residuals shows), or none.
// Degree: over 1 to 8 the least of (n_e/n) S/v + 2k + 2k(k+1)/(n_e-k-1), S the summed loss, k the parameters
// and the scatter, v what one idle parameter takes from the loss, judged by the richest curve: AICc as it
// stands where outliers are. Samples close to each other carry the same ink, so the count that enters is the
// effective one, n_e = n (1-r)/(1+r), r the lag-one correlation of the residuals. Up to twelve samples: the
// least of chi-square + 2 parameters, up to a cubic.
// A curve that breaks its quantity's sense (CurveSense) is solved again with its slope's sign bound on both
// sides of its one turning point; only where no such curve exists is the degree passed over.
// Covariance: (A' W A)^-1 with A at the adjusted flows (as York 2004), times the greater of 1 and the reduced
// chi-square, times (1+r)/(1-r), plus G C G' for the shared parameters theta (the mapping's), G =
// d(coefficients)/d(theta) to first order. Where the degree was chosen, the squares of the next two
// coefficients of a fit that has them are added to the variances of the last two: they are what no curve of
// the degree can follow (Q^1.6 near zero flow) and what another draw might have chosen, great at the ends.
// scaleByResiduals = false: (A' W A)^-1 + G C G' alone.
// Sources: York, Evensen, Martinez Lopez, De Basabe Delgado, Am. J. Phys. 72 (2004) 367; Orear, Am. J. Phys.
// 50 (1982) 912 (effective variance); AICc, Hurvich and Tsai, Biometrika 76 (1989) 297; under a loss,
// Ronchetti, Statistics and Probability Letters 3 (1985) 21.

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
    int highestDegree = 8;
    bool robust = true;
    bool scaleByResiduals = true; // false: the samples' sigmas are taken at their word
    // The range of the curve; left out: from the least to the greatest sample flow.
    std::optional<std::pair<double, double>> range_m3_s;
};

struct SampleFit {
    PolynomialCurve curve;                    // with its whole covariance, shared error included
    double rms = 0.0, greatestResidual = 0.0; // vertical, in the value's unit
    double chiSquare = 0.0;                   // summed loss at the samples' own sigmas, before any scaling
    double effectiveCount = 0.0;
    bool breaksSense = false; // only of a forced degree
};

// Errors: "too-few-points" (points), "repeated-flow" (all at one flow), "degree-too-high" (degree, points),
// "curve-not-settled" (degree).
[[nodiscard]] Result<SampleFit> fitSamples(const std::vector<MeasuredSample>& samples,
                                           const SampleFitOptions& options, const SharedError& shared = {});

} // namespace headmark
