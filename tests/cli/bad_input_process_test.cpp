// What a wrong input does to the program: a sentence on the messages stream, exit 2, nothing on the output,
// nothing written, within a second and 500 MB.
#include "tests/support/process.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <sys/stat.h>

namespace headmark::test {
namespace {

// The sanitized build is several times slower and larger than the one people use.
#if defined(__SANITIZE_ADDRESS__)
constexpr double kLimitSeconds = 10.0;
constexpr long kLimitKilobytes = 3000L * 1024L;
#else
constexpr double kLimitSeconds = 1.0;
constexpr long kLimitKilobytes = 500L * 1024L;
#endif

const std::string kGood = R"({"format": "headmark-job", "version": 1,
  "pumps": [{"name": "P", "curves": {"head": {"points": [{"flow_m3_h": 0, "head_m": 40}, {"flow_m3_h": 8, "head_m": 34},
                                                         {"flow_m3_h": 14, "head_m": 22}]}}}],
  "site": {"source": {"kind": "raised_tank", "levels_m": {"usual": 1.0}}, "pump_level_m": 0.0,
           "delivery": [{"pipe": "pe100_sdr17_63", "length_m": 100}],
           "zones": [{"name": "Beds", "level_m": 2.0,
                      "emitters": {"count": 1000, "flow_l_h": 4.0, "at_kPa": 100}}]}})";

std::string with(const std::string& from, const std::string& to) {
    std::string text = kGood;
    const auto at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return text.replace(at, from.size(), to);
}

void expectRefused(const ProcessResult& r, const std::vector<std::string>& words) {
    EXPECT_EQ(r.status, 2) << r.messages;
    EXPECT_TRUE(r.out.empty());
    EXPECT_LT(r.seconds, kLimitSeconds);
    EXPECT_LT(r.peakKilobytes, kLimitKilobytes);
    for (const std::string& word : words)
        EXPECT_NE(r.messages.find(word), std::string::npos) << word << "\n" << r.messages;
}

struct Wrong {
    const char* name;
    std::string text;
    std::vector<std::string> words; // the sentence names file, key, found, allowed
};

class BadJob : public testing::TestWithParam<Wrong> {};

TEST_P(BadJob, IsRefusedWithASentence) {
    const TemporaryFolder folder;
    const std::string path = folder.write("wrong.job.json", GetParam().text);
    for (const char* command : {"duty", "check"}) {
        std::vector<std::string> words = GetParam().words;
        words.push_back("wrong.job.json");
        expectRefused(runProcess({HEADMARK_CLI, command, path}), words);
    }
}

INSTANTIATE_TEST_SUITE_P(
    Families, BadJob,
    testing::Values(
        Wrong{"WrongType",
              with("\"count\": 1000", "\"count\": \"many\""),
              {"site.zones[0].emitters.count", "many"}},
        Wrong{"Missing", with("\"length_m\": 100", "\"x_was\": 100"), {"site.delivery[0]", "length_m"}},
        Wrong{"UnknownKey", with("\"level_m\": 2.0", "\"levl_m\": 2.0"), {"site.zones[0].levl_m", "level_m"}},
        Wrong{"Infinite", with("\"head_m\": 40", "\"head_m\": 1e999"), {"1e999"}},
        Wrong{"NotANumber", with("\"head_m\": 40", "\"head_m\": NaN"), {"line"}},
        Wrong{"Negative",
              with("\"length_m\": 100", "\"length_m\": -100"),
              {"site.delivery[0].length_m", "-100"}},
        Wrong{"Absurd", with("\"length_m\": 100", "\"length_m\": 1e12"), {"site.delivery[0].length_m"}},
        Wrong{"Newer", with("\"version\": 1", "\"version\": 99"), {"version", "99"}},
        Wrong{"UnknownPipe", with("pe100_sdr17_63", "pe100_sdr17_64"), {"pe100_sdr17_64", "pe100_sdr17_63"}},
        Wrong{"UnknownTakeoff",
              with("\"level_m\": 2.0", "\"level_m\": 2.0, \"takeoff\": \"T9\""),
              {"takeoff", "T9"}},
        Wrong{"TwiceTheKey",
              with("\"pump_level_m\": 0.0", "\"pump_level_m\": 0.0, \"pump_level_m\": 1.0"),
              {"pump_level_m"}},
        Wrong{"PercentForShare",
              with("\"pump_level_m\": 0.0", "\"pump_level_m\": 0.0, \"fittings_allowance_share\": 10"),
              {"fittings_allowance_share", "10"}},
        Wrong{"Broken", kGood.substr(0, kGood.size() / 2), {"line"}},
        Wrong{"EndlesslyNested", std::string(200000, '['), {"deep"}}, Wrong{"Empty", "", {}},
        Wrong{"OtherFormat", with("headmark-job", "shopping-list"), {"shopping-list"}},
        Wrong{"NoBore",
              with("{\"pipe\": \"pe100_sdr17_63\", \"length_m\": 100}", "{\"fitting\": {\"k\": 2.0}}"),
              {"site.delivery[0]"}},
        Wrong{"SizeNotMade",
              with("{\"pipe\": \"pe100_sdr17_63\", \"length_m\": 100}",
                   "{\"fitting\": \"solenoid_valve\", \"size\": \"1/8\"}"),
              {"site.delivery[0]", "1/8"}}),
    [](const testing::TestParamInfo<Wrong>& of) { return std::string(of.param.name); });

