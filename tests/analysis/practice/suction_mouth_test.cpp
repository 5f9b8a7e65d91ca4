// How deep each kind of mouth must lie and how far from the bottom. ANSI/HI 9.8: S = D (1 + 2.3 v/sqrt(g D));
// in 50 mm bore sqrt(g D) = 0.700237 m/s, the bore's area 1.963495e-3 m2.
#include "tests/analysis/practice/study_site.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using namespace testing;

FittingItem coded(const char* code) {
    FittingItem item;
    item.code = code;
    item.bore = Length::fromMillimetres(50.0);
    return item;
}

StudySite withMouth(const char* code, const char* source = "buried_tank") {
    StudySite s = withNpsh(2.0);
    s.site.source->kind = source;
    s.site.suction.insert(s.site.suction.begin(), coded(code));
    return s;
}

// At the greatest flow, which the lowest water is stated for.
double flow_m3_h(const Study& study) {
    const WorkingStep* at = figureIn(study, "suction-lowest-water");
    return at ? factOf(at->with, "flow_m3_h") : std::nan("");
}

bool says(const StudySite& s, const char* code) { return cautionIn(s.ask(suctionStudy), code) != nullptr; }

double remedy(const StudySite& s, const char* code, const char* key) {
    const Study study = s.ask(suctionStudy);
    const Caution* c = cautionIn(study, code);
    return c ? factOf(c->remedyValues, key) : std::nan("");
}

TEST(SuctionMouth, AFootValveLiesAsDeepAsPracticeAsks) {
    EXPECT_NEAR(resultOf(withMouth("foot_valve_general").ask(suctionStudy), "submergence"), 0.3, 1e-9);
}

// The velocity is that through an open area of four bores.
TEST(SuctionMouth, AStrainerCountsWithItsOpenArea) {
    StudySite s = withMouth("foot_valve_poppet_strainer");
    const Study study = s.ask(suctionStudy);
    const WorkingStep* f = figureIn(study, "submergence-strainer");
    ASSERT_NE(f, nullptr);
    const double v = flow_m3_h(study) / 3600.0 / (4.0 * 1.963495e-3);
    EXPECT_NEAR(factOf(f->with, "velocity_m_s"), v, 1e-6);
    EXPECT_NEAR(std::get<double>(f->result.value), 0.3, 1e-9); // practice asks for more than HI here
    s.rules["submergence_min_practice"] = 0.01;
    EXPECT_NEAR(resultOf(s.ask(suctionStudy), "submergence-strainer"), 0.05 * (1.0 + 2.3 * v / 0.700237),
                1e-5);
}

StudySite tank() {
    StudySite s = withMouth("tank_connector", "raised_tank");
    s.site.source = sourceAt(0.5, 1.0, 1.5);
    s.site.source->kind = "raised_tank";
    return s;
}

TEST(SuctionMouth, AnOutletInATanksWallGoesByTheFroudeRuleAlone) {
    const Study study = tank().ask(suctionStudy);
    const double v = flow_m3_h(study) / 3600.0 / 1.963495e-3;
    EXPECT_NEAR(resultOf(study, "submergence-outlet"), 0.05 * (1.0 + 2.3 * v / 0.700237), 1e-5);
    EXPECT_EQ(figureIn(study, "submergence"), nullptr);
}

// 50 mm for the sediment (table of limits), not the 300 mm of a foot valve.
TEST(SuctionMouth, AnOutletStandsOverTheSediment) {
    StudySite s = tank();
    s.facts.mouthLevel = Level::fromMetres(0.1);
    s.facts.floorLevel = Level::fromMetres(0.051);
    EXPECT_TRUE(says(s, "mouth-near-the-floor"));
    EXPECT_NEAR(remedy(s, "mouth-near-the-floor", "raise_mm"), 1.0, 1e-6);
    s.facts.floorLevel = Level::fromMetres(0.049);
    EXPECT_FALSE(says(s, "mouth-near-the-floor"));
}

TEST(SuctionMouth, AFootValveStandsOverTheMud) {
    StudySite s = withMouth("foot_valve_poppet_strainer");
    s.facts.mouthLevel = Level::fromMetres(-4.0);
    s.facts.floorLevel = Level::fromMetres(-4.29);
    EXPECT_TRUE(says(s, "mouth-near-the-floor"));
    const double raise_mm = remedy(s, "mouth-near-the-floor", "raise_mm");
    s.facts.mouthLevel = Level::fromMetres(-4.0 + raise_mm / 1e3);
    EXPECT_FALSE(says(s, "mouth-near-the-floor"));
    s.facts.mouthLevel = Level::fromMetres(-4.0);
    s.facts.floorLevel = Level::fromMetres(-4.31);
    EXPECT_FALSE(says(s, "mouth-near-the-floor"));
}

