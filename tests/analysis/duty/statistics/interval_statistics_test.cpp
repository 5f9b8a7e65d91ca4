// Linear intervals against 2000 Monte Carlo draws (JCGM 101:2008). The 2.5 and 97.5 percentiles of 2000
// normal draws scatter by about sqrt(0.025 0.975/2000)/0.058 = 6 % of sigma each, so the half width by some 2
// % of itself (one sigma); 10 % leaves room for what is not linear.

#include "analysis/duty/intervals.h"

#include "support/duty_fixtures.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

using namespace testing;

constexpr double kAgree = 0.10;
constexpr int kDraws = 2000;

void expectAgreement(const CaseSolver& solver, const Case& setting) {
    const DutyIntervals linear = linearIntervals(solver, setting);
    const DutyIntervals drawn = monteCarloIntervals(solver, setting, kDraws, 4711);
    ASSERT_TRUE(linear.ok && drawn.ok);
    EXPECT_EQ(drawn.draws + drawn.lostDraws, kDraws);
    EXPECT_LT(drawn.lostDraws, kDraws / 100);
    EXPECT_NEAR((linear.flow.high - linear.flow.low) / (drawn.flow.high - drawn.flow.low), 1.0, kAgree);
    EXPECT_NEAR((linear.head.high - linear.head.low) / (drawn.head.high - drawn.head.low), 1.0, kAgree);
    EXPECT_NEAR((linear.npshAvailable.high - linear.npshAvailable.low) /
                    (drawn.npshAvailable.high - drawn.npshAvailable.low),
                1.0, kAgree);
    ASSERT_TRUE(linear.efficiency && drawn.efficiency && linear.shaft && drawn.shaft);
    EXPECT_NEAR((linear.efficiency->high - linear.efficiency->low) /
                    (drawn.efficiency->high - drawn.efficiency->low),
                1.0, kAgree);
    EXPECT_NEAR((linear.shaft->high - linear.shaft->low) / (drawn.shaft->high - drawn.shaft->low), 1.0,
                kAgree);
}

// Curves fitted through points that carry 2 % error, so that they have a covariance of their own. Efficiency
// has its top of 0.6 at three fifths of the greatest flow.
PumpModel readPump(double shutOff_m, double perM3_h2, double greatest_m3_h) {
    std::vector<CurveSample> head, efficiency;
    for (int i = 0; i <= 8; ++i) {
        const double q = greatest_m3_h * i / 8.0, ofBest = i / 8.0 / 0.6;
        head.push_back({q * kM3_h, shutOff_m - perM3_h2 * q * q});
        if (i > 0) efficiency.push_back({q * kM3_h, 0.6 * ofBest * (2.0 - ofBest)});
    }
    PumpModel pump = pumpOf(PumpCurve(fitPoints(head, CurveSense::oneMaximum, 2, 0.02).value().curve));
    pump.efficiency = PumpCurve(fitPoints(efficiency, CurveSense::any, 2, 0.02).value().curve);
    return pump;
}

// The same with a power curve of its own, 500 + 60 q W.
PumpModel withPower(PumpModel pump) {
    std::vector<CurveSample> power;
    for (int i = 0; i <= 8; ++i) {
        const double q = pump.head.greatest_m3_s() / kM3_h * i / 8.0;
        power.push_back({q * kM3_h, 500.0 + 60.0 * q});
    }
    pump.power = PumpCurve(fitPoints(power, CurveSense::any, 1, 0.02).value().curve);
    return pump;
}

TEST(IntervalStatistics, AgreeOnASiteWithOneOutlet) {
    Site site = siteOf(sourceAt(-2.5, -2.0, -1.5));
    site.suction = {fitting(2.5, 51.0), pipe(51.0, 6.0, 0.05)};
    site.delivery = {fitting(2.0, 40.0), pipe(55.4, 140.0), fitting(0.9, 55.4)};
    site.end = OutletEnd{Level::fromMetres(12.0), GaugePressure{}};
    const SiteModel model = modelOf(site);
    const CaseSolver solver(model, readPump(40.0, 0.12, 15.0), Limits{});
    expectAgreement(solver, caseOf({}));
    const CaseSolver metered(model, withPower(readPump(40.0, 0.12, 15.0)), Limits{});
    expectAgreement(metered, caseOf({}));
}

TEST(IntervalStatistics, AgreeOnASiteWithFourZones) {
    Site site = siteOf(sourceAt(-2.5, -2.0, -1.5));
    site.suction = {fitting(2.5, 51.0), pipe(51.0, 6.0, 0.05)};
    site.delivery = {pipe(55.4, 60.0), TakeoffItem{"A"}, pipe(44.0, 50.0), TakeoffItem{"B"},
                     pipe(35.2, 40.0)};
    site.zones = {zoneOf("One", 2.5, 1.0, "A"), zoneOf("Two", 2.0, 2.0, "A"), zoneOf("Three", 2.0, 3.0, "B"),
                  zoneOf("Four", 1.5, 2.5)};
    for (Zone& zone : site.zones)
        zone.branch = {fitting(6.0, 28.0), pipe(28.0, 20.0)};
    const SiteModel model = modelOf(site);
    const CaseSolver solver(model, readPump(42.0, 0.10, 16.0), Limits{});
    expectAgreement(solver, caseOf({"One", "Two", "Three", "Four"}));
}

} // namespace
} // namespace headmark
