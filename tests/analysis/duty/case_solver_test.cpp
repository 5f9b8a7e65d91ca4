// One operating case as a whole: duty, delivered range, limits, NPSH, speed, tank return. Pumps and systems
// are parabolas in m and m3/h; the roots are worked out in the comments.

#include "analysis/duty/case_solver.h"

#include "support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using namespace testing;

constexpr double kFlow_m3_h = 1e-5;
constexpr double kHead_m = 1e-5;
// Of water at 15 C, IAPWS SR6-08 (check tables: 999.1026 kg/m3); good to six figures in a pressure.
constexpr double kPressure_kPa = 1e-3;

const PumpModel& usualPump() {
    static const PumpModel pump = pumpOf(parabola(50.0, 0.0, -0.008, 0.0, 75.0));
    return pump;
}

// Printed: 50 - 0.008 q^2 = 20 + 0.004 q^2, 50 m3/h. Low: 46 - 0.00736 q^2, q^2 = 26/0.01136 = 2288.7324,
// H = 20 + 0.004 q^2 = 29.154930. High: 54 - 0.00864 q^2, q^2 = 34/0.01264 = 2689.8734, H = 30.759494.
TEST(CaseSolver, DeliversBetweenEightPercentLessAndMoreHeadBelowTenKilowatts) {
    const SiteModel model = modelOf(knownSystem(20.0, 0.004));
    const CaseSolver solver(model, usualPump(), Limits{});
    const CaseAnswer a = solver.answer(caseOf({}));
    ASSERT_TRUE(a.duty && a.deliveredLow && a.deliveredHigh);
    EXPECT_TRUE(a.serves);
    EXPECT_NEAR(a.duty->flow.inCubicMetresPerHour(), 50.0, kFlow_m3_h);
    EXPECT_NEAR(a.duty->head.inMetres(), 30.0, kHead_m);
    EXPECT_NEAR(a.deliveredLow->flow.inCubicMetresPerHour(), std::sqrt(2288.7324), kFlow_m3_h);
    EXPECT_NEAR(a.deliveredLow->head.inMetres(), 29.154930, kHead_m);
    EXPECT_NEAR(a.deliveredHigh->flow.inCubicMetresPerHour(), std::sqrt(2689.8734), kFlow_m3_h);
    EXPECT_NEAR(a.deliveredHigh->head.inMetres(), 30.759494, kHead_m);
    EXPECT_LT(a.energyResidual.inMetres(), 1e-8);
    EXPECT_FALSE(a.npsh.has_value()) << "a known system has no suction side";
}

// Speed 0.8: 32 - 0.008 q^2 = 20 + 0.004 q^2, q^2 = 1000, H = 24.
TEST(CaseSolver, FollowsTheAffinityLawsAtAnotherSpeed) {
    const SiteModel model = modelOf(knownSystem(20.0, 0.004));
    const CaseSolver solver(model, usualPump(), Limits{});
    Case slow = caseOf({});
    slow.speedShare = 0.8;
    const CaseAnswer a = solver.answer(slow);
    ASSERT_TRUE(a.duty);
    EXPECT_NEAR(a.duty->flow.inCubicMetresPerHour(), std::sqrt(1000.0), kFlow_m3_h);
    EXPECT_NEAR(a.duty->head.inMetres(), 24.0, kHead_m);
    // Run at 1160 instead of 1450 rpm is the same 0.8.
    PumpModel geared = usualPump();
    geared.runRatio = 1160.0 / 1450.0;
    const CaseAnswer b = CaseSolver(model, geared, Limits{}).answer(caseOf({}));
    ASSERT_TRUE(b.duty);
    EXPECT_NEAR(b.duty->flow.inCubicMetresPerHour(), std::sqrt(1000.0), kFlow_m3_h);
    EXPECT_EQ(findCaution(a, "speed-range"), nullptr);
    slow.speedShare = 0.65;
    EXPECT_NE(findCaution(solver.answer(slow), "speed-range"), nullptr);
}

