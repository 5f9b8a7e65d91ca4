// A pressure held by switch or by speed, and the motor.

#include "analysis/practice/motor_catalogue.h"
#include "tests/analysis/practice/study_site.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using namespace testing;

GaugePressure kPa(double p) { return GaugePressure::fromKilopascals(p); }

StudySite switched(double cutOut_kPa, double vessel_l) {
    StudySite s;
    s.site.control = ControlKind::pressureHeld;
    s.site.vessel = Vessel{Volume::fromLitres(vessel_l), kPa(180.0), kPa(200.0), kPa(cutOut_kPa)};
    return s;
}

// 40 m, water at -2 m: 38 m or 372.3 kPa at the pump against shut valves.
TEST(HeldPressureStudy, ACutOutAboveShutOffNeverStopsThePump) {
    const Study study = switched(373.0, 60.0).ask(heldPressureStudy);
    ASSERT_NE(cautionIn(study, "cut-out-never-reached"), nullptr);
    EXPECT_EQ(cautionIn(switched(371.0, 60.0).ask(heldPressureStudy), "cut-out-never-reached"), nullptr);
    const double lower = factOf(cautionIn(study, "cut-out-never-reached")->remedyValues, "cut_out_kPa");
    EXPECT_EQ(cautionIn(switched(lower, 60.0).ask(heldPressureStudy), "cut-out-never-reached"), nullptr);
}

TEST(HeldPressureStudy, TheWeakestPumpDeliveredMustReachCutOut) {
    StudySite s = switched(350.0, 60.0);
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "cut-out-never-reached"), nullptr);
    s.limits.asDelivered = true;
    s.pump.deliveredShare = 0.08; // 36.8 - 2 m: 341 kPa
    EXPECT_NE(cautionIn(s.ask(heldPressureStudy), "cut-out-never-reached"), nullptr);
}

TEST(HeldPressureStudy, TheRemedysVesselKeepsTheStarts) {
    const Study small = switched(350.0, 24.0).ask(heldPressureStudy);
    const Caution* c = cautionIn(small, "too-many-starts");
    ASSERT_NE(c, nullptr);
    const double vessel_l = factOf(c->remedyValues, "volume_l");
    const Study cured = switched(350.0, vessel_l * 1.001).ask(heldPressureStudy);
    EXPECT_EQ(cautionIn(cured, "too-many-starts"), nullptr);
    EXPECT_NEAR(resultOf(cured, "vessel-starts"), factOf(c->values, "limit_h"), 0.1);
    EXPECT_NE(cautionIn(switched(350.0, vessel_l * 0.99).ask(heldPressureStudy), "too-many-starts"), nullptr);
}

TEST(HeldPressureStudy, SpeedHoldsTheSetPoint) {
    StudySite s;
    s.site.control = ControlKind::pressureHeld;
    s.site.hold = kPa(250.0);
    s.site.zones = {zoneOf("Beds", 4.0, 2.0)};
    s.pump.power = curveThrough({{0.0, 1000.0}, {5.0, 1300.0}, {10.0, 1600.0}});
    const Study study = s.ask(heldPressureStudy);
    const WorkingStep* f = figureIn(study, "speed-for-set-point");
    ASSERT_NE(f, nullptr);
    const double share = std::get<double>(f->result.value), q = factOf(f->with, "flow_m3_h");
    ASSERT_LT(share, 1.0);
    // By hand: 40 r^2 - 0.25 q^2 less 2 m of lift and the suction's loss, under 0.3 m, is 250 kPa.
    const double head_m = 40.0 * share * share - 0.25 * q * q;
    EXPECT_NEAR(head_m - 2.0, 250.0 / (999.1 * 9.80665e-3), 0.3);
    EXPECT_GT(resultOf(study, "energy-saved-by-speed"), 0.0);
    // Against shut valves: 40 r^2 = 25.52 + 2 m.
    EXPECT_NEAR(resultOf(study, "least-useful-speed"), 0.829, 0.002);
}

