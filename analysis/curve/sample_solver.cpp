#include "analysis/curve/sample_solver.h"

#include <Eigen/Cholesky>
#include <ceres/ceres.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace headmark::sample_detail {
namespace {

constexpr int kWarmRounds = 8;
constexpr int kMostSteps = 50;
constexpr double kTolerance = 1e-12;
// No sample is better than this share of the spread of the values.
constexpr double kLeastSigma = 1e-7;
// Places over the range at which the slope's sign is bound.
constexpr int kBoundPlaces = 81;
// Median of |z| of a normal z.
constexpr double kMedianOfNormal = 0.6745;

double medianOf(std::vector<double> numbers) {
    const auto middle = numbers.begin() + static_cast<std::ptrdiff_t>(numbers.size() / 2);
    std::nth_element(numbers.begin(), middle, numbers.end());
    return *middle;
}

// sqrt(rho(z^2)) with the sign of z, so that its square is the loss; and its derivative.
struct Lossy {
    double value, byZ;
};

Lossy lossy(double z, double loss) {
    if (loss <= 0.0) return {z, 1.0};
    const double squared = z * z / (loss * loss);
    if (squared < 1e-8) return {z * (1.0 - 0.25 * squared), 1.0 - 0.75 * squared};
    const double root = loss * std::sqrt(std::log1p(squared));
    return {std::copysign(root, z), std::abs(z) / (root * (1.0 + squared))};
}

class SampleCost final : public ceres::CostFunction {
  public:
    SampleCost(const ScaledSamples& samples, Eigen::Index size, double loss,
               const std::optional<TurningBound>& bound)
        : samples_(samples), size_(size), loss_(loss), bound_(bound) {
        if (bound_) {
            const Eigen::VectorXd places = Eigen::VectorXd::LinSpaced(kBoundPlaces, -1.0, 1.0);
            Eigen::MatrixXd values;
            legendre(places, static_cast<int>(size) - 1, values, boundSlopes_);
            const Eigen::ArrayXd side = places.array().unaryExpr(
                [&](double t) { return bound_->upwards * (t < bound_->peak ? 1.0 : -1.0); });
            boundSlopes_ = (boundSlopes_.array().colwise() * side).matrix();
            margins_ = bound_->margin * (places.array() - bound_->peak).abs().matrix();
        }
        set_num_residuals(static_cast<int>(samples.t.size() + boundSlopes_.rows()));
        mutable_parameter_block_sizes()->push_back(static_cast<int>(size));
    }

    bool Evaluate(double const* const* parameters, double* residuals, double** jacobians) const override {
        using RowMatrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
        const Eigen::Map<const Eigen::VectorXd> coefficients(parameters[0], size_);
        const SettledCurve curve = curveOf(samples_, coefficients);
        const bool derive = jacobians && jacobians[0];
        Eigen::Map<RowMatrix> jacobian(derive ? jacobians[0] : nullptr, derive ? num_residuals() : 0, size_);
        const Eigen::Index count = samples_.t.size();
        for (Eigen::Index i = 0; i < count; ++i) {
            const double s = curve.sigma[i];
            const Lossy lost = lossy(curve.residuals[i] / s, loss_);
            residuals[i] = lost.value;
            if (!derive) continue;
            const double bySlope = s > kLeastSigma
                                       ? (curve.slope[i] * samples_.varianceT[i] - samples_.covariance[i]) *
                                             curve.residuals[i] / (s * s * s)
                                       : 0.0;
            jacobian.row(i) = -lost.byZ * (samples_.basis.row(i).head(size_) / s +
                                           bySlope * samples_.slopes.row(i).head(size_));
        }
        addBounds(coefficients, residuals + count, derive ? jacobian.data() + count * size_ : nullptr);
        return true;
    }

  private:
    void addBounds(const Eigen::Map<const Eigen::VectorXd>& coefficients, double* residuals,
                   double* jacobian) const {
        if (!bound_) return;
        const Eigen::VectorXd short_ = margins_ - boundSlopes_ * coefficients;
        for (Eigen::Index i = 0; i < short_.size(); ++i) {
            const bool broken = short_[i] > 0.0;
            residuals[i] = broken ? bound_->weight * short_[i] : 0.0;
            for (Eigen::Index k = 0; jacobian && k < size_; ++k)
                jacobian[i * size_ + k] = broken ? -bound_->weight * boundSlopes_(i, k) : 0.0;
        }
    }

