// A pump's curves at speeds, its efficiency, power and bands.

#include "analysis/duty/pump_model.h"

#include "support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using namespace testing;

const Density kWater = Density::fromKilogramsPerCubicMetre(1000.0);

PumpModel fullPump() {
    PumpModel pump = pumpOf(parabola(40.0, 0.0, -0.02, 0.0, 30.0));
    // Best 0.65 at 18 m3/h: 0.65 (2 q/18 - (q/18)^2)
    pump.efficiency = parabola(0.0, 1.3 / 18.0, -0.65 / 324.0, 0.0, 30.0);
    pump.npshRequired = parabola(1.0, 0.0, 0.005, 0.0, 30.0);
    pump.chartSpeed = RotationalSpeed::fromRevolutionsPerMinute(2900.0);
    return pump;
}

// Speed 1.1: the point 20 m3/h, 32 m, NPSH 3 m goes to 22 m3/h, 38.72 m, 3.63 m; efficiency goes with the
// flow.
TEST(PumpModel, CarriesEveryCurveToAnotherSpeed) {
    PumpModel pump = fullPump();
    pump.power = curveThrough({{0.0, 1000.0}, {20.0, 2500.0}, {30.0, 3000.0}});
    const PumpModel fast = pump.atSpeed(1.1);
    EXPECT_NEAR(fast.head.at(22.0 * kM3_h), 38.72, 1e-9);
    EXPECT_NEAR(fast.npshRequired->at(22.0 * kM3_h), 3.63, 1e-9);
    EXPECT_NEAR(fast.power->at(22.0 * kM3_h), 2500.0 * 1.331, 1e-6);
    EXPECT_NEAR(fast.efficiency->at(19.8 * kM3_h), 0.65, 1e-12);
    EXPECT_NEAR(fast.chartSpeed->inRevolutionsPerMinute(), 3190.0, 1e-9);
    EXPECT_NEAR(fast.head.greatest_m3_s() / kM3_h, 33.0, 1e-9);
}

// run ratio 0.9 and speed share 0.9: 0.81 in all, head 0.6561.
TEST(PumpModel, MultipliesRunningSpeedAndShareOnce) {
    PumpModel pump = fullPump();
    pump.runRatio = 0.9;
    const PumpModel slow = pump.atSpeed(0.9);
    EXPECT_NEAR(slow.head.at(0.0), 40.0 * 0.6561, 1e-9);
    EXPECT_NEAR(slow.atSpeed(1.0).head.at(0.0), 40.0 * 0.6561, 1e-9);
}

TEST(PumpModel, FindsTheBestPointOfItsEfficiencyCurve) {
    const auto best = fullPump().bestPoint(kWater);
    ASSERT_TRUE(best);
    EXPECT_NEAR(best->flow_m3_s / kM3_h, 18.0, 1e-6);
    EXPECT_NEAR(best->efficiency, 0.65, 1e-9);
    EXPECT_FALSE(best->atEndOfRange);
    PumpModel shortRead = fullPump();
    shortRead.efficiency = parabola(0.0, 1.3 / 18.0, -0.65 / 324.0, 0.0, 15.0);
    EXPECT_TRUE(shortRead.bestPoint(kWater)->atEndOfRange);
    EXPECT_FALSE(pumpOf(parabola(40.0, 0.0, -0.02, 0.0, 30.0)).bestPoint(kWater));
}

// With power alone: eta = rho g Q H/P. Head 40 - 0.02 q^2, power constant 3 kW: Q H is greatest where
// 40 - 0.06 q^2 = 0, q = 25.8199 m3/h, H = 26.6667 m: eta = 9806.65 0.00717219 26.6667/3000 = 0.62521.
TEST(PumpModel, FollowsEfficiencyFromPowerAlone) {
    PumpModel pump = pumpOf(parabola(40.0, 0.0, -0.02, 0.0, 30.0));
    pump.power = curveThrough({{0.0, 3000.0}, {30.0, 3000.0}});
    const auto best = pump.bestPoint(kWater);
    ASSERT_TRUE(best);
    EXPECT_NEAR(best->flow_m3_s / kM3_h, 25.8199, 1e-3);
    EXPECT_NEAR(best->efficiency, 0.62521, 1e-5);
    // Power at the motor's input says nothing of the pump without the motor's efficiency.
    pump.powerAtMotorInput = true;
    EXPECT_FALSE(pump.efficiencyAt(20.0 * kM3_h, 32.0, kWater));
    EXPECT_FALSE(pump.shaftAt_W(20.0 * kM3_h, 32.0, kWater));
    EXPECT_NEAR(*pump.inputAt_W(20.0 * kM3_h, 32.0, kWater), 3000.0, 1e-9);
    pump.motor = Motor{{}, Efficiency::fromShare(0.8), ""};
    EXPECT_NEAR(*pump.shaftAt_W(20.0 * kM3_h, 32.0, kWater), 2400.0, 1e-9);
}

