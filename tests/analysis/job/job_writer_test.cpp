#include "analysis/job/job_writer.h"

#include "analysis/job/job_writer_parts.h"
#include "job_documents.h"

namespace headmark {
namespace {

TEST(JobWriter, GivesBackEveryValueOfTheFile) {
    for (const auto& name : wholeJobs()) {
        const Json original = jobJson(name);
        const auto reading = readJobDocument(original, name);
        ASSERT_TRUE(reading.job) << name << listed(reading);
        const Json written = jobDocument(*reading.job);
        for (const Node& node : nodesOf(original)) {
            if (node.value->is_structured() && !node.value->empty()) continue;
            const auto pointer = pointerOf(node.place);
            ASSERT_TRUE(written.contains(pointer)) << name << ": " << node.place;
            EXPECT_EQ(written.at(pointer), *node.value) << name << ": " << node.place;
        }
    }
}

TEST(JobWriter, WritesWhatReadsAsTheSameJob) {
    for (const auto& name : wholeJobs()) {
        const auto first = readJobFile(jobPath(name));
        ASSERT_TRUE(first.job) << name << listed(first);
        const std::string text = writeJob(*first.job);
        const auto second = readJobText(text, name);
        ASSERT_TRUE(second.job) << name << listed(second);
        EXPECT_EQ(writeJob(*second.job), text) << name;
        EXPECT_EQ(second.job->casesGiven, first.job->casesGiven);
        EXPECT_EQ(second.job->site.zones.size(), first.job->site.zones.size());
    }
}

TEST(JobWriter, KeepsKeysOfTheUsersOwnWhereTheyStood) {
    Json document = jobJson();
    document["site"]["zones"][1]["x_valve box"] = 7;
    document["site"]["delivery"][0]["x_note"] = Json::array({1, "two"});
    const auto reading = readJobDocument(document, "job.json");
    ASSERT_TRUE(reading.job) << listed(reading);
    const Json written = jobDocument(*reading.job);
    EXPECT_EQ(written["x_colour"], Json({{"sheet", "green"}}));
    EXPECT_EQ(written["site"]["zones"][1]["x_valve box"], 7);
    EXPECT_EQ(written["site"]["delivery"][0]["x_note"], Json::array({1, "two"}));
}

TEST(JobWriter, LeavesOutCasesThatWereMade) {
    auto reading = readJobFile(jobPath("known-system.job.json"));
    ASSERT_TRUE(reading.job);
    reading.job->cases.push_back({});
    EXPECT_FALSE(jobDocument(*reading.job).contains("cases"));
}

// Written only where the job sets it: else a pump of high suction specific speed would be asked for less.
TEST(JobWriter, LeavesTheNpshMarginToTheTableUnlessTheJobSetsIt) {
    auto reading = readJobFile(jobPath("known-system.job.json"));
    ASSERT_TRUE(reading.job);
    EXPECT_FALSE(jobDocument(*reading.job)["limits"].contains("npsh_margin_m"));
    Json document = jobDocument(*reading.job);
    document["limits"]["npsh_margin_share"] = 0.1; // as the table has it, but set
    const auto set = readJobDocument(document, "job.json");
    ASSERT_TRUE(set.job) << listed(set);
    EXPECT_TRUE(set.job->limits.npshMarginOwn);
    EXPECT_EQ(jobDocument(*set.job)["limits"]["npsh_margin_m"], 0.6);
    EXPECT_EQ(jobDocument(*set.job)["limits"]["npsh_margin_share"], 0.1);
}

TEST(JobWriter, ReplacesTextThatIsNoUtf8) {
    auto reading = readJobFile(jobPath("known-system.job.json"));
    ASSERT_TRUE(reading.job);
    reading.job->title = "caf\xE9";
    const auto again = readJobText(writeJob(*reading.job), "job.json");
    ASSERT_TRUE(again.job);
    EXPECT_EQ(again.job->title, "caf\xEF\xBF\xBD"); // U+FFFD
}

TEST(NumberJson, WritesTwelveDigitsAndWholeNumbersPlainly) {
    EXPECT_EQ(numberJson(8.0).dump(), "8");
    EXPECT_EQ(numberJson(8.000000000000002).dump(), "8");
    EXPECT_EQ(numberJson(-0.1 - 0.2).dump(), "-0.3");
    EXPECT_EQ(numberJson(0.00458).dump(), "0.00458");
    EXPECT_EQ(numberJson(1.0 / 3.0).dump(), "0.333333333333");
}

} // namespace
} // namespace headmark
