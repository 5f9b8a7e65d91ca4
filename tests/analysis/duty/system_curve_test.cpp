#include "analysis/duty/system_curve.h"

#include "analysis/duty/case_solver.h"
#include "tests/support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace headmark {
namespace {

using namespace testing;

constexpr double kTop_m = 80.0;

SystemCurve curveOf(const Site& site, double greatest_m3_h, std::vector<bool> open = {}) {
    CaseSetting setting;
    setting.open = std::move(open);
    const SiteModel model = modelOf(site);
    return systemCurveOf(model.tree(setting).tree, greatest_m3_h * kM3_h, kTop_m);
}

// 100 kPa as head of water of 15 C: density 999.1026 kg/m3 (IAPWS, tests of water), g 9.80665 m/s2.
const double kHeadOf100kPa_m = 1e5 / (999.1026 * 9.80665);

TEST(SystemCurve, GivesBackAKnownCurve) {
    const SystemCurve curve = curveOf(knownSystem(20.0, 0.5), 10.0);
    ASSERT_GT(curve.flow_m3_s.size(), 30u);
    EXPECT_DOUBLE_EQ(curve.flow_m3_s.front(), 0.0);
    EXPECT_NEAR(curve.flow_m3_s.back() / kM3_h, 10.0, 1e-6);
    for (std::size_t i = 0; i < curve.flow_m3_s.size(); ++i) {
        const double q = curve.flow_m3_s[i] / kM3_h;
        EXPECT_NEAR(curve.head_m[i], 20.0 + 0.5 * q * q, 1e-7) << q;
    }
}

// 20 + 0.5 q^2 = 80 at sqrt(120) m3/h.
TEST(SystemCurve, EndsAtTheTop) {
    const SystemCurve curve = curveOf(knownSystem(20.0, 0.5), 50.0);
    ASSERT_FALSE(curve.flow_m3_s.empty());
    EXPECT_NEAR(curve.flow_m3_s.back() / kM3_h, std::sqrt(120.0), 1e-6);
    EXPECT_NEAR(curve.head_m.back(), kTop_m, 1e-9);
}

// Two zones at the pump's outlet, nothing lost on the way: Q = 4 sqrt(H/h) up to H = 10 m, beyond it
// Q = 4 (sqrt(H/h) + sqrt((H - 10)/h)), h the head of 100 kPa.
TEST(SystemCurve, KinksWhereAHigherZoneBeginsToFlow) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.zones = {zoneOf("low", 4.0, 0.0), zoneOf("high", 4.0, 10.0)};
    const SystemCurve curve = curveOf(site, 12.0, {true, true});
    const double kink = 4.0 * std::sqrt(10.0 / kHeadOf100kPa_m);
    double nearest = 1e9, headThere = 0.0;
    for (std::size_t i = 0; i < curve.flow_m3_s.size(); ++i) {
        const double q = curve.flow_m3_s[i] / kM3_h, h = curve.head_m[i];
        const double above = std::sqrt(std::max(0.0, h - 10.0) / kHeadOf100kPa_m);
        EXPECT_NEAR(4.0 * (std::sqrt(h / kHeadOf100kPa_m) + above), q, 2e-5) << h;
        if (std::abs(q - kink) < nearest) {
            nearest = std::abs(q - kink);
            headThere = h;
        }
    }
    EXPECT_LT(nearest, 1e-4);
    EXPECT_NEAR(headThere, 10.0, 1e-3);
}

TEST(SystemCurve, EndsUprightWhereCompensatingEmittersAreFull) {
    Site site = siteOf(sourceAt(-2.0, -2.0, -2.0));
    Zone zone = zoneOf("drip", 3.0, 0.0);
    zone.emitters.law.regulatedFrom = Pressure::fromKilopascals(80.0);
    zone.emitters.law.regulatedTo = Pressure::fromKilopascals(350.0);
    site.zones = {zone};
    const SystemCurve curve = curveOf(site, 12.0, {true});
    ASSERT_GE(curve.flow_m3_s.size(), 2u);
    const std::size_t last = curve.flow_m3_s.size() - 1;
    EXPECT_NEAR(curve.flow_m3_s[last] / kM3_h, 3.0, 1e-9);
    EXPECT_NEAR(curve.head_m[last], kTop_m, 1e-9);
    EXPECT_NEAR(curve.flow_m3_s[last - 1] / kM3_h, 3.0, 1e-4);
    // 80 kPa at the emitter and a lift of 2 m.
    EXPECT_NEAR(curve.head_m[last - 1], 2.0 + 0.8 * kHeadOf100kPa_m, 1e-3);
}

TEST(SystemCurve, StandsUprightAtNoFlowWhereNothingIsOpen) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.zones = {zoneOf("low", 4.0, 0.0)};
    const SystemCurve curve = curveOf(site, 12.0, {false});
    EXPECT_EQ(curve.flow_m3_s, (std::vector{0.0, 0.0}));
    EXPECT_EQ(curve.head_m, (std::vector{0.0, kTop_m}));
}

// Water runs downhill by itself: the site gives head up to the flow at which the losses take it.
TEST(SystemCurve, BeginsBelowZeroWhereTheWaterStandsHigher) {
    Site site = siteOf(sourceAt(6.0, 6.0, 6.0));
    site.zones = {zoneOf("below", 4.0, 0.0)};
    const SystemCurve curve = curveOf(site, 8.0, {true});
    ASSERT_FALSE(curve.head_m.empty());
    EXPECT_NEAR(curve.head_m.front(), -6.0, 1e-6);
    EXPECT_GT(curve.head_m.back(), 0.0);
}

TEST(SystemCurve, NeverFallsAndNeverTurnsBack) {
    Site site = siteOf(sourceAt(-2.0, -2.0, -2.0));
    site.suction = {pipe(51, 6)};
    site.delivery = {pipe(55, 60), TakeoffItem{"T"}, regulator(120), pipe(40, 80)};
    site.zones = {zoneOf("a", 3.0, 1.0, "T"), zoneOf("b", 2.0, 4.0), zoneOf("c", 5.0, 9.0)};
    const SystemCurve curve = curveOf(site, 15.0, {true, true, true});
    ASSERT_GT(curve.flow_m3_s.size(), 30u);
    for (std::size_t i = 1; i < curve.flow_m3_s.size(); ++i) {
        EXPECT_GE(curve.flow_m3_s[i], curve.flow_m3_s[i - 1]);
        EXPECT_GE(curve.head_m[i], curve.head_m[i - 1] - 1e-9);
    }
}

} // namespace
} // namespace headmark
