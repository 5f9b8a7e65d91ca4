// A line drawn thicker over a stretch is one line; what is wide for another reason is not.

#include "analysis/chart/ink_centres.h"
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

void expectWhole(const InkPath& path) {
    ASSERT_FALSE(path.points.empty());
    EXPECT_NEAR(path.points.front().at.x, 60.0, 8.0);
    EXPECT_NEAR(path.points.back().at.x, 640.0, 8.0);
    for (const PathPoint& p : path.points)
        EXPECT_NEAR(p.at.y, falling(p.at.x), 1.6);
}

// The thick stretch ends out of sight; that the line is thin elsewhere is seen at its other side.
TEST(PenChange, MayHappenBehindAWord) {
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve(falling, 60, 640, {1.5, 0.6, 0.9}).curve(falling, 250, 450, {5.0, 0.6, 0.9});
    const int middle = static_cast<int>(falling(450.0));
    drawn.wipe(425, middle - 15, 475, middle + 15);
    for (double x = 432.0; x < 470.0; x += 9.0)
        drawn.straight({x, middle - 8.0}, {x, middle + 8.0}, {3.0, 0.6, 0.9});
    expectWhole(follow(drawn, 350.0));
}

// Solid over the stretch, which is no line that the dashes have gone over to.
TEST(PenChange, ThickAndSolidAmongDashes) {
    DrawnPage drawn(kWidth, kHeight);
    for (double x = 60.0; x < 640.0; x += 20.0)
        drawn.curve(falling, x, std::min(x + 12.0, 640.0), {2.0, 0.6, 0.9});
    drawn.curve(falling, 250, 450, {6.0, 0.6, 0.9});
    for (const double click : {126.0, 350.0, 566.0}) {
        SCOPED_TRACE(click);
        expectWhole(follow(drawn, click));
    }
}

// A lens makes a thin pen as wide as a thick one, but fainter: its places are the line's all the same.
TEST(PenChange, AFainterStretchIsKept) {
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve(falling, 60, 300, {1.0, 1.2, 0.75}).curve(falling, 300, 640, {2.6, 1.0, 0.9});
    const Page page = drawn.page(false, 2.0);
    const InkField field(page, {0, 0, kWidth, kHeight});
    const auto start = strokeUnder(field, {500.0, falling(500.0)}, 4.0, std::nullopt);
    ASSERT_TRUE(start);
    InkPath path = followInk(field, *start);
    refineCentres(field, path, 400);
    ASSERT_FALSE(path.points.empty());
    EXPECT_NEAR(path.points.front().at.x, 60.0, 10.0);
    EXPECT_NEAR(path.points.back().at.x, 640.0, 10.0);
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
