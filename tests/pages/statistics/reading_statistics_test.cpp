// Bars of chart reading over all made pages, 20 redraws of every line. The whole table is in the test's log.
// The bars are the project's own; 95 % intervals must hold the truth in 90 to 99 %: enough room for a few
// thousand dependent draws, not for sigmas that are wrong by a quarter (a normal interval of 1.96 sigma
// holds 88 % if sigma is a fifth too small, 99.4 % if it is 1.4 times too great).

#include "tests/pages/statistics/reading_statistics.h"

#include <gtest/gtest.h>

#include <iostream>

namespace headmark::pages {
namespace {

constexpr int kDraws = 20;

TEST(ReadingStatistics, MadePagesAreReadWithinTheirIntervals) {
    const std::vector<LineStatistics> lines = redrawPages(madePageNames(), kDraws);
    printTable(lines, std::cout);
    const Summary s = summaryOf(lines);
    ASSERT_GE(lines.size(), 60u);
    EXPECT_EQ(s.found.yes, s.found.all);
    EXPECT_EQ(s.wholly.yes, s.found.all);
    EXPECT_LE(s.medianRatio, 1.5);
    EXPECT_EQ(s.sureButWrong, 0u);
    EXPECT_GE(s.held.share(), 0.90);
    EXPECT_LE(s.held.share(), 0.99);
    // By lines too wide on clean pages, where errors are some hundredths of a pixel: what a plotter's whole
    // dots or a print may have shifted no page tells, and these pages' grids stand where their figures are.
    EXPECT_LE(s.sigmaToError, 2.7);
    EXPECT_LE(s.pooledSigmaToError, 1.3);
    EXPECT_EQ(s.dutyLost, 0u);
    // Where rulings decide, the draws of a page share their error: some fifty head lines that are all held
    // prove nothing against 95 % (0.95^50 = 8 %), so there is no upper bar.
    EXPECT_GE(s.dutyFlowHeld.share(), 0.90);
    EXPECT_GE(s.dutyHeadHeld.share(), 0.90);
}

} // namespace
} // namespace headmark::pages
