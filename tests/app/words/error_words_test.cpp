#include "app/words/error_words.h"

#include "analysis/chart/chart_codes.h"
#include "analysis/job/error_codes.h"
#include "app/pages/page_error_codes.h"
#include "tests/app/words/code_scan.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace headmark {
namespace {

std::string worded(const Error& error) { return sentence(error).toStdString(); }

constexpr const char* kGenericMark = "this did not work";

TEST(ErrorWords, HasASentenceForEveryCodeTheReadersReport) {
    for (const auto code : code::kReaderCodes) {
        // With and without facts: a missing fact must not leave a place holder.
        const std::string text = worded({std::string(code), "job.json", "site.zones[2]", {}});
        EXPECT_EQ(text.find(kGenericMark), std::string::npos) << code;
        EXPECT_NE(text.find("job.json"), std::string::npos) << text;
        EXPECT_NE(text.find("site.zones[2]"), std::string::npos) << text;
        EXPECT_TRUE(text.ends_with('.') || text.ends_with('?')) << text;
        EXPECT_EQ(text.find('%'), std::string::npos) << text;
    }
}

TEST(ErrorWords, HasASentenceForEveryCodeOfPagesAndCharts) {
    std::set<std::string_view> codes(code::kPageCodes.begin(), code::kPageCodes.end());
    codes.insert(code::kChartErrorCodes.begin(), code::kChartErrorCodes.end());
    for (const auto code : codes) {
        const std::string text = worded({std::string(code), "a.reading.json", "chart.path", {}});
        EXPECT_EQ(text.find(kGenericMark), std::string::npos) << code;
        EXPECT_TRUE(text.starts_with("a.reading.json, at chart.path: ")) << text;
        EXPECT_TRUE(text.ends_with('.')) << text;
        EXPECT_EQ(text.find('%'), std::string::npos) << text;
        EXPECT_EQ(text.find("JSON"), std::string::npos) << text;
    }
}

TEST(ErrorWords, NamesThePictureAndWhereTheJobNamesTheReading) {
    EXPECT_EQ(
        worded({"click-on-paper",
                "north.reading.json",
                "lines[0].follow_from[1]",
                {{"x_px", 620.0}, {"y_px", 480.25}, {"named_at", std::string("pumps[0].readings[0]")}}}),
        "north.reading.json, at lines[0].follow_from[1] (named by the job at pumps[0].readings[0]): at "
        "(620.0, 480.3) there is bare paper, and no ink within reach; click on the line itself.");
    EXPECT_EQ(
        worded({"no-such-file", "north.reading.json", "chart.path", {{"picture", std::string("page.png")}}}),
        "north.reading.json, at chart.path (picture page.png): there is no such file; check the name "
        "and the folder.");
}

TEST(ErrorWords, NamesBothLinesOfAQuantityGivenTwice) {
    EXPECT_EQ(worded({"quantity-given-twice",
                      "site.job.json",
                      "pumps[0].readings[1]",
                      {{"quantity", std::string("head")},
                       {"line", std::string("B")},
                       {"first", std::string("pumps[0].readings[0]")},
                       {"first_line", std::string("A")}}}),
              "site.job.json, at pumps[0].readings[1]: the quantity head is given here by the line \"B\" and "
              "at pumps[0].readings[0] by the line \"A\"; keep one of the two.");
}

TEST(ErrorWords, HasASentenceForTheOtherCodesOfThisProgram) {
    for (const char* code : {"no-bore", "no-such-size", "too-few-points", "repeated-flow", "degree-too-high",
                             "cannot-write", "cannot-read", "is-folder"}) {
        EXPECT_EQ(worded({code, "a.json", "", {}}).find(kGenericMark), std::string::npos) << code;
    }
}

TEST(ErrorWords, HasASentenceForEveryErrorTheCoreReports) {
    const std::filesystem::path analysis = std::filesystem::path(HEADMARK_TESTS_DIR) / ".." / "analysis";
    std::set<std::string> found;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(analysis)) {
        if (entry.path().extension() != ".cpp") continue;
        found.merge(testing::matchesIn(testing::textOf(entry.path()), R"re(Error\{"([a-z0-9-]+)")re"));
    }
    EXPECT_GT(found.size(), 5U); // the scan itself must find something
    for (const std::string& code : found) {
        EXPECT_EQ(worded({code, "a.json", "site", {}}).find(kGenericMark), std::string::npos) << code;
    }
}

