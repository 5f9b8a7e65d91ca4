#include "analysis/job/chart_book.h"

#include "analysis/job/job_reader.h"
#include "analysis/job/prepared_job.h"
#include "tests/support/no_pages.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

// An unsaved reading of one head line, and the line read: from 40 m at no flow to 20 m at 10 m3/h.
std::shared_ptr<const Reading> unsavedReading() {
    Reading reading;
    reading.printedUnits.flow = "m3/h";
    reading.lines.resize(1);
    reading.lines[0].name = "upper";
    return std::make_shared<const Reading>(std::move(reading));
}

std::shared_ptr<const ChartLines> straightLine() {
    ReadLine line;
    line.name = "upper";
    SampleFit fit;
    fit.curve = PolynomialCurve(0.0, 10.0 / 3600.0, Eigen::Vector2d(30.0, -10.0));
    line.fit = std::move(fit);
    ChartLines chart;
    chart.lines = {line};
    return std::make_shared<const ChartLines>(std::move(chart));
}

Job jobOnTheChart() {
    auto read = readJobText(R"({"format": "headmark-job", "version": 1,
        "pumps": [{"name": "P", "readings": [{"path": "not-saved.reading.json"}]}],
        "site": {"system": {"static_head_m": 10, "resistance_m_per_m3_h_2": 0.2}}})",
                            "test.job.json");
    EXPECT_TRUE(read.job);
    Job job = read.job.value_or(Job());
    job.folder = "no-such-folder";
    return job;
}

const std::string kFile = "no-such-folder/not-saved.reading.json";

TEST(ChartBook, TakesWhatItIsGivenForAFile) {
    test::NoPages none;
    ChartBook book(none);
    const auto reading = unsavedReading();
    const auto lines = straightLine();
    book.provide(kFile, reading, {lines, {}});
    EXPECT_EQ(book.open(kFile).reading, reading);
    EXPECT_EQ(book.chart(kFile).lines, lines);
    EXPECT_EQ(book.open("no-such-folder/../no-such-folder/not-saved.reading.json").reading, reading);

    const auto prepared = PreparedJob::make(jobOnTheChart(), book);
    ASSERT_TRUE(prepared);
    // 40 - 2 q = 10 + 0.2 q^2, so q = (-2 + sqrt(4 + 24))/0.4 = 8.2288 m3/h.
    const CaseAnswer answer = prepared->answer(0, {});
    ASSERT_TRUE(answer.duty);
    EXPECT_NEAR(answer.duty->flow.inCubicMetresPerHour(), 8.2288, 1e-4);
}

TEST(ChartBook, GivesTheErrorsItWasGivenWithTheirFile) {
    test::NoPages none;
    ChartBook book(none);
    book.provide(kFile, unsavedReading(), {nullptr, {{"pins-in-a-row", "", "pins", {}}}});
    const auto charted = book.chart(kFile);
    EXPECT_FALSE(charted.lines);
    ASSERT_EQ(charted.errors.size(), 1u);
    EXPECT_EQ(charted.errors[0].code, "pins-in-a-row");
    EXPECT_EQ(charted.errors[0].file, kFile);
    const auto prepared = PreparedJob::make(jobOnTheChart(), book);
    ASSERT_FALSE(prepared);
    EXPECT_EQ(prepared.error().code, "pins-in-a-row");
}

TEST(ChartBook, TakesTheLatestItIsGivenAndForgetsIt) {
    test::NoPages none;
    ChartBook book(none);
    book.provide(kFile, unsavedReading(), {nullptr, {{"pins-in-a-row", "", "pins", {}}}});
    const auto lines = straightLine();
    book.provide(kFile, unsavedReading(), {lines, {}});
    EXPECT_EQ(book.chart(kFile).lines, lines);
    book.forget(kFile);
    const auto opened = book.open(kFile);
    EXPECT_FALSE(opened.reading);
    ASSERT_EQ(opened.errors.size(), 1u);
    EXPECT_EQ(opened.errors[0].code, "no-such-file");
}

} // namespace
} // namespace headmark
