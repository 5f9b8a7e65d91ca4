// Where a head curve meets the system curve. Curves and systems are parabolas in m and m3/h, so that every
// crossing is the root of a quadratic worked out in the comment.

#include "analysis/duty/crossings.h"

#include "support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using testing::kM3_h;
using testing::kPerM3_h2;
using testing::parabola;

constexpr double kFlow_m3_h = 1e-6; // bisection stops at 1e-11 of the chart
constexpr double kHead_m = 1e-6;

PipeTree parabolicSystem(double static_m, double perM3_h2) {
    PipeTree tree;
    TreeOutflow o;
    o.level_m = static_m;
    o.law.flowAt_m3_s = kM3_h;
    o.law.headAt_m = perM3_h2;
    tree.outflows = {o};
    return tree;
}

Crossings cross(const PumpCurve& head, double static_m, double perM3_h2, double factor = 1.0) {
    const PipeTree tree = parabolicSystem(static_m, perM3_h2);
    TreeSolver solver(tree);
    return findCrossings(solver, head, factor);
}

// 50 - 0.008 q^2 = 20 + 0.004 q^2: q = 50, H = 30.
TEST(Crossings, FindsTheOneCrossingOfAFallingCurve) {
    const Crossings c = cross(parabola(50.0, 0.0, -0.008, 0.0, 75.0), 20.0, 0.004);
    ASSERT_EQ(c.all.size(), 1U);
    EXPECT_NEAR(c.all[0].flow_m3_s / kM3_h, 50.0, kFlow_m3_h);
    EXPECT_NEAR(c.all[0].head_m, 30.0, kHead_m);
    EXPECT_TRUE(c.all[0].stable);
    EXPECT_EQ(c.miss, Miss::none);
    EXPECT_LT(c.energyResidual_m, 1e-8);
    EXPECT_GT(c.iterations, 0);
}

// A drooping curve 30 + 2 q - 0.1 q^2 (top 40 m at 10) on 32 + 0.02 q^2: 0.12 q^2 - 2 q + 2 = 0,
// q = (2 -+ sqrt 3.04)/0.24 = 1.0685018 and 15.5981649.
TEST(Crossings, FindsBothCrossingsOfADroopingCurveAndOnlyTheRightOneStable) {
    const Crossings c = cross(parabola(30.0, 2.0, -0.1, 0.0, 18.0), 32.0, 0.02);
    ASSERT_EQ(c.all.size(), 2U);
    EXPECT_NEAR(c.all[0].flow_m3_s / kM3_h, 1.0685018, kFlow_m3_h);
    EXPECT_FALSE(c.all[0].stable);
    EXPECT_NEAR(c.all[1].flow_m3_s / kM3_h, 15.5981649, kFlow_m3_h);
    EXPECT_TRUE(c.all[1].stable);
    ASSERT_NE(c.duty(), nullptr);
    EXPECT_NEAR(c.duty()->head_m, 32.0 + 0.02 * 15.5981649 * 15.5981649, 1e-5);
}

// Static 38.2: 0.12 q^2 - 2 q + 8.2 = 0, sqrt 0.064 = 0.2529822: q = 7.2792408 and 9.3874259, both left of
// the top.
TEST(Crossings, FindsBothCrossingsOnTheRisingSide) {
    const Crossings c = cross(parabola(30.0, 2.0, -0.1, 0.0, 18.0), 38.2, 0.02);
    ASSERT_EQ(c.all.size(), 2U);
    EXPECT_NEAR(c.all[0].flow_m3_s / kM3_h, 7.2792408, kFlow_m3_h);
    EXPECT_FALSE(c.all[0].stable);
    EXPECT_NEAR(c.all[1].flow_m3_s / kM3_h, 9.3874259, kFlow_m3_h);
    EXPECT_TRUE(c.all[1].stable);
}

// On 37.9995 + 0.025 q^2: 0.125 q^2 - 2 q + 7.9995 = 0, sqrt 0.00025 = 0.0158114: q = 7.9367545
// and 8.0632456.
TEST(Crossings, FindsTwoCrossingsThatLieCloseTogether) {
    const Crossings c = cross(parabola(30.0, 2.0, -0.1, 0.0, 18.0), 37.9995, 0.025);
    ASSERT_EQ(c.all.size(), 2U);
    EXPECT_NEAR(c.all[0].flow_m3_s / kM3_h, 7.9367545, kFlow_m3_h);
    EXPECT_NEAR(c.all[1].flow_m3_s / kM3_h, 8.0632456, kFlow_m3_h);
    EXPECT_FALSE(c.all[0].stable);
    EXPECT_TRUE(c.all[1].stable);
}

// Static 38: 0.12 q^2 - 2 q + 8 = 0: q = 6.6666667 and 10, the top itself, which must be found once.
TEST(Crossings, FindsACrossingAtTheTopOfTheCurveOnce) {
    const Crossings c = cross(parabola(30.0, 2.0, -0.1, 0.0, 18.0), 38.0, 0.02);
    ASSERT_EQ(c.all.size(), 2U);
    EXPECT_NEAR(c.all[0].flow_m3_s / kM3_h, 20.0 / 3.0, kFlow_m3_h);
    EXPECT_NEAR(c.all[1].flow_m3_s / kM3_h, 10.0, 1e-5);
    EXPECT_TRUE(c.all[1].stable);
}

