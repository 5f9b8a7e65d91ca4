// A pump whose speed holds a pressure at its outlet. Water of 999.1 kg/m3 (15 C, IAPWS): 1 m is 9.7978 kPa.

#include "analysis/duty/held_duty.h"
#include "analysis/duty/intervals.h"
#include "tests/support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using namespace testing;

constexpr double kPerMetre_kPa = 999.1 * 9.80665e-3;

// Surface at the pump's level, no pipe: the zone, 2 m up, sees the set point less 2 m.
Site heldSite(double hold_kPa) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.zones = {zoneOf("Beds", 4.0, 2.0)};
    site.control = ControlKind::pressureHeld;
    site.hold = GaugePressure::fromKilopascals(hold_kPa);
    return site;
}

PumpModel fortyMetres(double least_m3_h = 0.0, double greatest_m3_h = 10.0) {
    return pumpOf(parabola(40.0, 0.0, -0.25, least_m3_h, greatest_m3_h));
}

// 40 s2 - 0.25 q2 = H: with q = 4 m3/h and H = 28 m, s2 = 32/40.
TEST(HeldDuty, SpeedFollowsFromTheAffinityLaws) {
    const SpeedAt at = speedFor(fortyMetres().head, 1.0, 4.0 * kM3_h, 28.0);
    EXPECT_EQ(at.where, SpeedAt::Where::held);
    EXPECT_NEAR(at.share, std::sqrt(0.8), 1e-9);
    // A weaker pump, 0.92 of the head: 36.8 s2 - 0.23 * 16 = 28.
    EXPECT_NEAR(speedFor(fortyMetres().head, 0.92, 4.0 * kM3_h, 28.0).share, std::sqrt(31.68 / 36.8), 1e-9);
    // Full speed gives 36 m there.
    EXPECT_EQ(speedFor(fortyMetres().head, 1.0, 4.0 * kM3_h, 36.001).where, SpeedAt::Where::atFull);
    EXPECT_EQ(speedFor(fortyMetres().head, 1.0, 4.0 * kM3_h, 35.999).where, SpeedAt::Where::held);
    // The source alone does it.
    EXPECT_EQ(speedFor(fortyMetres().head, 1.0, 4.0 * kM3_h, -1.0).where, SpeedAt::Where::atFull);
}

// The chart ends at 10 m3/h with 15 m: slowed down so that it ends at 8 it gives 9.6 m there, no less.
TEST(HeldDuty, ALowerSpeedMayLeaveTheChart) {
    const PumpCurve head = fortyMetres().head;
    EXPECT_EQ(speedFor(head, 1.0, 8.0 * kM3_h, 9.61).where, SpeedAt::Where::held);
    const SpeedAt right = speedFor(head, 1.0, 8.0 * kM3_h, 9.59);
    EXPECT_EQ(right.where, SpeedAt::Where::right);
    EXPECT_NEAR(right.share, 0.8, 1e-9);
    // A chart that begins at 2 m3/h with 39 m begins at 1 m3/h with 9.75 m at half speed.
    const PumpCurve late = fortyMetres(2.0).head;
    EXPECT_EQ(speedFor(late, 1.0, 1.0 * kM3_h, 9.74).where, SpeedAt::Where::held);
    EXPECT_EQ(speedFor(late, 1.0, 1.0 * kM3_h, 9.76).where, SpeedAt::Where::left);
    EXPECT_EQ(speedFor(late, 1.0, 0.0, 30.0).where, SpeedAt::Where::left);
}

TEST(HeldDuty, ACaseIsAnsweredAtTheSpeedThatHoldsTheSetPoint) {
    const SiteModel model = modelOf(heldSite(250.0));
    const CaseAnswer a = CaseSolver(model, fortyMetres(), asPrinted()).answer(caseOf({"Beds"}));
    // q = 4 sqrt(p/100), p = 250 kPa less 2 m of water.
    const double pressure_kPa = 250.0 - 2.0 * kPerMetre_kPa,
                 flow_m3_h = 4.0 * std::sqrt(pressure_kPa / 100.0);
    const double head_m = 250.0 / kPerMetre_kPa;
    ASSERT_TRUE(a.duty && a.heldSpeedShare);
    EXPECT_NEAR(a.duty->flow.inCubicMetresPerHour(), flow_m3_h, 1e-3);
    EXPECT_NEAR(a.duty->head.inMetres(), head_m, 1e-3);
    EXPECT_NEAR(*a.heldSpeedShare, std::sqrt((head_m + 0.25 * flow_m3_h * flow_m3_h) / 40.0), 1e-4);
    EXPECT_NEAR(a.zones[0].lowest.inKilopascals(), pressure_kPa, 0.01);
    EXPECT_TRUE(a.serves);
    const Caution* said = findCaution(a, "held-at-set-point");
    ASSERT_NE(said, nullptr);
    EXPECT_EQ(findCaution(a, "answered-at-full-speed"), nullptr);
}

