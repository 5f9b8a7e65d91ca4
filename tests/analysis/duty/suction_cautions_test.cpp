// What is said of the suction side of a case: raised, and just not. Water at 15 C (IAPWS SR6-08: 999.1026
// kg/m3), velocity head in 50 mm bore 1.02044e-3 m per (m3/h)^2.

#include "analysis/duty/case_solver.h"

#include "support/duty_fixtures.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

using namespace testing;

// Pump 30 - 0.02 q^2 m, an end 5 m above the datum, K of 20 and the end's velocity head behind the pump.
struct Lifted {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    PumpModel pump = pumpOf(parabola(30.0, 0.0, -0.02, 0.0, 35.0));
    WaterConditions water;

    explicit Lifted(double lift_m, double suctionK = 0.0) {
        site.source = sourceAt(-lift_m, -lift_m, -lift_m);
        site.end = OutletEnd{Level::fromMetres(5.0), GaugePressure{}};
        site.delivery = {fitting(20.0, 50.0)};
        if (suctionK > 0.0) site.suction = {fitting(suctionK, 50.0)};
    }
    [[nodiscard]] CaseAnswer answer() const {
        const SiteModel model = modelOf(site, {}, water);
        return CaseSolver(model, pump, asPrinted()).answer(caseOf({}));
    }
    [[nodiscard]] bool says(const std::string& code) const { return findCaution(answer(), code) != nullptr; }
};

double remedyOf(const CaseAnswer& answer, const std::string& code, const char* key) {
    const Caution* c = findCaution(answer, code);
    const Fact* f = c ? findFact(c->remedyValues, key) : nullptr;
    return f ? std::get<double>(f->value) : std::nan("");
}

// Table of limits: 6.0 m near the sea.
TEST(SuctionLift, IsSaidAboveThePracticalLimit) {
    EXPECT_TRUE(Lifted(6.01).says("suction-lift"));
    EXPECT_FALSE(Lifted(5.99).says("suction-lift"));
}

// 1.17 m less per 1000 m: 3.66 m at 2000 m.
TEST(SuctionLift, LosesWithAltitude) {
    Lifted high(3.67);
    high.water.altitude = Length::fromMetres(2000.0);
    EXPECT_TRUE(high.says("suction-lift"));
    Lifted lower(3.65);
    lower.water.altitude = Length::fromMetres(2000.0);
    EXPECT_FALSE(lower.says("suction-lift"));
}

// K 2 in the suction: q^2 = (25 - L)/(0.02 + 23 c), loss 2 c q^2 = 0.046949 (25 - L); lift and loss are 6 m
// at L = (6 - 1.173725)/0.953051 = 5.0640 m.
TEST(SuctionLift, CountsFriction) {
    const CaseAnswer above = Lifted(5.074, 2.0).answer();
    const Caution* c = findCaution(above, "suction-lift");
    ASSERT_NE(c, nullptr);
    EXPECT_NEAR(std::get<double>(findFact(c->values, "lift_m")->value), 5.074 * 0.953051 + 1.173725, 1e-4);
    EXPECT_FALSE(Lifted(5.054, 2.0).says("suction-lift"));
}

// At L = 5.5 m 6.4155 m: 0.5 m lower is enough (5.9155 m at the same duty), 0.4 m is not.
TEST(SuctionLift, RemedySaysHowMuchLowerThePumpMustStand) {
    Lifted s(5.5, 2.0);
    const double lower_m = remedyOf(s.answer(), "suction-lift", "lower_m");
    EXPECT_NEAR(lower_m, 0.5, 1e-9);
    s.site.pumpLevel = Level::fromMetres(-lower_m);
    EXPECT_FALSE(s.says("suction-lift"));
    s.site.pumpLevel = Level::fromMetres(-lower_m + 0.1);
    EXPECT_TRUE(s.says("suction-lift"));
}

Lifted borehole(double pump_m) {
    Lifted s(0.0);
    s.site.source = sourceAt(-28.0, -24.0, -20.0);
    s.site.source->kind = "well_deep";
    s.site.pumpLevel = Level::fromMetres(pump_m);
    s.pump = pumpOf(parabola(60.0, 0.0, -0.02, 0.0, 45.0));
    return s;
}

TEST(SurfacePumpImpossible, IsSaidOfAPumpAboveItsDeepWater) {
    EXPECT_TRUE(borehole(-19.99).says("surface-pump-impossible"));
    EXPECT_FALSE(borehole(-20.01).says("surface-pump-impossible"));
    EXPECT_FALSE(borehole(-33.0).says("suction-lift"));
    // One fault, said once.
    EXPECT_FALSE(borehole(0.0).says("suction-lift"));
}

TEST(SurfacePumpImpossible, RemedySaysWhereItMustHang) {
    const CaseAnswer high = borehole(0.0).answer();
    const double level_m = remedyOf(high, "surface-pump-impossible", "level_m");
    EXPECT_NEAR(level_m, -28.0 - 0.3, 1e-9); // low water less the cover of the table of limits
    EXPECT_FALSE(borehole(level_m).says("surface-pump-impossible"));
}

TEST(SuctionHose, ThatFlattensIsADanger) {
    Lifted s(2.0);
    PipeItem hose = pipe(50.0, 6.0);
    hose.kind.mayBeSuction = false;
    s.site.suction = {hose};
    const CaseAnswer flat = s.answer();
    ASSERT_NE(findCaution(flat, "suction-hose-collapses"), nullptr);
    EXPECT_EQ(findCaution(flat, "suction-hose-collapses")->place, "suction[0]");
    hose.kind.mayBeSuction = true;
    s.site.suction = {hose};
    EXPECT_FALSE(s.says("suction-hose-collapses"));
}