TEST(CaseSolver, SaysThatThePumpIsTooWeakOrTheChartTooShort) {
    const SiteModel high = modelOf(knownSystem(51.0, 0.004));
    const CaseAnswer weak = CaseSolver(high, usualPump(), Limits{}).answer(caseOf({}));
    EXPECT_FALSE(weak.serves);
    EXPECT_FALSE(weak.duty);
    EXPECT_NE(findCaution(weak, "pump-too-weak"), nullptr);
    const SiteModel flat = modelOf(knownSystem(1.0, 0.0002));
    const CaseAnswer beyond = CaseSolver(flat, usualPump(), Limits{}).answer(caseOf({}));
    EXPECT_FALSE(beyond.serves);
    EXPECT_FALSE(beyond.duty);
    EXPECT_NE(findCaution(beyond, "beyond-chart"), nullptr);
}

// One zone of 10 m3/h at 100 kPa, root law, at the pump's level, no pipes: p = q^2 kPa (q in m3/h), as head
// 0.1 q^2 1000/(999.1026 9.80665) = 0.102063313 q^2. Pump 20 - 0.05 q^2.
// printed q^2 = 20/0.152063313 = 131.5242; low 18.4/0.148063313 = 124.2712; high 21.6/0.156063313 = 138.4054.
struct OneZone {
    explicit OneZone(std::optional<double> least_kPa = {}, std::optional<double> greatest_kPa = {}) {
        site = siteOf(sourceAt(0.0, 0.0, 0.0));
        site.zones = {zoneOf("Lawn", 10.0, 0.0)};
        if (least_kPa) site.zones[0].emitters.least = GaugePressure::fromKilopascals(*least_kPa);
        if (greatest_kPa) site.zones[0].emitters.greatest = GaugePressure::fromKilopascals(*greatest_kPa);
    }
    Site site;
    PumpModel pump = pumpOf(parabola(20.0, 0.0, -0.05, 0.0, 16.0));
    [[nodiscard]] CaseAnswer answer(const Limits& limits) const {
        const SiteModel model = modelOf(site);
        return CaseSolver(model, pump, limits).answer(caseOf({"Lawn"}));
    }
};

TEST(CaseSolver, TellsEachZonesFlowAndPressure) {
    const CaseAnswer a = OneZone().answer(Limits{});
    ASSERT_EQ(a.zones.size(), 1U);
    EXPECT_EQ(a.zones[0].name, "Lawn");
    EXPECT_NEAR(a.zones[0].lowest.inKilopascals(), 131.5242, kPressure_kPa);
    EXPECT_NEAR(a.zones[0].highest.inKilopascals(), 131.5242, kPressure_kPa);
    EXPECT_NEAR(a.zones[0].flow.inCubicMetresPerHour(), std::sqrt(131.5242), kFlow_m3_h);
}

TEST(CaseSolver, JudgesLowerLimitsAtTheLowEndOfDelivery) {
    const OneZone between(128.0); // held as printed (131.5), not at the low end (124.3)
    const CaseAnswer delivered = between.answer(Limits{});
    EXPECT_FALSE(delivered.serves);
    EXPECT_FALSE(delivered.zones.at(0).withinLimits);
    const Caution* low = findCaution(delivered, "pressure-low");
    ASSERT_NE(low, nullptr);
    EXPECT_NEAR(std::get<double>(findFact(low->values, "pressure_kPa")->value), 124.2712, kPressure_kPa);
    EXPECT_TRUE(between.answer(asPrinted()).serves);
    EXPECT_TRUE(OneZone(124.0).answer(Limits{}).serves);
}

TEST(CaseSolver, JudgesUpperLimitsAtTheHighEndOfDelivery) {
    const OneZone between({}, 135.0); // held as printed, not at the high end (138.4)
    const CaseAnswer delivered = between.answer(Limits{});
    EXPECT_FALSE(delivered.serves);
    const Caution* high = findCaution(delivered, "pressure-high");
    ASSERT_NE(high, nullptr);
    EXPECT_NEAR(std::get<double>(findFact(high->values, "pressure_kPa")->value), 138.4054, kPressure_kPa);
    EXPECT_TRUE(between.answer(asPrinted()).serves);
    EXPECT_TRUE(OneZone({}, 139.0).answer(Limits{}).serves);
}

TEST(CaseSolver, AnswersTheQuestionsOfZonesAtOnceByTheSameLimits) {
    const auto holds = [](const OneZone& zone) {
        const SiteModel model = modelOf(zone.site);
        const CaseSolver solver(model, zone.pump, Limits{});
        return std::pair(solver.lowerLimitsHold({true}), solver.upperLimitsHold({true}));
    };
    EXPECT_EQ(holds(OneZone(128.0)), std::pair(false, true));
    EXPECT_EQ(holds(OneZone(124.0)), std::pair(true, true));
    EXPECT_EQ(holds(OneZone(124.0, 135.0)), std::pair(true, false));
}

