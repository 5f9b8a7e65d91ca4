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
