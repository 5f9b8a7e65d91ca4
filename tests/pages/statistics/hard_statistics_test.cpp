// Bars of reading hard pages: every hard style in every class, drawn by other programs, each line read once.
// Faxes break strokes and photographs bend them; a line that is called sure is never off by more than 1 %.

#include "tests/pages/hard_pages.h"
#include "tests/pages/statistics/hard_statistics.h"

#include <gtest/gtest.h>

#include <iostream>

namespace headmark::pages {
namespace {

TEST(HardStatistics, HardPagesAreReadInEveryClass) {
    std::vector<HardDraw> draws;
    for (const std::string& name : hardPageNames(1)) {
        const std::vector<HardDraw> page = redrawHardPage(name, 1);
        draws.insert(draws.end(), page.begin(), page.end());
    }
    printFailures(draws, std::cout);
    printHardTable(draws, std::cout);
    const HardSummary all = summaryOf(draws, "");
    ASSERT_GE(all.draws, 100u);
    EXPECT_EQ(all.sureButWrong, 0u);
    EXPECT_LE(all.share(all.doubtfulButRight), 0.05);
    EXPECT_GE(all.share(all.close), 0.95);
    EXPECT_GE(all.share(all.fine), 0.88);
    EXPECT_LE(all.medianRatio, 1.3);
    EXPECT_LE(all.highRatio, 3.0);
    // Honest errors over all classes: one draw of each line, so with more room than 20 draws need.
    printHonesty(draws, std::cout);
    const Honesty honesty = honestyOf(draws, "");
    EXPECT_GE(honesty.samplesWithin, 0.90);
    EXPECT_LE(honesty.samplesWithin, 0.985);
    EXPECT_GE(honesty.placesHeld, 0.90);
    EXPECT_LE(honesty.placesHeld, 0.99);
    EXPECT_LE(honesty.ofLines, 1.6);
    for (const char* pageClass : {"clean", "scan", "fax", "photo", "pdf"}) {
        const HardSummary s = summaryOf(draws, pageClass);
        EXPECT_GE(s.share(s.close), 0.90) << pageClass;
        EXPECT_LE(s.medianRatio, 1.5) << pageClass;
    }
}

} // namespace
} // namespace headmark::pages
