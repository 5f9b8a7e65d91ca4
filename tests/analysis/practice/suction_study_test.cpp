// NPSH along the suction: margins, greatest flow, lowest water, greatest lift.
#include "tests/analysis/practice/study_site.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using namespace testing;

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

// Without a suction run nothing is lost: at low water, -2 m, 8.16739 m are available. Required R with a
// margin of 10 %: 1.1 R = 8.16739 at R = 7.42490.
StudySite lossless(double required_m) {
    StudySite s = withNpsh(required_m);
    s.site.suction = {};
    return s;
}

TEST(NpshMarginAtLevel, IsJudgedAtLowWaterThoughNoCaseMayBe) {
    EXPECT_EQ(cautionIn(lossless(7.42).ask(suctionStudy), "npsh-margin-at-level"), nullptr);
    const Study study = lossless(7.43).ask(suctionStudy);
    const Caution* short_ = cautionIn(study, "npsh-margin-at-level");
    ASSERT_NE(short_, nullptr);
    EXPECT_EQ(short_->severity, Severity::warning);
    EXPECT_NEAR(factOf(short_->values, "margin_m"), 8.16739 - 7.43, 1e-4);
    EXPECT_NEAR(factOf(short_->values, "limit_m"), 0.743, 1e-9);
    EXPECT_NEAR(factOf(short_->values, "source_level_m"), -2.0, 1e-9);
}

TEST(NpshMarginAtLevel, IsADangerBelowNothing) {
    const Study some = lossless(8.16).ask(suctionStudy), none = lossless(8.17).ask(suctionStudy);
    ASSERT_NE(cautionIn(some, "npsh-margin-at-level"), nullptr);
    ASSERT_NE(cautionIn(none, "npsh-margin-at-level"), nullptr);
    EXPECT_EQ(cautionIn(some, "npsh-margin-at-level")->severity, Severity::warning);
    EXPECT_EQ(cautionIn(none, "npsh-margin-at-level")->severity, Severity::danger);
}

// (n sqrt(Q)/S)^(4/3) grows beyond what is available with a small S: by a rule it stays a warning.
TEST(NpshMarginAtLevel, IsAWarningByTheRule) {
    StudySite s;
    EXPECT_EQ(cautionIn(s.ask(suctionStudy), "npsh-margin-at-level"), nullptr);
    s.rules["suction_specific_speed"] = 20.0;
    const Study study = s.ask(suctionStudy);
    const Caution* c = cautionIn(study, "npsh-margin-at-level");
    ASSERT_NE(c, nullptr);
    EXPECT_LT(factOf(c->values, "margin_m"), 0.0);
    EXPECT_EQ(c->severity, Severity::warning);
    EXPECT_EQ(std::get<std::string>(findFact(c->values, "side")->value), "rule");
}

// Required 8 m: 0.8 m asked for, 0.16739 m there, 0.63261 m short at -2 m of water.
TEST(NpshMarginAtLevel, RemediesHoldWhenTried) {
    StudySite s = lossless(8.0);
    const Study study = s.ask(suctionStudy);
    const Caution* c = cautionIn(study, "npsh-margin-at-level");
    ASSERT_NE(c, nullptr);
    ASSERT_EQ(c->remedy, "pump-lower-or-stop-at");
    const double lower_m = factOf(c->remedyValues, "lower_m"), level_m = factOf(c->remedyValues, "level_m");
    EXPECT_NEAR(lower_m, 0.7, 1e-9);
    EXPECT_NEAR(level_m, -1.3, 1e-9);
    const auto says = [](const StudySite& tried) {
        return cautionIn(tried.ask(suctionStudy), "npsh-margin-at-level") != nullptr;
    };
    StudySite lower = s;
    lower.site.pumpLevel = Level::fromMetres(-lower_m);
    EXPECT_FALSE(says(lower));
    lower.site.pumpLevel = Level::fromMetres(-lower_m + 0.1);
    EXPECT_TRUE(says(lower));
    StudySite stops = s;
    stops.site.source->stopLevel = Level::fromMetres(level_m);
    EXPECT_FALSE(says(stops));
    stops.site.source->stopLevel = Level::fromMetres(level_m - 0.1);
    EXPECT_TRUE(says(stops));
    StudySite higher = s;
    higher.site.source = sourceAt(level_m, -1.2, -1.0);
    EXPECT_FALSE(says(higher));
}

StudySite thirsty() {
    StudySite s;
    s.site.source = sourceAt(-6.0, -6.0, -6.0);
    s.site.suction = {pipe(40.0, 9.0)};
    s.pump.npshRequired = curveThrough({{0.0, 1.0}, {5.0, 2.0}, {10.0, 5.0}});
    return s;
}