StudySite heldAt(double hold_kPa) {
    StudySite s;
    s.site.control = ControlKind::pressureHeld;
    s.site.hold = kPa(hold_kPa);
    return s;
}

TEST(HeldPressureStudy, ASetPointOutOfReachIsSaid) {
    const Study study = heldAt(450.0).ask(heldPressureStudy);
    const Caution* c = cautionIn(study, "set-point-not-held");
    ASSERT_NE(c, nullptr);
    EXPECT_EQ(cautionIn(heldAt(200.0).ask(heldPressureStudy), "set-point-not-held"), nullptr);
    // The remedy's set point is held, the next whole kPa is not.
    ASSERT_EQ(c->remedy, "lower-the-set-point");
    const double lower_kPa = factOf(c->remedyValues, "hold_kPa");
    EXPECT_EQ(cautionIn(heldAt(lower_kPa).ask(heldPressureStudy), "set-point-not-held"), nullptr);
    EXPECT_NE(cautionIn(heldAt(lower_kPa + 1.0).ask(heldPressureStudy), "set-point-not-held"), nullptr);
}

TEST(HeldPressureStudy, ASetPointBelowTheSourceIsSaid) {
    StudySite s = heldAt(250.0);
    s.site.source = sourceAt(40.0, 40.0, 40.0); // 391.9 kPa at the pump, less what the zone's flow takes
    s.site.suction.clear();
    s.site.hold = kPa(391.0);
    EXPECT_NE(cautionIn(s.ask(heldPressureStudy), "set-point-below-source"), nullptr);
    s.site.hold = kPa(393.0);
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "set-point-below-source"), nullptr);
}

// Power as the cube of speed: at no more than 1.0 kW s3 at shut-off the figure is that of the case.
TEST(HeldPressureStudy, SpeedPowerAndPressuresAreGivenForACase) {
    StudySite s = heldAt(250.0);
    s.site.suction.clear();
    s.site.delivery.clear();
    s.site.zones = {zoneOf("Beds", 4.0, 2.0)};
    s.pump.power = curveThrough({{0.0, 1000.0}, {10.0, 1000.0}});
    const Study study = s.ask(heldPressureStudy);
    const double share = resultOf(study, "speed-for-set-point");
    EXPECT_NEAR(resultOf(study, "shaft-at-set-point"), share * share * share, 1e-9);
    EXPECT_NEAR(resultOf(study, "zone-at-set-point"), 250.0 - 2.0 * 999.1 * 9.80665e-3, 0.05);
    Motor motor;
    motor.efficiency = Efficiency::fromShare(0.8);
    s.pump.motor = motor;
    EXPECT_NEAR(resultOf(s.ask(heldPressureStudy), "input-at-set-point"), share * share * share / 0.8, 1e-9);
}

// No pipe: between the pump's outlet and the zone, 2 m up, stand 19.59 kPa.
StudySite withoutPipes(StudySite s) {
    s.site.suction.clear();
    s.site.delivery.clear();
    s.site.zones = {zoneOf("Beds", 4.0, 2.0)};
    return s;
}

TEST(HeldPressureStudy, AZoneShortAtTheSetPointIsSaidWithTheOneThatWouldDo) {
    StudySite s = withoutPipes(heldAt(250.0));
    s.site.zones[0].emitters.least = kPa(230.0);
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "zone-short-at-set-point"), nullptr);
    s.site.zones[0].emitters.least = kPa(231.0);
    const Study study = s.ask(heldPressureStudy);
    const Caution* c = cautionIn(study, "zone-short-at-set-point");
    ASSERT_NE(c, nullptr);
    ASSERT_EQ(c->remedy, "raise-the-set-point");
    EXPECT_EQ(factOf(c->remedyValues, "hold_kPa"), 251.0); // 250.59, in whole kPa
    s.site.hold = kPa(251.0);
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "zone-short-at-set-point"), nullptr);
    // 330 kPa ask for 349.6 at the pump, 35.7 m and 2 m of lift; at 7.3 m3/h the pump has 26.8 m.
    s.site.zones[0].emitters.least = kPa(330.0);
    ASSERT_NE(cautionIn(s.ask(heldPressureStudy), "zone-short-at-set-point"), nullptr);
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "zone-short-at-set-point")->remedy,
              "fewer-zones-or-wider-pipe");
}

