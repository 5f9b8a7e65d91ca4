#include "analysis/chart/stroke.h"

#include "drawn_page.h"

#include <gtest/gtest.h>

#include <numbers>

namespace headmark {
namespace {

using testing::DrawnPage;
using testing::Pen;

// A stroke through (100, 100) with a fraction, at some angle to the page's x (y down).
constexpr PixelPoint kMiddle{100.3, 99.8};
Page strokeAt(double degrees, Pen pen, double noise_grey = 0.0) {
    const double a = degrees * std::numbers::pi / 180.0, dx = 80.0 * std::cos(a), dy = 80.0 * std::sin(a);
    return DrawnPage(200, 200)
        .straight({kMiddle.x_px - dx, kMiddle.y_px - dy}, {kMiddle.x_px + dx, kMiddle.y_px + dy}, pen)
        .page(false, noise_grey);
}

struct Direction : ::testing::TestWithParam<double> {};

TEST_P(Direction, TheStrokeUnderAClickIsFoundWithItsCentreAndWidth) {
    const double a = GetParam() * std::numbers::pi / 180.0;
    const PagePoint along{std::cos(a), std::sin(a)}, normal{-along.y, along.x};
    const Page page = strokeAt(GetParam(), {3.0, 0.6, 0.8}, 4.0);
    const InkField field(page, {0, 0, 200, 200});
    const PagePoint middle{kMiddle.x_px, kMiddle.y_px};
    const auto start = strokeUnder(field, middle + 2.0 * normal, 4.0, std::nullopt);
    ASSERT_TRUE(start);
    EXPECT_NEAR(dot(start->at - middle, normal), 0.0, 0.35);       // the strip's turn is 3 degrees coarse
    EXPECT_GT(std::abs(dot(start->along, along)), std::cos(0.06)); // 3.4 degrees
    EXPECT_GE(start->along.x, -1e-12);
    // Full width at half maximum of a blurred box of 3 px is 3 px while sigma is well below half of it.
    EXPECT_NEAR(start->look.width_px, 3.0, 0.4);
    EXPECT_NEAR(start->look.darkness, 0.8, 0.08);
    EXPECT_FALSE(start->atCrossing);
}
INSTANTIATE_TEST_SUITE_P(All, Direction,
                         ::testing::Values(-80.0, -60.0, -45.0, -30.0, -10.0, 0.0, 10.0, 30.0, 45.0, 60.0,
                                           80.0));

TEST(Stroke, ProfileGivesTheCentreToAFewHundredthsOfAPixel) {
    for (const double width : {1.5, 3.0, 6.0}) {
        for (const double blur : {0.5, 1.2}) {
            for (const double fraction : {0.0, 0.2, 0.5, 0.7}) {
                const double y = 50.0 + fraction;
                const Page page = DrawnPage(100, 100).straight({0, y}, {99, y}, {width, blur, 0.8}).page();
                const InkField field(page, {0, 0, 100, 100});
                const auto seen = strokesIn(profileAcross(field, {50.0, 51.0}, {1.0, 0.0}, 10.0, 1.0), 0.1);
                ASSERT_EQ(seen.size(), 1u) << width << " " << blur << " " << fraction;
                EXPECT_NEAR(seen[0].offset_px, y - 51.0, 0.06) << width << " " << blur << " " << fraction;
            }
        }
    }
}

TEST(Stroke, TwoStrokesSideBySideAreTwo) {
    const Page page = DrawnPage(100, 100).straight({0, 45}, {99, 45}).straight({0, 53}, {99, 53}).page();
    const InkField field(page, {0, 0, 100, 100});
    const auto seen = strokesIn(profileAcross(field, {50.0, 49.0}, {1.0, 0.0}, 10.0, 1.0), 0.1);
    ASSERT_EQ(seen.size(), 2u);
    EXPECT_NEAR(seen[0].offset_px, -4.0, 0.15);
    EXPECT_NEAR(seen[1].offset_px, 4.0, 0.15);
}

TEST(Stroke, BarePaperHasNone) {
    const Page page = DrawnPage(100, 100).page(false, 6.0);
    const InkField field(page, {0, 0, 100, 100});
    EXPECT_FALSE(strokeUnder(field, {50.0, 50.0}, 4.0, std::nullopt));
}

TEST(Stroke, AFaintOneIsFoundOnQuietPaper) {
    const Page page = DrawnPage(200, 100).straight({0, 50}, {199, 50}, {3.0, 0.6, 0.08}).page(false, 1.0);
    const InkField field(page, {0, 0, 200, 100});
    EXPECT_LT(leastInkAbout(field, {100.0, 51.0}), 0.05);
    const auto start = strokeUnder(field, {100.0, 51.0}, 4.0, std::nullopt);
    ASSERT_TRUE(start);
    EXPECT_NEAR(start->at.y, 50.0, 0.5);
    const Page noisy = DrawnPage(200, 100).page(false, 20.0);
    EXPECT_GT(leastInkAbout(InkField(noisy, {0, 0, 200, 100}), {100.0, 51.0}), 0.06);
}

TEST(Stroke, OnlyTheWantedColourIsFound) {
    const Page page = DrawnPage(200, 100)
                          .straight({0, 50}, {199, 50}, {3.0, 0.6, 1.0, {200, 0, 0}})
                          .straight({0, 54}, {199, 54}, {3.0, 0.6, 1.0, {0, 0, 200}})
                          .page(true);
    const InkField field(page, {0, 0, 200, 100});
    const auto red = strokeUnder(field, {100.0, 52.0}, 5.0, densityOf({200, 0, 0}));
    const auto blue = strokeUnder(field, {100.0, 52.0}, 5.0, densityOf({0, 0, 200}));
    ASSERT_TRUE(red && blue);
    EXPECT_NEAR(red->at.y, 50.0, 0.5);
    EXPECT_NEAR(blue->at.y, 54.0, 0.5);
}

TEST(Stroke, ACrossingOfTwoAlikeIsSaidAndACrossingWithARulingIsNot) {
    const DrawnPage crossing =
        DrawnPage(200, 200).straight({20, 60}, {180, 140}).straight({20, 140}, {180, 60});
    const Page two = crossing.page();
    const auto doubtful = strokeUnder(InkField(two, {0, 0, 200, 200}), {100.0, 100.0}, 4.0, std::nullopt);
    ASSERT_TRUE(doubtful);
    EXPECT_TRUE(doubtful->atCrossing);
    const Page ruled = DrawnPage(200, 200)
                           .straight({20, 60}, {180, 140})
                           .straight({100, 0}, {100, 199}, {1.5, 0.6, 0.3})
                           .page();
    const auto sure = strokeUnder(InkField(ruled, {0, 0, 200, 200}), {100.0, 100.0}, 4.0, std::nullopt);
    ASSERT_TRUE(sure);
    EXPECT_FALSE(sure->atCrossing);
}

} // namespace
} // namespace headmark
