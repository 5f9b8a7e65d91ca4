// Intervals of a duty point against differentiation by hand.

#include "analysis/duty/intervals.h"

#include "support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using namespace testing;

double halfWidth_m3_h(const DutyIntervals& i) {
    return 0.5 * (i.flow.high - i.flow.low).inCubicMetresPerHour();
}

Uncertainty onlyLevels() {
    Uncertainty u;
    u.lengthShare = u.roughnessShare = u.kShare = u.emitterShare = 0.0;
    return u;
}

// Pump 50 - 0.008 q^2, end at 20 m above the source through k = 3 in 50 mm and its velocity head, 4 c q^2
// with c = 1.020440e-3: q^2 = 30/0.01208176 = 2483.082. Levels of source and end 0.1 m each: u = 0.1 sqrt 2;
// dq/dh = 1/(2 q (0.008 + 4 c)) = 1/(2 49.83053 0.01208176) = 0.830520; half width 1.959964 u dq/dh =
// 0.230206.
TEST(LinearIntervals, FollowFromTheSlopesWhereOnlyLevelsAreUnsure) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.delivery = {fitting(3.0, 50.0)};
    site.end = OutletEnd{Level::fromMetres(20.0), GaugePressure{}};
    const SiteModel model = modelOf(site, onlyLevels());
    const CaseSolver solver(model, pumpOf(parabola(50.0, 0.0, -0.008, 0.0, 75.0)), Limits{});
    const DutyIntervals i = linearIntervals(solver, caseOf({}));
    ASSERT_TRUE(i.ok);
    EXPECT_NEAR(halfWidth_m3_h(i), 0.230206, 2e-5);
    EXPECT_NEAR(0.5 * (i.flow.high + i.flow.low).inCubicMetresPerHour(), std::sqrt(2483.082), 1e-3);
    // dH/dh = -0.016 q dq/dh = -0.66216: half width 0.183539
    EXPECT_NEAR(0.5 * (i.head.high - i.head.low).inMetres(), 0.183539, 2e-5);
    EXPECT_FALSE(i.npshMargin.has_value());
}

// NPSH required is 2 m at any flow, one sigma 0.3 m: independent of NPSH available, so the squares add up.
TEST(LinearIntervals, TheMarginTakesInTheErrorOfNpshRequired) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.delivery = {fitting(3.0, 50.0)};
    site.end = OutletEnd{Level::fromMetres(20.0), GaugePressure{}};
    const SiteModel model = modelOf(site, onlyLevels());
    PumpModel pump = pumpOf(parabola(50.0, 0.0, -0.008, 0.0, 75.0));
    pump.npshRequired = PumpCurve(PolynomialCurve(0.0, 75.0 / 3600.0, Eigen::VectorXd::Constant(1, 2.0),
                                                  Eigen::MatrixXd::Constant(1, 1, 0.09)));
    const DutyIntervals i = linearIntervals(CaseSolver(model, pump, Limits{}), caseOf({}));
    ASSERT_TRUE(i.ok && i.npshMargin);
    const double available = 0.5 * (i.npshAvailable.high - i.npshAvailable.low).inMetres();
    const double margin = 0.5 * (i.npshMargin->high - i.npshMargin->low).inMetres();
    EXPECT_GT(available, 0.1); // the source's level of 0.1 m
    EXPECT_NEAR(margin, std::hypot(available, 1.959964 * 0.3), 1e-5);
}

// The curve's own error of 0.5 m on a known system: dq/dh = 1/(2 50 0.012) = 0.833333, half 1.959964 0.5/1.2.
TEST(LinearIntervals, CarryTheReadingsErrorOnAKnownSystem) {
    const SiteModel model = modelOf(knownSystem(20.0, 0.004));
    PumpCurve exact = parabola(50.0, 0.0, -0.008, 0.0, 75.0);
    const auto n = exact.base().coefficients().size();
    Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero(n, n);
    covariance(0, 0) = 0.25; // the constant term: the whole curve up or down by 0.5 m
    const PumpCurve unsure(
        PolynomialCurve(exact.least_m3_s(), exact.greatest_m3_s(), exact.base().coefficients(), covariance));
    const CaseSolver solver(model, pumpOf(unsure), Limits{});
    const DutyIntervals i = linearIntervals(solver, caseOf({}));
    ASSERT_TRUE(i.ok);
    EXPECT_NEAR(halfWidth_m3_h(i), 1.959964 * 0.5 / 1.2, 1e-4);
}

