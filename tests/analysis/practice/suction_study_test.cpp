#include "tests/analysis/practice/study_site.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace headmark {
namespace {

using namespace testing;

StudySite withNpsh(double required_m) {
    StudySite s;
    s.pump.npshRequired = curveThrough({{0.0, required_m}, {10.0, required_m}});
    return s;
}

// NPSH available at 15 C, sea level, from the definition by hand:
// (101.325 - 1.7057 kPa)/(999.10 9.80665 N/m3) = 10.168 m, less the lift, less the suction's loss.
TEST(SuctionStudy, LowestWaterIsWhereTheMarginIsJustKept) {
    const StudySite s = withNpsh(3.0);
    const Study study = s.ask(suctionStudy);
    const WorkingStep* at = figureIn(study, "suction-lowest-water");
    ASSERT_NE(at, nullptr);
    const double lowest_m = std::get<double>(at->result.value);
    // With the water there, the margin is what must be kept: 0.6 m.
    StudySite lowered = withNpsh(3.0);
    lowered.site.source = sourceAt(lowest_m, lowest_m, lowest_m);
    const Study there = lowered.ask(suctionStudy);
    const WorkingStep* margin = figureIn(there, "npsh-margin-at-level");
    ASSERT_NE(margin, nullptr);
    const double flowThere = factOf(margin->with, "flow_m3_h"), flowHere = factOf(at->with, "flow_m3_h");
    // The duty moves a little with the level, so a few centimetres of loss are left.
    EXPECT_NEAR(std::get<double>(margin->result.value), 0.6, 0.02 + 0.1 * (flowHere - flowThere));
    EXPECT_NEAR(lowest_m, -(10.168 - 3.0 - 0.6), 0.6); // losses of the suction
}

TEST(SuctionStudy, GreatestFlowKeepsTheMarginAndNoMoreDoes) {
    StudySite s;
    s.site.source = sourceAt(-6.0, -6.0, -6.0);
    s.site.suction = {pipe(40.0, 9.0)};
    s.pump.npshRequired = curveThrough({{0.0, 1.0}, {5.0, 2.0}, {10.0, 5.0}});
    const double flow_m3_h = resultOf(s.ask(suctionStudy), "suction-greatest-flow");
    ASSERT_GT(flow_m3_h, 0.5);
    ASSERT_LT(flow_m3_h, 9.5);
    const auto margin_m = [&](double q_m3_h) {
        const SiteModel model = modelOf(s.site);
        CaseSetting setting;
        setting.open = {false};
        setting.level = WaterLevel::low;
        const double q = q_m3_h * kM3_h;
        return npshAvailable_m(model, model.tree(setting).tree, q) - s.pump.npshRequired->at(q);
    };
    EXPECT_GE(margin_m(flow_m3_h * 0.999), 0.6);
    EXPECT_LT(margin_m(flow_m3_h * 1.001), 0.6);
}

// NPSH_required = (n sqrt(Q)/S)^(4/3) by hand: 2900 rpm, 8 m3/h, S 100: 136.707/100 -> 1.5171 m.
TEST(SuctionStudy, WithoutACurveARuleStandsInAndIsSaid) {
    StudySite s;
    const Study study = s.ask(suctionStudy);
    ASSERT_NE(cautionIn(study, "npsh-by-rule"), nullptr);
    const WorkingStep* rule = figureIn(study, "npsh-required-rule");
    ASSERT_NE(rule, nullptr);
    const double flow_m3_s = factOf(rule->with, "flow_m3_s");
    EXPECT_NEAR(std::get<double>(rule->result.value), 1.5171 * std::pow(flow_m3_s * 3600.0 / 8.0, 2.0 / 3.0),
                1e-3);
    EXPECT_EQ(cautionIn(withNpsh(2.0).ask(suctionStudy), "npsh-by-rule"), nullptr);
}

TEST(SuctionStudy, AMouthTooNearTheSurfaceIsSaid) {
    StudySite s = withNpsh(2.0);
    const double needed_m = resultOf(s.ask(suctionStudy), "submergence");
    s.facts.mouthLevel = Level::fromMetres(-2.0 - needed_m + 0.01);
    const Study shallow = s.ask(suctionStudy);
    const Caution* c = cautionIn(shallow, "mouth-too-shallow");
    ASSERT_NE(c, nullptr);
    // The remedy's level has just the depth needed above the mouth.
    EXPECT_NEAR(factOf(c->remedyValues, "level_m") - s.facts.mouthLevel->inMetres(), needed_m, 1e-9);
    s.facts.mouthLevel = Level::fromMetres(-2.0 - needed_m - 0.01);
    EXPECT_EQ(cautionIn(s.ask(suctionStudy), "mouth-too-shallow"), nullptr);
}

TEST(SuctionStudy, AStopLevelThatBaresTheMouthIsSaid) {
    StudySite s = withNpsh(2.0);
    const double needed_m = resultOf(s.ask(suctionStudy), "submergence");
    s.facts.mouthLevel = Level::fromMetres(-4.0);
    s.site.source->stopLevel = Level::fromMetres(-4.0 + needed_m - 0.01);
    const Study late = s.ask(suctionStudy);
    const Caution* c = cautionIn(late, "stops-too-late");
    ASSERT_NE(c, nullptr);
    EXPECT_NEAR(factOf(c->remedyValues, "level_m"), -4.0 + needed_m, 1e-9);
    s.site.source->stopLevel = Level::fromMetres(-4.0 + needed_m + 0.01);
    EXPECT_EQ(cautionIn(s.ask(suctionStudy), "stops-too-late"), nullptr);
}

// A lift it could do would tempt one to let it stand dry.
TEST(SuctionStudy, APumpUnderWaterHasNoLift) {
    StudySite s = withNpsh(2.0);
    EXPECT_NE(figureIn(s.ask(suctionStudy), "suction-greatest-lift"), nullptr);
    s.site.source->kind = "buried_tank_submersible";
    EXPECT_EQ(figureIn(s.ask(suctionStudy), "suction-greatest-lift"), nullptr);
}

TEST(SuctionStudy, AMouthNearTheFloorIsSaid) {
    StudySite s = withNpsh(2.0);
    s.facts.mouthLevel = Level::fromMetres(-4.0);
    s.facts.floorLevel = Level::fromMetres(-4.29);
    EXPECT_NE(cautionIn(s.ask(suctionStudy), "mouth-near-the-floor"), nullptr);
    s.facts.floorLevel = Level::fromMetres(-4.31);
    EXPECT_EQ(cautionIn(s.ask(suctionStudy), "mouth-near-the-floor"), nullptr);
}

TEST(SuctionStudy, AHighPointOnALiftHoldsAir) {
    StudySite s = withNpsh(2.0);
    PipeItem up = pipe(50.0, 3.0), along = pipe(50.0, 4.0);
    up.riseTo = Level::fromMetres(0.4);
    along.riseTo = Level::fromMetres(0.1);
    s.site.suction = {up, along};
    const Study humped = s.ask(suctionStudy);
    const Caution* c = cautionIn(humped, "air-pocket");
    ASSERT_NE(c, nullptr);
    EXPECT_EQ(c->place, "suction[0]");
    up.riseTo = Level::fromMetres(-0.1);
    along.riseTo = Level::fromMetres(0.0);
    s.site.suction = {up, along};
    EXPECT_EQ(cautionIn(s.ask(suctionStudy), "air-pocket"), nullptr);
}

TEST(SuctionStudy, AFloodedSuctionHoldsNoAirAndNeedsNoPriming) {
    StudySite s = withNpsh(2.0);
    s.site.source = sourceAt(0.5, 1.0, 1.5);
    PipeItem hump = pipe(50.0, 3.0);
    hump.riseTo = Level::fromMetres(0.4);
    s.site.suction = {hump};
    const Study study = s.ask(suctionStudy);
    EXPECT_EQ(cautionIn(study, "air-pocket"), nullptr);
    EXPECT_EQ(figureIn(study, "priming-volume"), nullptr);
}

// 5 m of 50 mm: 9.817 l, and 2 l in the casing; at 10 l/min.
TEST(SuctionStudy, PrimingFillsPipeAndCasing) {
    const Study study = withNpsh(2.0).ask(suctionStudy);
    EXPECT_NEAR(resultOf(study, "priming-volume"), 500.0 * std::numbers::pi / 4.0 * 0.05 * 0.05 * 10.0 + 2.0,
                1e-6);
    EXPECT_NEAR(resultOf(study, "priming-time"), 1.1817, 1e-3);
}

TEST(SuctionStudy, ALiftBeyondWhatThePumpPrimesIsADanger) {
    StudySite s = withNpsh(2.0);
    s.facts.primesTo = Head::fromMetres(1.9);
    EXPECT_NE(cautionIn(s.ask(suctionStudy), "lift-beyond-priming"), nullptr);
    s.facts.primesTo = Head::fromMetres(2.1);
    EXPECT_EQ(cautionIn(s.ask(suctionStudy), "lift-beyond-priming"), nullptr);
}

} // namespace
} // namespace headmark
