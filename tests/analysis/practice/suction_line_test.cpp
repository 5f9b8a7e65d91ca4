// The suction between mouth and pump: air, rise, priming. Low water at -2 m, the pump at 0.
#include "tests/analysis/practice/study_site.h"

#include <gtest/gtest.h>

#include <numbers>

namespace headmark {
namespace {

using namespace testing;

PipeItem rising(double length_m, double to_m) {
    PipeItem item = pipe(50.0, length_m);
    item.riseTo = Level::fromMetres(to_m);
    return item;
}

bool says(const StudySite& s, const char* code) { return cautionIn(s.ask(suctionStudy), code) != nullptr; }

TEST(SuctionLine, AHighPointOnALiftHoldsAir) {
    StudySite s = withNpsh(2.0);
    s.site.suction = {rising(3.0, 0.4), rising(4.0, 0.1)};
    const Study humped = s.ask(suctionStudy);
    const Caution* c = cautionIn(humped, "air-pocket");
    ASSERT_NE(c, nullptr);
    EXPECT_EQ(c->place, "suction[0]");
    s.site.suction = {rising(3.0, -0.1), rising(4.0, 0.0)};
    EXPECT_FALSE(says(s, "air-pocket"));
}

// Flooded at low water of 0.5 m: only what stands above that holds air.
TEST(SuctionLine, AFloodedLineHoldsAirOnlyAboveItsWater) {
    StudySite s = withNpsh(2.0);
    s.site.source = sourceAt(0.5, 1.0, 1.5);
    s.site.suction = {rising(3.0, 0.51)};
    EXPECT_TRUE(says(s, "air-pocket"));
    s.site.suction = {rising(3.0, 0.49)};
    const Study study = s.ask(suctionStudy);
    EXPECT_EQ(cautionIn(study, "air-pocket"), nullptr);
    EXPECT_EQ(cautionIn(study, "suction-rises-too-little"), nullptr);
    EXPECT_EQ(figureIn(study, "priming-volume"), nullptr);
}

// 10 mm a metre over 10 m: 100 mm up to the pump.
TEST(SuctionLine, RisesEnoughBetweenKnownLevels) {
    StudySite s = withNpsh(2.0);
    const auto from = [&](double near_m) {
        s.site.suction = {rising(4.0, near_m), pipe(50.0, 10.0)};
        return s.ask(suctionStudy);
    };
    const Study flat = from(-0.099);
    const Caution* c = cautionIn(flat, "suction-rises-too-little");
    ASSERT_NE(c, nullptr);
    EXPECT_EQ(c->place, "suction[1]");
    EXPECT_NEAR(factOf(c->values, "rise_mm"), 99.0, 1e-6);
    EXPECT_NEAR(factOf(c->values, "limit_mm"), 100.0, 1e-6);
    EXPECT_EQ(cautionIn(from(-0.101), "suction-rises-too-little"), nullptr);
    // as the remedy has it: the near end that much lower
    const double more_m = factOf(c->remedyValues, "more_mm") / 1e3;
    EXPECT_EQ(cautionIn(from(-0.099 - more_m), "suction-rises-too-little"), nullptr);
    EXPECT_NE(cautionIn(from(0.0), "suction-rises-too-little"), nullptr); // dead level
}

TEST(SuctionLine, RiseIsJudgedFromTheMouthOnlyWhereItsLevelIsGiven) {
    StudySite s = withNpsh(2.0);
    s.site.suction = {pipe(50.0, 300.0)};
    EXPECT_FALSE(says(s, "suction-rises-too-little"));
    s.facts.mouthLevel = Level::fromMetres(-2.9); // 3 m are asked for over 300 m
    EXPECT_TRUE(says(s, "suction-rises-too-little"));
    s.facts.mouthLevel = Level::fromMetres(-3.1);
    EXPECT_FALSE(says(s, "suction-rises-too-little"));
}

// 5 m of 50 mm: 9.817 l, and 2 l in the casing; at 10 l/min.
TEST(SuctionLine, PrimingFillsPipeAndCasing) {
    const Study study = withNpsh(2.0).ask(suctionStudy);
    EXPECT_NEAR(resultOf(study, "priming-volume"), 500.0 * std::numbers::pi / 4.0 * 0.05 * 0.05 * 10.0 + 2.0,
                1e-6);
    EXPECT_NEAR(resultOf(study, "priming-time"), 1.1817, 1e-3);
}

TEST(SuctionLine, ALiftBeyondWhatThePumpPrimesIsADanger) {
    StudySite s = withNpsh(2.0);
    s.facts.primesTo = Head::fromMetres(1.9);
    const Study study = s.ask(suctionStudy);
    const Caution* c = cautionIn(study, "lift-beyond-priming");
    ASSERT_NE(c, nullptr);
    StudySite lower = s;
    lower.site.pumpLevel = Level::fromMetres(-factOf(c->remedyValues, "lower_m"));
    EXPECT_FALSE(says(lower, "lift-beyond-priming"));
    s.facts.primesTo = Head::fromMetres(2.1);
    EXPECT_FALSE(says(s, "lift-beyond-priming"));
}

TEST(SuctionLine, AValveThatHoldsThePrimeCuresIt) {
    StudySite s = withNpsh(2.0);
    s.facts.primesTo = Head::fromMetres(1.0);
    const auto with = [&](const char* code) {
        FittingItem item;
        item.code = code;
        item.bore = Length::fromMillimetres(50.0);
        s.site.suction = {item, pipe(50.0, 5.0)};
        return says(s, "lift-beyond-priming");
    };
    for (const char* holds : {"foot_valve_poppet_strainer", "floating_inlet_check", "check_swing"})
        EXPECT_FALSE(with(holds)) << holds;
    for (const char* open : {"floating_inlet", "suction_strainer_basket"})
        EXPECT_TRUE(with(open)) << open;
}

} // namespace
} // namespace headmark
