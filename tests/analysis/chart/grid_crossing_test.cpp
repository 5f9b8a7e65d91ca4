// Snapping to a crossing of two rulings: places known because the test draws them.
#include "analysis/chart/grid_crossing.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace headmark {
namespace {

// White paper with straight strokes whose darkness falls off linearly at their edges.
class Paper {
  public:
    Paper(int width, int height) {
        page_.width = width;
        page_.height = height;
        page_.grey.assign(static_cast<std::size_t>(width) * static_cast<std::size_t>(height), 255);
    }

    // From one end to the other, `width_px` wide.
    void stroke(double x0, double y0, double x1, double y1, double width_px = 1.6, double darkness = 0.8) {
        const double length = std::hypot(x1 - x0, y1 - y0);
        const double ux = (x1 - x0) / length, uy = (y1 - y0) / length;
        for (int y = 0; y < page_.height; ++y) {
            for (int x = 0; x < page_.width; ++x) {
                const double along = (x - x0) * ux + (y - y0) * uy;
                const double across = std::abs(-(x - x0) * uy + (y - y0) * ux);
                if (along < 0.0 || along > length) continue;
                const double cover = std::clamp(0.5 * width_px + 0.5 - across, 0.0, 1.0);
                auto& grey = page_.grey[static_cast<std::size_t>(y * page_.width + x)];
                grey =
                    std::min(grey, static_cast<std::uint8_t>(std::lround(255.0 * (1.0 - darkness * cover))));
            }
        }
    }

    Page page_;
};

// A ruling drawn with soft edges is found to a fifth of a pixel.
constexpr double kWithin_px = 0.2;

TEST(GridCrossing, LiesWhereTwoRulingsMeetBetweenPixels) {
    Paper paper(200, 160);
    paper.stroke(0, 70.37, 199, 70.37);
    paper.stroke(101.72, 0, 101.72, 159);
    const auto found = gridCrossingNear(paper.page_, {97.0, 74.0}, 12.0);
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->x_px, 101.72, kWithin_px);
    EXPECT_NEAR(found->y_px, 70.37, kWithin_px);
}

TEST(GridCrossing, FollowsATurnedGrid) {
    // Turned by 2 degrees (tan 0.034921) about (100, 80).
    Paper paper(200, 160);
    const double t = 0.034921;
    paper.stroke(0, 80.0 - 100.0 * t, 199, 80.0 + 99.0 * t);
    paper.stroke(100.0 + 80.0 * t, 0, 100.0 - 79.0 * t, 159);
    const auto found = gridCrossingNear(paper.page_, {105.0, 76.0}, 12.0);
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->x_px, 100.0, kWithin_px);
    EXPECT_NEAR(found->y_px, 80.0, kWithin_px);
}

TEST(GridCrossing, FindsTheCornerWhereBothAxesEnd) {
    Paper paper(200, 160);
    paper.stroke(60.3, 110.6, 199, 110.6, 2.4);
    paper.stroke(60.3, 0, 60.3, 110.6, 2.4);
    const auto found = gridCrossingNear(paper.page_, {64.0, 107.0}, 12.0);
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->x_px, 60.3, kWithin_px);
    EXPECT_NEAR(found->y_px, 110.6, kWithin_px);
}

TEST(GridCrossing, TakesTheNearerOfTwo) {
    Paper paper(200, 160);
    paper.stroke(0, 80.0, 199, 80.0);
    paper.stroke(92.0, 0, 92.0, 159);
    paper.stroke(112.0, 0, 112.0, 159);
    const auto found = gridCrossingNear(paper.page_, {107.0, 82.0}, 18.0);
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->x_px, 112.0, kWithin_px);
}

TEST(GridCrossing, SeesNoneOnBarePaperOnOneRulingOrFarFromBoth) {
    Paper bare(200, 160);
    EXPECT_FALSE(gridCrossingNear(bare.page_, {100.0, 80.0}, 12.0));
    Paper one(200, 160);
    one.stroke(0, 80.0, 199, 80.0);
    EXPECT_FALSE(gridCrossingNear(one.page_, {100.0, 82.0}, 12.0));
    one.stroke(150.0, 0, 150.0, 159);
    EXPECT_FALSE(gridCrossingNear(one.page_, {100.0, 82.0}, 12.0));
}

TEST(GridCrossing, SteepInkAcrossARulingIsNoCrossing) {
    Paper paper(200, 160);
    paper.stroke(0, 80.0, 199, 80.0);
    paper.stroke(40, 20, 160, 140); // 45 degrees: a pump's line
    EXPECT_FALSE(gridCrossingNear(paper.page_, {100.0, 80.0}, 12.0));
}

TEST(GridCrossing, IsGivenInPixelsOfTheReading) {
    // Held at twice the reading's resolution: held = (reading + 0.5) 2 - 0.5.
    Paper paper(200, 160);
    paper.stroke(0, 80.0, 199, 80.0);
    paper.stroke(100.0, 0, 100.0, 159);
    paper.page_.scale = 2.0;
    const auto found = gridCrossingNear(paper.page_, {48.0, 41.0}, 8.0);
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->x_px, 49.75, 0.5 * kWithin_px);
    EXPECT_NEAR(found->y_px, 39.75, 0.5 * kWithin_px);
}

TEST(GridCrossing, APlaceOffThePageHasNone) {
    Paper paper(50, 50);
    EXPECT_FALSE(gridCrossingNear(paper.page_, {500.0, 500.0}, 12.0));
}

} // namespace
} // namespace headmark