TEST(BadInput, TheUnchangedJobIsAccepted) {
    const TemporaryFolder folder;
    const ProcessResult r = runProcess({HEADMARK_CLI, "duty", folder.write("good.job.json", kGood)});
    EXPECT_EQ(r.status, 0) << r.messages;
}

TEST(BadInput, AFolderIsNotAFile) {
    const TemporaryFolder folder;
    expectRefused(runProcess({HEADMARK_CLI, "duty", folder.file("")}), {"folder"});
}

TEST(BadInput, APipeDoesNotHang) {
    const TemporaryFolder folder;
    ASSERT_EQ(mkfifo(folder.file("pipe").c_str(), 0600), 0);
    expectRefused(runProcess({HEADMARK_CLI, "duty", folder.file("pipe")}), {"pipe"});
}

TEST(BadInput, AMissingFileIsSaid) {
    const TemporaryFolder folder;
    expectRefused(runProcess({HEADMARK_CLI, "duty", folder.file("nowhere.job.json")}), {"nowhere.job.json"});
}

TEST(BadInput, OutputThatCannotBeWrittenLeavesNothingBehind) {
    const TemporaryFolder folder;
    const std::string job = folder.write("good.job.json", kGood);
    expectRefused(runProcess({HEADMARK_CLI, "duty", job, "--out", folder.file("no/such/folder/answer.json")}),
                  {"answer.json"});
    expectRefused(runProcess({HEADMARK_CLI, "duty", job, "--out", folder.file("")}), {"folder"});
    expectRefused(runProcess({HEADMARK_CLI, "duty", job}, "/dev/full"), {"standard output"});
}

TEST(BadInput, AnExistingOutputStaysWhenTheInputIsWrong) {
    const TemporaryFolder folder;
    const std::string earlier = folder.write("answer.json", "earlier answer");
    const std::string job = folder.write("wrong.job.json", "{}");
    EXPECT_EQ(runProcess({HEADMARK_CLI, "duty", job, "--out", earlier}).status, 2);
    EXPECT_EQ(readText(earlier), "earlier answer");
}

TEST(BadInput, TheInputIsNeverOverwritten) {
    const TemporaryFolder folder;
    const std::string job = folder.write("good.job.json", kGood);
    expectRefused(runProcess({HEADMARK_CLI, "duty", job, "--out", job}), {"input"});
    EXPECT_EQ(readText(job), kGood);
}

TEST(BadInput, UnknownCommandsAndOptionsExitWithTwo) {
    EXPECT_EQ(runProcess({HEADMARK_CLI, "paint", "x"}).status, 2);
    EXPECT_EQ(runProcess({HEADMARK_CLI}).status, 2);
    EXPECT_EQ(runProcess({HEADMARK_CLI, "duty", "x", "--colour"}).status, 2);
}

} // namespace
} // namespace headmark::test