// 400 kPa are 40.83 m: more than the pump has.
TEST(HeldDuty, WhereItCannotHoldTheCaseIsThatOfFullSpeed) {
    const Site site = heldSite(400.0);
    Site plain = site;
    plain.control = ControlKind::withZones;
    plain.hold.reset();
    const SiteModel model = modelOf(site), plainModel = modelOf(plain);
    const CaseAnswer a = CaseSolver(model, fortyMetres(), asPrinted()).answer(caseOf({"Beds"}));
    const CaseAnswer full = CaseSolver(plainModel, fortyMetres(), asPrinted()).answer(caseOf({"Beds"}));
    ASSERT_TRUE(a.duty && full.duty);
    EXPECT_FALSE(a.heldSpeedShare);
    EXPECT_DOUBLE_EQ(a.duty->flow.inCubicMetresPerHour(), full.duty->flow.inCubicMetresPerHour());
    EXPECT_NE(findCaution(a, "answered-at-full-speed"), nullptr);
    EXPECT_EQ(findCaution(a, "held-at-set-point"), nullptr);
}

// Drip that bears 260 kPa: full speed would put over 330 kPa on it.
TEST(HeldDuty, OverPressureIsThatOfTheSetPoint) {
    Site site = heldSite(250.0);
    site.zones[0].emitters.greatest = GaugePressure::fromKilopascals(260.0);
    const SiteModel held = modelOf(site);
    EXPECT_TRUE(CaseSolver(held, fortyMetres(), Limits{}).answer(caseOf({"Beds"})).serves);
    site.hold = GaugePressure::fromKilopascals(281.0); // 261.4 kPa at the zone
    const SiteModel higher = modelOf(site);
    EXPECT_NE(
        findCaution(CaseSolver(higher, fortyMetres(), Limits{}).answer(caseOf({"Beds"})), "pressure-high"),
        nullptr);
    site.hold.reset();
    site.control = ControlKind::withZones;
    const SiteModel full = modelOf(site);
    EXPECT_NE(
        findCaution(CaseSolver(full, fortyMetres(), Limits{}).answer(caseOf({"Beds"})), "pressure-high"),
        nullptr);
}

TEST(HeldDuty, TheWeakerPumpRunsFasterAtTheSameFlow) {
    const SiteModel model = modelOf(heldSite(250.0));
    PumpModel pump = fortyMetres();
    pump.deliveredShare = 0.08;
    const CaseAnswer a = CaseSolver(model, pump, Limits{}).answer(caseOf({"Beds"}));
    ASSERT_TRUE(a.duty && a.deliveredLow && a.deliveredHigh);
    EXPECT_NEAR(a.deliveredLow->flow / a.duty->flow, 1.0, 1e-9);
    EXPECT_NEAR(a.deliveredHigh->flow / a.duty->flow, 1.0, 1e-9);
    // Its motor bears more: 36.8 s2 = 25.52 + 0.23 * 36.86 gives s3 = 0.896; the stronger 43.2 s2 - 0.27 q2.
    pump.power = curveThrough({{0.0, 1000.0}, {10.0, 1000.0}});
    Motor motor;
    motor.rated = Power::fromWatts(880.0);
    pump.motor = motor;
    EXPECT_NE(findCaution(CaseSolver(model, pump, Limits{}).answer(caseOf({"Beds"})), "motor-overload"),
              nullptr);
    EXPECT_EQ(findCaution(CaseSolver(model, pump, asPrinted()).answer(caseOf({"Beds"})), "motor-overload"),
              nullptr);
}

