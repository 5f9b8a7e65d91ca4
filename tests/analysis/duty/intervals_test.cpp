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

// A curve of this one value and slope at 50 m3/h, over 0 to `greatest_m3_h`, moved as a whole by `sigma`.
PumpCurve lineThrough(double at50, double perM3_h, double greatest_m3_h, double sigma) {
    const double half_m3_h = 0.5 * greatest_m3_h;
    Eigen::VectorXd coefficients(2);
    coefficients << at50 - perM3_h * (50.0 - half_m3_h), perM3_h * half_m3_h;
    Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero(2, 2);
    covariance(0, 0) = sigma * sigma;
    return PumpCurve(PolynomialCurve(0.0, greatest_m3_h / 3600.0, coefficients, covariance));
}

// 50 - 0.008 q^2 m, one sigma of 0.5 m. On 20 + 0.004 q^2 it runs at 50 m3/h and 30 m; one sigma moves the
// flow by 0.5/(2 50 0.012) = 0.416667 m3/h and the head along the system curve by 0.4 0.416667 = 0.166667 m.
PumpModel unsurePump(double headSigma_m) {
    const PumpCurve exact = parabola(50.0, 0.0, -0.008, 0.0, 75.0);
    const auto n = exact.base().coefficients().size();
    Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero(n, n);
    covariance(0, 0) = headSigma_m * headSigma_m;
    return pumpOf(PumpCurve(
        PolynomialCurve(exact.least_m3_s(), exact.greatest_m3_s(), exact.base().coefficients(), covariance)));
}

template <class Q>
double shareOfHalfWidth(const Interval95<Q>& i) {
    return (i.high - i.low) / (i.high + i.low);
}

// Efficiency 0.7 + 0.004 (q - 50), one sigma of 0.01. By the flow it moves 0.004 0.416667 = 0.0016667; half
// width 1.959964 sqrt(0.0016667^2 + 0.01^2) = 0.0198700.
// Shaft power rho g q H / eta by the flow: 0.416667/50 + 0.166667/30 - 0.0016667/0.7 = 0.0115079 of itself,
// by the efficiency 0.01/0.7 = 0.0142857; half width 1.959964 sqrt(0.0115079^2 + 0.0142857^2) = 0.0359542.
TEST(LinearIntervals, CarryFlowAndEfficiencyCurveToEfficiencyAndPower) {
    const SiteModel model = modelOf(knownSystem(20.0, 0.004));
    PumpModel pump = unsurePump(0.5);
    pump.efficiency = lineThrough(0.7, 0.004, 75.0, 0.01);
    pump.motor = Motor{Power::fromKilowatts(7.5), Efficiency::fromShare(0.8), ""};
    const DutyIntervals i = linearIntervals(CaseSolver(model, pump, Limits{}), caseOf({}));
    ASSERT_TRUE(i.ok && i.efficiency && i.shaft && i.input);
    EXPECT_NEAR(0.5 * (i.efficiency->high - i.efficiency->low).inShare(), 0.0198700, 2e-6);
    EXPECT_NEAR(0.5 * (i.efficiency->high + i.efficiency->low).inShare(), 0.7, 1e-6);
    // 1/eta is bent: (0.01/0.7)^2 = 2e-4 of the half width
    EXPECT_NEAR(shareOfHalfWidth(*i.shaft), 0.0359542, 1e-5);
    EXPECT_NEAR(shareOfHalfWidth(*i.input), 0.0359542, 1e-5);
}

// Shaft power 5000 W at any flow, one sigma of 100 W: half width 195.9964 W, and 1.959964 0.02 of the
// efficiency that follows from it. The head is exact.
TEST(LinearIntervals, CarryThePowerCurveToPowerAndEfficiency) {
    const SiteModel model = modelOf(knownSystem(20.0, 0.004));
    PumpModel pump = unsurePump(0.0);
    pump.power = lineThrough(5000.0, 0.0, 75.0, 100.0);
    const DutyIntervals i = linearIntervals(CaseSolver(model, pump, Limits{}), caseOf({}));
    ASSERT_TRUE(i.ok && i.efficiency && i.shaft);
    EXPECT_NEAR(0.5 * (i.shaft->high - i.shaft->low).inWatts(), 195.9964, 1e-3);
    EXPECT_NEAR(shareOfHalfWidth(*i.efficiency), 0.0391993, 2e-5); // 1/P is bent: 4e-4
    EXPECT_FALSE(i.input.has_value());                             // no motor efficiency
}

// The efficiency is read to the duty flow and no further: the left side stands for both.
TEST(LinearIntervals, TakeTheOneSideThatIsReadAtTheEndOfACurve) {
    const SiteModel model = modelOf(knownSystem(20.0, 0.004));
    PumpModel pump = unsurePump(0.5);
    pump.efficiency = lineThrough(0.7, 0.004, 50.0, 0.0);
    const DutyIntervals i = linearIntervals(CaseSolver(model, pump, Limits{}), caseOf({}));
    ASSERT_TRUE(i.ok && i.efficiency);
    // 1.959964 0.0016667 = 0.0032666; a one-sided step bends by 0.4166/(2 50) = 0.4 %
    EXPECT_NEAR(0.5 * (i.efficiency->high - i.efficiency->low).inShare(), 0.0032666, 2e-5);
}

TEST(LinearIntervals, OfEfficiencyAndPowerAreNotGivenWhereNoCurveTells) {
    const SiteModel model = modelOf(knownSystem(20.0, 0.004));
    const DutyIntervals i = linearIntervals(CaseSolver(model, unsurePump(0.5), Limits{}), caseOf({}));
    ASSERT_TRUE(i.ok);
    EXPECT_FALSE(i.efficiency || i.shaft || i.input);
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