// The water never stands higher: only less flow or a lower pump help. The flow is held by a valve behind the
// pump.
TEST(NpshMarginAtLevel, HoldsAtTheFlowTheRemedyNames) {
    const Study free = thirsty().ask(suctionStudy);
    const Caution* c = cautionIn(free, "npsh-margin-at-level");
    ASSERT_NE(c, nullptr);
    ASSERT_EQ(c->remedy, "pump-lower-or-less-flow");
    const double most_m3_h = factOf(c->remedyValues, "flow_m3_h");
    bool heldOnce = false, freeOnce = false;
    for (double k = 0.0; k < 1e5 && !heldOnce; k = k < 1.0 ? 1.0 : 1.05 * k) {
        StudySite s = thirsty();
        s.site.delivery.insert(s.site.delivery.begin(), fitting(k, 50.0));
        const Study study = s.ask(suctionStudy);
        const WorkingStep* low = figureIn(study, "npsh-margin-at-level");
        ASSERT_NE(low, nullptr);
        const bool said = cautionIn(study, "npsh-margin-at-level") != nullptr;
        const double flow_m3_h = factOf(low->with, "flow_m3_h");
        heldOnce = flow_m3_h <= most_m3_h;
        if (heldOnce) {
            EXPECT_FALSE(said) << flow_m3_h;
        }
        if (flow_m3_h > most_m3_h + 0.15) { // the figure is rounded down to 0.1
            EXPECT_TRUE(said) << flow_m3_h;
            freeOnce = true;
        }
    }
    EXPECT_TRUE(heldOnce && freeOnce);
}

TEST(NpshMarginAtLevel, WhereNoFlowIsSmallEnoughThePumpMustStandLower) {
    StudySite s = lossless(8.0);
    s.site.source = sourceAt(-2.0, -2.0, -2.0);
    const Study study = s.ask(suctionStudy);
    ASSERT_NE(cautionIn(study, "npsh-margin-at-level"), nullptr);
    EXPECT_EQ(cautionIn(study, "npsh-margin-at-level")->remedy, "pump-lower");
}

TEST(SuctionStudy, EachLevelHasItsOwnFlow) {
    const Study study = withNpsh(3.0).ask(suctionStudy);
    double low_m3_h = 0.0, high_m3_h = 0.0;
    for (const WorkingStep& f : study.figures) {
        if (f.code != "npsh-margin-at-level") continue;
        if (f.place == "low") low_m3_h = factOf(f.with, "flow_m3_h");
        if (f.place == "high") high_m3_h = factOf(f.with, "flow_m3_h");
    }
    EXPECT_GT(low_m3_h, 1.0);
    EXPECT_GT(high_m3_h, low_m3_h);
}

// A chart of NPSH that begins at 2 m3/h keeps its margin from there on.
TEST(SuctionStudy, ACurveOfNpshMayBeginBeyondNoFlow) {
    StudySite s = thirsty();
    s.pump.npshRequired = curveThrough({{2.0, 1.2}, {5.0, 2.0}, {10.0, 5.0}});
    EXPECT_GT(resultOf(s.ask(suctionStudy), "suction-greatest-flow"), 2.0);
}

// NPSH alone: 10.16739 - 6 - 0.6 = 3.56739 m; practice allows 6 m.
TEST(SuctionLiftThatWorks, IsBoundByNpshWhereThatIsLess) {
    const Study study = lossless(6.0).ask(suctionStudy);
    EXPECT_NEAR(resultOf(study, "suction-greatest-lift"), 3.56739, 1e-4);
    EXPECT_EQ(figureIn(study, "suction-greatest-lift-practice"), nullptr);
}

// NPSH would allow 10.16739 - 2 - 0.6 = 7.567 m.
TEST(SuctionLiftThatWorks, IsBoundByPracticeElse) {
    StudySite s = lossless(2.0);
    EXPECT_NEAR(resultOf(s.ask(suctionStudy), "suction-greatest-lift-practice"), 6.0, 1e-9);
    EXPECT_EQ(figureIn(s.ask(suctionStudy), "suction-greatest-lift"), nullptr);
    s.water.altitude = Length::fromMetres(1000.0);
    EXPECT_NEAR(resultOf(s.ask(suctionStudy), "suction-greatest-lift-practice"), 4.83, 1e-9);
}

// K 2 in 50 mm bore: 2 x 1.02044e-3 m per (m3/h)^2.
TEST(SuctionLiftThatWorks, IsLessByTheFriction) {
    StudySite s = lossless(2.0);
    s.site.suction = {fitting(2.0, 50.0)};
    const Study study = s.ask(suctionStudy);
    const WorkingStep* lowest = figureIn(study, "suction-lowest-water");
    ASSERT_NE(lowest, nullptr);
    const double q = factOf(lowest->with, "flow_m3_h");
    EXPECT_NEAR(resultOf(study, "suction-greatest-lift-practice"), 6.0 - 2.0 * 1.02044e-3 * q * q, 1e-4);
}

// S = n sqrt(Q)/NPSH^(3/4): 2900 rpm, 6 m3/h, 3 m: 2900 x 0.0408248/2.279507 = 51.938.
TEST(SuctionStudy, SuctionSpecificSpeedIsShownWhereItIsKnown) {
    StudySite s = withNpsh(3.0);
    EXPECT_EQ(figureIn(s.ask(suctionStudy), "suction-specific-speed"), nullptr);
    s.pump.efficiency = curveThrough({{0.0, 0.0}, {6.0, 0.6}, {12.0, 0.0}});
    EXPECT_NEAR(resultOf(s.ask(suctionStudy), "suction-specific-speed"), 51.938, 0.01);
}

} // namespace
} // namespace headmark
