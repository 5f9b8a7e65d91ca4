// What a case says beside its figures: each raised, and just not. Pumps and systems are parabolas in m and
// m3/h; water of 15 C, IAPWS SR6-08 (check tables: 999.1026 kg/m3).

#include "analysis/duty/case_solver.h"

#include "support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using namespace testing;

bool has(const CaseAnswer& answer, const std::string& code) { return findCaution(answer, code) != nullptr; }

// 50 - 0.008 q^2 on 20 + 0.004 q^2: 50 m3/h at 30 m (as printed).
CaseAnswer known(const PumpModel& pump, double static_m = 20.0, double perM3_h2 = 0.004,
                 const Limits& limits = asPrinted()) {
    const SiteModel model = modelOf(knownSystem(static_m, perM3_h2));
    return CaseSolver(model, pump, limits).answer(caseOf({}));
}
PumpModel usualPump(double least_m3_h = 0.0, double greatest_m3_h = 75.0) {
    return pumpOf(parabola(50.0, 0.0, -0.008, least_m3_h, greatest_m3_h));
}

// One zone of 10 m3/h at 100 kPa, root law, no losses: pump 20 - 0.05 q^2, q^2 = 131.5242 (q = 11.46840),
// 131.5242 kPa, which is 13.42380 m.
struct OneZone {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    PumpModel pump = pumpOf(parabola(20.0, 0.0, -0.05, 0.0, 16.0));
    OneZone() { site.zones = {zoneOf("Lawn", 10.0, 0.0)}; }
    [[nodiscard]] CaseAnswer answer(const Limits& limits = asPrinted()) const {
        const SiteModel model = modelOf(site);
        return CaseSolver(model, pump, limits).answer(caseOf({"Lawn"}));
    }
};

TEST(CaseCautions, PumpTooWeakForTheStaticHead) {
    EXPECT_TRUE(has(known(usualPump(), 50.1), "pump-too-weak"));
    EXPECT_FALSE(has(known(usualPump(), 49.9), "pump-too-weak"));
}

TEST(CaseCautions, BeyondEitherEndOfTheChart) {
    EXPECT_TRUE(has(known(usualPump(0.0, 49.9)), "beyond-chart"));
    EXPECT_FALSE(has(known(usualPump(0.0, 50.1)), "beyond-chart"));
    EXPECT_TRUE(has(known(usualPump(50.1)), "beyond-chart"));
    EXPECT_FALSE(has(known(usualPump(49.9)), "beyond-chart"));
}

// At the low end 46 m of shut-off head.
TEST(CaseCautions, TooWeakOnlyAtTheLowEndOfDelivery) {
    const CaseAnswer weak = known(usualPump(), 46.1, 0.004, Limits{});
    EXPECT_TRUE(has(weak, "delivered-too-weak"));
    EXPECT_FALSE(weak.serves);
    EXPECT_FALSE(has(known(usualPump(), 45.9, 0.004, Limits{}), "delivered-too-weak"));
}

// As delivered 47.84070 to 51.86399 m3/h (roots in case_solver_test.cpp).
TEST(CaseCautions, BeyondTheChartOnlyWithinTheMakersTolerance) {
    const auto says = [](double least, double greatest) {
        return has(known(usualPump(least, greatest), 20.0, 0.004, Limits{}), "delivered-beyond-chart");
    };
    EXPECT_TRUE(says(0.0, 51.8));
    EXPECT_FALSE(says(0.0, 51.9));
    EXPECT_TRUE(says(47.9, 75.0));
    EXPECT_FALSE(says(47.8, 75.0));
}

// 30 + 2 q - 0.1 q^2 (top 40 m at 10 m3/h) meets 32 + 0.02 q^2 at 1.07 (unstable) and 15.598 m3/h.
TEST(CaseCautions, SeveralCrossingsOfADroopingCurve) {
    const PumpModel drooping = pumpOf(parabola(30.0, 2.0, -0.1, 0.0, 18.0));
    EXPECT_TRUE(has(known(drooping, 32.0, 0.02), "several-crossings"));
    EXPECT_FALSE(has(known(drooping, 29.9, 0.02), "several-crossings"));
    EXPECT_TRUE(has(known(drooping, 29.9, 0.02), "curve-droops"));
    // read from beyond its top on it only falls
    EXPECT_FALSE(has(known(pumpOf(parabola(30.0, 2.0, -0.1, 10.1, 18.0)), 29.9, 0.02), "curve-droops"));
}