// At the usual level the low end of delivery gives 124.3 kPa, enough for 120. With the water 2 m lower
// q^2 = (18.4 - 2)/0.148063313 = 110.763, too little: the worst level counts.
TEST(CaseSolver, AsksZonesAtOnceAtTheWorstLevel) {
    OneZone zone(120.0);
    zone.site.source = sourceAt(-2.0, 0.0, 0.0);
    const SiteModel model = modelOf(zone.site);
    const CaseSolver solver(model, zone.pump, Limits{});
    EXPECT_TRUE(solver.answer(caseOf({"Lawn"})).serves);
    EXPECT_FALSE(solver.lowerLimitsHold({true}));
}

// With the water 2 m higher the high end of delivery gives 23.6/0.156063313 = 151.221 kPa, above a limit of
// 145 that usual water keeps (138.4).
TEST(CaseSolver, AsksUpperLimitsAtHighWater) {
    OneZone zone({}, 145.0);
    zone.site.source = sourceAt(0.0, 0.0, 2.0);
    const SiteModel model = modelOf(zone.site);
    const CaseSolver solver(model, zone.pump, Limits{});
    EXPECT_TRUE(solver.answer(caseOf({"Lawn"})).serves);
    EXPECT_FALSE(solver.upperLimitsHold({true}));
}

TEST(CaseSolver, NamesAZoneAboveTheEnergyLine) {
    OneZone zone;
    zone.site.zones.push_back(zoneOf("Hill", 5.0, 30.0));
    const SiteModel model = modelOf(zone.site);
    const CaseAnswer a = CaseSolver(model, zone.pump, Limits{}).answer(caseOf({"Lawn", "Hill"}));
    EXPECT_FALSE(a.serves);
    const Caution* dry = findCaution(a, "zone-without-water");
    ASSERT_NE(dry, nullptr);
    EXPECT_EQ(dry->place, "zones[1]");
    EXPECT_EQ(a.zones.at(1).flow.inCubicMetresPerHour(), 0.0);
    EXPECT_NEAR(a.duty->flow.inCubicMetresPerHour(), std::sqrt(131.5242), kFlow_m3_h);
}

// Shaft power as a curve: 1 kW + 0.05 kW per m3/h; at the high end, 11.7646 m3/h, 1.588 kW.
TEST(CaseSolver, FindsAMotorOverloadedAtTheHighEndOnly) {
    OneZone zone;
    zone.pump.power = curveThrough({{0.0, 1000.0}, {20.0, 2000.0}});
    zone.pump.motor = Motor{Power::fromKilowatts(1.58), Efficiency::fromShare(0.8), ""};
    EXPECT_NE(findCaution(zone.answer(Limits{}), "motor-overload"), nullptr);
    const CaseAnswer printed = zone.answer(asPrinted());
    EXPECT_TRUE(printed.serves); // 11.4684 m3/h: 1.5734 kW
    ASSERT_TRUE(printed.power && printed.power->shaft && printed.power->input);
    EXPECT_NEAR(printed.power->shaft->inKilowatts(), 1.0 + 0.05 * std::sqrt(131.5242), 1e-6);
    EXPECT_NEAR(printed.power->input->inKilowatts(), (1.0 + 0.05 * std::sqrt(131.5242)) / 0.8, 1e-6);
    // kWh per m3 = input/flow: 1.966776/11.468400 = 0.171495
    EXPECT_NEAR(*printed.power->kilowattHoursPerCubicMetre, 0.171495, 1e-5);
}

