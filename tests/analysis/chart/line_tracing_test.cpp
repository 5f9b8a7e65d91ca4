#include "analysis/chart/line_tracing.h"

#include "drawn_chart.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

using namespace testing;

Result<TracedLine> trace(const ChartLine& line, const Page& page) {
    const InkField field(page, {0, 0, page.width, page.height});
    return traceLine(line, field, page, {}, "lines[0]");
}

ChartLine from(std::vector<PixelPoint> clicks) {
    ChartLine line;
    line.followFrom = std::move(clicks);
    return line;
}

std::string codeOf(const Result<TracedLine>& traced) { return traced ? "read" : traced.error().code; }

const Page& onePage() {
    static const Page page = chartPaper().curve(lineY, xOf(0), xOf(14)).page(false, 3.0);
    return page;
}

TEST(LineTracing, FollowsFromOneClick) {
    const auto traced = trace(from({onLine(7.3)}), onePage());
    ASSERT_TRUE(traced);
    EXPECT_FALSE(traced->doubtful);
    EXPECT_LE(traced->points.size(), 400u);
    EXPECT_NEAR(traced->points.front().at.x, xOf(0), 8.0);
    EXPECT_NEAR(traced->points.back().at.x, xOf(14), 6.0);
    for (const TracedPoint& p : traced->points) {
        EXPECT_NEAR(p.at.y, lineY(p.at.x), 0.5);
        EXPECT_GE(p.sigma_px, 0.05);
        EXPECT_LE(p.sigma_px, 0.3);
    }
}

TEST(LineTracing, RefusesClicksThatMiss) {
    EXPECT_EQ(codeOf(trace(from({{1200.0, 50.0}}), onePage())), "click-off-page");
    EXPECT_EQ(codeOf(trace(from({{-2.0, 50.0}}), onePage())), "click-off-page");
    const auto bare = trace(from({{225.0, 475.0}}), onePage());
    ASSERT_EQ(codeOf(bare), "click-on-paper");
    EXPECT_EQ(bare.error().place, "lines[0].follow_from[0]");
}

TEST(LineTracing, RefusesALetter) {
    const Page page = chartPaper()
                          .straight({220, 470}, {220, 484}, {2.0, 0.6, 0.9})
                          .straight({220, 470}, {229, 484}, {2.0, 0.6, 0.9})
                          .straight({229, 470}, {229, 484}, {2.0, 0.6, 0.9})
                          .page();
    const std::string code = codeOf(trace(from({{220.0, 477.0}}), page));
    EXPECT_TRUE(code == "line-too-short" || code == "click-on-paper") << code;
}

TEST(LineTracing, JoinsPiecesClickedOneByOne) {
    const Page page =
        chartPaper().curve(lineY, xOf(0), xOf(5.3)).curve(lineY, xOf(7.3), xOf(14)).page(false, 3.0);
    const auto traced = trace(from({onLine(10.5), onLine(2.7)}), page);
    ASSERT_TRUE(traced) << traced.error().code;
    EXPECT_NEAR(traced->points.front().at.x, xOf(0), 8.0);
    EXPECT_NEAR(traced->points.back().at.x, xOf(14), 6.0);
    // In order along the line.
    EXPECT_TRUE(std::is_sorted(traced->points.begin(), traced->points.end(),
                               [](const TracedPoint& a, const TracedPoint& b) { return a.at.x < b.at.x; }));
}

// Strokes side by side with as much ink between them as bare paper: which is followed is a line by itself,
// but of a pattern.
TEST(LineTracing, OneOfAPatternIsDoubtfulAndOneLineIsNot) {
    DrawnPage drawn(800, 400);
    const auto stroke = [](double y) { return [y](double x) { return y + 0.05 * x; }; };
    for (double y = 159.0; y < 205.0; y += 4.2) // paper near enough to be known as such
        drawn.curve(stroke(y), 60, 740, {2.0, 0.8, 0.9});
    const auto isAmidInk = [](const Caution& c) { return c.code == "line-amid-ink"; };
    const auto amid = trace(from({{400.0, stroke(159.0 + 5 * 4.2)(400.0)}}), drawn.page());
    ASSERT_TRUE(amid) << amid.error().code;
    EXPECT_TRUE(amid->doubtful);
    EXPECT_EQ(std::count_if(amid->cautions.begin(), amid->cautions.end(), isAmidInk), 1);
    const Page alone = DrawnPage(800, 400).curve(stroke(180.0), 60, 740, {2.0, 0.8, 0.9}).page();
    const auto clear = trace(from({{400.0, stroke(180.0)(400.0)}}), alone);
    ASSERT_TRUE(clear);
    EXPECT_FALSE(clear->doubtful);
    EXPECT_TRUE(clear->cautions.empty());
}

