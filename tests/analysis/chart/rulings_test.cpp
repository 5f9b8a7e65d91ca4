// Where the grid lies is known from how it is drawn.

#include "analysis/chart/ruling_strokes.h"
#include "analysis/chart/rulings.h"

#include "drawn_chart.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

using namespace headmark;
using namespace headmark::testing;

namespace {

ChartCorners drawnCorners() {
    return {PagePoint{xOf(0), yOf(0)}, PagePoint{xOf(16), yOf(0)}, PagePoint{xOf(0), yOf(50)},
            PagePoint{xOf(16), yOf(50)}};
}

Rulings rulingsOf(const Page& page) {
    const InkField field(page, cv::Rect(0, 0, page.width, page.height));
    return Rulings::find(field, drawnCorners());
}

std::size_t count(const Rulings& rulings, bool upright) {
    return static_cast<std::size_t>(std::count_if(rulings.all().begin(), rulings.all().end(),
                                                  [&](const Ruling& r) { return r.upright == upright; }));
}

} // namespace

TEST(Rulings, GridAndFrameAreFoundToATenthOfAPixelAndLinesAreNot) {
    const Rulings found = rulingsOf(chartPaper().curve(lineY, xOf(0), xOf(14)).page(false, 3.0));
    EXPECT_EQ(count(found, false), 6u); // 0 to 50 m by tens
    EXPECT_EQ(count(found, true), 9u);  // 0 to 16 m3/h by twos
    for (const Ruling& ruling : found.all()) {
        double sum = 0.0;
        for (const PagePoint at : ruling.places)
            sum += ruling.upright ? std::remainder(at.x - 100.0, 100.0) : std::remainder(at.y - 600.0, 100.0);
        EXPECT_LT(std::abs(sum / static_cast<double>(ruling.places.size())), 0.1) << ruling.at;
    }
}

TEST(Rulings, ALevelLineOverHalfTheChartIsNone) {
    const Rulings found =
        rulingsOf(chartPaper().curve([](double) { return yOf(34); }, xOf(0), xOf(9)).page(false, 3.0));
    EXPECT_EQ(count(found, false), 6u);
}

TEST(Rulings, EncloseWhatLiesBetweenThePins) {
    const Rulings found = rulingsOf(chartPaper().page(false, 2.0));
    EXPECT_TRUE(found.enclose({xOf(0), yOf(0)}));
    EXPECT_TRUE(found.enclose({xOf(8), yOf(25)}));
    EXPECT_FALSE(found.enclose({xOf(-1), yOf(25)}));
    EXPECT_FALSE(found.enclose({xOf(8), yOf(-3)}));
    EXPECT_TRUE(Rulings().enclose({xOf(-1), yOf(25)})); // nothing is pinned
}

TEST(Rulings, ThoseBesideAWayAreMetWhereTheyStand) {
    const Rulings found = rulingsOf(chartPaper().page(false, 2.0));
    const auto beside = found.beside({xOf(5), yOf(20) + 4.0}, {1.0, 0.0}, 8.0);
    ASSERT_EQ(beside.size(), 1u); // the upright ones do not run along
    EXPECT_NEAR(beside[0].offset_px, -4.0, 0.15);
    EXPECT_TRUE(isRuling({-4.0, beside[0].width_px, beside[0].darkness, 0.0}, beside));
    EXPECT_FALSE(isRuling({0.0, beside[0].width_px, beside[0].darkness, 0.0}, beside));
    EXPECT_FALSE(isRuling({-4.0, beside[0].width_px, 3.0 * beside[0].darkness, 0.0}, beside));
}

// Line and ruling of 3 px each, drawn over each other with the line's middle 2 px off the ruling's.
TEST(Rulings, ALineHalfHiddenByOneIsToldByItsEdge) {
    const auto level = [](double x) { return yOf(20) + 2.0 + 0.0 * x; };
    const Page page = DrawnPage(900, 700)
                          .straight({0.0, yOf(20)}, {899.0, yOf(20)}, {3.0, 0.5, 1.0})
                          .curve(level, 100, 800, {3.0, 0.5, 1.0})
                          .page();
    const InkField field(page, cv::Rect(0, 0, page.width, page.height));
    const StrokeLook look{3.0, 1.0, {}, false, {}, {}};
    const std::vector<RulingBeside> beside{{-2.0, 3.0, 1.0, 1.0}};
    const Profile profile = profileAcross(field, {450.0, yOf(20) + 2.0}, {1.0, 0.0}, 10.0, 1.0);
    const auto likeLine = [&](bool dashed) {
        const auto seen = strokesBesideRulings(profile, look, beside, dashed);
        return std::count_if(seen.begin(), seen.end(), [](const StrokeSight& s) {
            return std::abs(s.offset_px) < 0.3 && std::abs(s.width_px - 3.0) < 0.5;
        });
    };
    EXPECT_GE(likeLine(false), 1);
    EXPECT_EQ(likeLine(true), 0);
    // The ruling by itself hides nothing.
    const Profile alone = profileAcross(field, {50.0, yOf(20) + 2.0}, {1.0, 0.0}, 10.0, 1.0);
    EXPECT_TRUE(strokesBesideRulings(alone, look, beside, false).empty());
}
