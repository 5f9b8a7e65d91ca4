#pragma once
// The inner problem of fit_samples.h: scaled samples in, Legendre coefficients out. The only place of the fit
// that knows the solver.
//   minimise sum rho(z_i^2) + sum over bounds,   z_i = (y_i - P(t_i))/s_i
//   s_i^2 = s_y^2 + P'(t_i)^2 s_t^2 - 2 P'(t_i) s_ty
//   rho(z^2) = c^2 log(1 + z^2/c^2), Cauchy's; c = 0: none
//   bound at t: weight^2 max(0, margin |t - peak| - sign(peak - t) upwards P'(t))^2, which keeps the slope's
//   sign on both sides of the one turning point

#include <Eigen/Core>

#include <optional>

namespace headmark::sample_detail {

struct ScaledSamples {
    Eigen::VectorXd t, y; // t about [-1, 1], y in units of the values' spread
    Eigen::VectorXd varianceT, varianceY, covariance;
    Eigen::MatrixXd basis, slopes; // P_k(t_i), P_k'(t_i) up to the highest degree
};

struct TurningBound {
    double peak = 0.0;    // the only place where the slope may change its sign
    double upwards = 1.0; // 1: a maximum, -1: a minimum
    double margin = 0.0;
    double weight = 0.0;
};

struct SettledCurve {
    Eigen::VectorXd coefficients;
    Eigen::VectorXd residuals; // y - P(t)
    Eigen::VectorXd slope;     // P'(t)
    Eigen::VectorXd sigma;     // s
};

// P_k(t) and their derivatives, k = 0 ... degree, one row for each t.
void legendre(const Eigen::VectorXd& t, int degree, Eigen::MatrixXd& basis, Eigen::MatrixXd& slopes);

// Residuals, slopes and sigmas of given coefficients.
[[nodiscard]] SettledCurve curveOf(const ScaledSamples& samples, const Eigen::VectorXd& coefficients);

// Weighted linear least squares, the weights renewed a few times from slope and loss: where the solver
// starts. scale: the greater of 1 and the sigmas' factor that the residuals show, by their median; out.
[[nodiscard]] Eigen::VectorXd warmStart(const ScaledSamples& samples, int degree, double loss, double& scale);

// None where the solver does not settle.
[[nodiscard]] std::optional<SettledCurve> settleCurve(const ScaledSamples& samples,
                                                      const Eigen::VectorXd& start, double loss,
                                                      const std::optional<TurningBound>& bound = {});

} // namespace headmark::sample_detail
