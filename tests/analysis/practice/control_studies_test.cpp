// A pressure held by switch or by speed, and the motor.

#include "analysis/practice/motor_catalogue.h"
#include "tests/analysis/practice/study_site.h"

#include <gtest/gtest.h>

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

TEST(HeldPressureStudy, ASetPointOutOfReachIsSaid) {
    StudySite s;
    s.site.control = ControlKind::pressureHeld;
    s.site.hold = kPa(450.0);
    EXPECT_NE(cautionIn(s.ask(heldPressureStudy), "set-point-not-held"), nullptr);
    s.site.hold = kPa(200.0);
    EXPECT_EQ(cautionIn(s.ask(heldPressureStudy), "set-point-not-held"), nullptr);
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