TEST(ErrorWords, KnowsEachCodeOnce) {
    const auto codes = wordedErrorCodes();
    const std::set<std::string_view> different(codes.begin(), codes.end());
    EXPECT_EQ(different.size(), codes.size());
    const std::set<std::string_view> readers(code::kReaderCodes.begin(), code::kReaderCodes.end());
    EXPECT_EQ(readers.size(), code::kReaderCodes.size());
}

TEST(ErrorWords, NamesFilePlaceFoundAndAllowed) {
    EXPECT_EQ(
        worded({"out-of-range",
                "job.json",
                "water.temperature_C",
                {{"found", 99.5}, {"least", 0.0}, {"greatest", 60.0}}}),
        "job.json, at water.temperature_C: here stands 99.5, but the value must lie between 0 and 60; check "
        "the figure and its unit.");
    EXPECT_EQ(
        worded({"share-not-percent",
                "job.json",
                "pumps[0].motor.efficiency_share",
                {{"found", 83.0}, {"least", 0.05}, {"greatest", 1.0}, {"suggested", 0.83}}}),
        "job.json, at pumps[0].motor.efficiency_share: here stands 83, but a share between 0.05 and 1 is "
        "expected, not a percentage; did you mean 0.83?");
    EXPECT_EQ(worded({"wrong-type",
                      "job.json",
                      "title",
                      {{"found_kind", std::string("number")},
                       {"found", std::string("7")},
                       {"expected", std::string("text")}}}),
              "job.json, at title: here stands 7 (a number), but a text in quotation marks is expected; "
              "correct the "
              "entry.");
    EXPECT_EQ(
        worded(
            {"unknown-key",
             "job.json",
             "site.zone",
             {{"nearest", std::vector<std::string>{"zones"}}, {"known", std::vector<std::string>{"zones"}}}}),
        "job.json, at site.zone: this key is not known; did you mean zones? Keys of your own begin with x_.");
    EXPECT_EQ(
        worded({"newer-version", "job.json", "version", {{"found", 2.0}, {"known", std::int64_t{1}}}}),
        "job.json, at version: the file has version 2, and this program knows versions up to 1; open it with "
        "a newer Headmark.");
}

TEST(ErrorWords, LeavesOutWhatIsNotKnown) {
    EXPECT_TRUE(worded({"is-folder", "jobs", "", {}}).starts_with("jobs: "));
    EXPECT_TRUE(worded({"missing-key", "", "site", {}}).starts_with("site: "));
    EXPECT_TRUE(worded({"empty-file", "", "", {}}).starts_with("The input: "));
}

TEST(ErrorWords, DoesNotTakeMarksInNamesForPlaceHolders) {
    const std::string text =
        worded({"unknown-zone",
                "50%1.json",
                "cases[0].zones_open[0]",
                {{"name", std::string("%2 %3")}, {"known", std::vector<std::string>{"%1"}}}});
    EXPECT_EQ(text, "50%1.json, at cases[0].zones_open[0]: there is no zone \"%2 %3\"; the zones are %1.");
}

TEST(ErrorWords, NamesAnUnknownCodeWithItsFacts) {
    EXPECT_EQ(worded({"odd-thing", "a.json", "", {{"depth_m", 2.5}, {"why", std::string("rain")}}}),
              "a.json: this did not work (odd-thing: depth_m = 2.5; why = rain).");
}

TEST(ErrorWords, ShowsTenAtOnceAndCountsTheRest) {
    const std::vector<Error> errors(13, Error{"missing-key", "a.json", "site", {}});
    const QString text = sentences(errors);
    EXPECT_EQ(text.count(QLatin1Char('\n')), 10);
    EXPECT_TRUE(text.endsWith(QStringLiteral("3 more."))) << text.toStdString();
    EXPECT_EQ(sentences({errors[0]}), sentence(errors[0]));
}

} // namespace
} // namespace headmark
