#include "tests/analysis/practice/study_site.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using namespace testing;

StudySite withPower() {
    StudySite s;
    s.pump.power = curveThrough({{0.0, 1000.0}, {5.0, 1300.0}, {10.0, 1600.0}});
    return s;
}

StudySite withReturn(double set_m3_h) {
    StudySite s = withPower();
    TankReturn back;
    back.pipe = pipe(20.0, 3.0);
    back.setFlow = Flow::fromCubicMetresPerHour(set_m3_h);
    s.site.tankReturn = back;
    return s;
}

// By hand: 1000 W into 2 kg: 60 1000/(2 4184) = 7.170 K a minute; from 15 to 40 C in 3.487 minutes.
TEST(ShutInStudy, WithoutAReturnTheMinutesAreCounted) {
    const Study study = withPower().ask(shutInStudy);
    EXPECT_NEAR(resultOf(study, "shut-in-heating"), 7.1702, 1e-3);
    EXPECT_NEAR(resultOf(study, "shut-in-minutes"), 3.4867, 1e-3);
    ASSERT_NE(cautionIn(study, "no-tank-return"), nullptr);
    // 1000 W at 10 K: 1000 3600/(999.1 4184 10) = 0.08612 m3/h.
    EXPECT_NEAR(factOf(cautionIn(study, "no-tank-return")->remedyValues, "flow_m3_h"), 0.08612, 1e-4);
}

// A pressure is held by letting nothing out: the minutes are said, but no return is asked for.
TEST(ShutInStudy, APumpHeldAtAPressureIsToStopInstead) {
    StudySite s = withPower();
    s.site.control = ControlKind::pressureHeld;
    s.site.hold = GaugePressure::fromKilopascals(250.0);
    const Study driven = s.ask(shutInStudy);
    EXPECT_EQ(cautionIn(driven, "no-tank-return"), nullptr);
    EXPECT_EQ(figureIn(driven, "return-by-heat"), nullptr);
    const Caution* stop = cautionIn(driven, "must-stop-when-shut");
    ASSERT_NE(stop, nullptr);
    EXPECT_EQ(stop->remedy, "fit-a-stop");
    EXPECT_EQ(stop->severity, Severity::note);
    // At the speed that holds 25.52 m over 1.5 m of lift with no flow: 1 kW s3, s2 = 27.02/40.
    EXPECT_NEAR(resultOf(driven, "shut-in-heating"), 7.1702 * std::pow(27.016 / 40.0, 1.5), 0.02);
    s.site.hold.reset();
    const auto kPa = [](double p) { return GaugePressure::fromKilopascals(p); };
    s.site.vessel = Vessel{Volume::fromLitres(60.0), kPa(180.0), kPa(200.0), kPa(371.0)}; // of 372.3
    ASSERT_NE(cautionIn(s.ask(shutInStudy), "must-stop-when-shut"), nullptr);
    EXPECT_EQ(cautionIn(s.ask(shutInStudy), "must-stop-when-shut")->severity, Severity::note);
    s.site.vessel->cutOut = kPa(373.0); // never reached: nothing stops it
    EXPECT_EQ(cautionIn(s.ask(shutInStudy), "must-stop-when-shut")->severity, Severity::warning);
}

TEST(ShutInStudy, NoWaterIsLedBackIntoTheMains) {
    StudySite s = withPower();
    s.site.source->kind = "mains_direct_boost";
    const Study study = s.ask(shutInStudy);
    EXPECT_EQ(cautionIn(study, "no-tank-return"), nullptr);
    ASSERT_NE(cautionIn(study, "must-stop-when-shut"), nullptr);
    EXPECT_EQ(cautionIn(study, "must-stop-when-shut")->remedy, "stop-without-return");
    s.site.source->kind = "mains_break_tank";
    EXPECT_NE(cautionIn(s.ask(shutInStudy), "no-tank-return"), nullptr);
    EXPECT_EQ(cautionIn(s.ask(shutInStudy), "must-stop-when-shut"), nullptr);
}