TEST(LinearIntervals, AreAPointWhereNothingIsUnsure) {
    const SiteModel model = modelOf(knownSystem(20.0, 0.004));
    const CaseSolver solver(model, pumpOf(parabola(50.0, 0.0, -0.008, 0.0, 75.0)), Limits{});
    const DutyIntervals i = linearIntervals(solver, caseOf({}));
    ASSERT_TRUE(i.ok);
    EXPECT_NEAR(halfWidth_m3_h(i), 0.0, 1e-12);
}

TEST(LinearIntervals, AreNotGivenWithoutADuty) {
    const SiteModel model = modelOf(knownSystem(60.0, 0.004));
    const CaseSolver solver(model, pumpOf(parabola(50.0, 0.0, -0.008, 0.0, 75.0)), Limits{});
    EXPECT_FALSE(linearIntervals(solver, caseOf({})).ok);
    EXPECT_FALSE(monteCarloIntervals(solver, caseOf({}), 100, 1).ok);
}

// NPSH available rises with the source's level one to one: half width 1.959964 0.1 with no suction loss.
TEST(LinearIntervals, CarryTheSourcesLevelToNpsh) {
    Site site = siteOf(sourceAt(-2.0, -2.0, -2.0));
    site.delivery = {fitting(3.0, 50.0)};
    site.end = OutletEnd{Level::fromMetres(20.0), GaugePressure{}};
    const SiteModel model = modelOf(site, onlyLevels());
    PumpModel pump = pumpOf(parabola(50.0, 0.0, -0.008, 0.0, 75.0));
    pump.npshRequired = curveThrough({{0.0, 3.0}, {75.0, 3.0}});
    const CaseSolver solver(model, pump, Limits{});
    const DutyIntervals i = linearIntervals(solver, caseOf({}));
    ASSERT_TRUE(i.ok && i.npshMargin);
    EXPECT_NEAR(0.5 * (i.npshAvailable.high - i.npshAvailable.low).inMetres(), 0.1959964, 1e-6);
    EXPECT_NEAR(0.5 * (i.npshMargin->high - i.npshMargin->low).inMetres(), 0.1959964, 1e-6);
}

// A shut zone's unknowns do not widen the interval of the open one.
TEST(LinearIntervals, LeaveShutZonesOut) {
    Site one = siteOf(sourceAt(0.0, 0.0, 0.0));
    one.delivery = {pipe(50.0, 30.0)};
    one.zones = {zoneOf("One", 10.0, 1.0)};
    Site two = one;
    two.zones.push_back(zoneOf("Two", 5.0, 4.0));
    two.zones[1].branch = {pipe(25.0, 40.0)};
    const PumpModel pump = pumpOf(parabola(30.0, 0.0, -0.05, 0.0, 20.0));
    const SiteModel a = modelOf(one), b = modelOf(two);
    const CaseSolver first(a, pump, Limits{}), second(b, pump, Limits{});
    const double alone = halfWidth_m3_h(linearIntervals(first, caseOf({"One"})));
    EXPECT_GT(alone, 0.0);
    EXPECT_NEAR(halfWidth_m3_h(linearIntervals(second, caseOf({"One"}))), alone, 1e-7);
}

TEST(MonteCarloIntervals, RepeatWithTheSameSeed) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.delivery = {pipe(50.0, 30.0)};
    site.zones = {zoneOf("One", 10.0, 1.0)};
    const SiteModel model = modelOf(site);
    const CaseSolver solver(model, pumpOf(parabola(30.0, 0.0, -0.05, 0.0, 20.0)), Limits{});
    const DutyIntervals a = monteCarloIntervals(solver, caseOf({"One"}), 100, 7);
    const DutyIntervals b = monteCarloIntervals(solver, caseOf({"One"}), 100, 7);
    const DutyIntervals c = monteCarloIntervals(solver, caseOf({"One"}), 100, 8);
    ASSERT_TRUE(a.ok && b.ok && c.ok);
    EXPECT_EQ(a.draws, 100);
    EXPECT_EQ(a.lostDraws, 0);
    EXPECT_EQ(a.flow.low, b.flow.low);
    EXPECT_NE(a.flow.low, c.flow.low);
}

} // namespace
} // namespace headmark
