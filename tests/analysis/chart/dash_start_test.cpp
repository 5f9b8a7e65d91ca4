// Dashes and dots are found under a click, and to both sides of one between them.

#include "analysis/chart/dash_start.h"

#include "drawn_chart.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace headmark {
namespace {

using testing::DrawnPage;
using testing::Pen;

constexpr int kSize = 400;

double sloping(double x) { return 150.0 + 0.35 * (x - 50.0); }

DrawnPage dashes(double dash, double gap, Pen pen) {
    DrawnPage drawn(kSize, kSize);
    for (double x = 40.0; x < 360.0; x += dash + gap)
        drawn.curve(sloping, x, x + dash, pen);
    return drawn;
}

std::optional<DashStart> under(const DrawnPage& drawn, PagePoint click, double noise = 2.0) {
    const Page page = drawn.page(false, noise);
    return dashesUnder(InkField(page, {0, 0, kSize, kSize}), click, 4.0, std::nullopt, {});
}

void expectAlong(const std::optional<DashStart>& start, double width_px) {
    ASSERT_TRUE(start);
    EXPECT_NEAR(start->look.width_px, width_px, 0.8);
    for (const PathPoint& p : start->seen)
        EXPECT_NEAR(p.at.y, sloping(p.at.x), 1.0) << p.at.x;
    const PagePoint across = start->seen.back().at - start->seen.front().at;
    EXPECT_NEAR(across.y / across.x, 0.35, 0.03);
}

TEST(DashStart, DotsAndDashesUnderTheClick) {
    for (const double dash : {4.0, 8.0, 14.0})
        expectAlong(under(dashes(dash, 9.0, {3.0, 0.6, 0.9}), {200.0, sloping(200.0) + 1.0}), 3.3);
}

TEST(DashStart, AClickBetweenTwoDashes) {
    const double gap = 40.0 + 8 * (12.0 + 14.0) + 12.0 + 7.0;
    expectAlong(under(dashes(12.0, 14.0, {3.0, 0.6, 0.9}), {gap, sloping(gap)}), 3.3);
}

TEST(DashStart, FaintOnesOnQuietPaperAndNoneOnNoisy) {
    const DrawnPage faint = dashes(10.0, 8.0, {3.0, 0.6, 0.14});
    expectAlong(under(faint, {200.0, sloping(200.0)}, 1.0), 3.3);
    EXPECT_FALSE(under(dashes(10.0, 8.0, {3.0, 0.6, 0.02}), {200.0, sloping(200.0)}, 12.0));
}

TEST(DashStart, BarePaperHasNone) { EXPECT_FALSE(under(DrawnPage(kSize, kSize), {200.0, 200.0})); }

// The rulings go by under the click, as dark as the dots.
TEST(DashStart, DotsAmongRulingsOfTheSameInk) {
    using namespace testing;
    DrawnPage drawn = chartPaper();
    const auto line = [](double x) { return 318.0 + 0.22 * (x - 300.0); };
    for (double x = 130.0; x < 800.0; x += 11.0)
        drawn.curve(line, x, x + 4.0, {3.0, 0.6, 0.9});
    const Page page = drawn.page(false, 2.0);
    const InkField field(page, {0, 0, page.width, page.height});
    const Rulings rulings = Rulings::find(field, {PagePoint{xOf(0), yOf(0)}, PagePoint{xOf(16), yOf(0)},
                                                  PagePoint{xOf(0), yOf(50)}, PagePoint{xOf(16), yOf(50)}});
    ASSERT_FALSE(rulings.empty());
    for (const double x : {218.0, 305.0, 407.0}) {
        const auto start = dashesUnder(field, {x, line(x)}, 4.0, std::nullopt, rulings);
        ASSERT_TRUE(start) << x;
        for (const PathPoint& p : start->seen)
            EXPECT_NEAR(p.at.y, line(p.at.x), 1.0) << x;
        const InkPath path = followDashes(field, start->look, start->seen, rulings);
        EXPECT_LT(path.points.front().at.x, 145.0) << x;
        EXPECT_GT(path.points.back().at.x, 785.0) << x;
        for (const PathPoint& p : path.points)
            EXPECT_NEAR(p.at.y, line(p.at.x), 1.5) << x;
    }
}

} // namespace
} // namespace headmark
