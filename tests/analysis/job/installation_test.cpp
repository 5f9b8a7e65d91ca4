// What the job says of the installation beyond its hydraulics, and its way into the findings.

#include "analysis/job/analyse.h"
#include "analysis/job/job_reader.h"
#include "analysis/job/job_writer.h"
#include "tests/support/no_pages.h"
#include "tests/support/replaced_text.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace headmark {
namespace {

using test::with;

const char* const kJob = R"({
  "format": "headmark-job", "version": 1,
  "limits": {"rules": {"casing_water": 4}},
  "pumps": [{
    "name": "A", "casing_l": 3, "primes_to_m": 7,
    "motor": {"rated_kW": 2.2, "efficiency_share": 0.8},
    "motor_plate": {"amps": 4.5, "phases": 1, "volts": 230},
    "curves": {
      "head": {"points": [{"flow_m3_h": 0, "head_m": 43}, {"flow_m3_h": 8, "head_m": 37.7}, {"flow_m3_h": 14, "head_m": 27}]},
      "power": {"points": [{"flow_m3_h": 0, "power_kW": 0.9}, {"flow_m3_h": 8, "power_kW": 1.4}, {"flow_m3_h": 14, "power_kW": 1.8}]}
    }
  }],
  "site": {
    "source": {"kind": "buried_tank", "levels_m": {"low": -2.4, "usual": -1.8, "high": -1.2},
               "mouth_level_m": -2.5, "floor_level_m": -2.9, "dry_run_device": "float"},
    "valve_closing_s": 2,
    "suction": [{"pipe": "suction_hose_51", "length_m": 6}],
    "delivery": [{"pipe": "pe100_sdr17_63", "length_m": 140}],
    "zones": [{"name": "Beds", "level_m": 2, "emitters": {"total_m3_h": 6, "at_kPa": 150}}]
  }
})";

Findings findingsOf(const std::string& text) {
    const JobReading read = readJobText(text, "job.json");
    EXPECT_TRUE(read.job.has_value());
    auto findings = test::analyseTyped(*read.job);
    EXPECT_TRUE(findings);
    return std::move(*findings);
}

const Study* study(const Findings& findings, const std::string& topic) {
    for (const Study& s : findings.pumps.at(0).installation) {
        if (s.topic == topic) return &s;
    }
    return nullptr;
}

bool warns(const Study* s, const std::string& code) {
    return s && std::any_of(s->cautions.begin(), s->cautions.end(),
                            [&](const Caution& c) { return c.code == code; });
}

// 0.6 mm: a fifth is 120 micron, finer than the 130 of a disc filter.
TEST(Installation, TheEmittersPassageIsReadKeptAndJudged) {
    const std::string text = with(with(kJob, R"("at_kPa": 150)", R"("at_kPa": 150, "passage_mm": 0.6)"),
                                  R"("delivery": [)", R"("delivery": [{"filter": "disc_1_1_2"}, )");
    const JobReading read = readJobText(text, "job.json");
    ASSERT_TRUE(read.job.has_value());
    ASSERT_TRUE(read.job->site.zones[0].emitters.passage);
    EXPECT_NEAR(read.job->site.zones[0].emitters.passage->inMillimetres(), 0.6, 1e-12);
    EXPECT_NE(writeJob(*read.job).find("\"passage_mm\": 0.6"), std::string::npos);
    EXPECT_TRUE(warns(study(findingsOf(text), "filter"), "filter-too-coarse"));
    EXPECT_FALSE(warns(study(findingsOf(with(text, "\"passage_mm\": 0.6", "\"passage_mm\": 0.7")), "filter"),
                       "filter-too-coarse"));
    for (const char* bad : {"0.04", "51", "\"fine\""}) {
        const JobReading refused =
            readJobText(with(text, "\"passage_mm\": 0.6", std::string("\"passage_mm\": ") + bad), "job.json");
        ASSERT_FALSE(refused.errors.empty()) << bad;
        EXPECT_EQ(refused.errors.front().place, "site.zones[0].emitters.passage_mm");
    }
}

TEST(Installation, KeysReachTheStudies) {
    const Findings findings = findingsOf(kJob);
    EXPECT_TRUE(warns(study(findings, "suction"), "mouth-too-shallow")); // 0.1 m below low water
    const Study* motor = study(findings, "motor");
    EXPECT_TRUE(warns(motor, "current-above-plate")); // some 1.3 kW/(0.8 230 V 0.95), which is 7 A
    EXPECT_NE(study(findings, "surge"), nullptr);
    EXPECT_FALSE(warns(study(findings, "suction"), "mouth-near-the-floor")); // 0.4 m above the floor
}

TEST(Installation, AKnownSystemCurveHasNoPipework) {
    std::string text = kJob;
    const std::size_t from = text.find("\"site\":");
    text = text.substr(0, from) +
           R"("site": {"system": {"static_head_m": 10, "resistance_m_per_m3_h_2": 0.2}}})";
    const Findings findings = findingsOf(text);
    EXPECT_EQ(study(findings, "suction"), nullptr);
    EXPECT_NE(study(findings, "motor"), nullptr);
}

TEST(Installation, AnUnknownRuleIsRefusedByName) {
    const JobReading read = readJobText(with(kJob, "casing_water", "casing_watr"), "job.json");
    ASSERT_EQ(read.errors.size(), 1u);
    EXPECT_EQ(read.errors[0].place, "limits.rules.casing_watr");
}

TEST(Installation, AMouthUnderTheFloorIsRefused) {
    const JobReading read =
        readJobText(with(kJob, "\"floor_level_m\": -2.9", "\"floor_level_m\": -2.4"), "job.json");
    ASSERT_EQ(read.errors.size(), 1u);
    EXPECT_EQ(read.errors[0].place, "site.source.mouth_level_m");
}

TEST(Installation, TwoPhasesAreRefused) {
    const JobReading read = readJobText(with(kJob, "\"phases\": 1", "\"phases\": 2"), "job.json");
    ASSERT_EQ(read.errors.size(), 1u);
    EXPECT_EQ(read.errors[0].place, "pumps[0].motor_plate.phases");
}

} // namespace
} // namespace headmark