// P = rho g Q H/eta: 1000 9.80665 (18/3600) 33.52/0.65 = 2528.6 W; beyond the curve nothing.
TEST(PumpModel, FollowsPowerFromEfficiencyAlone) {
    const PumpModel pump = fullPump();
    EXPECT_NEAR(*pump.shaftAt_W(18.0 * kM3_h, 33.52, kWater), 2528.607, 1e-2);
    EXPECT_FALSE(pump.shaftAt_W(31.0 * kM3_h, 20.0, kWater));
    EXPECT_FALSE(pump.efficiencyAt(31.0 * kM3_h, 20.0, kWater));
    EXPECT_FALSE(pump.inputAt_W(18.0 * kM3_h, 33.52, kWater)) << "no motor is known";
}

// ISO 9906 grades as the job file's rules take them: 8 % below 10 kW, 7 % to 100 kW, 5 % above.
TEST(DeliveredShare, FollowsTheRatedPower) {
    EXPECT_DOUBLE_EQ(deliveredShareFor({}), 0.08);
    EXPECT_DOUBLE_EQ(deliveredShareFor(Power::fromKilowatts(9.99)), 0.08);
    EXPECT_DOUBLE_EQ(deliveredShareFor(Power::fromKilowatts(10.0)), 0.07);
    EXPECT_DOUBLE_EQ(deliveredShareFor(Power::fromKilowatts(100.0)), 0.07);
    EXPECT_DOUBLE_EQ(deliveredShareFor(Power::fromKilowatts(101.0)), 0.05);
}

// ANSI/HI 9.6.3 as summarised in a trade journal: best flow 1000 gives a preferred region of 700 to 1200.
TEST(EfficiencyBand, EndsWhereTheShareOfBestFlowEnds) {
    const BandLimits limits;
    EXPECT_EQ(bandOf(0.70, limits), Band::preferred);
    EXPECT_EQ(bandOf(1.20, limits), Band::preferred);
    EXPECT_EQ(bandOf(0.6999, limits), Band::allowable);
    EXPECT_EQ(bandOf(1.2001, limits), Band::allowable);
    EXPECT_EQ(bandOf(0.50, limits), Band::allowable);
    EXPECT_EQ(bandOf(1.25, limits), Band::allowable);
    EXPECT_EQ(bandOf(0.4999, limits), Band::outside);
    EXPECT_EQ(bandOf(1.2501, limits), Band::outside);
}

// Specific speed in US units 51.64524 n sqrt Q/H^0.75. 2900 rpm, 0.1 m3/s, 10 m: 51.64524 917.06/5.62341 =
// 8422 above 4500: 80 to 115 %. The ordinary pump at 18 m3/h, 33.5 m: 51.64524 205.06/13.93 = 760.
TEST(EfficiencyBand, NarrowsAtHighSpecificSpeed) {
    const PumpModel usual = fullPump();
    const BandLimits wide = bandLimits(usual, *usual.bestPoint(kWater));
    EXPECT_DOUBLE_EQ(wide.preferredLow, 0.70);
    EXPECT_DOUBLE_EQ(wide.preferredHigh, 1.20);
    PumpModel fast = pumpOf(curveThrough({{0.0, 20.0}, {360.0, 10.0}, {450.0, 5.0}}));
    fast.efficiency = parabola(0.0, 1.5 / 360.0, -0.75 / (360.0 * 360.0), 0.0, 450.0);
    fast.chartSpeed = RotationalSpeed::fromRevolutionsPerMinute(2900.0);
    const BandLimits narrow = bandLimits(fast, *fast.bestPoint(kWater));
    EXPECT_DOUBLE_EQ(narrow.preferredLow, 0.80);
    EXPECT_DOUBLE_EQ(narrow.preferredHigh, 1.15);
    fast.chartSpeed.reset(); // unknown speed: the usual limits
    EXPECT_DOUBLE_EQ(bandLimits(fast, *fast.bestPoint(kWater)).preferredLow, 0.70);
    // Nothing beyond what the maker allows is preferred.
    fast.allowableShare = {0.8, 0.9};
    EXPECT_EQ(bandOf(0.95, bandLimits(fast, *fast.bestPoint(kWater))), Band::outside);
    EXPECT_EQ(bandOf(0.85, bandLimits(fast, *fast.bestPoint(kWater))), Band::preferred);
    fast.allowableShare = {0.6, 1.3};
    EXPECT_DOUBLE_EQ(bandLimits(fast, *fast.bestPoint(kWater)).allowableLow, 0.6);
    EXPECT_DOUBLE_EQ(bandLimits(fast, *fast.bestPoint(kWater)).allowableHigh, 1.3);
}

TEST(FallingHead, NeverRisesWithFlow) {
    // Drooping: 30 + 2 q - 0.1 q^2, taken from its top at 10 to 18 m3/h.
    const FallingHead head(parabola(30.0, 2.0, -0.1, 0.0, 18.0), 1.08, 10.0 * kM3_h, 18.0 * kM3_h);
    EXPECT_NEAR(head.at(0.0).loss_m, 1.08 * 40.0, 1e-9);
    EXPECT_NEAR(head.at(15.0 * kM3_h).loss_m, 1.08 * 37.5, 1e-9);
    double last = head.at(0.0).loss_m;
    for (double q = 0.25; q < 40.0; q += 0.25) {
        const LossAt h = head.at(q * kM3_h);
        EXPECT_LE(h.loss_m, last + 1e-9);
        EXPECT_LE(h.slope_s_m2, 0.0);
        last = h.loss_m;
    }
}

} // namespace
} // namespace headmark
