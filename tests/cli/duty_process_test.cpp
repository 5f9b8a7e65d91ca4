// `headmark-cli duty` as a process: published worked examples, the contract of its output, exit statuses.
#include "tests/support/process.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace headmark::test {
namespace {

using Json = nlohmann::json;

Json duty(const std::string& jobText) {
    const TemporaryFolder folder;
    const ProcessResult r = runProcess({HEADMARK_CLI, "duty", folder.write("site.job.json", jobText)});
    EXPECT_EQ(r.status, 0) << r.messages;
    return Json::parse(r.out, nullptr, false);
}

// Hydraulic Institute, Engineering Data Book, pump and system curve example: pump 380 - 0.06 Q - 0.0018 Q^2
// ft, system 265 + 7.75e-4 Q^2 ft, Q in US gal/min. Three points of the pump's parabola at 0, 200 and 300
// gal/min (380, 296, 200 ft), in metric: 1 ft = 0.3048 m, 1 US gal/min = 0.22712470704 m3/h.
std::string handbookJob(double staticFeet) {
    const double resistance = 7.75e-4 * 0.3048 / (0.22712470704 * 0.22712470704);
    Json job{{"format", "headmark-job"}, {"version", 1}};
    job["pumps"] = {{{"name", "handbook"},
                     {"curves",
                      {{"head",
                        {{"points",
                          {{{"flow_m3_h", 0}, {"head_m", 380 * 0.3048}},
                           {{"flow_m3_h", 200 * 0.22712470704}, {"head_m", 296 * 0.3048}},
                           {{"flow_m3_h", 300 * 0.22712470704}, {"head_m", 200 * 0.3048}}}}}}}}}};
    job["site"] = {
        {"system", {{"static_head_m", staticFeet * 0.3048}, {"resistance_m_per_m3_h_2", resistance}}}};
    return job.dump();
}

TEST(DutyProcess, MeetsTheHandbookExampleOfPumpAndSystemCurve) {
    const Json found = duty(handbookJob(265));
    const Json& point = found["pumps"][0]["cases"][0]["duty"];
    // printed: 200 gal/min at 296 ft; both curves give 296.0 at 200 exactly
    EXPECT_NEAR(point["flow_m3_h"].get<double>() / 0.22712470704, 200.0, 1e-6);
    EXPECT_NEAR(point["head_m"].get<double>() / 0.3048, 296.0, 1e-6);
    EXPECT_TRUE(point["stable"].get<bool>());
}

TEST(DutyProcess, MeetsTheHandbookExampleWithTheTankTenFeetHigher) {
    const Json found = duty(handbookJob(275));
    // printed: 190.6 gal/min
    EXPECT_NEAR(found["pumps"][0]["cases"][0]["duty"]["flow_m3_h"].get<double>() / 0.22712470704, 190.6,
                0.05);
}

TEST(DutyProcess, DeliveredBandIsEightPercentOfHeadBelowTenKilowatts) {
    const Json found = duty(handbookJob(265));
    const Json& both = found["pumps"][0]["cases"][0]["as_delivered"];
    // low: 0.92 (380 - 0.06 Q - 0.0018 Q^2) = 265 + 7.75e-4 Q^2, by the quadratic formula
    const double a = 0.92 * 0.0018 + 7.75e-4, b = 0.92 * 0.06, c = -(0.92 * 380 - 265);
    const double low = (-b + std::sqrt(b * b - 4 * a * c)) / (2 * a);
    EXPECT_NEAR(both["low"]["flow_m3_h"].get<double>() / 0.22712470704, low, 1e-5);
    EXPECT_GT(both["high"]["flow_m3_h"].get<double>(),
              found["pumps"][0]["cases"][0]["duty"]["flow_m3_h"].get<double>());
}

TEST(DutyProcess, PumpTooWeakIsAnAnswerNotAnError) {
    const Json found = duty(handbookJob(400));
    const Json& c = found["pumps"][0]["cases"][0];
    EXPECT_TRUE(c["duty"].is_null());
    EXPECT_FALSE(c["serves"].get<bool>());
    EXPECT_EQ(c["cautions"][0]["code"], "pump-too-weak");
}

TEST(DutyProcess, DutyBeyondTheChartIsSaidAndNotContinued) {
    const Json found = duty(handbookJob(20));
    const Json& c = found["pumps"][0]["cases"][0];
    EXPECT_TRUE(c["duty"].is_null());
    EXPECT_EQ(c["cautions"][0]["code"], "beyond-chart");
    EXPECT_EQ(c["cautions"][0]["values"]["side"], "right");
}

TEST(DutyProcess, SampleAnswersAsTheContractLaysOut) {
    const ProcessResult r =
        runProcess({HEADMARK_CLI, "duty", HEADMARK_ROOT "/samples/terrace-nursery.job.json"});
    ASSERT_EQ(r.status, 0) << r.messages;
    EXPECT_TRUE(r.messages.empty()) << r.messages;
    const Json found = Json::parse(r.out, nullptr, false);
    ASSERT_FALSE(found.is_discarded());
    EXPECT_EQ(found["format"], "headmark-findings");
    EXPECT_EQ(found["version"], 1);
    EXPECT_FALSE(found["needs"].empty());
    ASSERT_EQ(found["pumps"].size(), 3U);
    for (const Json& pump : found["pumps"]) {
        EXPECT_TRUE(pump["zones_at_once"]["proven"].get<bool>());
        for (const Json& c : pump["cases"]) {
            for (const char* key : {"name", "serves", "duty", "as_delivered", "efficiency", "power", "npsh",
                                    "zones", "tank_return_flow_m3_h", "cautions", "working"}) {
                EXPECT_TRUE(c.contains(key)) << key;
            }
            for (const Json& caution : c["cautions"]) {
                EXPECT_FALSE(caution["text"].get<std::string>().empty()) << caution;
            }
            if (c["duty"].is_null()) continue;
            const Json& range = c["duty"]["flow_95_m3_h"];
            EXPECT_LE(range[0].get<double>(), c["duty"]["flow_m3_h"].get<double>());
            EXPECT_GE(range[1].get<double>(), c["duty"]["flow_m3_h"].get<double>());
        }
    }
}

TEST(DutyProcess, FindingsPassTheirOwnCheck) {
    const TemporaryFolder folder;
    const std::string findings = folder.file("answer.findings.json");
    ASSERT_EQ(runProcess({HEADMARK_CLI, "duty", HEADMARK_ROOT "/samples/terrace-nursery.job.json", "--out",
                          findings})
                  .status,
              0);
    const ProcessResult r = runProcess({HEADMARK_CLI, "check", findings});
    EXPECT_EQ(r.status, 0) << r.messages;
    EXPECT_TRUE(r.out.empty());
}

TEST(DutyProcess, TableIsReadableAndNamesTheUsualCautions) {
    const ProcessResult r =
        runProcess({HEADMARK_CLI, "duty", HEADMARK_ROOT "/samples/terrace-nursery.job.json", "--table"});
    ASSERT_EQ(r.status, 0) << r.messages;
    EXPECT_NE(r.out.find("NPSH"), std::string::npos);
    EXPECT_NE(r.out.find("drinking water"), std::string::npos);
    EXPECT_NE(r.out.find("electric"), std::string::npos);
}

TEST(DutyProcess, HelpShowsExamples) {
    for (const std::vector<std::string>& command :
         {std::vector<std::string>{HEADMARK_CLI, "--help"}, {HEADMARK_CLI, "duty", "--help"}}) {
        const ProcessResult r = runProcess(command);
        EXPECT_EQ(r.status, 0);
        EXPECT_NE(r.out.find("headmark-cli duty"), std::string::npos);
    }
}

TEST(DutyProcess, SameInputGivesTheSameBytes) {
    const std::string job = HEADMARK_ROOT "/samples/terrace-nursery.job.json";
    EXPECT_EQ(runProcess({HEADMARK_CLI, "duty", job}).out, runProcess({HEADMARK_CLI, "duty", job}).out);
}

} // namespace
} // namespace headmark::test
