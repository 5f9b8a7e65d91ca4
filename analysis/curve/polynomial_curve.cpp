#include "analysis/curve/polynomial_curve.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace headmark {
namespace {

using Powers = std::vector<long double>;

// Of the slope's own size: below it a slope that touches zero without crossing counts as zero.
constexpr double kSlopeRounding = 1e-13;
// Of the range: how far outside still counts as inside (the header's promise).
constexpr double kRangeRounding = 1e-12;

// Legendre series to powers of t by the recurrence (k+1) P(k+1) = (2k+1) t P(k) - k P(k-1). Extended
// precision, because at degree 10 the powers cancel each other over several digits.
Powers powersFromLegendre(const Eigen::VectorXd& coefficients) {
    const auto size = static_cast<std::size_t>(coefficients.size());
    Powers sum(size, 0.0L), previous(size, 0.0L), current(size, 0.0L);
    current[0] = 1.0L;
    for (std::size_t k = 0; k < size; ++k) {
        const long double coefficient = coefficients[static_cast<Eigen::Index>(k)];
        for (std::size_t i = 0; i <= k; ++i)
            sum[i] += coefficient * current[i];
        if (k + 1 == size) break;
        Powers next(size, 0.0L);
        const auto order = static_cast<long double>(k);
        for (std::size_t i = 0; i <= k + 1; ++i) {
            const long double raised = i > 0 ? (2.0L * order + 1.0L) * current[i - 1] : 0.0L;
            next[i] = (raised - order * previous[i]) / (order + 1.0L);
        }
        previous = std::exchange(current, std::move(next));
    }
    return sum;
}

// Polynomials of t below are lists of power coefficients, lowest first.
using Polynomial = std::vector<double>;

double valueOf(const Polynomial& polynomial, double t) {
    double sum = 0.0;
    for (auto c = polynomial.rbegin(); c != polynomial.rend(); ++c)
        sum = sum * t + *c;
    return sum;
}

Polynomial derivativeOf(const Polynomial& polynomial) {
    Polynomial result;
    for (std::size_t k = 1; k < polynomial.size(); ++k)
        result.push_back(static_cast<double>(k) * polynomial[k]);
    return result;
}

int signOf(const Polynomial& polynomial, double t) {
    double size = 0.0;
    for (const double c : polynomial)
        size += std::abs(c);
    const double value = valueOf(polynomial, t);
    if (std::abs(value) <= kSlopeRounding * size) return 0;
    return value > 0.0 ? 1 : -1;
}

// The root in (low, high), where the signs differ: Newton steps, halving whenever one leaves the bracket.
double polishedRoot(const Polynomial& polynomial, const Polynomial& slope, double low, double high) {
    const bool rising = valueOf(polynomial, high) > 0.0;
    double t = 0.5 * (low + high);
    for (int step = 0; step < 200; ++step) {
        const double value = valueOf(polynomial, t);
        if (value == 0.0) return t;
        ((value > 0.0) == rising ? high : low) = t;
        double next = t - value / valueOf(slope, t);
        if (!(next > low && next < high)) next = 0.5 * (low + high);
        if (next == t || next <= low || next >= high) return t; // the bracket is down to neighbouring numbers
        t = next;
    }
    return t;
}

// Roots in (-1, 1), ascending. Between two neighbouring roots of its derivative a polynomial is monotone and
// has at most one root, so the roots of each derivative, from the highest down, bracket those of the next.
std::vector<double> rootsInside(const Polynomial& polynomial) {
    if (polynomial.size() < 2) return {};
    const Polynomial slope = derivativeOf(polynomial);
    std::vector<double> knots = rootsInside(slope);
    knots.insert(knots.begin(), -1.0);
    knots.push_back(1.0);

    std::vector<double> roots;
    for (std::size_t i = 0; i + 1 < knots.size(); ++i) {
        const int here = signOf(polynomial, knots[i]);
        const int there = signOf(polynomial, knots[i + 1]);
        if (i > 0 && here == 0) roots.push_back(knots[i]); // touches zero at a turn of its own
        if (here * there < 0) roots.push_back(polishedRoot(polynomial, slope, knots[i], knots[i + 1]));
    }
    return roots;
}

} // namespace