    const ScaledSamples& samples_;
    Eigen::Index size_;
    double loss_;
    std::optional<TurningBound> bound_;
    Eigen::MatrixXd boundSlopes_; // signed so that they should be positive
    Eigen::VectorXd margins_;
};

} // namespace

// P(k+1) = ((2k+1) t P(k) - k P(k-1))/(k+1);  P'(k+1) = P'(k-1) + (2k+1) P(k).
void legendre(const Eigen::VectorXd& t, int degree, Eigen::MatrixXd& basis, Eigen::MatrixXd& slopes) {
    basis = Eigen::MatrixXd::Zero(t.size(), degree + 1);
    slopes = basis;
    basis.col(0).setOnes();
    if (degree == 0) return;
    basis.col(1) = t;
    slopes.col(1).setOnes();
    for (int k = 1; k < degree; ++k) {
        basis.col(k + 1) =
            ((2.0 * k + 1.0) * t.cwiseProduct(basis.col(k)) - k * basis.col(k - 1)) / (k + 1.0);
        slopes.col(k + 1) = slopes.col(k - 1) + (2.0 * k + 1.0) * basis.col(k);
    }
}

SettledCurve curveOf(const ScaledSamples& samples, const Eigen::VectorXd& coefficients) {
    const Eigen::Index size = coefficients.size();
    SettledCurve curve;
    curve.coefficients = coefficients;
    curve.residuals = samples.y - samples.basis.leftCols(size) * coefficients;
    curve.slope = samples.slopes.leftCols(size) * coefficients;
    curve.sigma = (samples.varianceY.array() + curve.slope.array().square() * samples.varianceT.array() -
                   2.0 * curve.slope.array() * samples.covariance.array())
                      .max(kLeastSigma * kLeastSigma)
                      .sqrt()
                      .matrix();
    return curve;
}

Eigen::VectorXd warmStart(const ScaledSamples& samples, int degree, double loss, double& scale) {
    const Eigen::Index size = degree + 1, count = samples.t.size();
    Eigen::VectorXd weights = Eigen::VectorXd::Ones(count); // roots of them
    Eigen::VectorXd coefficients;
    for (int round = 0; round < kWarmRounds; ++round) {
        const Eigen::MatrixXd rows = weights.asDiagonal() * samples.basis.leftCols(size);
        coefficients =
            (rows.transpose() * rows)
                .ldlt()
                .solve(rows.transpose() * weights.cwiseProduct(samples.y)); // the solver refines it
        const SettledCurve curve = curveOf(samples, coefficients);
        const Eigen::VectorXd z = curve.residuals.cwiseQuotient(curve.sigma);
        std::vector<double> sizes(z.data(), z.data() + z.size());
        for (double& number : sizes)
            number = std::abs(number);
        scale = std::max(1.0, medianOf(std::move(sizes)) / kMedianOfNormal);
        weights = curve.sigma.cwiseInverse();
        if (loss > 0.0) {
            const double reach = loss * scale;
            weights.array() *= (1.0 + (z.array() / reach).square()).rsqrt();
        }
        weights /= weights.maxCoeff();
    }
    return coefficients;
}

std::optional<SettledCurve> settleCurve(const ScaledSamples& samples, const Eigen::VectorXd& start,
                                        double loss, const std::optional<TurningBound>& bound) {
    Eigen::VectorXd coefficients = start;
    ceres::Problem problem;
    problem.AddResidualBlock(new SampleCost(samples, start.size(), loss, bound), nullptr,
                             coefficients.data());
    ceres::Solver::Options options;
    options.linear_solver_type = ceres::DENSE_QR; // never fails, so never warns on standard error
    options.logging_type = ceres::SILENT;
    options.max_num_iterations = options.max_num_consecutive_invalid_steps = kMostSteps;
    options.function_tolerance = options.parameter_tolerance = kTolerance;
    options.gradient_tolerance = kTolerance;
    ceres::Solver::Summary summary;
    ceres::Solve(options, &problem, &summary);
    if (!summary.IsSolutionUsable() || !coefficients.allFinite()) return std::nullopt;
    return curveOf(samples, coefficients);
}

} // namespace headmark::sample_detail
