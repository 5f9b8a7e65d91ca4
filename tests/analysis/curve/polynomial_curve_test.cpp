#include "analysis/curve/polynomial_curve.h"

#include "analysis/core/assertion.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

// Of numbers of size one after a handful of operations.
constexpr double kRounding = 1e-13;

Eigen::VectorXd coefficients(std::initializer_list<double> list) {
    Eigen::VectorXd result(static_cast<Eigen::Index>(list.size()));
    Eigen::Index i = 0;
    for (const double c : list)
        result[i++] = c;
    return result;
}

// Over [2, 6]: centre 4, half range 2.
PolynomialCurve curveOver2To6(std::initializer_list<double> legendre) {
    return PolynomialCurve(2.0, 6.0, coefficients(legendre));
}

TEST(PolynomialCurve, SumsLegendrePolynomialsOfTheScaledFlow) {
    // By hand at Q = 5, t = 0.5: P2 = (3/4 - 1)/2 = -0.125, P3 = (5/8 - 3/2)/2 = -0.4375.
    const PolynomialCurve curve = curveOver2To6({1.0, 2.0, 3.0, 4.0});
    EXPECT_NEAR(curve.at(5.0), 1.0 + 1.0 - 0.375 - 1.75, kRounding);
    // Every Legendre polynomial is 1 at t = 1 and alternates at t = -1.
    EXPECT_NEAR(curve.at(6.0), 10.0, kRounding);
    EXPECT_NEAR(curve.at(2.0), 1.0 - 2.0 + 3.0 - 4.0, kRounding);
    EXPECT_EQ(curve.degree(), 3);
}

TEST(PolynomialCurve, IsOneAtTheUpperEndForEveryLegendrePolynomialToDegreeTen) {
    for (Eigen::Index degree = 0; degree <= 10; ++degree) {
        const PolynomialCurve curve(0.0, 3.0, Eigen::VectorXd::Unit(11, degree));
        EXPECT_NEAR(curve.at(3.0), 1.0, kRounding) << "degree " << degree;
        // P_k'(1) = k(k+1)/2, divided by the half range of 1.5; Abramowitz and Stegun, ch. 22.
        const double slope = 0.5 * static_cast<double>(degree * (degree + 1)) / 1.5;
        EXPECT_NEAR(curve.slopeAt(3.0), slope, 1e-11) << "degree " << degree;
    }
}

TEST(PolynomialCurve, GivesTheSlopePerUnitOfFlow) {
    // By hand at t = 0.5: P2' = 3t = 1.5, P3' = (15 t^2 - 3)/2 = 0.375; dt/dQ = 1/2.
    const PolynomialCurve curve = curveOver2To6({1.0, 2.0, 3.0, 4.0});
    EXPECT_NEAR(curve.slopeAt(5.0), 0.5 * (2.0 + 4.5 + 1.5), kRounding);
}

TEST(PolynomialCurve, IsOneValueEverywhereAtDegreeZero) {
    const PolynomialCurve curve = curveOver2To6({7.5});
    EXPECT_EQ(curve.at(3.3), 7.5);
    EXPECT_EQ(curve.slopeAt(3.3), 0.0);
    EXPECT_THAT(curve.turningPoints(), IsEmpty());
}

TEST(PolynomialCurve, ContainsItsEndsAndTheirRounding) {
    const PolynomialCurve curve = curveOver2To6({1.0});
    EXPECT_TRUE(curve.contains(2.0));
    EXPECT_TRUE(curve.contains(6.0));
    EXPECT_TRUE(curve.contains(6.0 + 3e-12)); // the range is 4
    EXPECT_FALSE(curve.contains(6.0 + 1e-10));
    EXPECT_FALSE(curve.contains(2.0 - 1e-10));
    EXPECT_FALSE(curve.contains(std::nan("")));
}

TEST(PolynomialCurve, ConvertsToPowersOfFlowInTheUnitAsked) {
    // y = 50 - 0.008 q^2 with q in m3/h on 0 to 60 m3/h: t = q/30 - 1, q^2 = 900 (t^2 + 2t + 1) and
    // t^2 = (1 + 2 P2)/3, so q^2 = 1200 + 1800 P1 + 600 P2.
    const double m3_h = 1.0 / 3600.0;
    const PolynomialCurve curve(0.0, 60.0 * m3_h, coefficients({40.4, -14.4, -4.8}));
    const Eigen::VectorXd powers = curve.monomial(m3_h);
    ASSERT_EQ(powers.size(), 3);
    EXPECT_NEAR(powers[0], 50.0, kRounding * 50.0);
    EXPECT_NEAR(powers[1], 0.0, kRounding);
    EXPECT_NEAR(powers[2], -0.008, kRounding);
}

TEST(PolynomialCurve, FindsEveryPlaceOfZeroSlopeInsideTheRange) {
    // y = t^4 - t^2/2 turns at t = -1/2, 0, 1/2. t^4 = (7 + 20 P2 + 8 P4)/35, t^2 = (1 + 2 P2)/3.
    const PolynomialCurve curve =
        curveOver2To6({0.2 - 1.0 / 6.0, 0.0, 4.0 / 7.0 - 1.0 / 3.0, 0.0, 8.0 / 35.0});
    EXPECT_THAT(curve.turningPoints(),
                ElementsAre(DoubleNear(3.0, 1e-12), DoubleNear(4.0, 1e-12), DoubleNear(5.0, 1e-12)));
}

