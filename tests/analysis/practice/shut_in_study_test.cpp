#include "tests/analysis/practice/study_site.h"

#include <gtest/gtest.h>

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
