#include "analysis/chart/pin_residuals.h"

#include <Eigen/SVD>
#include <ceres/ceres.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace headmark::mapping_detail {
namespace {

constexpr int kSize = static_cast<int>(kMappingParameters);
constexpr int kMostSteps = 60;
// The residuals are scaled by the least sigma, so that they, too, are scaled pixels and the tolerance is some
// ten times above rounding.
constexpr double kTolerance = 1e-13;
// Nearer to the vanishing line than this the model is no picture of a page.
constexpr double kLeastW = 1e-3;
// Keeps the length of a direction above zero.
constexpr double kSmallSquare = 1e-30;
// Of the column-scaled Jacobian: below it the pins leave some combination of parameters open.
constexpr double kLeastSingularShare = 1e-8;

template <class T>
struct Projected {
    T x, y;
};

template <class T>
Projected<T> project(const T* p, const T& u, const T& v) {
    T w = 1.0 + p[6] * u + p[7] * v;
    if (w < T(kLeastW)) w = T(kLeastW); // a trial step that is no picture of a page comes out far off
    return {(p[0] + p[1] * u + p[2] * v) / w, (p[3] + p[4] * u + p[5] * v) / w};
}

struct FullPin {
    ScaledPin pin;

    template <class T>
    bool operator()(const T* p, T* residual) const {
        const T u(*pin.u);
        const T v = pin.onOwnScale ? T(p[8] + p[9] * *pin.v) : T(*pin.v);
        const Projected<T> at = project(p, u, v);
        residual[0] = (at.x - pin.x) / pin.sigma;
        residual[1] = (at.y - pin.y) / pin.sigma;
        return true;
    }
};

// The line of the known figure passes through its place at the other coordinate's middle, in the direction in
// which that other coordinate grows.
struct HalfPin {
    ScaledPin pin;

    template <class T>
    bool operator()(const T* p, T* residual) const {
        const T u(pin.u.value_or(0.0));
        T v(0.0);
        if (pin.v) v = pin.onOwnScale ? T(p[8] + p[9] * *pin.v) : T(*pin.v);
        const Projected<T> at = project(p, u, v);
        const std::size_t other = pin.u ? 2 : 1;
        const T alongX = p[other] - p[other + 5] * at.x;
        const T alongY = p[other + 3] - p[other + 5] * at.y;
        const T squared = alongX * alongX + alongY * alongY + kSmallSquare;
        using std::sqrt;
        residual[0] = ((pin.x - at.x) * alongY - (pin.y - at.y) * alongX) / (sqrt(squared) * pin.sigma);
        return true;
    }
};

void addPin(ceres::Problem& problem, const ScaledPin& pin, double* parameters) {
    if (pin.u && pin.v) {
        problem.AddResidualBlock(new ceres::AutoDiffCostFunction<FullPin, 2, kSize>(new FullPin{pin}),
                                 nullptr, parameters);
    } else if (pin.u || pin.v) {
        problem.AddResidualBlock(new ceres::AutoDiffCostFunction<HalfPin, 1, kSize>(new HalfPin{pin}),
                                 nullptr, parameters);
    }
}

void holdOthers(ceres::Problem& problem, const std::vector<std::size_t>& free, double* parameters) {
    std::vector<int> held;
    for (int k = 0; k < kSize; ++k) {
        if (std::find(free.begin(), free.end(), static_cast<std::size_t>(k)) == free.end()) held.push_back(k);
    }
    if (!held.empty()) problem.SetManifold(parameters, new ceres::SubsetManifold(kSize, held));
}

Eigen::MatrixXd dense(const ceres::CRSMatrix& sparse) {
    Eigen::MatrixXd result = Eigen::MatrixXd::Zero(sparse.num_rows, sparse.num_cols);
    for (int row = 0; row < sparse.num_rows; ++row) {
        const auto from = static_cast<std::size_t>(sparse.rows[static_cast<std::size_t>(row)]);
        const auto to = static_cast<std::size_t>(sparse.rows[static_cast<std::size_t>(row) + 1]);
        for (std::size_t i = from; i < to; ++i)
            result(row, sparse.cols[i]) = sparse.values[i];
    }
    return result;
}

} // namespace

std::optional<PinSolution> settle(const std::vector<ScaledPin>& pins, const std::vector<std::size_t>& free,
                                  const MappingParameters& start) {
    PinSolution solution;
    solution.parameters = start;
    double* parameters = solution.parameters.data();
    ceres::Problem problem;
    problem.AddParameterBlock(parameters, kSize);
    double leastSigma = std::numeric_limits<double>::infinity();
    for (const ScaledPin& pin : pins)
        leastSigma = std::min(leastSigma, pin.sigma);
    for (ScaledPin pin : pins) {
        pin.sigma /= leastSigma;
        addPin(problem, pin, parameters);
    }
    holdOthers(problem, free, parameters);

    ceres::Solver::Options options;
    options.linear_solver_type = ceres::DENSE_QR;
    options.logging_type = ceres::SILENT;
    options.max_num_iterations = options.max_num_consecutive_invalid_steps = kMostSteps;
    options.function_tolerance = options.gradient_tolerance = options.parameter_tolerance = kTolerance;
    ceres::Solver::Summary summary;
    ceres::Solve(options, &problem, &summary);
    if (!summary.IsSolutionUsable()) return std::nullopt;

    double cost = 0.0;
    ceres::CRSMatrix jacobian;
    if (!problem.Evaluate({}, &cost, nullptr, nullptr, &jacobian)) return std::nullopt;
    solution.chiSquare = 2.0 * cost / (leastSigma * leastSigma);
    solution.jacobian = dense(jacobian) / leastSigma;
    if (!std::isfinite(solution.chiSquare) || !solution.jacobian.allFinite()) return std::nullopt;
    return solution;
}

std::optional<Eigen::MatrixXd> covarianceFrom(const Eigen::MatrixXd& jacobian) {
    if (jacobian.rows() < jacobian.cols()) return std::nullopt;
    const Eigen::VectorXd scale = jacobian.colwise().norm();
    if (!(scale.minCoeff() > 0.0)) return std::nullopt;
    const Eigen::MatrixXd scaled = jacobian * scale.cwiseInverse().asDiagonal();
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(scaled, Eigen::ComputeThinU | Eigen::ComputeThinV);
    const Eigen::VectorXd& singular = svd.singularValues();
    if (!(singular.minCoeff() > kLeastSingularShare * singular.maxCoeff())) return std::nullopt;
    const Eigen::MatrixXd root =
        scale.cwiseInverse().asDiagonal() * svd.matrixV() * singular.cwiseInverse().asDiagonal();
    return Eigen::MatrixXd(root * root.transpose());
}

double distanceOf(const ScaledPin& pin, const MappingParameters& parameters) {
    double residual[2] = {0.0, 0.0};
    if (pin.u && pin.v) {
        FullPin{pin}(parameters.data(), residual);
    } else if (pin.u || pin.v) {
        HalfPin{pin}(parameters.data(), residual);
    }
    return std::hypot(residual[0], residual[1]) * pin.sigma;
}

} // namespace headmark::mapping_detail