// 0.3 m below low water at -2 m.
TEST(SuctionMouth, TooNearTheSurfaceIsSaidAndCuredByEitherRemedy) {
    StudySite s = withMouth("foot_valve_poppet_strainer");
    s.facts.mouthLevel = Level::fromMetres(-2.29);
    ASSERT_TRUE(says(s, "mouth-too-shallow"));
    const double lower_m = remedy(s, "mouth-too-shallow", "lower_m");
    const double level_m = remedy(s, "mouth-too-shallow", "level_m");
    EXPECT_NEAR(level_m, -1.9, 1e-9); // -1.99 and up to the next 0.1 m
    StudySite deeper = s, stops = s;
    deeper.facts.mouthLevel = Level::fromMetres(-2.29 - lower_m);
    EXPECT_FALSE(says(deeper, "mouth-too-shallow"));
    stops.site.source->stopLevel = Level::fromMetres(level_m);
    EXPECT_FALSE(says(stops, "mouth-too-shallow"));
    EXPECT_FALSE(says(stops, "stops-too-late"));
    s.facts.mouthLevel = Level::fromMetres(-2.31);
    EXPECT_FALSE(says(s, "mouth-too-shallow"));
}

// 0.39 m over the floor and 0.3 m asked for on both sides: it cannot go down, only the water may stay higher.
TEST(SuctionMouth, WhereTheBottomIsInTheWayOnlyStoppingEarlierHelps) {
    StudySite s = withMouth("foot_valve_poppet_strainer");
    s.facts.mouthLevel = Level::fromMetres(-2.1);
    s.facts.floorLevel = Level::fromMetres(-2.49);
    const Study near = s.ask(suctionStudy);
    ASSERT_NE(cautionIn(near, "mouth-too-shallow"), nullptr);
    EXPECT_EQ(cautionIn(near, "mouth-too-shallow")->remedy, "let-it-stop-at");
    s.facts.floorLevel = Level::fromMetres(-2.61);
    const Study clear = s.ask(suctionStudy);
    EXPECT_EQ(cautionIn(clear, "mouth-too-shallow")->remedy, "lower-the-mouth-or-stop-earlier");
}

// Bared at low water it draws air: a danger, not a lack of cover.
TEST(SuctionMouth, AMouthAboveLowWaterIsADanger) {
    StudySite s = withMouth("foot_valve_poppet_strainer");
    s.facts.mouthLevel = Level::fromMetres(-1.99);
    const Study bare = s.ask(suctionStudy);
    ASSERT_NE(cautionIn(bare, "mouth-too-shallow"), nullptr);
    EXPECT_EQ(cautionIn(bare, "mouth-too-shallow")->severity, Severity::danger);
    s.facts.mouthLevel = Level::fromMetres(-2.01);
    const Study covered = s.ask(suctionStudy);
    EXPECT_EQ(cautionIn(covered, "mouth-too-shallow")->severity, Severity::warning);
}

TEST(SuctionMouth, AStopLevelThatBaresItIsSaid) {
    StudySite s = withMouth("foot_valve_poppet_strainer");
    s.facts.mouthLevel = Level::fromMetres(-4.0);
    s.site.source->stopLevel = Level::fromMetres(-3.71);
    EXPECT_NEAR(remedy(s, "stops-too-late", "level_m"), -3.7, 1e-9);
    s.site.source->stopLevel = Level::fromMetres(-3.69);
    EXPECT_FALSE(says(s, "stops-too-late"));
}

// Hangs 0.15 m down, keeps 0.3 m from the bed: 0.45 m of water at low water of -2 m.
TEST(SuctionMouth, AFloatingInletHasADepthOfItsOwnAndMustNotGround) {
    StudySite s = withMouth("floating_inlet_check", "pond_lake");
    EXPECT_NEAR(resultOf(s.ask(suctionStudy), "floating-inlet-depth"), 150.0, 20.0);
    s.rules["floating_inlet_depth"] = 0.2; // clear of what HI asks for
    s.facts.floorLevel = Level::fromMetres(-2.49);
    ASSERT_TRUE(says(s, "floating-inlet-grounds"));
    const double level_m = remedy(s, "floating-inlet-grounds", "level_m");
    EXPECT_NEAR(level_m, -1.9, 1e-9); // -1.99 and up
    StudySite stops = s;
    stops.site.source->stopLevel = Level::fromMetres(level_m);
    EXPECT_FALSE(says(stops, "floating-inlet-grounds"));
    s.facts.floorLevel = Level::fromMetres(-2.51);
    EXPECT_FALSE(says(s, "floating-inlet-grounds"));
    // the rule for a fixed mouth has no say
    s.facts.mouthLevel = Level::fromMetres(-2.0);
    EXPECT_FALSE(says(s, "mouth-too-shallow"));
    EXPECT_FALSE(says(s, "mouth-near-the-floor"));
}