TEST(HeldPressureStudy, APrechargeAboveTheCutInIsSaid) {
    StudySite s = switched(350.0, 60.0);
    s.site.vessel->precharge = kPa(200.0);
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "precharge-above-cut-in"), nullptr);
    s.site.vessel->precharge = kPa(201.0);
    const Study study = s.ask(heldPressureStudy);
    ASSERT_NE(cautionIn(study, "precharge-above-cut-in"), nullptr);
    // 0.9 (200 + 101.325) - 101.325 kPa, in whole ones.
    EXPECT_EQ(factOf(cautionIn(study, "precharge-above-cut-in")->remedyValues, "precharge_kPa"), 169.0);
    s.site.vessel->precharge = kPa(169.0);
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "precharge-above-cut-in"), nullptr);
}

// No pipe: the zone, 2 m up, needs its limit and 19.59 kPa at the pump.
TEST(HeldPressureStudy, ACutInBelowTheZonesNeedIsSaid) {
    StudySite s = withoutPipes(switched(350.0, 60.0));
    s.site.zones[0].emitters.least = kPa(180.0);
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "cut-in-below-need"), nullptr);
    s.site.zones[0].emitters.least = kPa(181.0);
    const Study study = s.ask(heldPressureStudy);
    const Caution* c = cautionIn(study, "cut-in-below-need");
    ASSERT_NE(c, nullptr);
    EXPECT_EQ(c->remedy, "raise-the-cut-in");
    EXPECT_EQ(factOf(c->remedyValues, "cut_in_kPa"), 201.0);
    s.site.vessel->cutIn = kPa(201.0);
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "cut-in-below-need"), nullptr);
    s.site.zones[0].emitters.least = kPa(340.0); // 359.6 of the 353.7 that may be set at most
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "cut-in-below-need")->remedy, "pump-with-more-head");
}

TEST(HeldPressureStudy, ACutOutBelowTheRunningPressureIsSaid) {
    StudySite s = withoutPipes(switched(350.0, 60.0));
    // By hand: 38 - 0.25 q2 = 2 + p, q = 4 sqrt(p/10.207): p = 25.86 m, 27.86 m or 273 kPa at the pump.
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "cuts-out-while-watering"), nullptr);
    s.site.vessel->cutOut = kPa(272.0);
    const Study study = s.ask(heldPressureStudy);
    const Caution* c = cautionIn(study, "cuts-out-while-watering");
    ASSERT_NE(c, nullptr);
    EXPECT_EQ(c->severity, Severity::note);
    EXPECT_NEAR(factOf(c->values, "pressure_kPa"), 27.86 * 999.1 * 9.80665e-3, 0.5);
    ASSERT_EQ(c->remedy, "raise-the-cut-out");
    s.site.vessel->cutOut = kPa(factOf(c->remedyValues, "cut_out_kPa"));
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "cuts-out-while-watering"), nullptr);
    // The zone goes short meanwhile: a warning.
    s.site.vessel->cutOut = kPa(272.0);
    s.site.zones[0].emitters.least = kPa(190.0);
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "cuts-out-while-watering")->severity, Severity::warning);
    // A trickle leaves the pump near its 372 kPa: no cut-out lies between.
    s.site.vessel->cutOut = kPa(350.0);
    s.site.zones = {zoneOf("Beds", 0.5, 2.0)};
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "cuts-out-while-watering")->remedy, "start-with-the-zones");
}