TEST(HeldDuty, WithEveryValveShutTheDriveIsToStop) {
    const SiteModel model = modelOf(heldSite(250.0));
    const CaseAnswer a = CaseSolver(model, fortyMetres(), Limits{}).answer(caseOf({}));
    ASSERT_TRUE(a.duty && a.heldSpeedShare);
    EXPECT_NEAR(a.duty->head.inMetres(), 250.0 / kPerMetre_kPa, 1e-3);
    EXPECT_NEAR(*a.heldSpeedShare, std::sqrt(250.0 / kPerMetre_kPa / 40.0), 1e-6);
    EXPECT_TRUE(a.serves);
    EXPECT_EQ(findCaution(a, "no-flow"), nullptr);
    const Caution* said = findCaution(a, "no-flow-must-stop");
    ASSERT_NE(said, nullptr);
    EXPECT_EQ(said->remedy, "fit-a-stop");
}

// A switch that is reached stops the pump: against shut valves the weakest has 36.8 m, 360.6 kPa.
TEST(HeldDuty, WithEveryValveShutASwitchInReachStopsThePump) {
    Site site = heldSite(250.0);
    site.hold.reset();
    const auto kPa = [](double p) { return GaugePressure::fromKilopascals(p); };
    site.vessel = Vessel{Volume::fromLitres(60.0), kPa(180.0), kPa(200.0), kPa(360.0)};
    PumpModel pump = fortyMetres();
    pump.deliveredShare = 0.08;
    const SiteModel reached = modelOf(site);
    const CaseAnswer a = CaseSolver(reached, pump, Limits{}).answer(caseOf({}));
    EXPECT_EQ(findCaution(a, "no-flow"), nullptr);
    ASSERT_NE(findCaution(a, "no-flow-must-stop"), nullptr);
    EXPECT_NE(findCaution(a, "pressure-held-not-judged"), nullptr);
    site.vessel->cutOut = kPa(361.0);
    const SiteModel missed = modelOf(site);
    const CaseAnswer b = CaseSolver(missed, pump, Limits{}).answer(caseOf({}));
    const Caution* danger = findCaution(b, "no-flow");
    ASSERT_NE(danger, nullptr);
    EXPECT_EQ(danger->remedy, "lower-the-cut-out");
    EXPECT_NEAR(std::get<double>(danger->remedyValues.front().value), 0.95 * 36.8 * kPerMetre_kPa, 0.1);
    // With the zones it is started by them, and nothing is held.
    site.control = ControlKind::withZones;
    const SiteModel zones = modelOf(site);
    const CaseAnswer c = CaseSolver(zones, pump, Limits{}).answer(caseOf({}));
    EXPECT_EQ(findCaution(c, "pressure-held-not-judged"), nullptr);
    ASSERT_NE(findCaution(c, "no-flow"), nullptr);
    EXPECT_EQ(findCaution(c, "no-flow")->remedy, "fit-a-tank-return");
}

TEST(HeldDuty, NothingIsLedBackIntoTheMains) {
    Site site = heldSite(250.0);
    site.control = ControlKind::withZones;
    site.hold.reset();
    site.source->kind = "mains_direct_boost";
    const SiteModel model = modelOf(site);
    const CaseAnswer a = CaseSolver(model, fortyMetres(), Limits{}).answer(caseOf({}));
    ASSERT_NE(findCaution(a, "no-flow"), nullptr);
    EXPECT_EQ(findCaution(a, "no-flow")->remedy, "stop-without-return");
}

// The drive takes the chart's error on itself: with the set point held the flow does not feel it.
TEST(HeldDuty, IntervalsAreThoseAtTheSetPoint) {
    Uncertainty exact{};
    exact.level = Head::fromMetres(0.1);
    exact.emitterShare = 0.0;
    const Site site = heldSite(250.0);
    const SiteModel model = modelOf(site, exact);
    const CaseSolver solver(model, fortyMetres(), asPrinted());
    const DutyIntervals i = linearIntervals(solver, caseOf({"Beds"}));
    ASSERT_TRUE(i.ok);
    // By hand: the zone's level moves q = 4 sqrt(p/100) by dq/q = 0.5 dp/p, dp = 0.1 m, p = 230.4 kPa.
    const double p_kPa = 250.0 - 2.0 * kPerMetre_kPa, q = 4.0 * std::sqrt(p_kPa / 100.0);
    const double half = 1.96 * q * 0.5 * 0.1 * kPerMetre_kPa / p_kPa;
    EXPECT_NEAR(i.flow.high.inCubicMetresPerHour() - i.flow.low.inCubicMetresPerHour(), 2.0 * half,
                0.01 * half);
    // The source's level is made up for by the pump's head alone: 1.96 * 0.1 m.
    EXPECT_NEAR(i.head.high.inMetres() - i.head.low.inMetres(), 2.0 * 0.196, 1e-3);
}

} // namespace
} // namespace headmark
