// `headmark-cli sheet` as a process.
#include "tests/support/process.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <filesystem>

namespace headmark::test {
namespace {

using Json = nlohmann::json;

const char* const kJob = R"({
  "format": "headmark-job", "version": 1,
  "pumps": [
    {"name": "First", "inlet_thread": "G 2", "outlet_thread": "G 1-1/2",
     "curves": {"head": {"points": [{"flow_m3_h": 0, "head_m": 40}, {"flow_m3_h": 12, "head_m": 18}]}}},
    {"name": "Second", "inlet_thread": "G 1", "outlet_thread": "G 1",
     "curves": {"head": {"points": [{"flow_m3_h": 0, "head_m": 50}, {"flow_m3_h": 12, "head_m": 20}]}}}
  ],
  "site": {
    "source": {"kind": "pond_lake", "levels_m": {"low": -2, "usual": -1.5, "high": -1}},
    "suction": [{"fitting": "floating_inlet_check", "size": "2"}, {"pipe": "suction_hose_51", "length_m": 8}],
    "delivery": [{"pipe": "pe100_sdr17_63", "length_m": 60}],
    "zones": [{"name": "Beds", "level_m": 2, "emitters": {"total_m3_h": 6, "at_kPa": 150}}]
  }
})";

class SheetProcess : public testing::Test {
  protected:
    ProcessResult run(std::vector<std::string> more) {
        std::vector<std::string> command{HEADMARK_CLI, "sheet", job_};
        command.insert(command.end(), more.begin(), more.end());
        return runProcess(command);
    }
    TemporaryFolder folder_;
    std::string job_ = folder_.write("site.job.json", kJob);
};

Json parsed(const ProcessResult& r) {
    EXPECT_EQ(r.status, 0) << r.messages;
    return Json::parse(r.out, nullptr, false);
}

// Numbers of the pump in the list of parts.
std::string pumpSize(const Json& document) {
    for (const Json& part : document["sheet"]["parts"]) {
        if (part["line"] == "pump") return part["size"];
    }
    return {};
}

TEST_F(SheetProcess, GivesTheFirstPumpAsADocument) {
    const Json document = parsed(run({}));
    EXPECT_EQ(document["format"], "headmark-connection-sheet");
    EXPECT_EQ(document["pump"], "First");
    EXPECT_NE(pumpSize(document).find("1-1/2"), std::string::npos) << pumpSize(document);
    for (const char* key : {"parts", "joints", "bill", "assembly", "commissioning", "cautions"})
        EXPECT_FALSE(document["sheet"][key].empty()) << key;
}

TEST_F(SheetProcess, TakesTheNamedPump) {
    const Json document = parsed(run({"--pump", "Second"}));
    EXPECT_EQ(document["pump"], "Second");
    EXPECT_EQ(pumpSize(document), "1");
}

TEST_F(SheetProcess, RefusesAPumpThatIsNotThereAndNamesThoseThatAre) {
    const ProcessResult r = run({"--pump", "Third"});
    EXPECT_EQ(r.status, 2);
    EXPECT_EQ(r.out, "");
    EXPECT_NE(r.messages.find("Third"), std::string::npos) << r.messages;
    EXPECT_NE(r.messages.find("First"), std::string::npos) << r.messages;
}

TEST_F(SheetProcess, WritesTheDrawingBesides) {
    const std::string drawing = folder_.file("drawing.svg");
    const ProcessResult r = run({"--table", "--drawing", drawing});
    EXPECT_EQ(r.status, 0) << r.messages;
    EXPECT_NE(r.out.find("Order of assembly"), std::string::npos);
    EXPECT_NE(readText(drawing).find("<svg"), std::string::npos);
}

TEST_F(SheetProcess, AKnownSystemCurveHasNothingToDraw) {
    std::string text = kJob;
    text = text.substr(0, text.find("\"site\":")) +
           R"("site": {"system": {"static_head_m": 10, "resistance_m_per_m3_h_2": 0.2}}})";
    job_ = folder_.write("known.job.json", text);
    const std::string drawing = folder_.file("none.svg");
    const ProcessResult r = run({"--drawing", drawing});
    EXPECT_EQ(r.status, 2);
    EXPECT_FALSE(std::filesystem::exists(drawing));
    EXPECT_TRUE(parsed(run({}))["sheet"].is_null());
}

} // namespace
} // namespace headmark::test
