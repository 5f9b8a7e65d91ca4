#include "tests/pages/whole_band.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace headmark {
namespace {

// A way that turns by a fifth of its length per step is still short by less than a thousandth.
constexpr int kSteps = 400;
constexpr double kMostSigmas = 40.0; // exp(-c^2/2) is zero there

// Legendre polynomials at t in [-1, 1].
Eigen::VectorXd basisAt(double t, Eigen::Index size) {
    Eigen::VectorXd basis(size);
    for (Eigen::Index k = 0; k < size; ++k)
        basis[k] = std::legendre(static_cast<unsigned>(k), t);
    return basis;
}

// The way's length: the sum of the angles between neighbours.
double wayOf(const PolynomialCurve& curve) {
    const Eigen::MatrixXd& covariance = curve.covariance();
    if (covariance.size() == 0) return 0.0;
    double length = 0.0, lastVariance = 0.0;
    Eigen::VectorXd last;
    for (int i = 0; i <= kSteps; ++i) {
        const Eigen::VectorXd basis = basisAt(-1.0 + 2.0 * i / kSteps, covariance.rows());
        const Eigen::VectorXd toward = covariance * basis;
        const double variance = basis.dot(toward);
        if (last.size() > 0 && variance > 0.0 && lastVariance > 0.0) {
            const double cosine = last.dot(toward) / std::sqrt(variance * lastVariance);
            length += std::acos(std::clamp(cosine, -1.0, 1.0));
        }
        last = basis;
        lastVariance = variance;
    }
    return length;
}

} // namespace

double wholeBandSigmas(const PolynomialCurve& curve, double share) {
    HEADMARK_ASSERT(share > 0.0 && share < 1.0, "a band holds a share of the cases");
    const double turns = wayOf(curve) / std::numbers::pi;
    double low = 0.0, high = kMostSigmas;
    while (high - low > 1e-9) {
        const double c = 0.5 * (low + high);
        const double leaves = turns * std::exp(-0.5 * c * c) + std::erfc(c / std::numbers::sqrt2);
        (leaves > 1.0 - share ? low : high) = c;
    }
    return 0.5 * (low + high);
}

} // namespace headmark