// Source 4 m below the pump, k = 2 in the suction, 15 C, at the sea.
TEST(CaseSolver, WantsTheNpshMarginKept) {
    Site site = siteOf(sourceAt(-4.0, -4.0, -4.0));
    site.end = OutletEnd{Level::fromMetres(5.0), GaugePressure{}};
    site.delivery = {fitting(20.0, 50.0)};
    site.suction = {fitting(2.0, 50.0)};
    const SiteModel model = modelOf(site);
    PumpModel pump = pumpOf(parabola(30.0, 0.0, -0.02, 0.0, 30.0));
    const auto answerWith = [&](double required_m) {
        pump.npshRequired = curveThrough({{0.0, required_m}, {30.0, required_m}});
        return CaseSolver(model, pump, asPrinted()).answer(caseOf({}));
    };
    // Level to level 9 m; k = 20 + 1 (the end's velocity head) + 2, c = 1.0204e-3 m per (m3/h)^2 for 50 mm:
    // 30 - 0.02 q^2 = 9 + 23 c q^2, q^2 = 21/(0.02 + 0.0234700) = 483.09
    const CaseAnswer a = answerWith(1.0);
    ASSERT_TRUE(a.duty && a.npsh && a.npsh->margin);
    const double square = a.duty->flow.inCubicMetresPerHour() * a.duty->flow.inCubicMetresPerHour();
    EXPECT_NEAR(square, 483.09, 0.05);
    // Sea level 101325 Pa, 15 C: 1705.7 Pa, 999.1026 kg/m3 (check tables): 10.16739 m - 4 - 2 c q^2
    EXPECT_NEAR(a.npsh->available.inMetres(), 10.16739 - 4.0 - 2.0 * 1.02044e-3 * 483.09, 1e-3);
    EXPECT_TRUE(a.serves);
    // Available 5.1815 m. Required 4.5: margin 0.68 >= max(0.6, 0.45). Required 4.7: 0.48 < 0.6.
    EXPECT_TRUE(answerWith(4.5).serves);
    const CaseAnswer tight = answerWith(4.7);
    EXPECT_FALSE(tight.serves);
    ASSERT_NE(findCaution(tight, "npsh-margin"), nullptr);
    EXPECT_EQ(findCaution(tight, "npsh-margin")->severity, Severity::warning);
    const CaseAnswer none = answerWith(5.3);
    ASSERT_NE(findCaution(none, "npsh-margin"), nullptr);
    EXPECT_EQ(findCaution(none, "npsh-margin")->severity, Severity::danger);
}

TEST(NpshMargin, IsTheLargerOfMetresAndShare) {
    Limits limits;
    EXPECT_DOUBLE_EQ(npshMarginNeeded_m(limits, 3.0), 0.6); // 10 % of 3 m is less
    EXPECT_DOUBLE_EQ(npshMarginNeeded_m(limits, 8.0), 0.8);
}

Site returningSite() {
    Site site = siteOf(sourceAt(-2.0, -1.5, -1.0));
    site.suction = {fitting(2.0, 50.0)};
    site.zones = {zoneOf("Lawn", 10.0, 0.0)};
    TankReturn back;
    back.pipe = pipe(15.5, 8.0);
    back.setFlow = Flow::fromCubicMetresPerHour(0.3);
    site.tankReturn = back;
    return site;
}

TEST(TankReturn, PassesItsSetFlowWithEveryZoneShutAndUsualWater) {
    const SiteModel model = modelOf(returningSite());
    const CaseSolver solver(model, pumpOf(parabola(20.0, 0.0, -0.05, 0.0, 16.0)), Limits{});
    EXPECT_TRUE(solver.returnReachesSetFlow());
    const CaseAnswer shut = solver.answer(caseOf({}));
    ASSERT_TRUE(shut.duty && shut.tankReturnFlow);
    EXPECT_NEAR(shut.tankReturnFlow->inCubicMetresPerHour(), 0.3, 1e-6);
    EXPECT_NEAR(shut.duty->flow.inCubicMetresPerHour(), 0.3, 1e-6);
    // With the zone open the pump's head is lower and so is the return; the pump carries both.
    const CaseAnswer open = solver.answer(caseOf({"Lawn"}));
    ASSERT_TRUE(open.duty && open.tankReturnFlow);
    EXPECT_LT(open.tankReturnFlow->inCubicMetresPerHour(), 0.3);
    EXPECT_GT(open.tankReturnFlow->inCubicMetresPerHour(), 0.0);
    EXPECT_NEAR(open.duty->flow.inCubicMetresPerHour(),
                open.tankReturnFlow->inCubicMetresPerHour() + open.zones.at(0).flow.inCubicMetresPerHour(),
                1e-9);
}

TEST(TankReturn, SaysWhereItCannotReachItsSetFlow) {
    Site site = returningSite();
    site.tankReturn->setFlow =
        Flow::fromCubicMetresPerHour(8.0); // 10.6 m/s in 15.5 mm: 8 m of it lose over 50 m
    const SiteModel model = modelOf(site);
    const CaseSolver solver(model, pumpOf(parabola(20.0, 0.0, -0.05, 0.0, 16.0)), Limits{});
    EXPECT_FALSE(solver.returnReachesSetFlow());
}