TEST(SuctionMouth, MainsHaveNoneAndNoLift) {
    StudySite s = withMouth("double_check_valve", "mains_direct_boost");
    s.site.source = sourceAt(20.0, 25.0, 30.0);
    s.site.source->kind = "mains_direct_boost";
    s.facts.mouthLevel = Level::fromMetres(20.0);
    s.facts.floorLevel = Level::fromMetres(20.0);
    const Study study = s.ask(suctionStudy);
    for (const char* figure : {"submergence", "submergence-outlet", "submergence-strainer", "submersed-cover",
                               "suction-lowest-water", "suction-greatest-lift",
                               "suction-greatest-lift-practice", "priming-volume"})
        EXPECT_EQ(figureIn(study, figure), nullptr) << figure;
    EXPECT_NE(figureIn(study, "npsh-margin-at-level"), nullptr);
    EXPECT_TRUE(study.cautions.empty());
}

StudySite submersed(double pump_m) {
    StudySite s = withNpsh(2.0);
    s.site.suction = {};
    s.site.source->kind = "buried_tank_submersible";
    s.site.pumpLevel = Level::fromMetres(pump_m);
    return s;
}

// 0.3 m over its inlet at low water, -2 m.
TEST(SubmersedPump, StaysCoveredAtLowWater) {
    EXPECT_TRUE(says(submersed(-2.29), "mouth-too-shallow"));
    EXPECT_FALSE(says(submersed(-2.31), "mouth-too-shallow"));
    EXPECT_NEAR(resultOf(submersed(-2.29).ask(suctionStudy), "submersed-cover"), 0.29, 1e-9);
    const double lower_m = remedy(submersed(-2.29), "mouth-too-shallow", "lower_m");
    EXPECT_FALSE(says(submersed(-2.29 - lower_m), "mouth-too-shallow"));
    StudySite stops = submersed(-2.29);
    stops.site.source->stopLevel =
        Level::fromMetres(remedy(submersed(-2.29), "mouth-too-shallow", "level_m"));
    EXPECT_FALSE(says(stops, "mouth-too-shallow"));
    EXPECT_FALSE(says(stops, "stops-too-late"));
}

TEST(SubmersedPump, StopsBeforeItsInletIsBare) {
    StudySite s = submersed(-4.0);
    s.facts.mouthLevel = Level::fromMetres(-4.1); // its inlet is under the pump's level
    s.site.source->stopLevel = Level::fromMetres(-3.81);
    EXPECT_TRUE(says(s, "stops-too-late"));
    s.site.source->stopLevel = Level::fromMetres(-3.79);
    EXPECT_FALSE(says(s, "stops-too-late"));
}

TEST(SubmersedPump, HangsClearOfTheBed) {
    StudySite s = submersed(-4.0);
    s.facts.floorLevel = Level::fromMetres(-4.14);
    ASSERT_TRUE(says(s, "mouth-near-the-floor"));
    const double raise_mm = remedy(s, "mouth-near-the-floor", "raise_mm");
    StudySite higher = submersed(-4.0 + raise_mm / 1e3);
    higher.facts.floorLevel = s.facts.floorLevel;
    EXPECT_FALSE(says(higher, "mouth-near-the-floor"));
    s.facts.floorLevel = Level::fromMetres(-4.16);
    EXPECT_FALSE(says(s, "mouth-near-the-floor"));
}

// A lift it could do would tempt one to let it stand dry.
TEST(SubmersedPump, HasNoLiftAndNothingToPrime) {
    const Study study = submersed(-4.0).ask(suctionStudy);
    for (const char* figure : {"suction-greatest-lift", "suction-greatest-lift-practice",
                               "suction-lowest-water", "priming-volume"})
        EXPECT_EQ(figureIn(study, figure), nullptr) << figure;
    EXPECT_NE(figureIn(study, "npsh-margin-at-level"), nullptr);
    EXPECT_NE(figureIn(study, "suction-greatest-flow-whole"), nullptr);
}

} // namespace
} // namespace headmark
