// Pages and clicks that hold no line: an answer by its code, or a doubtful one, never a crash or a sure line.

#include "drawn_chart.h"

#include <gtest/gtest.h>

#include <random>
#include <set>

using namespace headmark;
using namespace headmark::testing;

namespace {

Page filledPage(int width, int height, const std::function<int(int, int)>& grey) {
    Page page;
    page.width = width;
    page.height = height;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            page.grey.push_back(static_cast<std::uint8_t>(std::clamp(grey(x, y), 0, 255)));
    return page;
}

// Clicks all over: none is answered by a line that is called sure.
void expectNoSureLine(const Page& page) {
    for (const double flow : {5.3, 11.7}) {
        for (const double head : {17.0, 33.3}) {
            const auto read = readDrawn(followingFrom({{xOf(flow), yOf(head)}}), page);
            if (read) {
                EXPECT_EQ(read->lines[0].trust, Trust::doubtful) << flow << " " << head;
            } else {
                EXPECT_FALSE(read.error().code.empty());
            }
        }
    }
}

} // namespace

TEST(HostilePages, WhiteAndBlackHoldNoLine) {
    expectNoSureLine(filledPage(1000, 700, [](int, int) { return 255; }));
    expectNoSureLine(filledPage(1000, 700, [](int, int) { return 0; }));
}

TEST(HostilePages, NoiseHoldsNoLine) {
    std::mt19937 random(3);
    std::uniform_int_distribution<int> any(0, 255);
    expectNoSureLine(filledPage(1000, 700, [&](int, int) { return any(random); }));
}

TEST(HostilePages, SmoothShadesHoldNoLine) {
    expectNoSureLine(filledPage(1000, 700, [](int x, int y) {
        return static_cast<int>(130 + 70 * std::sin(0.013 * x + 0.004 * y) +
                                50 * std::cos(0.009 * y - 0.006 * x));
    }));
}

TEST(HostilePages, AClickOffATinyPageIsRefused) {
    const auto read = readDrawn(followingFrom({{0.0, 0.0}}), filledPage(1, 1, [](int, int) { return 0; }));
    ASSERT_FALSE(read);
    EXPECT_TRUE(std::set<std::string>({"click-on-paper", "line-too-short"}).count(read.error().code))
        << read.error().code;
}

TEST(HostilePages, AClickOnALetterIsNoSureLine) {
    // A word of upright and level strokes, 12 px high.
    DrawnPage drawn = chartPaper();
    for (int k = 0; k < 5; ++k) {
        const double x = xOf(6) + 14.0 * k, y = yOf(28);
        drawn.straight({x, y}, {x, y + 12.0}, {2.0, 0.6, 0.9});
        drawn.straight({x, y + 6.0}, {x + 8.0, y + 6.0}, {2.0, 0.6, 0.9});
    }
    const auto read = readDrawn(followingFrom({{xOf(6) + 28.0, yOf(28) + 4.0}}), drawn.page());
    if (read) {
        EXPECT_EQ(read->lines[0].trust, Trust::doubtful);
    }
}

TEST(HostilePages, AClickOnAGridLineIsSaidToBeOne) {
    const auto read = readDrawn(followingFrom({{xOf(5.0), yOf(20.0)}}), chartPaper().page());
    if (read) {
        EXPECT_EQ(read->lines[0].trust, Trust::doubtful);
    } else {
        EXPECT_EQ(read.error().code, "click-on-ruling");
    }
}

TEST(HostilePages, AClickOnTheSampleStrokeOfALegendIsTooShortForALine) {
    DrawnPage drawn = chartPaper();
    drawn.straight({xOf(11.3), yOf(46.0)}, {xOf(11.3) + 30.0, yOf(46.0)}, {2.0, 0.6, 0.9});
    const auto read = readDrawn(followingFrom({{xOf(11.3) + 15.0, yOf(46.0)}}), drawn.page());
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().code, "line-too-short");
}

// Dashes of 12 px with gaps of 14 px.
TEST(HostilePages, AClickInTheGapOfADashedLineFollowsItsDashes) {
    DrawnPage drawn = chartPaper();
    constexpr double kFrom = 110.0, kTo = 800.0, kDash = 12.0, kGap = 14.0;
    for (double x = kFrom; x < kTo; x += kDash + kGap)
        drawn.straight({x, lineY(x)}, {x + kDash, lineY(x + kDash)}, {2.0, 0.6, 0.9});
    const double gap = kFrom + 10 * (kDash + kGap) + kDash + 0.5 * kGap;
    const auto read = readDrawn(followingFrom({{gap, lineY(gap)}}), drawn.page());
    ASSERT_TRUE(read) << read.error().code;
    EXPECT_LT(greatestOff(read->lines[0], 1.0, 13.0), 0.1); // a pixel
}

TEST(HostilePages, AClickBetweenUnlikeMarksIsOnPaper) {
    DrawnPage drawn = chartPaper();
    drawn.straight({xOf(5.0) - 30.0, yOf(25.0)}, {xOf(5.0) - 15.0, yOf(25.0)}, {2.0, 0.6, 0.9});
    const auto read = readDrawn(followingFrom({{xOf(5.0) + 6.0, yOf(25.0)}}), drawn.page());
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().code, "click-on-paper");
}

TEST(HostilePages, PagesOfAnyShapeAreAnswered) {
    for (const auto& [width, height] : {std::pair(2, 3), {7, 900}, {4000, 3}, {1, 700}, {20, 20}}) {
        const Page page = filledPage(width, height, [](int x, int y) { return (x * 7 + y * 13) % 256; });
        const auto read = readDrawn(followingFrom({{0.5 * width, 0.5 * height}}), page);
        // Three rows of pixels may pass for a line: it is enough that it has figures.
        if (read) {
            for (const LineSample& sample : read->lines[0].samples)
                EXPECT_TRUE(std::isfinite(sample.value) && std::isfinite(sample.sigma));
        } else {
            EXPECT_FALSE(read.error().code.empty()) << width << " x " << height;
        }
    }
}

TEST(HostilePages, PinsAtOnePlaceOrInOneRowAreRefused) {
    Reading heap = followingFrom({onLine(5.0)}), row = heap;
    for (std::size_t k = 0; k < heap.pins.size(); ++k) {
        heap.pins[k].at = {300.0, 300.0};
        row.pins[k].at = {100.0 + 200.0 * static_cast<double>(k), 300.0};
    }
    for (const Reading& reading : {heap, row}) {
        const auto read = readDrawn(reading, chartPaper().page());
        ASSERT_FALSE(read);
        EXPECT_TRUE(std::set<std::string>({"pins-in-a-row", "pins-too-close"}).count(read.error().code))
            << read.error().code;
    }
}
