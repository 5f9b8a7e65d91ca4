#include "analysis/chart/ink_centres.h"
#include "analysis/chart/ink_path.h"

#include "drawn_page.h"

#include <gtest/gtest.h>

#include <numbers>

namespace headmark {
namespace {

using testing::DrawnPage;
using testing::Pen;

constexpr int kWidth = 700, kHeight = 500;

double falling(double x) { return 120.0 + 0.0005 * (x - 40.0) * (x - 40.0); }

InkPath follow(const Page& page, PagePoint click) {
    const InkField field(page, {0, 0, page.width, page.height});
    const auto start = strokeUnder(field, click, 4.0, std::nullopt);
    if (!start) {
        ADD_FAILURE() << "no stroke under the click";
        return {};
    }
    InkPath path = followInk(field, *start);
    refineCentres(field, path, 400);
    return path;
}

// Root mean square distance down the page from y = f(x).
double rmsOff(const InkPath& path, const std::function<double(double)>& f) {
    double sum = 0.0;
    for (const PathPoint& p : path.points)
        sum += std::pow(p.at.y - f(p.at.x), 2);
    return path.points.empty() ? 1e9 : std::sqrt(sum / static_cast<double>(path.points.size()));
}

void expectWhole(const InkPath& path, double from, double to, double most_px) {
    ASSERT_FALSE(path.points.empty());
    EXPECT_NEAR(path.points.front().at.x, from, 6.0);
    EXPECT_NEAR(path.points.back().at.x, to, 6.0);
    EXPECT_LT(rmsOff(path, falling), most_px);
}

TEST(InkPath, FollowsAThinAndAThickLineToBothEnds) {
    for (const double width : {1.2, 2.0, 4.0, 7.0}) {
        for (const double blur : {0.5, 1.2}) {
            const Page page = DrawnPage(kWidth, kHeight).curve(falling, 60, 640, {width, blur, 0.8}).page();
            SCOPED_TRACE(width);
            const InkPath path = follow(page, {350.0, falling(350.0) + 1.0});
            expectWhole(path, 60, 640, 0.1);
            EXPECT_EQ(path.startsAt, PathEnd::paper);
            EXPECT_EQ(path.endsAt, PathEnd::paper);
            EXPECT_TRUE(path.gaps.empty());
        }
    }
}

TEST(InkPath, StandsNoiseAndUnevenLight) {
    const Page page = DrawnPage(kWidth, kHeight)
                          .curve(falling, 60, 640, {3.0, 1.0, 0.6})
                          .unevenLight(0.25)
                          .page(false, 12.0);
    expectWhole(follow(page, {350.0, falling(350.0)}), 60, 640, 0.3);
}

TEST(InkPath, PassesThroughRulings) {
    const Page page = DrawnPage(kWidth, kHeight)
                          .rulings(40, {1.2, 0.6, 0.25})
                          .curve(falling, 60, 640, {3.0, 0.7, 0.85})
                          .page(false, 3.0);
    expectWhole(follow(page, {352.0, falling(352.0)}), 60, 640, 0.2);
}

struct CrossingAngle : ::testing::TestWithParam<double> {};

TEST_P(CrossingAngle, PassesALineAlikeOnItsOwnSide) {
    const auto mine = [](double x) { return 250.0 + 0.1 * (x - 350.0); };
    const double angle = std::atan(0.1) - GetParam() * std::numbers::pi / 180.0;
    const double reach = 160.0;
    const Page page = DrawnPage(kWidth, kHeight)
                          .curve(mine, 60, 640)
                          .straight({350.0 - reach * std::cos(angle), 250.0 - reach * std::sin(angle)},
                                    {350.0 + reach * std::cos(angle), 250.0 + reach * std::sin(angle)})
                          .page(false, 3.0);
    const InkPath path = follow(page, {140.0, mine(140.0)});
    ASSERT_FALSE(path.points.empty());
    EXPECT_NEAR(path.points.front().at.x, 60.0, 6.0);
    EXPECT_NEAR(path.points.back().at.x, 640.0, 6.0);
    EXPECT_LT(rmsOff(path, mine), 0.4);
}
INSTANTIATE_TEST_SUITE_P(All, CrossingAngle,
                         ::testing::Values(10.0, 12.0, 15.0, 20.0, 30.0, 45.0, 60.0, 90.0));

TEST(InkPath, BridgesAShortGapAndSaysSo) {
    const Page page =
        DrawnPage(kWidth, kHeight).curve(falling, 60, 300).curve(falling, 312, 640).page(false, 3.0);
    const InkPath path = follow(page, {450.0, falling(450.0)});
    expectWhole(path, 60, 640, 0.2);
    ASSERT_EQ(path.gaps.size(), 1u);
    EXPECT_NEAR(path.gaps[0].length_px, 12.0, 5.0);
    EXPECT_FALSE(path.gaps[0].overInk);
}

TEST(InkPath, EndsAtAWideGap) {
    const Page page =
        DrawnPage(kWidth, kHeight).curve(falling, 60, 300).curve(falling, 360, 640).page(false, 3.0);
    const InkPath path = follow(page, {450.0, falling(450.0)});
    ASSERT_FALSE(path.points.empty());
    EXPECT_NEAR(path.points.front().at.x, 360.0, 6.0);
    EXPECT_EQ(path.startsAt, PathEnd::paper);
}

TEST(InkPath, PassesUnderALabel) {
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve(falling, 60, 640);
    for (int k = 0; k < 5; ++k) { // upright strokes, as of letters, over the line
        const double x = 300.0 + 9.0 * k;
        drawn.straight({x, falling(x) - 9.0}, {x, falling(x) + 9.0}, {2.0, 0.6, 0.9});
    }
    expectWhole(follow(drawn.page(false, 3.0), {480.0, falling(480.0)}), 60, 640, 0.3);
}

// A word in another ink on a white box: it hides the line all the same.
TEST(InkPath, PassesUnderABlackWordOverAColouredLine) {
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve(falling, 60, 640, {3.0, 0.6, 0.9, {20, 60, 200}});
    const int middle = static_cast<int>(falling(345.0));
    drawn.wipe(300, middle - 20, 390, middle + 40);
    for (double x = 314.0; x < 380.0; x += 7.0)
        drawn.straight({x, falling(x) - 7.0}, {x, falling(x) + 7.0}, {2.0, 0.6, 0.95});
    const InkPath path = follow(drawn.page(true), {150.0, falling(150.0)});
    expectWhole(path, 60, 640, 0.3);
}

// Dashes that pass under a solid line at a shallow angle: the way that shows no more gaps is not theirs.
TEST(InkPath, LeavesNoDashedLineForASolidOne) {
    DrawnPage drawn(kWidth, kHeight);
    const Pen pen{3.0, 0.6, 0.9};
    for (double x = 60.0; x < 640.0; x += 20.0)
        drawn.curve(falling, x, std::min(x + 12.0, 640.0), pen);
    const double slope = 0.001 * (420.0 - 40.0) - 0.14;
    drawn.curve([&](double x) { return falling(420.0) + slope * (x - 420.0); }, 200, 660, pen);
    const InkPath path = follow(drawn.page(), {126.0, falling(126.0)});
    for (const PathPoint& p : path.points)
        EXPECT_NEAR(p.at.y, falling(p.at.x), 6.0) << "at " << p.at.x;
    // It goes on beyond the crossing, or says that it was lost there.
    EXPECT_TRUE(path.points.back().at.x > 620.0 || path.endsAt == PathEnd::lost);
}

TEST(InkPath, EndsAtTheFrame) {
    const Page page = DrawnPage(kWidth, kHeight)
                          .curve(falling, 60, 600)
                          .straight({60.0, 20.0}, {60.0, 480.0}, {2.0, 0.5, 0.9})
                          .straight({600.0, 20.0}, {600.0, 480.0}, {2.0, 0.5, 0.9})
                          .page();
    expectWhole(follow(page, {350.0, falling(350.0)}), 60, 600, 0.1);
}

TEST(InkPath, EndsAtANeighbourWhereItRunsIntoOne) {
    const auto neighbour = [](double x) { return 300.0 - 0.2 * (x - 500.0); };
    const auto mine = [](double x) { return 180.0 + 0.3 * (x - 100.0); }; // meets it at x = 500
    const Page page = DrawnPage(kWidth, kHeight).curve(mine, 100, 500).curve(neighbour, 300, 660).page();
    const InkPath path = follow(page, {200.0, mine(200.0)});
    ASSERT_FALSE(path.points.empty());
    EXPECT_NEAR(path.points.back().at.x, 500.0, 10.0);
    EXPECT_LT(rmsOff(path, mine), 0.4);
}

TEST(InkPath, IsTheSameOnAPageTurnedByAQuarter) {
    const auto draw = [](bool turned) {
        DrawnPage drawn(kHeight, kHeight);
        PixelPoint last{60.0, falling(60.0)};
        for (int x = 80; x <= 440; x += 20) {
            const PixelPoint next{static_cast<double>(x), falling(x)};
            // (x, y) to (H - 1 - y, x)
            if (turned)
                drawn.straight({kHeight - 1.0 - last.y_px, last.x_px},
                               {kHeight - 1.0 - next.y_px, next.x_px});
            else
                drawn.straight(last, next);
            last = next;
        }
        return drawn.page();
    };
    const InkPath level = follow(draw(false), {250.0, falling(250.0)});
    const InkPath upright = follow(draw(true), {kHeight - 1.0 - falling(250.0), 250.0});
    EXPECT_NEAR(level.length_px(), upright.length_px(), 5.0);
    double sum = 0.0;
    for (const PathPoint& p : upright.points)
        sum += std::pow(kHeight - 1.0 - p.at.x - falling(p.at.y), 2);
    // The curve is drawn as chords of 20 px: up to 0.0005 20^2 / 4 = 0.05 px above it.
    EXPECT_LT(std::sqrt(sum / static_cast<double>(upright.points.size())), 0.15);
    EXPECT_LT(rmsOff(level, falling), 0.15);
}

} // namespace
} // namespace headmark
