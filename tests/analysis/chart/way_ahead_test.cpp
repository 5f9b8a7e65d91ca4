// A line that is out of sight is taken up again along the way most of it lies on, or not at all.

#include "analysis/chart/way_ahead.h"

#include "drawn_page.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using testing::DrawnPage;
using testing::Pen;

constexpr int kWidth = 700, kHeight = 500;
constexpr double kFrom = 200.0, kTo = 300.0; // what is known of the line before it is lost

double bending(double x) { return 150.0 + 0.0006 * (x - 60.0) * (x - 60.0); }

std::vector<PathPoint> knownOf(double width_px) {
    std::vector<PathPoint> known;
    for (double x = kFrom; x <= kTo; x += 1.0) {
        const double slope = 0.0012 * (x - 60.0), run = std::hypot(1.0, slope);
        const double arc = known.empty() ? 0.0 : known.back().arc_px + run;
        known.push_back({{x, bending(x)}, {1.0 / run, slope / run}, arc, width_px});
    }
    return known;
}

WaySought seek(const DrawnPage& drawn, bool dashed = false) {
    const Page page = drawn.page(false, 2.0);
    const InkField field(page, {0, 0, kWidth, kHeight});
    const auto known = knownOf(3.0);
    WayAsked asked{{3.0, 0.9, {}, false, {}, {}}, LocalParabola(known, known.back().at, known.back().along)};
    asked.known_px = known.back().arc_px;
    asked.reach_px = 220.0;
    asked.longestPaper_px = 21.0;
    asked.confirm_px = 9.0;
    asked.dashed = dashed;
    return findWayAhead(field, {}, asked);
}

void expectOnLine(const WaySought& sought, double from, double to) {
    ASSERT_TRUE(sought.way);
    EXPECT_NEAR(sought.way->seen.front().at.x, from, 6.0);
    EXPECT_GT(sought.way->seen.back().at.x, to);
    for (const PathPoint& p : sought.way->seen)
        EXPECT_NEAR(p.at.y, bending(p.at.x), 1.0) << p.at.x;
}

TEST(WayAhead, GoesOnBeyondAWordInAWhiteBox) {
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve(bending, kFrom, 600);
    drawn.wipe(305, 0, 370, kHeight);
    for (double x = 312.0; x < 365.0; x += 8.0)
        drawn.straight({x, bending(x) - 9.0}, {x, bending(x) + 9.0}, {2.0, 0.6, 0.9});
    const WaySought sought = seek(drawn);
    expectOnLine(sought, 370.0, 400.0);
    EXPECT_NEAR(sought.way->gap_px, std::hypot(70.0, bending(370.0) - bending(300.0)), 8.0);
    EXPECT_LT(sought.way->misfit, 1.0);
}

// No scrap would be long enough by itself: half of the gap before it is asked for.
TEST(WayAhead, ScrapsBetweenCrossingLinesCountTogether) {
    DrawnPage drawn(kWidth, kHeight);
    for (double x = 312.0; x < 400.0; x += 18.0)
        drawn.curve(bending, x, x + 9.0);
    for (double x = 308.0; x < 400.0; x += 18.0)
        drawn.straight({x - 12.0, bending(x) + 60.0}, {x + 12.0, bending(x) - 60.0}, {4.0, 0.6, 0.9});
    expectOnLine(seek(drawn), 312.0, 340.0);
}

TEST(WayAhead, BarePaperIsNoLine) {
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve(bending, 400, 600);
    const WaySought sought = seek(drawn);
    EXPECT_FALSE(sought.way);
    EXPECT_FALSE(sought.inkGoesOn);
}

TEST(WayAhead, WhereTwoWaysPartAlikeNoneIsBelieved) {
    const double slope = 0.0012 * 240.0;
    const auto aside = [&](double turn) {
        return [turn, slope](double x) {
            return bending(300.0) + slope * (x - 300.0) + turn * (x - 330.0) * std::abs(x - 330.0);
        };
    };
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve(aside(0.0016), 330, 520).curve(aside(-0.0004), 330, 520);
    EXPECT_FALSE(seek(drawn).way);
    DrawnPage one(kWidth, kHeight);
    one.curve(aside(0.0006), 330, 520);
    EXPECT_FALSE(seek(one).way); // bare paper before it
}

TEST(WayAhead, AThinnerLineAlongTheWayIsNotTaken) {
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve(bending, 308, 600, {1.2, 0.6, 0.9});
    EXPECT_FALSE(seek(drawn).way);
}

TEST(WayAhead, OtherInkThatGoesOnIsSaid) {
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve(bending, 300, 600, {14.0, 0.6, 0.9});
    const WaySought sought = seek(drawn);
    EXPECT_FALSE(sought.way);
    EXPECT_TRUE(sought.inkGoesOn);
}

TEST(WayAhead, DashesAreTakenUpWithTheGapsBetweenThem) {
    DrawnPage drawn(kWidth, kHeight);
    for (double x = 314.0; x < 500.0; x += 26.0)
        drawn.curve(bending, x, x + 12.0);
    expectOnLine(seek(drawn, true), 314.0, 440.0);
}

} // namespace
} // namespace headmark
