// Bars of reading hard pages: every hard style in every class, drawn by other programs, each line read once.
// Faxes break strokes and photographs bend them; a line that is called sure is never off by more than 1 %.

#include "tests/pages/hard_pages.h"
#include "tests/pages/statistics/hard_statistics.h"

#include <gtest/gtest.h>

#include <iostream>

namespace headmark::pages {
namespace {

// Each line of these pages read once; what is not fine, and the tables.
std::vector<HardDraw> drawnOnce(const std::vector<std::string>& names) {
    std::vector<HardDraw> draws;
    for (const std::string& name : names) {
        const std::vector<HardDraw> page = redrawHardPage(name, 1);
        draws.insert(draws.end(), page.begin(), page.end());
    }
    printFailures(draws, std::cout);
    printHardTable(draws, std::cout);
    return draws;
}

TEST(HardStatistics, HardPagesAreReadInEveryClass) {
    const std::vector<HardDraw> draws = drawnOnce(hardPageNames(1));
    const HardSummary all = summaryOf(draws, "");
    ASSERT_GE(all.draws, 100u);
    EXPECT_EQ(all.sureButWrong, 0u);
    EXPECT_LE(all.share(all.doubtfulButRight), 0.05);
    EXPECT_GE(all.share(all.close), 0.97);
    EXPECT_GE(all.share(all.fine), 0.92);
    EXPECT_LE(all.medianRatio, 1.3);
    EXPECT_LE(all.highRatio, 3.0);
    // Honest errors over all classes: one draw of each line, so with more room than 20 draws need.
    printHonesty(draws, std::cout);
    const Honesty honesty = honestyOf(draws, "");
    EXPECT_GE(honesty.samplesWithin, 0.90);
    EXPECT_LE(honesty.samplesWithin, 0.985);
    EXPECT_GE(honesty.placesHeld, 0.90);
    EXPECT_LE(honesty.placesHeld, 0.99);
    EXPECT_LE(honesty.sigmaToError, 1.3);
    // By lines too wide: these pages' frames and grids stand where their figures are, those of most plotters
    // on whole dots.
    EXPECT_LE(honesty.ofLines, 2.3);
    for (const char* pageClass : {"clean", "scan", "fax", "photo", "pdf"}) {
        const HardSummary s = summaryOf(draws, pageClass);
        EXPECT_GE(s.share(s.close), 0.94) << pageClass;
        EXPECT_LE(s.medianRatio, 1.5) << pageClass;
    }
}

struct StyleBar {
    const char* style;
    double close, fine;
};

// What was reached, less about one line of each style.
TEST(HardStatistics, StrangePagesAreReadAsWellAsTheyWere) {
    const std::vector<HardDraw> draws = drawnOnce(strangePageNames(1));
    const HardSummary all = summaryOf(draws, "");
    ASSERT_GE(all.draws, 180u);
    EXPECT_EQ(all.sureButWrong, 0u);
    EXPECT_LE(all.sureButShort, 2u);
    EXPECT_LE(all.share(all.doubtfulButRight), 0.03);
    EXPECT_GE(all.share(all.close), 0.97);
    EXPECT_GE(all.share(all.fine), 0.96);
    EXPECT_LE(all.medianRatio, 1.0);
    for (const StyleBar& bar :
         {StyleBar{"strokes", 0.90, 0.90}, StyleBar{"dashgrid", 0.95, 0.95}, StyleBar{"dotgrid", 0.95, 0.95},
          StyleBar{"stretch", 0.93, 0.93}, StyleBar{"logarithms", 0.94, 0.94}, StyleBar{"boxed", 0.95, 0.95},
          StyleBar{"leaders", 0.95, 0.95}, StyleBar{"merging", 0.96, 0.93}, StyleBar{"faint", 0.93, 0.93}}) {
        const HardSummary s = summaryOf(ofPageStyle(draws, bar.style), "");
        EXPECT_GE(s.share(s.close), bar.close) << bar.style;
        EXPECT_GE(s.share(s.fine), bar.fine) << bar.style;
    }
}

} // namespace
} // namespace headmark::pages
