#pragma once
// From typed points to a curve.
//   up to four points: interpolated exactly (degree = points - 1), taken as exact
//   more: least squares by QR in the Legendre basis on the scaled flow range, degree by AICc (1 to 6), the
//   covariance from the residuals (sigma^2 = S/(n - p))
//   five to seven points: too few for AICc, whose correction leaves little but a straight line; degree 1 to 3
//   by the error at each point when it is left out (PRESS)
// `degree` forces it (to 10); `sigmaShare` > 0 gives the points' own error (one sigma = share of the value)
// instead: it sets the covariance and does not move the curve.
// A curve keeps its quantity's sense (CurveSense); degrees that break it are passed over (unless forced or
// interpolated).
// Sources: AICc, Hurvich and Tsai, Biometrika 76 (1989) 297; PRESS, Allen, Technometrics 16 (1974) 125.

#include "analysis/core/result.h"
#include "analysis/curve/polynomial_curve.h"

#include <optional>
#include <vector>

namespace headmark {

struct CurveSample {
    double flow_m3_s;
    double value;
};

// oneMaximum: at most one maximum in the range and no minimum inside (head). oneMinimum: the other way about
// (NPSH required).
enum class CurveSense { oneMaximum, oneMinimum, any };

[[nodiscard]] bool keepsSense(const PolynomialCurve& curve, CurveSense sense);

struct PointFit {
    PolynomialCurve curve;
    double rms = 0.0; // of the residuals, in the value's unit
    double greatestResidual = 0.0;
};

// Errors: "too-few-points" (under 2; facts: points), "repeated-flow" (facts: flow_m3_h), "degree-too-high"
// (facts: degree, points). Points may come in any order.
[[nodiscard]] Result<PointFit> fitPoints(std::vector<CurveSample> points, CurveSense sense,
                                         std::optional<int> degree = {}, double sigmaShare = 0.0);

// Plain least squares in the Legendre basis at one degree (to 10), by column-pivoted Householder QR with one
// step of iterative refinement, in extended precision. Several values at one flow are welcome; the degree
// must stay below the number of different flows. Same errors as above. Also what the published regression
// sets are checked with.
[[nodiscard]] Result<PointFit> fitDegree(const std::vector<CurveSample>& points, int degree);

} // namespace headmark