// Static 25, below the shut-off head of 30: 0.12 q^2 - 2 q - 5 = 0, q = (2 + sqrt 6.4)/0.24 = 18.8742589.
TEST(Crossings, FindsOneCrossingOfADroopingCurveBelowItsShutOff) {
    const Crossings c = cross(parabola(30.0, 2.0, -0.1, 0.0, 20.0), 25.0, 0.02);
    ASSERT_EQ(c.all.size(), 1U);
    EXPECT_NEAR(c.all[0].flow_m3_s / kM3_h, 18.8742589, kFlow_m3_h);
    EXPECT_TRUE(c.all[0].stable);
}

TEST(DutyPoint, ReportsNoCrossingWhenStaticHeadExceedsTheTopOfADroopingCurve) {
    const Crossings c = cross(parabola(30.0, 2.0, -0.1, 0.0, 18.0), 41.0, 0.02);
    EXPECT_TRUE(c.all.empty());
    EXPECT_EQ(c.miss, Miss::pumpTooWeak);
    EXPECT_EQ(c.duty(), nullptr);
}

TEST(DutyPoint, ReportsNoCrossingWhenStaticHeadExceedsShutoff) {
    const Crossings c = cross(parabola(50.0, 0.0, -0.008, 0.0, 75.0), 50.5, 0.004);
    EXPECT_TRUE(c.all.empty());
    EXPECT_EQ(c.miss, Miss::pumpTooWeak);
}

// The system above meets the curve at 50 m3/h; a chart read to 40 only, or from 55 on, does not hold that.
TEST(DutyPoint, SaysOnWhichSideOfTheChartItLies) {
    const Crossings right = cross(parabola(50.0, 0.0, -0.008, 0.0, 40.0), 20.0, 0.004);
    EXPECT_TRUE(right.all.empty());
    EXPECT_EQ(right.miss, Miss::aboveRange);
    const Crossings left = cross(parabola(50.0, 0.0, -0.008, 55.0, 75.0), 20.0, 0.004);
    EXPECT_TRUE(left.all.empty());
    EXPECT_EQ(left.miss, Miss::belowRange);
}

// A drooping chart cut off at 14: the falling side's crossing at 15.598 is beyond it, the unstable one
// remains.
TEST(DutyPoint, IsNotTheUnstableCrossing) {
    const Crossings c = cross(parabola(30.0, 2.0, -0.1, 0.0, 14.0), 32.0, 0.02);
    ASSERT_EQ(c.all.size(), 1U);
    EXPECT_FALSE(c.all[0].stable);
    EXPECT_EQ(c.duty(), nullptr);
}

TEST(DutyPoint, StandsAtShutOffWhereNoOutletIsOpen) {
    const PipeTree shut;
    TreeSolver solver(shut);
    const Crossings c = findCrossings(solver, parabola(50.0, 0.0, -0.008, 0.0, 75.0), 0.92);
    ASSERT_EQ(c.all.size(), 1U);
    EXPECT_EQ(c.all[0].flow_m3_s, 0.0);
    EXPECT_NEAR(c.all[0].head_m, 46.0, kHead_m);
    // A chart that begins at 10 m3/h does not tell the shut-off head.
    TreeSolver again(shut);
    const Crossings unread = findCrossings(again, parabola(50.0, 0.0, -0.008, 10.0, 75.0));
    EXPECT_TRUE(unread.all.empty());
    EXPECT_EQ(unread.miss, Miss::belowRange);
}

// Head times 0.92: 46 - 0.00736 q^2 = 20 + 0.004 q^2, q^2 = 26/0.01136.
TEST(DutyPoint, MovesWithTheHeadDelivered) {
    const PumpCurve head = parabola(50.0, 0.0, -0.008, 0.0, 75.0);
    const Crossings c = cross(head, 20.0, 0.004, 0.92);
    ASSERT_EQ(c.all.size(), 1U);
    EXPECT_NEAR(c.all[0].flow_m3_s / kM3_h, std::sqrt(26.0 / 0.01136), kFlow_m3_h);
    const PipeTree tree = parabolicSystem(20.0, 0.004);
    TreeSolver solver(tree);
    const Crossings direct = findDutyOnFallingCurve(solver, head, 0.92);
    ASSERT_EQ(direct.all.size(), 1U);
    EXPECT_NEAR(direct.all[0].flow_m3_s / kM3_h, std::sqrt(26.0 / 0.01136), kFlow_m3_h);
}

// A curve that dips and rises again, 40 - 2 q + 0.1 q^2 (bottom 30 m at 10): on 20 + 0.05 q^2,
// 0.05 q^2 - 2 q + 20 = 0 touches at 20; on 25 + 0.05 q^2: q = 20 - sqrt 100 = 10, the bottom; on 22 + 0.1
// q^2: q = 9, on the falling side; on 5 + 0.2 q^2: 0.1 q^2 + 2 q - 35 = 0, q = 11.2132034, on the rising
// side, stable.
TEST(Crossings, FollowsACurveThatRisesAgain) {
    const PumpCurve head = parabola(40.0, -2.0, 0.1, 0.0, 18.0);
    const Crossings falling = cross(head, 22.0, 0.1);
    ASSERT_EQ(falling.all.size(), 1U);
    EXPECT_NEAR(falling.all[0].flow_m3_s / kM3_h, 9.0, kFlow_m3_h);
    const Crossings rising = cross(head, 5.0, 0.2);
    ASSERT_EQ(rising.all.size(), 1U);
    EXPECT_NEAR(rising.all[0].flow_m3_s / kM3_h, 11.2132034, kFlow_m3_h);
    EXPECT_TRUE(rising.all[0].stable);
}

} // namespace
} // namespace headmark
