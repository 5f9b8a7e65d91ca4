#include "analysis/curve/pump_curve.h"

#include "analysis/core/assertion.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

// An invented pump with a hump: 1.5 + 1.2 t - 2.1 P2 - 0.3 P3, scaled to metres, on 0 to 0.02 m3/s.
PumpCurve inventedPump() {
    Eigen::VectorXd coefficients(4);
    coefficients << 31.0, -8.0, -6.0, -1.0;
    Eigen::MatrixXd covariance = Eigen::MatrixXd::Identity(4, 4) * 0.01;
    covariance(0, 2) = covariance(2, 0) = -0.003;
    return PumpCurve(PolynomialCurve(0.0, 0.02, coefficients, covariance));
}

TEST(PumpCurve, DoublesTheFlowAtEqualHeadForTwoInParallel) {
    const PumpCurve one = inventedPump(), two = inParallel(one, 2);
    for (const double flow : {0.0, 0.004, 0.013, 0.02})
        EXPECT_NEAR(two.at(2.0 * flow), one.at(flow), 1e-13 * one.at(flow));
    EXPECT_DOUBLE_EQ(two.greatest_m3_s(), 0.04);
}

TEST(PumpCurve, DoublesTheHeadAtEqualFlowForTwoInSeries) {
    const PumpCurve one = inventedPump(), two = inSeries(one, 2);
    for (const double flow : {0.0, 0.004, 0.013, 0.02})
        EXPECT_NEAR(two.at(flow), 2.0 * one.at(flow), 1e-13 * one.at(flow));
    EXPECT_DOUBLE_EQ(two.greatest_m3_s(), 0.02);
}

TEST(PumpCurve, DoesNotCareInWhichOrderPumpsAreArranged) {
    const PumpCurve one = inventedPump();
    const PumpCurve a = inSeries(inParallel(one, 3), 2), b = inParallel(inSeries(one, 2), 3);
    EXPECT_NEAR(a.at(0.031), b.at(0.031), 1e-12);
    EXPECT_NEAR(inParallel(one, 1).at(0.011), one.at(0.011), 1e-15);
}

TEST(PumpCurve, KeepsHeadOverFlowSquaredAlongAffinePoints) {
    // Affinity: flow goes with speed, head with its square, so H/Q^2 of a carried point stays.
    const PumpCurve chart = inventedPump();
    const double ratio = 1450.0 / 2900.0;
    const PumpCurve slow = chart.scaled(ratio, ratio * ratio);
    for (const double flow : {0.003, 0.012, 0.019}) {
        const double before = chart.at(flow) / (flow * flow);
        const double after = slow.at(flow * ratio) / (flow * flow * ratio * ratio);
        EXPECT_NEAR(after, before, 1e-12 * before);
    }
}

TEST(PumpCurve, ReturnsToItselfWhenTheSpeedReturns) {
    const PumpCurve chart = inventedPump();
    const PumpCurve back = chart.scaled(0.8, 0.64).scaled(1.0 / 0.8, 1.0 / 0.64);
    EXPECT_NEAR(back.at(0.0123), chart.at(0.0123), 1e-13 * 40.0);
    EXPECT_NEAR(back.flowFactor(), 1.0, 1e-15);
    EXPECT_NEAR(back.valueFactor(), 1.0, 1e-15);
}

TEST(PumpCurve, HasTheSlopeOfItsOwnValues) {
    const PumpCurve curve = inventedPump().scaled(1.7, 0.6);
    const double flow = 0.021, step = 1e-6;
    const double difference = (curve.at(flow + step) - curve.at(flow - step)) / (2.0 * step);
    EXPECT_NEAR(curve.slopeAt(flow), difference, 1e-5 * std::abs(difference));
}

TEST(PumpCurve, CarriesErrorTurnsAndRangeWithIt) {
    const PumpCurve chart = inventedPump(), scaled = chart.scaled(3.0, 0.5);
    EXPECT_NEAR(scaled.sigmaAt(0.03), 0.5 * chart.sigmaAt(0.01), 1e-15);
    ASSERT_EQ(chart.turningPoints().size(), 1U);
    ASSERT_EQ(scaled.turningPoints().size(), 1U);
    EXPECT_NEAR(scaled.turningPoints()[0], 3.0 * chart.turningPoints()[0], 1e-15);
    EXPECT_NEAR(scaled.flowOfMaximum(), 3.0 * chart.flowOfMaximum(), 1e-15);
    EXPECT_NEAR(scaled.slopeAt(scaled.flowOfMaximum()), 0.0, 1e-9);
    EXPECT_TRUE(scaled.contains(0.06));
    EXPECT_FALSE(scaled.contains(0.0601));
    EXPECT_FALSE(scaled.contains(-0.0001));
}

TEST(PumpCurve, RefusesFactorsThatAreNotPositive) {
    EXPECT_THROW((void)inventedPump().scaled(0.0, 1.0), InternalError);
    EXPECT_THROW((void)inventedPump().scaled(1.0, -1.0), InternalError);
}

TEST(PumpPower, TurnsIntoEfficiencyAndBack) {
    const double flow = 0.004, head = 31.0, density = 998.2;
    const auto power = powerFromEfficiency(flow, head, 0.62, density);
    ASSERT_TRUE(power.has_value());
    EXPECT_NEAR(efficiencyFromPower(flow, head, *power, density), 0.62, 1e-15);
    // By hand: 1000 kg/m3, 0.01 m3/s, 10 m at efficiency 1/2 need 2 * 980.665 W.
    EXPECT_NEAR(powerFromEfficiency(0.01, 10.0, 0.5, 1000.0).value(), 1961.33, 1e-9);
}

TEST(PumpPower, CannotFollowFromEfficiencyAtZeroFlow) {
    EXPECT_FALSE(powerFromEfficiency(0.0, 40.0, 0.0, 998.0).has_value());
    EXPECT_FALSE(powerFromEfficiency(0.001, 40.0, 0.0, 998.0).has_value());
    EXPECT_EQ(efficiencyFromPower(0.0, 40.0, 800.0, 998.0), 0.0);
}

TEST(SpecificSpeed, StaysTheSameAtAnotherSpeed) {
    // By the affinity laws n sqrt(Q)/H^(3/4) does not change: r sqrt(r)/(r^2)^(3/4) = 1.
    const double r = 0.73;
    EXPECT_NEAR(specificSpeedMetric(2900.0 * r, 0.01 * r, 32.0 * r * r),
                specificSpeedMetric(2900.0, 0.01, 32.0), 1e-12 * 2900.0);
    EXPECT_NEAR(specificSpeedUs(2900.0 * r, 0.01 * r, 32.0 * r * r), specificSpeedUs(2900.0, 0.01, 32.0),
                1e-9);
}

TEST(SpecificSpeed, RefusesAHeadThatIsNotPositive) {
    EXPECT_THROW((void)specificSpeedMetric(2900.0, 0.01, 0.0), InternalError);
}

} // namespace
} // namespace headmark