TEST(SourceLevel, IsAssumedOnlyWhereNotGiven) {
    Lifted s(2.0);
    s.site.source->levelsGiven = false;
    EXPECT_TRUE(s.says("source-level-assumed"));
    s.site.source->levelsGiven = true;
    EXPECT_FALSE(s.says("source-level-assumed"));
}

// Level to level 7 m: 30 - 0.02 q^2 = 7 + 21 c q^2, q^2 = 23/0.0414292 = 555.163, q = 23.562 m3/h.
TEST(NpshRequired, IsUnknownWithoutACurveOrBeyondIt) {
    Lifted s(2.0);
    EXPECT_TRUE(s.says("npsh-unknown"));
    EXPECT_FALSE(s.says("npsh-beyond-curve"));
    s.pump.npshRequired = curveThrough({{0.0, 2.0}, {23.55, 2.0}});
    EXPECT_FALSE(s.says("npsh-unknown"));
    EXPECT_TRUE(s.says("npsh-beyond-curve"));
    s.pump.npshRequired = curveThrough({{0.0, 2.0}, {23.57, 2.0}});
    EXPECT_FALSE(s.says("npsh-unknown"));
    EXPECT_FALSE(s.says("npsh-beyond-curve"));
}

// A pump whose best flow is 60 m3/h, NPSH required 4 m wherever it runs. S = n sqrt(Q)/NPSH^(3/4):
// sqrt(60/3600) = 0.1290994, 4^(3/4) = 2.828427: S = 0.0456436 n; 145 at 3176.8 rpm.
PumpModel fastPump(double rpm) {
    PumpModel pump = pumpOf(parabola(30.0, 0.0, -0.004, 0.0, 80.0));
    pump.efficiency = curveThrough({{0.0, 0.0}, {60.0, 0.7}, {120.0, 0.0}});
    pump.npshRequired = curveThrough({{0.0, 4.0}, {80.0, 4.0}});
    pump.chartSpeed = RotationalSpeed::fromRevolutionsPerMinute(rpm);
    return pump;
}

// ANSI/HI 9.6.1 as summarised: 0.6 m or 10 % up to 145, 1.0 m or 20 % above.
TEST(NpshMarginAsked, GrowsWithSuctionSpecificSpeed) {
    const SiteModel model = modelOf(Lifted(2.0).site);
    const auto asked_m = [&](double rpm, const Limits& limits, double required_m) {
        return npshMarginNeeded_m(CaseSolver(model, fastPump(rpm), limits).advisedLimits(), required_m);
    };
    EXPECT_NEAR(asked_m(3170.0, Limits{}, 4.0), 0.6, 1e-12);
    EXPECT_NEAR(asked_m(3180.0, Limits{}, 4.0), 1.0, 1e-12);
    EXPECT_NEAR(asked_m(3170.0, Limits{}, 8.0), 0.8, 1e-12);
    EXPECT_NEAR(asked_m(3180.0, Limits{}, 8.0), 1.6, 1e-12);
    Limits own;
    own.npshMarginOwn = true; // what the job sets stays
    EXPECT_NEAR(asked_m(3180.0, own, 4.0), 0.6, 1e-12);
    Limits rule;
    rule.rules = Rules({{"npsh_margin_high_abs", 1.3}});
    EXPECT_NEAR(asked_m(3180.0, rule, 4.0), 1.3, 1e-12);
}

// What serves is judged by the job's limits, 0.6 m and 10 % where it sets none.
TEST(NpshMarginAsked, DoesNotMoveTheVerdict) {
    const SiteModel model = modelOf(Lifted(2.0).site);
    const CaseSolver solver(model, fastPump(3600.0), Limits{});
    EXPECT_NEAR(npshMarginNeeded_m(solver.limits(), 4.0), 0.6, 1e-12);
    EXPECT_NEAR(npshMarginNeeded_m(solver.limits(), 8.0), 0.8, 1e-12);
}

TEST(NpshMarginAsked, StaysModerateWhereSpeedOrBestFlowAreNotKnown) {
    const SiteModel model = modelOf(Lifted(2.0).site);
    PumpModel pump = fastPump(3600.0);
    EXPECT_NEAR(CaseSolver(model, pump, Limits{}).advisedLimits().npshMargin.inMetres(), 1.0, 1e-12);
    pump.chartSpeed.reset();
    EXPECT_NEAR(CaseSolver(model, pump, Limits{}).advisedLimits().npshMargin.inMetres(), 0.6, 1e-12);
    pump = fastPump(3600.0);
    pump.efficiency.reset();
    EXPECT_NEAR(CaseSolver(model, pump, Limits{}).advisedLimits().npshMargin.inMetres(), 0.6, 1e-12);
    pump = fastPump(3600.0);
    pump.npshRequired = curveThrough({{0.0, 4.0}, {59.0, 4.0}}); // ends before best flow
    EXPECT_NEAR(CaseSolver(model, pump, Limits{}).advisedLimits().npshMargin.inMetres(), 0.6, 1e-12);
}

// S does not depend on the speed it runs at: flow as n, NPSH as n^2.
TEST(NpshMarginAsked, IsTheSameAtAnotherRunningSpeed) {
    const Density density = waterAt(Temperature::fromCelsius(15.0)).density;
    const PumpModel pump = fastPump(3180.0);
    ASSERT_TRUE(pump.suctionSpecificSpeed(density));
    EXPECT_NEAR(*pump.suctionSpecificSpeed(density), 0.0456436 * 3180.0, 0.01);
    EXPECT_NEAR(*pump.atSpeed(0.8).suctionSpecificSpeed(density), 0.0456436 * 3180.0, 0.01);
}

} // namespace
} // namespace headmark
