// A line drawn thicker over a stretch is one line; what is wide for another reason is not.

#include "analysis/chart/ink_path.h"

#include "drawn_page.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace headmark {
namespace {

using testing::DrawnPage;

constexpr int kWidth = 700, kHeight = 500;

double falling(double x) { return 120.0 + 0.0005 * (x - 40.0) * (x - 40.0); }

InkPath follow(const DrawnPage& drawn, double x) {
    const Page page = drawn.page(false, 2.0);
    const InkField field(page, {0, 0, kWidth, kHeight});
    const auto start = strokeUnder(field, {x, falling(x)}, 4.0, std::nullopt);
    if (!start) {
        ADD_FAILURE() << "no stroke under the click";
        return {};
    }
    return followInk(field, *start);
}

struct ThickStretch : ::testing::TestWithParam<double> {};

TEST_P(ThickStretch, IsFollowedFromTheThinAndFromTheThick) {
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve(falling, 60, 640, {1.5, 0.6, 0.9}).curve(falling, 250, 450, {GetParam(), 0.6, 0.9});
    for (const double click : {150.0, 350.0, 560.0}) {
        const InkPath path = follow(drawn, click);
        ASSERT_FALSE(path.points.empty());
        EXPECT_NEAR(path.points.front().at.x, 60.0, 8.0) << click;
        EXPECT_NEAR(path.points.back().at.x, 640.0, 8.0) << click;
        // The stretch is cut square to the page, not to the line: its ends draw a sight aside.
        for (const PathPoint& p : path.points)
            EXPECT_NEAR(p.at.y, falling(p.at.x), std::max(1.0, 0.25 * GetParam()));
    }
}
INSTANTIATE_TEST_SUITE_P(Widths, ThickStretch, ::testing::Values(3.0, 5.0, 8.0));

TEST(PenChange, IsSaidOfTheLineThatHasOne) {
    DrawnPage plain(kWidth, kHeight);
    plain.curve(falling, 60, 640, {1.5, 0.6, 0.9});
    EXPECT_FALSE(follow(plain, 150.0).changesPen);
    plain.curve(falling, 250, 450, {6.0, 0.6, 0.9});
    EXPECT_TRUE(follow(plain, 150.0).changesPen);
}

// A much wider bar that begins where the line ends.
TEST(PenChange, ABarIsNoLine) {
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve(falling, 60, 400, {1.5, 0.6, 0.9}).curve(falling, 400, 640, {24.0, 0.6, 0.9});
    const InkPath path = follow(drawn, 200.0);
    EXPECT_LT(path.points.back().at.x, 412.0);
}

} // namespace
} // namespace headmark