TEST(LineTracing, RefusesASecondClickOnAnotherLine) {
    const Page page = chartPaper()
                          .curve(lineY, xOf(0), xOf(14))
                          .curve([](double x) { return lineY(x) + 90.0; }, xOf(0), xOf(13))
                          .page(false, 3.0);
    const auto traced = trace(from({onLine(7.3), {xOf(5.3), lineY(xOf(5.3)) + 90.0}}), page);
    ASSERT_EQ(codeOf(traced), "click-off-line");
    EXPECT_EQ(traced.error().place, "lines[0].follow_from[1]");
}

TEST(LineTracing, ASecondClickOnTheSameLineAddsNothing) {
    const auto one = trace(from({onLine(7.3)}), onePage());
    const auto two = trace(from({onLine(7.3), onLine(11.1)}), onePage());
    ASSERT_TRUE(one && two);
    EXPECT_EQ(one->points.size(), two->points.size());
}

TEST(LineTracing, AClickOnACrossingOfTwoAlikeIsDoubtful) {
    const Page page = chartPaper()
                          .curve([](double x) { return 300.0 + 0.4 * (x - 525.0); }, xOf(1), xOf(14))
                          .curve([](double x) { return 300.0 - 0.4 * (x - 525.0); }, xOf(1), xOf(14))
                          .page(false, 3.0);
    const auto traced = trace(from({{525.0, 300.0}}), page);
    ASSERT_TRUE(traced) << traced.error().code;
    EXPECT_TRUE(traced->doubtful);
    EXPECT_TRUE(std::any_of(traced->cautions.begin(), traced->cautions.end(),
                            [](const Caution& c) { return c.code == "line-ambiguous"; }));
}

TEST(LineTracing, SpotsAloneAreTheLine) {
    ChartLine line;
    line.spots = {onLine(12.0), onLine(1.0), onLine(6.0)};
    const auto traced = trace(line, onePage());
    ASSERT_TRUE(traced);
    ASSERT_EQ(traced->points.size(), 3u);
    EXPECT_TRUE(traced->points[0].clicked);
    EXPECT_EQ(traced->points[0].sigma_px, 1.0);
    EXPECT_FALSE(traced->look);
}

TEST(LineTracing, ASpotOffTheInkTakesOverFromIt) {
    ChartLine line = from({onLine(7.3)});
    line.spots = {{xOf(10), lineY(xOf(10)) + 12.0}};
    const auto traced = trace(line, onePage());
    ASSERT_TRUE(traced);
    for (const TracedPoint& p : traced->points)
        EXPECT_TRUE(p.clicked || std::abs(p.at.x - xOf(10)) > 50.0) << p.at.x;
    EXPECT_EQ(std::count_if(traced->points.begin(), traced->points.end(),
                            [](const TracedPoint& p) { return p.clicked; }),
              1);
}

TEST(LineTracing, PixelsOfAFinerPageGoThereAndBack) {
    Page page;
    page.scale = 1.5;
    // held = (reading + 0.5) 1.5 - 0.5: the corner of the page, reading -0.5, stays at -0.5.
    EXPECT_DOUBLE_EQ(pagePointOf({-0.5, 9.5}, page).x, -0.5);
    EXPECT_DOUBLE_EQ(pagePointOf({-0.5, 9.5}, page).y, 14.5);
    EXPECT_DOUBLE_EQ(pixelPointOf({-0.5, 14.5}, page).y_px, 9.5);
}

} // namespace
} // namespace headmark