PolynomialCurve::PolynomialCurve(double least_m3_s, double greatest_m3_s, Eigen::VectorXd coefficients,
                                 Eigen::MatrixXd covariance)
    : centre_(0.5 * (least_m3_s + greatest_m3_s)), halfRange_(0.5 * (greatest_m3_s - least_m3_s)),
      coefficients_(std::move(coefficients)), covariance_(std::move(covariance)) {
    HEADMARK_ASSERT(halfRange_ > 0.0 && std::isfinite(halfRange_), "a curve needs a range of flows");
    HEADMARK_ASSERT(coefficients_.size() > 0, "a curve needs at least one coefficient");
    HEADMARK_ASSERT(covariance_.size() == 0 || (covariance_.rows() == coefficients_.size() &&
                                                covariance_.cols() == coefficients_.size()),
                    "the covariance must fit the coefficients");
    const Powers powers = powersFromLegendre(coefficients_);
    power_.resize(coefficients_.size());
    for (std::size_t k = 0; k < powers.size(); ++k)
        power_[static_cast<Eigen::Index>(k)] = static_cast<double>(powers[k]);
}

bool PolynomialCurve::contains(double flow_m3_s) const {
    return std::abs(flow_m3_s - centre_) <= halfRange_ * (1.0 + 2.0 * kRangeRounding);
}

// `at` and `slopeAt` sit in solver loops: plain Horner over the stored powers, nothing allocated.
double PolynomialCurve::at(double flow_m3_s) const {
    const double t = (flow_m3_s - centre_) / halfRange_;
    const double* const powers = power_.data();
    double sum = 0.0;
    for (Eigen::Index k = power_.size() - 1; k >= 0; --k)
        sum = sum * t + powers[k];
    return sum;
}

double PolynomialCurve::slopeAt(double flow_m3_s) const {
    const double t = (flow_m3_s - centre_) / halfRange_;
    const double* const powers = power_.data();
    double sum = 0.0;
    for (Eigen::Index k = power_.size() - 1; k >= 1; --k)
        sum = sum * t + static_cast<double>(k) * powers[k];
    return sum / halfRange_;
}

double PolynomialCurve::sigmaAt(double flow_m3_s) const {
    if (covariance_.size() == 0) return 0.0;
    const double t = (flow_m3_s - centre_) / halfRange_;
    Eigen::VectorXd basis(coefficients_.size());
    basis[0] = 1.0;
    if (basis.size() > 1) basis[1] = t;
    for (Eigen::Index k = 1; k + 1 < basis.size(); ++k) {
        const auto order = static_cast<double>(k);
        basis[k + 1] = ((2.0 * order + 1.0) * t * basis[k] - order * basis[k - 1]) / (order + 1.0);
    }
    return std::sqrt(std::max(0.0, basis.dot(covariance_ * basis)));
}

Eigen::VectorXd PolynomialCurve::monomial(double unit_m3_s) const {
    // With Q = u unit, t = shift + stretch u: Horner's rule with polynomials in u in place of numbers.
    const Powers powers = powersFromLegendre(coefficients_);
    const long double shift = -static_cast<long double>(centre_) / halfRange_;
    const long double stretch = static_cast<long double>(unit_m3_s) / halfRange_;
    Powers sum(powers.size(), 0.0L);
    for (std::size_t k = powers.size(); k-- > 0;) {
        for (std::size_t i = sum.size(); i-- > 1;)
            sum[i] = sum[i] * shift + sum[i - 1] * stretch;
        sum[0] = sum[0] * shift + powers[k];
    }
    Eigen::VectorXd result(coefficients_.size());
    for (std::size_t k = 0; k < sum.size(); ++k)
        result[static_cast<Eigen::Index>(k)] = static_cast<double>(sum[k]);
    return result;
}

std::vector<double> PolynomialCurve::turningPoints() const {
    std::vector<double> flows;
    const Polynomial powers(power_.data(), power_.data() + power_.size());
    for (const double t : rootsInside(derivativeOf(powers))) {
        if (std::abs(t) < 1.0 - 2.0 * kRangeRounding) flows.push_back(centre_ + halfRange_ * t);
    }
    return flows;
}

double PolynomialCurve::flowOfMaximum() const {
    std::vector<double> flows = turningPoints();
    flows.insert(flows.begin(), least_m3_s());
    flows.push_back(greatest_m3_s());
    return *std::max_element(flows.begin(), flows.end(),
                             [this](double a, double b) { return at(a) < at(b); });
}

PolynomialCurve PolynomialCurve::withCoefficients(Eigen::VectorXd coefficients) const {
    HEADMARK_ASSERT(coefficients.size() == coefficients_.size(), "the degree must stay the same");
    PolynomialCurve result = *this; // keeps centre and range to the last bit
    result.coefficients_ = std::move(coefficients);
    const Powers powers = powersFromLegendre(result.coefficients_);
    for (std::size_t k = 0; k < powers.size(); ++k)
        result.power_[static_cast<Eigen::Index>(k)] = static_cast<double>(powers[k]);
    return result;
}

} // namespace headmark