// The table notes that sets on one phase bear half the starts.
TEST(HeldPressureStudy, OnOnePhaseHalfTheStartsAreAllowed) {
    StudySite s = switched(350.0, 60.0);
    Motor motor;
    motor.rated = Power::fromKilowatts(1.1);
    motor.supply = "400 V three-phase";
    s.pump.motor = motor;
    const Study three = s.ask(heldPressureStudy);
    s.pump.motor->supply = "230 V single-phase";
    const Study one = s.ask(heldPressureStudy);
    ASSERT_TRUE(cautionIn(three, "too-many-starts") && cautionIn(one, "too-many-starts"));
    EXPECT_EQ(factOf(cautionIn(three, "too-many-starts")->values, "limit_h"), 30.0);
    EXPECT_EQ(factOf(cautionIn(one, "too-many-starts")->values, "limit_h"), 15.0);
    EXPECT_NEAR(factOf(cautionIn(one, "too-many-starts")->remedyValues, "volume_l"),
                2.0 * factOf(cautionIn(three, "too-many-starts")->remedyValues, "volume_l"), 1e-6);
}

TEST(HeldPressureStudy, TheRemedysVesselKeepsTheRunsLongEnough) {
    const auto with = [](double vessel_l) {
        StudySite s = switched(350.0, vessel_l);
        s.site.zones = {zoneOf("Beds", 0.8, 2.0)};
        return s.ask(heldPressureStudy);
    };
    const Study small = with(24.0);
    const Caution* c = cautionIn(small, "runs-too-short");
    ASSERT_NE(c, nullptr);
    EXPECT_LT(resultOf(small, "vessel-run"), 60.0);
    const double vessel_l = factOf(c->remedyValues, "volume_l");
    EXPECT_EQ(cautionIn(with(vessel_l * 1.001), "runs-too-short"), nullptr);
    EXPECT_NEAR(resultOf(with(vessel_l), "vessel-run"), 60.0, 0.01);
    EXPECT_NE(cautionIn(with(vessel_l * 0.99), "runs-too-short"), nullptr);
}

StudySite driven(double rated_kW) {
    StudySite s;
    s.pump.power = curveThrough({{0.0, 1000.0}, {5.0, 1300.0}, {10.0, 1600.0}});
    Motor motor;
    motor.rated = Power::fromKilowatts(rated_kW);
    motor.efficiency = Efficiency::fromShare(0.8);
    motor.supply = "400 V three-phase";
    s.pump.motor = motor;
    return s;
}

TEST(MotorStudy, OverloadAtRunOutIsSaid) {
    EXPECT_NE(cautionIn(driven(1.59).ask(motorStudy), "overload-at-run-out"), nullptr);
    EXPECT_EQ(cautionIn(driven(1.61).ask(motorStudy), "overload-at-run-out"), nullptr);
}

TEST(MotorStudy, PlateFiguresAreHeldAgainstTheCases) {
    StudySite s = driven(2.2);
    const Study study = s.ask(motorStudy);
    const double amps = resultOf(study, "motor-current-three");
    ASSERT_GT(amps, 1.0);
    s.facts.plateAmps = amps * 0.99;
    EXPECT_NE(cautionIn(s.ask(motorStudy), "current-above-plate"), nullptr);
    s.facts.plateAmps = amps * 1.01;
    EXPECT_EQ(cautionIn(s.ask(motorStudy), "current-above-plate"), nullptr);
    const double input_kW = factOf(figureIn(study, "motor-current-three")->with, "input_W") / 1e3;
    s.facts.plateInput = Power::fromKilowatts(input_kW * 0.99);
    EXPECT_NE(cautionIn(s.ask(motorStudy), "input-above-plate"), nullptr);
    s.facts.plateInput = Power::fromKilowatts(input_kW * 1.01);
    EXPECT_EQ(cautionIn(s.ask(motorStudy), "input-above-plate"), nullptr);
}