// Read to 15.5 m3/h only the unstable crossing is seen, to 15.7 m3/h the stable one too.
TEST(CaseCautions, NoStableDutyWhereOnlyTheRisingPartIsMet) {
    const auto upTo = [](double end_m3_h) {
        return known(pumpOf(parabola(30.0, 2.0, -0.1, 0.0, end_m3_h)), 32.0, 0.02);
    };
    EXPECT_TRUE(has(upTo(15.5), "no-stable-duty"));
    EXPECT_FALSE(upTo(15.5).duty);
    EXPECT_FALSE(has(upTo(15.7), "no-stable-duty"));
}

// What stands before the first pipe: q^2 = 960.774, 30.99635 m3/h (case_solver_test.cpp).
TEST(CaseCautions, RunOutWhileTheMainFills) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.delivery = {fitting(10.0, 50.0), pipe(50.0, 200.0)};
    site.zones = {zoneOf("Lawn", 10.0, 3.0)};
    const SiteModel model = modelOf(site);
    const auto filling = [&](double end_m3_h) {
        return CaseSolver(model, pumpOf(parabola(30.0, 0.0, -0.02, 0.0, end_m3_h)), asPrinted())
            .answer(caseOf({"Lawn"}), true);
    };
    EXPECT_TRUE(has(filling(30.9), "run-out"));
    EXPECT_FALSE(has(filling(31.1), "run-out"));
}

// Efficiency with its top at `best`; the duty is 50 m3/h.
PumpModel withBestAt(double best_m3_h) {
    PumpModel pump = usualPump();
    pump.efficiency = curveThrough({{0.0, 0.0}, {best_m3_h, 0.6}, {2.0 * best_m3_h, 0.0}});
    return pump;
}

// Allowable to 125 %, preferred to 120 % of best flow (ANSI/HI 9.6.3; 125 % common practice, no source).
TEST(CaseCautions, OutsideTheBandsOfBestFlow) {
    EXPECT_TRUE(has(known(withBestAt(50.0 / 1.26)), "outside-allowable-band"));
    EXPECT_FALSE(has(known(withBestAt(50.0 / 1.24)), "outside-allowable-band"));
    EXPECT_TRUE(has(known(withBestAt(50.0 / 1.21)), "outside-preferred-band"));
    EXPECT_FALSE(has(known(withBestAt(50.0 / 1.19)), "outside-preferred-band"));
    EXPECT_TRUE(has(known(withBestAt(50.0 / 0.69)), "outside-preferred-band"));
    EXPECT_FALSE(has(known(withBestAt(50.0 / 0.71)), "outside-preferred-band"));
}

TEST(CaseCautions, EfficiencyUnknownWithoutACurve) {
    EXPECT_TRUE(has(known(usualPump()), "efficiency-unknown"));
    EXPECT_FALSE(has(known(withBestAt(50.0)), "efficiency-unknown"));
}

// rho g Q H/efficiency = 999.1026 9.80665 (50/3600) 30/0.6 = 6804.06 W; off by more than 3 %.
TEST(CaseCautions, PowerAndEfficiencyThatDisagree) {
    PumpModel pump = usualPump();
    pump.efficiency = curveThrough({{0.0, 0.6}, {75.0, 0.6}});
    const auto withPower = [&](double shaft_W) {
        pump.power = curveThrough({{0.0, shaft_W}, {75.0, shaft_W}});
        return has(known(pump), "power-efficiency-disagree");
    };
    EXPECT_TRUE(withPower(6804.06 * 1.031));
    EXPECT_FALSE(withPower(6804.06 * 1.029));
    EXPECT_TRUE(withPower(6804.06 * 0.969));
    EXPECT_FALSE(withPower(6804.06 * 0.971));
}

// 1 kW + 0.05 kW per m3/h at 11.4684 m3/h: 1.57342 kW.
TEST(CaseCautions, MotorOverload) {
    OneZone zone;
    zone.pump.power = curveThrough({{0.0, 1000.0}, {20.0, 2000.0}});
    const auto rated = [&](double kW) {
        zone.pump.motor = Motor{Power::fromKilowatts(kW), Efficiency::fromShare(0.8), ""};
        return has(zone.answer(), "motor-overload");
    };
    EXPECT_TRUE(rated(1.573));
    EXPECT_FALSE(rated(1.574));
}

TEST(CaseCautions, PressureAtThePumpAboveItsRating) {
    OneZone zone;
    const auto rated = [&](double kPa) {
        zone.pump.greatestPressure = GaugePressure::fromKilopascals(kPa);
        return has(zone.answer(), "pump-pressure");
    };
    EXPECT_TRUE(rated(131.5));
    EXPECT_FALSE(rated(131.55));
}

// v = Q/A = 1.5 m/s at 11.4684 m3/h in 52.0006 mm bore; a millimetre of pipe loses nothing to speak of.
TEST(CaseCautions, MainVelocity) {
    OneZone zone;
    const auto through = [&](double bore_mm) {
        zone.site.delivery = {pipe(bore_mm, 0.001)};
        return has(zone.answer(), "main-velocity");
    };
    EXPECT_TRUE(through(51.95));
    EXPECT_FALSE(through(52.05));
}