// What stands before the first pipe: k = 10 and the velocity head, c = 1/(2g A^2)/3600^2 = 1.020440e-3 m per
// (m3/h)^2 for 50 mm; 30 - 0.02 q^2 = 11 c q^2, q^2 = 30/0.03122484 = 960.774.
TEST(CaseSolver, FillsAnEmptyMainThroughWhatStandsBeforeIt) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.delivery = {fitting(10.0, 50.0), pipe(50.0, 200.0)};
    site.zones = {zoneOf("Lawn", 10.0, 3.0)};
    const SiteModel model = modelOf(site);
    const CaseSolver solver(model, pumpOf(parabola(30.0, 0.0, -0.02, 0.0, 35.0)), asPrinted());
    const CaseAnswer a = solver.answer(caseOf({"Lawn"}), true);
    ASSERT_TRUE(a.duty);
    EXPECT_NEAR(a.duty->flow.inCubicMetresPerHour(), std::sqrt(960.774), 1e-3);
}

TEST(CaseSolver, LetsLimitsInheritOnlyOnFallingCurves) {
    const SiteModel model = modelOf(OneZone().site);
    EXPECT_TRUE(CaseSolver(model, pumpOf(parabola(20.0, 0.0, -0.05, 0.0, 16.0)), Limits{}).limitsInherit());
    EXPECT_FALSE(CaseSolver(model, pumpOf(parabola(20.0, 1.0, -0.1, 0.0, 14.0)), Limits{}).limitsInherit());
    Limits preferred;
    preferred.preferredBandOnly = true;
    EXPECT_FALSE(CaseSolver(model, pumpOf(parabola(20.0, 0.0, -0.05, 0.0, 16.0)), preferred).limitsInherit());
}

// 30 + 2 q - 0.1 q^2 on 32 + 0.02 q^2: 1.0685 (unstable) and 15.5982 m3/h (see crossings_test).
TEST(CaseSolver, ListsEveryCrossingAndTakesTheStableOneAsDuty) {
    const SiteModel model = modelOf(knownSystem(32.0, 0.02));
    const CaseAnswer a =
        CaseSolver(model, pumpOf(parabola(30.0, 2.0, -0.1, 0.0, 18.0)), asPrinted()).answer(caseOf({}));
    ASSERT_EQ(a.duties.size(), 2U);
    EXPECT_FALSE(a.duties[0].stable);
    ASSERT_TRUE(a.duty);
    EXPECT_NEAR(a.duty->flow.inCubicMetresPerHour(), 15.5981649, kFlow_m3_h);
    EXPECT_NE(findCaution(a, "several-crossings"), nullptr);
    EXPECT_NE(findCaution(a, "curve-droops"), nullptr);
}

// Efficiency 0.6 at 50 m3/h at its top: bands by share of best flow; preferred only where asked for.
TEST(CaseSolver, JudgesTheBandOnlyWhereAsked) {
    const SiteModel model = modelOf(knownSystem(20.0, 0.004)); // duty at 50 m3/h
    PumpModel pump = usualPump();
    // eta = 0.6 (2 q/35 - (q/35)^2): best at 35 m3/h, so 50 is 143 % of it
    pump.efficiency = parabola(0.0, 1.2 / 35.0, -0.6 / (35.0 * 35.0), 0.0, 60.0);
    const CaseAnswer any = CaseSolver(model, pump, Limits{}).answer(caseOf({}));
    ASSERT_TRUE(any.efficiency);
    EXPECT_EQ(any.efficiency->band, Band::outside);
    EXPECT_NEAR(any.efficiency->shareOfBestFlow, 50.0 / 35.0, 1e-6);
    EXPECT_NEAR(any.efficiency->best.inShare(), 0.6, 1e-9);
    // 0.6 (2 x - x^2) with x = 10/7
    EXPECT_NEAR(any.efficiency->atDuty->inShare(), 0.6 * (20.0 / 7.0 - 100.0 / 49.0), 1e-6);
    EXPECT_TRUE(any.serves);
    Limits preferred;
    preferred.preferredBandOnly = true;
    EXPECT_FALSE(CaseSolver(model, pump, preferred).answer(caseOf({})).serves);
}

} // namespace
} // namespace headmark