TEST(PolynomialCurve, LeavesOutTurnsAtOrBeyondTheEnds) {
    // (t - 1)^2 = 4/3 - 2 P1 + 2/3 P2 turns at the upper end itself.
    EXPECT_THAT(curveOver2To6({4.0 / 3.0, -2.0, 2.0 / 3.0}).turningPoints(), IsEmpty());
    // (t - 2)^2 = 13/3 - 4 P1 + 2/3 P2 turns beyond it.
    EXPECT_THAT(curveOver2To6({13.0 / 3.0, -4.0, 2.0 / 3.0}).turningPoints(), IsEmpty());
    EXPECT_THAT(curveOver2To6({4.0, -2.0}).turningPoints(), IsEmpty());
}

TEST(PolynomialCurve, ReportsALevelPlaceThatIsNoExtremum) {
    // t^3 = (3 P1 + 2 P3)/5 is level at the middle.
    EXPECT_THAT(curveOver2To6({0.0, 0.6, 0.0, 0.4}).turningPoints(), ElementsAre(DoubleNear(4.0, 1e-12)));
}

TEST(PolynomialCurve, TakesItsMaximumInsideOrAtEitherEnd) {
    // 1 - (t - 0.3)^2 = 1 - 0.09 - 1/3 + 0.6 P1 - 2/3 P2
    EXPECT_NEAR(curveOver2To6({1.0 - 0.09 - 1.0 / 3.0, 0.6, -2.0 / 3.0}).flowOfMaximum(), 4.6, 1e-12);
    EXPECT_EQ(curveOver2To6({4.0, -2.0}).flowOfMaximum(), 2.0);
    EXPECT_EQ(curveOver2To6({4.0, 2.0}).flowOfMaximum(), 6.0);
    // A hump at t = -0.5 that the far end overtops: y = t^3 - 0.75 t, 0.25 there and 0.25 at 1, plus 0.1 t.
    EXPECT_EQ(curveOver2To6({0.0, 0.6 - 0.75 + 0.1, 0.0, 0.4}).flowOfMaximum(), 6.0);
}

TEST(PolynomialCurve, CarriesTheCovarianceToEveryFlow) {
    Eigen::MatrixXd covariance(2, 2);
    covariance << 0.04, -0.01, -0.01, 0.09;
    const PolynomialCurve curve(2.0, 6.0, coefficients({1.0, 2.0}), covariance);
    // var = 0.04 - 0.02 t + 0.09 t^2 by hand
    EXPECT_NEAR(curve.sigmaAt(4.0), 0.2, kRounding);
    EXPECT_NEAR(curve.sigmaAt(6.0), std::sqrt(0.11), kRounding);
    EXPECT_NEAR(curve.sigmaAt(3.0), std::sqrt(0.0725), kRounding);
    EXPECT_EQ(curveOver2To6({1.0, 2.0}).sigmaAt(3.0), 0.0);
}

TEST(PolynomialCurve, UsesTheSecondAndThirdPolynomialForItsSigma) {
    Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero(4, 4);
    covariance(2, 2) = 4.0;
    covariance(3, 3) = 16.0;
    const PolynomialCurve curve(2.0, 6.0, coefficients({1.0, 2.0, 3.0, 4.0}), covariance);
    // t = 0.5: P2 = -0.125, P3 = -0.4375
    EXPECT_NEAR(curve.sigmaAt(5.0), std::hypot(2.0 * 0.125, 4.0 * 0.4375), kRounding);
}

TEST(PolynomialCurve, KeepsRangeAndCovarianceUnderOtherCoefficients) {
    const PolynomialCurve curve(0.1, 0.7, coefficients({1.0, 2.0}), Eigen::MatrixXd::Identity(2, 2));
    const PolynomialCurve other = curve.withCoefficients(coefficients({5.0, -1.0}));
    EXPECT_EQ(other.least_m3_s(), curve.least_m3_s());
    EXPECT_EQ(other.greatest_m3_s(), curve.greatest_m3_s());
    EXPECT_NEAR(other.at(0.7), 4.0, kRounding);
    EXPECT_NEAR(other.slopeAt(0.7), -1.0 / 0.3, 1e-12);
    EXPECT_EQ(other.sigmaAt(0.4), 1.0);
    EXPECT_THROW((void)curve.withCoefficients(coefficients({5.0})), InternalError);
}

TEST(PolynomialCurve, RefusesAnEmptyRangeAndAMisfittingCovariance) {
    EXPECT_THROW(PolynomialCurve(1.0, 1.0, coefficients({1.0})), InternalError);
    EXPECT_THROW(PolynomialCurve(0.0, 1.0, Eigen::VectorXd()), InternalError);
    EXPECT_THROW(PolynomialCurve(0.0, 1.0, coefficients({1.0}), Eigen::MatrixXd::Identity(2, 2)),
                 InternalError);
}

} // namespace
} // namespace headmark