// Re = 4 Q/(pi D nu), nu 1.1386e-6 m2/s (15 C): 4000 in 0.8906 m, 2000 in 1.781 m.
TEST(CaseCautions, TransitionBetweenLaminarAndTurbulentFlow) {
    OneZone zone;
    const auto through = [&](double bore_mm) {
        zone.site.delivery = {pipe(bore_mm, 1.0)};
        return has(zone.answer(), "transition-flow");
    };
    EXPECT_FALSE(through(882.0));
    EXPECT_TRUE(through(899.0));
    EXPECT_TRUE(through(1763.0));
    EXPECT_FALSE(through(1799.0));
}

// The energy line stands 13.4238 m above the zone.
TEST(CaseCautions, NegativePressureWhereThePipePassesAboveTheEnergyLine) {
    OneZone zone;
    PipeItem hill = pipe(200.0, 0.001);
    const auto over = [&](double level_m) {
        hill.riseTo = Level::fromMetres(level_m);
        zone.site.delivery = {hill};
        return has(zone.answer(), "negative-pressure");
    };
    EXPECT_TRUE(over(13.43));
    EXPECT_FALSE(over(13.41));
}

TEST(CaseCautions, ExitListedWhereItIsCountedAlready) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.end = OutletEnd{Level::fromMetres(5.0), GaugePressure{}};
    const auto endingWith = [&](const char* code) {
        FittingItem last;
        last.code = code;
        last.bore = Length::fromMillimetres(50.0);
        site.delivery = {pipe(50.0, 10.0), last};
        const SiteModel model = modelOf(site);
        return has(
            CaseSolver(model, pumpOf(parabola(30.0, 0.0, -0.02, 0.0, 35.0)), asPrinted()).answer(caseOf({})),
            "exit-counted-twice");
    };
    EXPECT_TRUE(endingWith("exit"));
    EXPECT_FALSE(endingWith("elbow_90_long"));
}

// A lateral of drops of water: its inlet has 20 m - 18 m of head, its last outlet, 10 m on, lies slope x 10 m
// higher.
TEST(CaseCautions, EmittersWithoutWaterAtTheTopOfASlope) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    Zone zone = zoneOf("Slope", 1.0, 18.0);
    zone.emitters.whole = false;
    zone.emitters.law.nominal = Flow::fromCubicMetresPerHour(1e-6);
    Laterals laterals;
    laterals.pipe.bore = Length::fromMillimetres(30.0);
    laterals.pipe.roughness = Length::fromMillimetres(0.007);
    laterals.length = Length::fromMetres(10.0);
    laterals.spacing = Length::fromMetres(1.0);
    const auto rising = [&](double slope) {
        laterals.slopeShare = slope;
        zone.laterals = laterals;
        site.zones = {zone};
        const SiteModel model = modelOf(site);
        return CaseSolver(model, pumpOf(parabola(20.0, 0.0, -0.05, 0.0, 16.0)), asPrinted())
            .answer(caseOf({"Slope"}));
    };
    EXPECT_TRUE(has(rising(0.201), "emitters-without-water"));
    EXPECT_FALSE(has(rising(0.199), "emitters-without-water"));
}

// Free return of 15.5 mm bore and next to no length: its velocity head 0.110494 q^2 against 20 - 0.05 q^2,
// q = 11.1631 m3/h.
TEST(CaseCautions, ReturnThatCannotPassItsSetFlow) {
    OneZone zone;
    TankReturn back;
    back.pipe = pipe(15.5, 1e-6);
    const auto setTo = [&](double flow_m3_h) {
        back.setFlow = Flow::fromCubicMetresPerHour(flow_m3_h);
        zone.site.tankReturn = back;
        return has(zone.answer(), "return-cannot-pass");
    };
    EXPECT_TRUE(setTo(11.2));
    EXPECT_FALSE(setTo(11.1));
}

TEST(CaseCautions, NoFlowWithEveryValveShutAndNoReturn) {
    OneZone zone;
    const auto shut = [&] {
        const SiteModel model = modelOf(zone.site);
        return CaseSolver(model, zone.pump, asPrinted()).answer(caseOf({}));
    };
    EXPECT_TRUE(has(shut(), "no-flow"));
    TankReturn back;
    back.pipe = pipe(15.5, 8.0);
    back.setFlow = Flow::fromCubicMetresPerHour(0.3);
    zone.site.tankReturn = back;
    EXPECT_FALSE(has(shut(), "no-flow"));
}

} // namespace
} // namespace headmark
