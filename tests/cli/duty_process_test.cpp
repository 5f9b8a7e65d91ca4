// `headmark-cli duty` as a process: published worked examples, the contract of its output, exit statuses.
#include "tests/pages/sample_pumps.h"
#include "tests/support/process.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <filesystem>

namespace headmark::test {
namespace {

using Json = nlohmann::json;

// Six charts are read: seconds in a plain build, many more in a sanitized one on a busy machine.
constexpr double kSampleSeconds = 400.0;

ProcessResult runSample(const std::vector<std::string>& command) {
    return runProcess(command, {}, kSampleSeconds);
}

Json duty(const std::string& jobText) {
    const TemporaryFolder folder;
    const ProcessResult r = runSample({HEADMARK_CLI, "duty", folder.write("site.job.json", jobText)});
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
        runSample({HEADMARK_CLI, "duty", HEADMARK_ROOT "/samples/terrace-nursery.job.json"});
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

Json pointsOf(const pages::SamplePump& pump, const char* key, int degree,
              double (pages::SamplePump::*value)(double) const) {
    Json curve{{"degree", degree}, {"points", Json::array()}};
    for (int i = 0; i <= 24; ++i) {
        const double flow = pump.lastFlow_m3_h * i / 24.0;
        curve["points"].push_back({{"flow_m3_h", flow}, {key, (pump.*value)(flow)}});
    }
    return curve;
}

// The sample job with nothing unsure about the site, so that its intervals are those of the reading alone.
Json sampleOnAKnownSite() {
    Json job = Json::parse(readText(HEADMARK_ROOT "/samples/terrace-nursery.job.json"));
    job["uncertainty"] = {
        {"level_m", 0}, {"length_share", 0}, {"roughness_share", 0}, {"k_share", 0}, {"emitter_share", 0}};
    return job;
}

// The same with the curves that the pages were drawn from; power follows from head and efficiency.
Json withTrueCurves(Json job) {
    for (std::size_t p = 0; p < 3; ++p) {
        const pages::SamplePump& pump = pages::samplePumps()[p];
        job["pumps"][p].erase("readings");
        job["pumps"][p]["curves"] = {
            {"head", pointsOf(pump, "head_m", 3, &pages::SamplePump::head_m)},
            {"efficiency", pointsOf(pump, "efficiency_share", 4, &pages::SamplePump::efficiency_share)},
            {"npsh_required", pointsOf(pump, "npsh_required_m", 3, &pages::SamplePump::npsh_m)}};
    }
    return job;
}

Json withReadingsOf(Json job, const std::string& folder) {
    for (Json& pump : job["pumps"]) {
        for (Json& reading : pump["readings"])
            reading["path"] = folder + "/" + reading["path"].get<std::string>();
    }
    return job;
}

struct Held {
    int of = 0, within = 0;
    void count(const Json& interval, double truth) {
        ++of;
        if (interval[0].get<double>() <= truth && truth <= interval[1].get<double>()) ++within;
        // Wherever the truth lies, it is not far outside: 1.5 half widths are three sigma.
        const double centre = 0.5 * (interval[0].get<double>() + interval[1].get<double>());
        const double half = 0.5 * (interval[1].get<double>() - interval[0].get<double>());
        EXPECT_NEAR(truth, centre, 1.5 * half) << interval;
    }
};

// Truth: the formulas in tests/pages/sample_pumps.h, from which the pages were drawn.
TEST(DutyProcess, ReadSampleHoldsTheTrueDutyWithinItsReadingInterval) {
    const Json read = duty(withReadingsOf(sampleOnAKnownSite(), HEADMARK_ROOT "/samples").dump());
    const Json known = duty(withTrueCurves(sampleOnAKnownSite()).dump());
    Held flow, head, efficiency, shaft;
    for (std::size_t p = 0; p < 3; ++p) {
        for (std::size_t c = 0; c < read["pumps"][p]["cases"].size(); ++c) {
            const Json& found = read["pumps"][p]["cases"][c];
            const Json& truth = known["pumps"][p]["cases"][c];
            SCOPED_TRACE(read["pumps"][p]["name"].dump() + found["name"].dump());
            ASSERT_TRUE(found["duty"].is_object() && truth["duty"].is_object());
            flow.count(found["duty"]["flow_95_m3_h"], truth["duty"]["flow_m3_h"]);
            head.count(found["duty"]["head_95_m"], truth["duty"]["head_m"]);
            efficiency.count(found["efficiency"]["at_duty_95_share"], truth["efficiency"]["at_duty_share"]);
            // Drawn for 1000 kg/m3, which the site's water is not quite.
            shaft.count(found["power"]["shaft_95_kW"],
                        pages::samplePumps()[p].power_kW(truth["duty"]["flow_m3_h"]));
            // and the reading is worth having: within 2 % of the head
            EXPECT_LT(found["duty"]["head_95_m"][1].get<double>() -
                          found["duty"]["head_95_m"][0].get<double>(),
                      0.02 * found["duty"]["head_m"].get<double>());
        }
    }
    EXPECT_EQ(flow.of, 15);
    for (const Held& held : {flow, head, efficiency, shaft})
        EXPECT_GE(held.within, 13); // 95 % of 15 is 14.25; the cases of one pump share its pins
}

TEST(DutyProcess, ALineOfTheChartThatIsNotUsedAndCannotBeReadIsNamedAndNoMore) {
    const TemporaryFolder folder;
    std::filesystem::copy_file(HEADMARK_ROOT "/samples/pages/pump-a.jpg", folder.file("pump-a.jpg"));
    Json reading = Json::parse(readText(HEADMARK_ROOT "/samples/pages/pump-a-head.reading.json"));
    // bare paper between two grid lines, far above both curves
    reading["lines"].push_back({{"name", "stray"}, {"quantity", "head"}, {"follow_from", {{1300.0, 760.0}}}});
    const std::string readingFile = folder.write("a.reading.json", reading.dump());
    Json job{{"format", "headmark-job"}, {"version", 1}};
    job["pumps"] = {
        {{"name", "A"}, {"readings", {{{"path", "a.reading.json"}, {"lines", {{"head", "head"}}}}}}}};
    job["site"] = {{"system", {{"static_head_m", 10.0}, {"resistance_m_per_m3_h_2", 0.5}}}};
    const ProcessResult answered =
        runProcess({HEADMARK_CLI, "duty", folder.write("site.job.json", job.dump())});
    ASSERT_EQ(answered.status, 0) << answered.messages;
    const Json found = Json::parse(answered.out, nullptr, false)["pumps"][0]["cases"][0];
    EXPECT_TRUE(found["duty"].is_object());
    int named = 0;
    for (const Json& caution : found["cautions"]) {
        if (caution["code"] != "line-not-read") continue;
        ++named;
        EXPECT_EQ(caution["values"]["line"], "stray");
        EXPECT_EQ(caution["values"]["error"], "click-on-paper");
        EXPECT_EQ(caution["place"], "pumps[0].readings[0].lines[2]");
    }
    EXPECT_EQ(named, 1);

    // Whoever asks for that line is refused, and so is who reads the chart for its own sake.
    job["pumps"][0]["readings"][0]["lines"]["head"] = "stray";
    for (const ProcessResult& refused :
         {runProcess({HEADMARK_CLI, "duty", folder.write("site.job.json", job.dump())}),
          runProcess({HEADMARK_CLI, "read", readingFile})}) {
        EXPECT_EQ(refused.status, 2);
        EXPECT_TRUE(refused.out.empty());
        EXPECT_NE(refused.messages.find("lines[2].follow_from[0]"), std::string::npos) << refused.messages;
    }
}

TEST(DutyProcess, SampleWithATypedTableServesBothBedsTogether) {
    const ProcessResult r = runProcess({HEADMARK_CLI, "duty", HEADMARK_ROOT "/samples/typed-table.job.json"});
    ASSERT_EQ(r.status, 0) << r.messages;
    const Json pump = Json::parse(r.out, nullptr, false)["pumps"][0];
    EXPECT_EQ(pump["zones_at_once"]["best_set"], 2);
    EXPECT_EQ(pump["zones_at_once"]["any_set"], 2);
    // nothing was typed of them, and nothing is made up
    for (const Json& c : pump["cases"]) {
        EXPECT_TRUE(c["efficiency"].is_null());
        EXPECT_TRUE(c["npsh"].is_null());
    }
}

// Two zones of 3 m3/h at 20 m of water of 1000 kg/m3 (that of 4 C is within 0.03 of it), on a flat site
// without pipes. The pump's curve through (0, 30), (3, 20), (6, 4) m allows one at a time, at exactly that
// pressure.
constexpr const char* kTwoShifts = R"({"format": "headmark-job", "version": 1, "water": {"temperature_C": 4},
  "pumps": [{"name": "P", "delivered": {"head_share": 0.0}, "curves": {"head": {"points": [
    {"flow_m3_h": 0, "head_m": 30}, {"flow_m3_h": 3, "head_m": 20}, {"flow_m3_h": 6, "head_m": 4}]}}}],
  "site": {"source": {"levels_m": {"usual": 0}}, "controller": {"stations": 2, "window": ["22:30", "05:00"], "start_delay_s": 30},
    "zones": [
      {"name": "Beds, low", "level_m": 0, "emitters": {"total_m3_h": 3, "at_kPa": 196.133, "min_kPa": 150}, "need_m3_per_day": 8.99},
      {"name": "Hedge", "level_m": 0, "emitters": {"total_m3_h": 3, "at_kPa": 196.133, "min_kPa": 150}, "need_m3_per_day": 2.99}]}})";

TEST(DutyProcess, ShiftsGoToAFileToKeyIntoAController) {
    const TemporaryFolder folder;
    const std::string job = folder.write("site.job.json", kTwoShifts), csv = folder.file("shifts.csv");
    const ProcessResult r = runSample({HEADMARK_CLI, "duty", job, "--shifts", csv});
    ASSERT_EQ(r.status, 0) << r.messages;
    EXPECT_FALSE(Json::parse(r.out, nullptr, false).is_discarded()); // the findings still go to stdout
    EXPECT_EQ(readText(csv), "pump,shift,start,station,zone,minutes,flow_m3_h\r\n"
                             "P,1,22:30,1,\"Beds, low\",180,3.000\r\n" // 8.99 m3 in 179.8 min
                             "P,2,01:31,2,Hedge,60,3.000\r\n");        // a minute after 22:30 + 180 min
}

TEST(DutyProcess, ShiftsThatCannotBeWrittenStopTheCommand) {
    const TemporaryFolder folder;
    const std::string job = folder.write("site.job.json", kTwoShifts);
    const ProcessResult r =
        runSample({HEADMARK_CLI, "duty", job, "--shifts", folder.file("no-such-folder/shifts.csv")});
    EXPECT_EQ(r.status, 2);
    EXPECT_TRUE(r.out.empty());
    EXPECT_NE(r.messages.find("shifts.csv"), std::string::npos) << r.messages;
}

TEST(DutyProcess, FindingsPassTheirOwnCheck) {
    const TemporaryFolder folder;
    const std::string findings = folder.file("answer.findings.json");
    ASSERT_EQ(runSample({HEADMARK_CLI, "duty", HEADMARK_ROOT "/samples/terrace-nursery.job.json", "--out",
                         findings})
                  .status,
              0);
    const ProcessResult r = runProcess({HEADMARK_CLI, "check", findings});
    EXPECT_EQ(r.status, 0) << r.messages;
    EXPECT_TRUE(r.out.empty());
}

TEST(DutyProcess, TableIsReadableAndNamesTheUsualCautions) {
    const ProcessResult r =
        runSample({HEADMARK_CLI, "duty", HEADMARK_ROOT "/samples/terrace-nursery.job.json", "--table"});
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
    EXPECT_EQ(runSample({HEADMARK_CLI, "duty", job}).out, runSample({HEADMARK_CLI, "duty", job}).out);
}

} // namespace
} // namespace headmark::test
