// What is taken up beyond a gap is the line's own only where the way back says so too.

#include "analysis/chart/ink_path.h"

#include "drawn_page.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

using testing::DrawnPage;
using testing::Pen;

constexpr int kWidth = 800, kHeight = 500;

InkPath follow(const DrawnPage& drawn, PagePoint click) {
    const Page page = drawn.page(false, 2.0);
    const InkField field(page, {0, 0, page.width, page.height});
    const auto start = strokeUnder(field, click, 4.0, std::nullopt);
    if (!start) {
        ADD_FAILURE() << "no stroke under the click";
        return {};
    }
    return followInk(field, *start);
}

// Meets the other one at x = 480 at a small angle and ends there; the other goes on to x = 760.
double ending(double x) { return 130.0 + 0.0004 * (x - 60.0) * (x - 60.0); }

class Neighbour : public ::testing::TestWithParam<double> {
  protected:
    // By how much flatter it is where they meet.
    static double through(double x) {
        return ending(480.0) + (0.336 - GetParam()) * (x - 480.0) + 0.0001 * (x - 480.0) * (x - 480.0);
    }
};

TEST_P(Neighbour, IsNotTakenForTheLineThatEndsOnIt) {
    for (const double width : {2.0, 3.5}) {
        const Pen pen{width, 0.6, 0.9};
        DrawnPage drawn(kWidth, kHeight);
        drawn.curve(ending, 60, 480, pen).curve(through, 60, 760, pen);
        const InkPath path = follow(drawn, {200.0, ending(200.0)});
        ASSERT_FALSE(path.points.empty());
        EXPECT_NEAR(path.points.front().at.x, 60.0, 8.0) << width;
        EXPECT_LT(path.points.back().at.x, 520.0) << width;
        // It is the other's own way.
        const InkPath other = follow(drawn, {650.0, through(650.0)});
        ASSERT_FALSE(other.points.empty());
        EXPECT_NEAR(other.points.front().at.x, 60.0, 8.0) << width;
        EXPECT_NEAR(other.points.back().at.x, 760.0, 8.0) << width;
    }
}
INSTANTIATE_TEST_SUITE_P(Angles, Neighbour, ::testing::Values(0.15, 0.2, 0.25));

// Both go on: neither is cut off at the crossing.
TEST(WayBack, ACrossingIsPassed) {
    const Pen pen{3.0, 0.6, 0.9};
    const auto other = [](double x) { return ending(400.0) + 0.05 * (x - 400.0); };
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve(ending, 60, 760, pen).curve(other, 60, 760, pen);
    for (const double click : {150.0, 650.0}) {
        const InkPath path = follow(drawn, {click, ending(click)});
        ASSERT_FALSE(path.points.empty());
        EXPECT_NEAR(path.points.front().at.x, 60.0, 8.0);
        EXPECT_NEAR(path.points.back().at.x, 760.0, 8.0);
        EXPECT_NE(path.endsAt, PathEnd::lost);
    }
}

// The tight bend of a dashed line of equal efficiency.
TEST(WayBack, ALineKnownToBendIsFollowedRoundItsBend) {
    DrawnPage drawn(kWidth, kHeight);
    const auto at = [](double angle) {
        return PixelPoint{400.0 + 150.0 * std::cos(angle), 200.0 + 60.0 * std::sin(angle)};
    };
    for (double angle = 0.05; angle < 3.05; angle += 0.14)
        for (double part = 0.0; part < 0.075; part += 0.015)
            drawn.straight(at(angle + part), at(angle + part + 0.015), {2.0, 0.6, 0.9});
    const Page page = drawn.page(false, 2.0);
    const InkField field(page, {0, 0, page.width, page.height});
    const PixelPoint click = at(1.62);
    const auto start = strokeUnder(field, {click.x_px, click.y_px}, 4.0, std::nullopt);
    ASSERT_TRUE(start);
    const InkPath path = followInk(field, *start, {}, {.bends = true});
    ASSERT_FALSE(path.points.empty());
    const double left = std::min(path.points.front().at.x, path.points.back().at.x);
    const double right = std::max(path.points.front().at.x, path.points.back().at.x);
    EXPECT_LT(left, 262.0);
    EXPECT_GT(right, 538.0);
}

} // namespace
} // namespace headmark
