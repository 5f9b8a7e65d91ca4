#include "app/document/workspace.h"

#include "analysis/job/job_reader.h"
#include "analysis/job/job_writer.h"
#include "analysis/job/prepared_job.h"
#include "app/pages/file_pages.h"
#include "document_fixtures.h"

#include <gtest/gtest.h>

namespace headmark::test {
namespace {

TEST(BlankWorkspace, AsksForASensibleFlowAndHeadAtOnce) {
    FilePages pages;
    ChartBook book(pages);
    const auto prepared = PreparedJob::make(blankWorkspace().job, book);
    ASSERT_TRUE(prepared) << prepared.error().code;
    const auto needs = prepared->needs();
    ASSERT_FALSE(needs.empty());
    EXPECT_NEAR(needs[0].flow.inCubicMetresPerHour(), 4.0, 1e-9);
    // By hand: lift 2 + 3 m, 200 kPa / (999.1 kg/m3 * 9.80665 m/s2) = 20.41 m, 60 m of 43.8 mm bore:
    // v = 0.737 m/s, Re = 28400, f = 0.0241, loss 0.0241 * 60/0.0438 * 0.0277 = 0.92 m; f from a chart to 3
    // %.
    EXPECT_NEAR(needs[0].head.inMetres(), 26.33, 0.06);
}

TEST(BlankWorkspace, CanBeSavedAndOpenedUnfinished) {
    const std::string text = writeJob(blankWorkspace().job);
    const auto read = readJobText(text, "job.json", Finish::mayBeUnfinished);
    ASSERT_TRUE(read.job) << read.errors.front().code << " " << read.errors.front().place;
    EXPECT_EQ(writeJob(*read.job), text);
}

TEST(FreeChartPath, IsNamedAfterThePageAndNumberedWhereTaken) {
    Workspace workspace;
    EXPECT_EQ(freeChartPath(workspace, "scans/brochure-page.png"), "brochure-page.reading.json");
    workspace.charts.push_back({"brochure-page.reading.json", std::make_shared<const Reading>()});
    EXPECT_EQ(freeChartPath(workspace, "brochure-page.png"), "brochure-page-2.reading.json");
    workspace.charts.push_back({"brochure-page-2.reading.json", std::make_shared<const Reading>()});
    EXPECT_EQ(freeChartPath(workspace, "brochure-page.jpg"), "brochure-page-3.reading.json");
    EXPECT_EQ(freeChartPath(workspace, ""), "chart.reading.json");
}

TEST(ChartIndex, FindsTheSheetOrNone) {
    const Workspace workspace = chartedWorkspace("page.png");
    EXPECT_EQ(chartIndex(workspace, "page.reading.json"), 0);
    EXPECT_EQ(chartIndex(workspace, "other.reading.json"), -1);
}

TEST(SameWork, TellsAPinFromAnother) {
    const Workspace one = chartedWorkspace("page.png");
    Workspace other = one;
    EXPECT_TRUE(sameWork(one, other));
    Reading moved = *other.charts[0].reading;
    other.charts[0].reading = std::make_shared<const Reading>(moved);
    EXPECT_TRUE(sameWork(one, other));
    moved.pins[0].at.x_px += 0.01;
    other.charts[0].reading = std::make_shared<const Reading>(moved);
    EXPECT_FALSE(sameWork(one, other));
}

TEST(SameReading, KnowsAPageByWhereItLiesAndAnEmbeddedOneByItsBytes) {
    Reading near = pageReading("page.png");
    near.chart.folder = "/garden";
    Reading far = pageReading("/garden/scans/../page.png");
    EXPECT_TRUE(sameReading(near, far));
    far.chart.path = "/garden/scans/page.png";
    EXPECT_FALSE(sameReading(near, far));
    Reading pasted = pageReading("");
    pasted.chart.mediaType = "image/png";
    pasted.chart.bytes = std::make_shared<const std::string>("one");
    Reading again = pasted;
    again.chart.bytes = std::make_shared<const std::string>("one");
    EXPECT_TRUE(sameReading(pasted, again));
    again.chart.bytes = std::make_shared<const std::string>("two");
    EXPECT_FALSE(sameReading(pasted, again));
}

} // namespace
} // namespace headmark::test
