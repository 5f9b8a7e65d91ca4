#include "tests/pages/whole_band.h"

#include <Eigen/Cholesky>
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

namespace headmark {
namespace {

PolynomialCurve curveWith(const Eigen::MatrixXd& covariance) {
    return PolynomialCurve(0.0, 2.0, Eigen::VectorXd::Zero(covariance.rows()), covariance);
}

TEST(WholeBand, AnErrorThatOnlyShiftsTheCurveNeedsTheNormalQuantile) {
    Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero(4, 4);
    covariance(0, 0) = 0.3;
    // Two-sided quantiles of the normal distribution, from tables.
    EXPECT_NEAR(wholeBandSigmas(curveWith(covariance)), 1.959964, 1e-5);
    EXPECT_NEAR(wholeBandSigmas(curveWith(covariance), 0.99), 2.575829, 1e-5);
}

TEST(WholeBand, AnExactCurveCountsAsOneThatOnlyShifts) {
    EXPECT_NEAR(wholeBandSigmas(PolynomialCurve(0.0, 1.0, Eigen::VectorXd::Ones(3))), 1.959964, 1e-5);
}

// A line whose ends are equally far from the middle's error and its slope's: u turns by a right angle, and by
// hand exp(-c^2/2)/2 + erfc(c/sqrt 2) = 0.05 at c = 2.353: 0.0314 + 0.0186.
TEST(WholeBand, ALineOfEqualErrorsTurnsByARightAngle) {
    EXPECT_NEAR(wholeBandSigmas(curveWith(Eigen::MatrixXd::Identity(2, 2))), 2.353, 0.002);
}

// A slope that is known far worse than the middle turns nearly by half a circle: Working and Hotelling's band
// over all flows, sqrt(2 F(0.95; 2, many)) = sqrt(chi-square(0.95; 2)) = 2.4477, plus the little that an open
// end adds.
TEST(WholeBand, ALineOverFlowsWithoutEndIsWorkingAndHotellings) {
    Eigen::MatrixXd covariance = Eigen::MatrixXd::Identity(2, 2);
    covariance(1, 1) = 1e8;
    const double sigmas = wholeBandSigmas(curveWith(covariance));
    EXPECT_GT(sigmas, 2.4477);
    EXPECT_LT(sigmas, 2.62);
}

// By 20000 draws of the coefficients: the share that stays within scatters by 0.15 %; the bound is no more
// than 1.5 % wide of it.
TEST(WholeBand, HoldsDrawnCurvesWhollyAsOftenAsItSays) {
    constexpr int kDraws = 20000, kLooks = 101;
    Eigen::MatrixXd root(5, 5);
    root << 1.0, 0.0, 0.0, 0.0, 0.0, 0.4, 0.8, 0.0, 0.0, 0.0, -0.2, 0.1, 0.5, 0.0, 0.0, 0.1, -0.3, 0.2, 0.4,
        0.0, 0.0, 0.1, -0.1, 0.2, 0.3;
    const PolynomialCurve curve = curveWith(root * root.transpose());
    const double sigmas = wholeBandSigmas(curve);
    std::vector<double> flows, halves;
    for (int i = 0; i < kLooks; ++i) {
        flows.push_back(2.0 * i / (kLooks - 1));
        halves.push_back(sigmas * curve.sigmaAt(flows.back()));
    }
    std::mt19937 random(5);
    std::normal_distribution<double> normal(0.0, 1.0);
    int held = 0;
    for (int k = 0; k < kDraws; ++k) {
        Eigen::VectorXd z(5);
        for (double& one : z)
            one = normal(random);
        const PolynomialCurve drawn = curve.withCoefficients(root * z);
        bool inside = true;
        for (std::size_t i = 0; inside && i < flows.size(); ++i)
            inside = std::abs(drawn.at(flows[i])) <= halves[i];
        held += inside ? 1 : 0;
    }
    const double share = static_cast<double>(held) / kDraws;
    EXPECT_GT(share, 0.947);
    EXPECT_LT(share, 0.965);
}

} // namespace
} // namespace headmark
