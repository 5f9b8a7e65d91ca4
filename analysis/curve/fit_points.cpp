#include "analysis/curve/fit_points.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

namespace headmark {
namespace {

// Extended precision throughout the small fit: where the scatter is much larger than the polynomial (NIST's
// Wampler5) plain double keeps only six digits of the coefficients. It costs microseconds.
using Real = long double;
using Matrix = Eigen::Matrix<Real, Eigen::Dynamic, Eigen::Dynamic>;
using Vector = Eigen::Matrix<Real, Eigen::Dynamic, 1>;
using Samples = std::vector<CurveSample>;

constexpr int kGreatestFitDegree = 10;
constexpr int kGreatestChosenDegree = 6;
constexpr std::size_t kGreatestExactCount = 4;
// AICc's correction grows without bound as parameters near points: at 5 and 6 points it would allow little
// but a straight line, so few points are judged by leaving each out in turn (PRESS), up to a cubic.
// Source: Allen, Technometrics 16 (1974), 125.
constexpr std::size_t kFewPoints = 7;
constexpr int kGreatestDegreeOfFew = 3;
// Residuals below this share of the greatest value are rounding and make no degree better than another.
constexpr Real kResidualFloor = 1e-10L;
// Flows nearer to each other than this share of the range are one flow.
constexpr double kSameFlowShare = 1e-9;

struct FlowRange {
    double least_m3_s, greatest_m3_s;
};

FlowRange rangeOf(const Samples& points) {
    const auto [least, greatest] =
        std::minmax_element(points.begin(), points.end(), [](const CurveSample& a, const CurveSample& b) {
            return a.flow_m3_s < b.flow_m3_s;
        });
    return {least->flow_m3_s, greatest->flow_m3_s};
}

std::size_t distinctFlows(const Samples& points) {
    std::vector<double> flows;
    for (const CurveSample& point : points)
        flows.push_back(point.flow_m3_s);
    std::sort(flows.begin(), flows.end());
    return static_cast<std::size_t>(std::unique(flows.begin(), flows.end()) - flows.begin());
}

Matrix legendreMatrix(const Samples& points, const FlowRange& range, int degree) {
    const Real centre = 0.5 * (range.least_m3_s + range.greatest_m3_s); // rounded as the curve rounds them
    const Real halfRange = 0.5 * (range.greatest_m3_s - range.least_m3_s);
    Matrix basis(static_cast<Eigen::Index>(points.size()), degree + 1);
    for (Eigen::Index row = 0; row < basis.rows(); ++row) {
        const Real t = (Real{points[static_cast<std::size_t>(row)].flow_m3_s} - centre) / halfRange;
        basis(row, 0) = 1.0L;
        if (degree > 0) basis(row, 1) = t;
        for (int k = 1; k < degree; ++k) {
            const Real order = k;
            basis(row, k + 1) =
                ((2.0L * order + 1.0L) * t * basis(row, k) - order * basis(row, k - 1)) / (order + 1.0L);
        }
    }
    return basis;
}

// A solved least-squares problem with what degree choice and covariance need of it.
struct Solved {
    PointFit fit;
    Real squares = 0.0L; // S, the sum of squared residuals
    Vector residuals;
    Matrix pseudoInverse; // coefficients = pseudoInverse * values
    Vector leverage;      // diagonal of basis * pseudoInverse
};

Solved solve(const Samples& points, int degree) {
    const FlowRange range = rangeOf(points);
    const Matrix basis = legendreMatrix(points, range, degree);
    Vector values(basis.rows());
    for (Eigen::Index i = 0; i < values.size(); ++i)
        values[i] = points[static_cast<std::size_t>(i)].value;

    const Eigen::ColPivHouseholderQR<Matrix> qr(basis);
    Vector coefficients = qr.solve(values);
    coefficients += qr.solve(Vector(values - basis * coefficients));

    Solved result;
    result.residuals = values - basis * coefficients;
    result.squares = result.residuals.squaredNorm();
    const Matrix thinQ = qr.householderQ() * Matrix::Identity(basis.rows(), basis.cols());
    const Matrix corner = qr.matrixR().topRows(basis.cols());
    result.pseudoInverse =
        qr.colsPermutation() * corner.triangularView<Eigen::Upper>().solve(thinQ.transpose());
    result.leverage = (basis.cwiseProduct(result.pseudoInverse.transpose())).rowwise().sum();

    Eigen::MatrixXd covariance;
    const Eigen::Index spare = basis.rows() - basis.cols();
    if (spare > 0) {
        const Real variance = result.squares / static_cast<Real>(spare);
        covariance = (variance * result.pseudoInverse * result.pseudoInverse.transpose()).cast<double>();
    }
    result.fit.curve = PolynomialCurve(range.least_m3_s, range.greatest_m3_s, coefficients.cast<double>(),
                                       std::move(covariance));
    result.fit.rms = static_cast<double>(std::sqrt(result.squares / static_cast<Real>(basis.rows())));
    result.fit.greatestResidual = static_cast<double>(result.residuals.cwiseAbs().maxCoeff());
    return result;
}

// AICc with k = degree + 2 parameters, the scatter being one.
Real correctedCriterion(Real meanSquare, std::size_t points, int degree) {
    const auto n = static_cast<Real>(points);
    const Real k = degree + 2;
    return n * std::log(meanSquare) + 2.0L * k + 2.0L * k * (k + 1.0L) / (n - k - 1.0L);
}

Real meanSquareLeftOut(const Solved& solved) {
    Real sum = 0.0L;
    for (Eigen::Index i = 0; i < solved.residuals.size(); ++i) {
        const Real leftOut = solved.residuals[i] / (1.0L - solved.leverage[i]);
        sum += leftOut * leftOut;
    }
    return sum / static_cast<Real>(solved.residuals.size());
}

Solved solveAtChosenDegree(const Samples& points, CurveSense sense) {
    Real greatest = std::numeric_limits<double>::min();
    for (const CurveSample& point : points)
        greatest = std::max(greatest, std::abs(Real{point.value}));
    const Real floor = (kResidualFloor * greatest) * (kResidualFloor * greatest);

    const bool few = points.size() <= kFewPoints;
    const int count = static_cast<int>(points.size());
    // Below the bound AICc's last denominator, n - k - 1, is at least one.
    const int bound =
        few ? std::min(kGreatestDegreeOfFew, count - 2) : std::min(kGreatestChosenDegree, count - 4);
    Solved best = solve(points, 1); // a straight line always keeps the sense
    Real lowest = std::numeric_limits<Real>::infinity();
    for (int degree = 1; degree <= bound; ++degree) {
        Solved candidate = solve(points, degree);
        if (!keepsSense(candidate.fit.curve, sense)) continue;
        const Real meanSquare =
            few ? meanSquareLeftOut(candidate) : candidate.squares / static_cast<Real>(points.size());
        const Real floored = std::max(meanSquare, floor);
        const Real criterion = few ? floored : correctedCriterion(floored, points.size(), degree);
        if (criterion < lowest) {
            lowest = criterion;
            best = std::move(candidate);
        }
    }
    return best;
}

// The stated error of the points carried through the same (unweighted) fit: a stated error widens the band
// but does not move the curve, and a point of value zero does not pull with infinite weight.
void stateError(Solved& solved, const Samples& points, double sigmaShare) {
    Vector variances(static_cast<Eigen::Index>(points.size()));
    for (std::size_t i = 0; i < points.size(); ++i) {
        const Real sigma = Real{sigmaShare} * points[i].value;
        variances[static_cast<Eigen::Index>(i)] = sigma * sigma;
    }
    const Matrix& inverse = solved.pseudoInverse;
    const PolynomialCurve& curve = solved.fit.curve;
    Eigen::MatrixXd covariance = (inverse * variances.asDiagonal() * inverse.transpose()).cast<double>();
    solved.fit.curve = PolynomialCurve(curve.least_m3_s(), curve.greatest_m3_s(), curve.coefficients(),
                                       std::move(covariance));
}

std::optional<Error> whyNot(const Samples& points, int degree) {
    if (points.size() < 2) {
        return Error{"too-few-points", "", "", {{"points", static_cast<std::int64_t>(points.size())}}};
    }
    const std::size_t distinct = distinctFlows(points);
    if (distinct < 2)
        return Error{"repeated-flow", "", "", {{"flow_m3_h", points.front().flow_m3_s * 3600.0}}};
    if (degree > kGreatestFitDegree || degree + 1 > static_cast<int>(distinct)) {
        return Error{"degree-too-high",
                     "",
                     "",
                     {{"degree", static_cast<std::int64_t>(degree)},
                      {"points", static_cast<std::int64_t>(points.size())}}};
    }
    return std::nullopt;
}

std::optional<Error> repeatedFlow(const Samples& sorted) {
    const double range_m3_s = sorted.back().flow_m3_s - sorted.front().flow_m3_s;
    for (std::size_t i = 1; i < sorted.size(); ++i) {
        if (sorted[i].flow_m3_s - sorted[i - 1].flow_m3_s <= kSameFlowShare * range_m3_s)
            return Error{"repeated-flow", "", "", {{"flow_m3_h", sorted[i].flow_m3_s * 3600.0}}};
    }
    return std::nullopt;
}

} // namespace

// No minimum inside leaves at most one maximum, and the other way about.
bool keepsSense(const PolynomialCurve& curve, CurveSense sense) {
    if (sense == CurveSense::any) return true;
    const double upwards = sense == CurveSense::oneMaximum ? 1.0 : -1.0;
    std::vector<double> flows = curve.turningPoints();
    flows.insert(flows.begin(), curve.least_m3_s());
    flows.push_back(curve.greatest_m3_s());
    for (std::size_t i = 1; i + 1 < flows.size(); ++i) {
        const double here = upwards * curve.at(flows[i]);
        if (here < upwards * curve.at(flows[i - 1]) && here < upwards * curve.at(flows[i + 1])) return false;
    }
    return true;
}

Result<PointFit> fitPoints(Samples points, CurveSense sense, std::optional<int> degree, double sigmaShare) {
    HEADMARK_ASSERT(!degree || *degree >= 0, "a degree is not negative");
    HEADMARK_ASSERT(sigmaShare >= 0.0, "a share of error is not negative");
    std::stable_sort(points.begin(), points.end(),
                     [](const CurveSample& a, const CurveSample& b) { return a.flow_m3_s < b.flow_m3_s; });
    if (points.size() >= 2) {
        if (auto error = repeatedFlow(points)) return *error;
    }
    if (auto error = whyNot(points, degree.value_or(1))) return *error;

    const bool exact = !degree && points.size() <= kGreatestExactCount;
    if (exact) degree = static_cast<int>(points.size()) - 1;
    Solved solved = degree ? solve(points, *degree) : solveAtChosenDegree(points, sense);
    if (sigmaShare > 0.0) stateError(solved, points, sigmaShare);
    return solved.fit;
}

Result<PointFit> fitDegree(const Samples& points, int degree) {
    HEADMARK_ASSERT(degree >= 0, "a degree is not negative");
    if (auto error = whyNot(points, degree)) return *error;
    return solve(points, degree).fit;
}

} // namespace headmark