// The next size of IEC 60034-30-1 over 1.6 kW is 2.2; put in, nothing is overloaded.
TEST(MotorStudy, TheRemedysMotorBearsTheRunOut) {
    const Study study = driven(1.5).ask(motorStudy);
    const Caution* c = cautionIn(study, "overload-at-run-out");
    ASSERT_NE(c, nullptr);
    ASSERT_EQ(c->remedy, "throttle-or-larger-motor");
    EXPECT_NEAR(factOf(c->remedyValues, "rated_kW"), 2.2, 1e-9);
    EXPECT_EQ(cautionIn(driven(2.2).ask(motorStudy), "overload-at-run-out"), nullptr);
}

// A plate that bears less than the pump draws though its rating is enough: the next size, with its own
// current at full load, bears it.
TEST(MotorStudy, TheRemedysMotorBearsTheCurrent) {
    StudySite s = driven(1.5);
    s.facts.plateAmps = 2.0;
    const Study study = s.ask(motorStudy);
    const Caution* c = cautionIn(study, "current-above-plate");
    ASSERT_NE(c, nullptr);
    const auto larger = Power::fromKilowatts(factOf(c->remedyValues, "rated_kW"));
    EXPECT_NEAR(larger.inKilowatts(), 2.2, 1e-9); // 1.5 is what it has
    const UsualMotor next = usualMotor(3, larger);
    s.pump.motor->rated = larger;
    s.pump.motor->efficiency = next.efficiency;
    // I = P/(sqrt(3) U cos phi), by hand at full load.
    s.facts.plateAmps =
        larger.inWatts() / next.efficiency.inShare() / (std::sqrt(3.0) * 400.0 * next.powerFactor);
    EXPECT_EQ(cautionIn(s.ask(motorStudy), "current-above-plate"), nullptr);
    s.facts.plateInput = Power::fromWatts(larger.inWatts() / next.efficiency.inShare());
    EXPECT_EQ(cautionIn(s.ask(motorStudy), "input-above-plate"), nullptr);
}

TEST(MotorStudy, NoPriceNoCost) {
    StudySite s = driven(2.2);
    EXPECT_EQ(figureIn(s.ask(motorStudy), "cost-per-volume"), nullptr);
    s.facts.pricePerKilowattHour = 0.25;
    const Study study = s.ask(motorStudy);
    const WorkingStep* f = figureIn(study, "cost-per-volume");
    ASSERT_NE(f, nullptr);
    EXPECT_NEAR(std::get<double>(f->result.value), 0.25 * factOf(f->with, "energy_kWh_m3"), 1e-12);
}

// IEC 60034-30-1, two poles at 50 Hz: 2.2 kW has 85.9 % in class IE3, 1.1 kW 82.7 %.
TEST(MotorCatalogue, GivesTheClassesEfficiency) {
    EXPECT_NEAR(usualMotor(3, Power::fromKilowatts(2.2)).efficiency.inPercent(), 85.9, 0.05);
    EXPECT_NEAR(usualMotor(3, Power::fromKilowatts(1.0)).efficiency.inPercent(), 82.7, 0.05);
    EXPECT_NEAR(usualMotor(3, Power::fromKilowatts(1.0)).rated.inKilowatts(), 1.1, 1e-9);
}

TEST(MotorCatalogue, ReadsASupplyAsPeopleWriteIt) {
    const auto three = supplyIn("400 V three-phase");
    ASSERT_TRUE(three);
    EXPECT_EQ(three->phases, 3);
    EXPECT_EQ(three->volts, 400.0);
    const auto one = supplyIn("230V");
    ASSERT_TRUE(one);
    EXPECT_EQ(one->phases, 1);
    EXPECT_EQ(supplyIn("single phase")->volts, 230.0);
    EXPECT_FALSE(supplyIn("from the barn"));
}

} // namespace
} // namespace headmark
