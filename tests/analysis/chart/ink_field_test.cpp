#include "analysis/chart/ink_field.h"

#include "drawn_page.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

using testing::DrawnPage;
using testing::Pen;

cv::Rect whole(const Page& page) { return {0, 0, page.width, page.height}; }

TEST(InkField, BarePaperHasNoInkAndAStrokeHasItsDarkness) {
    const Page page = DrawnPage(200, 100).straight({10, 50}, {190, 50}, {7.0, 0.5, 0.8}).page();
    const InkField field(page, whole(page));
    EXPECT_NEAR(field.at(100.0, 20.0), 0.0, 0.01);
    EXPECT_NEAR(field.at(100.0, 50.0), 0.8, 0.02);
}

TEST(InkField, UnevenLightDividesOut) {
    const Page page =
        DrawnPage(600, 100).straight({10, 50}, {590, 50}, {7.0, 0.5, 0.6}).unevenLight(0.4).page();
    const InkField field(page, whole(page));
    for (const double x : {60.0, 300.0, 540.0}) {
        EXPECT_NEAR(field.at(x, 20.0), 0.0, 0.03) << x;
        EXPECT_NEAR(field.at(x, 50.0), 0.6, 0.03) << x;
    }
}

TEST(InkField, IsBilinearBetweenPixels) {
    Page page;
    page.width = page.height = 100;
    page.grey.assign(10000, 200);
    page.grey[50 * 100 + 50] = 100; // half of the light
    const InkField field(page, whole(page));
    EXPECT_NEAR(field.at(50.0, 50.0), 0.5, 0.01);
    EXPECT_NEAR(field.at(50.5, 50.0), 0.25, 0.01);
    EXPECT_NEAR(field.at(50.5, 50.5), 0.125, 0.01);
}

TEST(InkField, OutsideItsRegionThereIsNoInk) {
    Page page;
    page.width = page.height = 50;
    page.grey.assign(2500, 0);
    const InkField field(page, cv::Rect(10, 10, 20, 20));
    EXPECT_FALSE(field.contains(5.0, 15.0));
    EXPECT_EQ(field.at(5.0, 15.0), 0.0);
    EXPECT_EQ(field.at(-1e9, 1e9), 0.0);
}

TEST(InkField, AYellowLineIsInk) {
    // Yellow takes away the blue light only.
    const Page page =
        DrawnPage(200, 100).straight({10, 50}, {190, 50}, {7.0, 0.5, 1.0, {255, 255, 0}}).page(true);
    const InkField field(page, whole(page));
    EXPECT_GT(field.at(100.0, 50.0), 0.9);
    const InkDensity d = field.densityAt(100.0, 50.0);
    EXPECT_LT(d[0], 0.05);
    EXPECT_LT(d[1], 0.05);
    EXPECT_GT(d[2], 0.9);
    EXPECT_TRUE(isColoured(d));
}

TEST(InkField, LikenessTellsColoursApartAndNotThickness) {
    const InkDensity red = densityOf({255, 0, 0}), blue = densityOf({0, 0, 255});
    EXPECT_NEAR(likeness(red, red), 1.0, 1e-12);
    EXPECT_NEAR(likeness({0.0, 0.4, 0.4}, red), 1.0, 1e-12); // the same ink, thinner
    EXPECT_LT(likeness(blue, red), 0.05);
    EXPECT_FALSE(isColoured(densityOf({80, 80, 80})));
}

} // namespace
} // namespace headmark
