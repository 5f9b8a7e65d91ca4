#pragma once
// A curve over flow as a polynomial, with the covariance of its coefficients.
//   y(Q) = sum c_k P_k(t),  t = (Q - centre)/halfRange in [-1, 1],  P_k Legendre polynomials
// Q in m3/s, y in SI of the quantity (m, share, W). Valid on [least, greatest]; outside there is no value:
// callers ask `contains` first, `at` outside evaluates the polynomial (for solvers' trial points only).

#include <Eigen/Core>

#include <vector>

namespace headmark {

class PolynomialCurve {
  public:
    PolynomialCurve() = default;
    // coefficients: Legendre, size degree + 1; covariance: same size square, or empty for exact.
    PolynomialCurve(double least_m3_s, double greatest_m3_s, Eigen::VectorXd coefficients,
                    Eigen::MatrixXd covariance = {});

    [[nodiscard]] double least_m3_s() const { return centre_ - halfRange_; }
    [[nodiscard]] double greatest_m3_s() const { return centre_ + halfRange_; }
    [[nodiscard]] bool contains(double flow_m3_s) const; // a rounding of 1e-12 of the range is forgiven
    [[nodiscard]] int degree() const { return static_cast<int>(coefficients_.size()) - 1; }

    [[nodiscard]] double at(double flow_m3_s) const;
    [[nodiscard]] double slopeAt(double flow_m3_s) const; // dy/dQ
    // One sigma of y there; 0 for an exact curve.
    [[nodiscard]] double sigmaAt(double flow_m3_s) const;

    [[nodiscard]] const Eigen::VectorXd& coefficients() const { return coefficients_; }
    [[nodiscard]] const Eigen::MatrixXd& covariance() const { return covariance_; } // 0x0: exact
    // Coefficients of 1, Q, Q^2 ... with Q in units of `unit_m3_s` (1/3600 for m3/h).
    [[nodiscard]] Eigen::VectorXd monomial(double unit_m3_s) const;

    // Flows strictly inside the range where the slope is zero, ascending; `turningPoints` needs degree >= 2.
    [[nodiscard]] std::vector<double> turningPoints() const;
    // Flow of the greatest value in the range, ends included.
    [[nodiscard]] double flowOfMaximum() const;

    // The same curve with another set of coefficients (draws, shifted curves).
    [[nodiscard]] PolynomialCurve withCoefficients(Eigen::VectorXd coefficients) const;

  private:
    double centre_ = 0.0, halfRange_ = 1.0;
    Eigen::VectorXd coefficients_;
    Eigen::MatrixXd covariance_;
    Eigen::VectorXd power_; // the same polynomial in powers of t, for fast evaluation
};

} // namespace headmark