// An open end without a valve cannot be shut; a check valve shuts only against flow back.
TEST(ShutInStudy, AnOpenEndNeedsNoWayOut) {
    StudySite s = withPower();
    s.site.zones.clear();
    s.site.end = OutletEnd{Level::fromMetres(5.0), GaugePressure::fromKilopascals(0.0)};
    FittingItem check = fitting(2.0, 50.0);
    check.code = "check_swing";
    s.site.delivery = {check, pipe(50.0, 100.0)};
    const Study open = s.ask(shutInStudy);
    EXPECT_EQ(cautionIn(open, "no-tank-return"), nullptr);
    EXPECT_EQ(figureIn(open, "shut-in-heating"), nullptr);
    FittingItem valve = fitting(0.1, 50.0);
    valve.code = "ball_valve_full_bore";
    s.site.delivery = {valve, check, pipe(50.0, 100.0)}; // to take the pump out by hand
    EXPECT_EQ(cautionIn(s.ask(shutInStudy), "no-tank-return"), nullptr);
    s.site.delivery = {check, pipe(50.0, 100.0), valve};
    EXPECT_NE(cautionIn(s.ask(shutInStudy), "no-tank-return"), nullptr);
}

TEST(ShutInStudy, TheRemedysReturnCuresIt) {
    const Study bare = withPower().ask(shutInStudy);
    const double flow_m3_h = factOf(cautionIn(bare, "no-tank-return")->remedyValues, "flow_m3_h");
    const Study cured = withReturn(flow_m3_h * 1.001).ask(shutInStudy);
    EXPECT_EQ(cautionIn(cured, "no-tank-return"), nullptr);
    EXPECT_EQ(cautionIn(cured, "return-too-small"), nullptr);
    EXPECT_NEAR(resultOf(cured, "return-rise"), 10.0, 0.02);
    EXPECT_NE(cautionIn(withReturn(flow_m3_h * 0.99).ask(shutInStudy), "return-too-small"), nullptr);
}

// 10 l at 0.36 m3/h, which is 0.1 l/s: 100 s.
TEST(ShutInStudy, TheReturnIsSetWithABucket) {
    EXPECT_NEAR(resultOf(withReturn(0.36).ask(shutInStudy), "return-bucket"), 100.0, 0.5);
}

// By hand: 0.1 m3/h = 27.78 ml/s at 1 bar, where water leaves at sqrt(2 1e5/1000) = 14.14 m/s; through 0.61
// of the hole's area that is 3.220 mm2, 2.025 mm across.
TEST(ShutInStudy, AFixedOrificePassesWhatTheSetValveDoes) {
    StudySite s = withReturn(0.36);
    s.site.tankReturn->setFlow.reset();
    s.site.tankReturn->valveKv_m3_h = 0.1;
    EXPECT_NEAR(resultOf(s.ask(shutInStudy), "return-orifice"), 2.025, 0.001);
}

TEST(ShutInStudy, TheReturnsShareIsGivenAtEveryDuty) {
    const Study study = withReturn(0.36).ask(shutInStudy);
    const double share = resultOf(study, "return-share");
    EXPECT_GT(share, 0.01);
    EXPECT_LT(share, 0.36 / 5.0); // less head is left for it when a zone is open
}

TEST(ShutInStudy, AReturnUnderHighWaterIsSaid) {
    StudySite s = withReturn(0.36);
    s.site.tankReturn->outletLevel = Level::fromMetres(-1.01);
    EXPECT_NE(cautionIn(s.ask(shutInStudy), "return-under-water"), nullptr);
    s.site.tankReturn->outletLevel = Level::fromMetres(-0.99);
    EXPECT_EQ(cautionIn(s.ask(shutInStudy), "return-under-water"), nullptr);
}

// 1 kW for an hour into 9 m3 of 999.1 kg/m3: 3.6e6/(999.1 9 4184) = 0.0957 K.
TEST(ShutInStudy, TheSourceWarmsByAllTheShaftPower) {
    StudySite s = withReturn(0.36);
    s.site.source->volume = Volume::fromCubicMetres(9.0);
    EXPECT_NEAR(resultOf(s.ask(shutInStudy), "source-warming"), 0.0957, 2e-3);
}

TEST(ShutInStudy, WithoutAnyPowerItSaysSo) {
    const Study study = StudySite().ask(shutInStudy);
    EXPECT_NE(cautionIn(study, "shut-in-power-unknown"), nullptr);
    EXPECT_EQ(figureIn(study, "shut-in-heating"), nullptr);
    EXPECT_EQ(cautionIn(withPower().ask(shutInStudy), "shut-in-power-unknown"), nullptr);
}

TEST(ShutInStudy, AJobsOwnRuleIsFollowedAndNamed) {
    StudySite s = withPower();
    s.rules["casing_water"] = 4.0;
    s.rules["water_temp_max_general"] = 35.0;
    const Study study = s.ask(shutInStudy);
    EXPECT_NEAR(resultOf(study, "shut-in-heating"), 7.1702 / 2.0, 1e-3);
    EXPECT_EQ(cautionIn(study, "no-tank-return")->source, "set in the job");
}

} // namespace
} // namespace headmark
