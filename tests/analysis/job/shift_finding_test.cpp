// The shift plan of a whole job: what the keys of the controller and the source do to it.

#include "analysis/job/shift_finding.h"

#include "analysis/job/analyse.h"
#include "analysis/job/job_reader.h"
#include "analysis/job/job_writer.h"
#include "tests/support/no_pages.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace headmark {
namespace {

// Three zones of about 3, 3 and 4 m3/h on a level site; the pump gives two of them at once.
std::string jobText(const std::string& controller, const std::string& source) {
    return R"({"format": "headmark-job", "version": 1, "energy": {"price_per_kWh": 0.3}, "pumps": [{"name": "P, \"1\"",
      "curves": {"head": {"points": [{"flow_m3_h": 0, "head_m": 36}, {"flow_m3_h": 5, "head_m": 32},
        {"flow_m3_h": 10, "head_m": 22}]},
      "efficiency": {"points": [{"flow_m3_h": 0, "efficiency_share": 0}, {"flow_m3_h": 5, "efficiency_share": 0.5},
        {"flow_m3_h": 10, "efficiency_share": 0.55}]}}, "motor": {"rated_kW": 2.2, "efficiency_share": 0.8}}],
      "site": {"source": {"levels_m": {"low": -1.5, "usual": -1, "high": -0.5})" +
           source + R"(}, "delivery": [{"pipe": {"bore_mm": 55, "roughness_mm": 0.01}, "length_m": 30}],
      "controller": {"stations": 4, "window": ["23:00", "05:00"])" +
           controller + R"(}, "zones": [
        {"name": "A", "level_m": 0, "emitters": {"total_m3_h": 3, "at_kPa": 200, "min_kPa": 160}, "need_m3_per_day": 6},
        {"name": "B", "level_m": 0, "emitters": {"total_m3_h": 3, "at_kPa": 200, "min_kPa": 160}, "need_m3_per_day": 5},
        {"name": "C", "level_m": 0, "emitters": {"total_m3_h": 4, "at_kPa": 200, "min_kPa": 160}, "area_m2": 500, "need_mm_per_day": 8}
      ]}})";
}

ShiftPlanFinding planOf(const std::string& controller, const std::string& source = "") {
    JobReading r = readJobText(jobText(controller, source), "test.job.json");
    EXPECT_TRUE(r.job.has_value()) << (r.errors.empty() ? "" : r.errors[0].code + " " + r.errors[0].place);
    const auto found = test::analyseTyped(*r.job, {.intervals = false});
    EXPECT_TRUE(found.ok() && found->pumps[0].shiftPlan);
    return *found->pumps[0].shiftPlan;
}

std::vector<std::vector<std::string>> setsOf(const ShiftPlanFinding& plan) {
    std::vector<std::vector<std::string>> sets;
    for (const auto& s : plan.shifts)
        sets.push_back(s.zones);
    return sets;
}

const Caution* cautionOf(const ShiftPlanFinding& plan, const std::string& code) {
    const auto at = std::find_if(plan.cautions.begin(), plan.cautions.end(),
                                 [&](const Caution& c) { return c.code == code; });
    return at == plan.cautions.end() ? nullptr : &*at;
}

TEST(ShiftFinding, GivesEveryZoneItsNeedInWholeMinutesFromTheWindowsBeginning) {
    const ShiftPlanFinding plan = planOf(R"(, "start_delay_s": 20)");
    EXPECT_TRUE(plan.proven);
    ASSERT_FALSE(plan.shifts.empty());
    EXPECT_EQ(plan.shifts.front().start, "23:00");
    const double needs_m3[] = {6.0, 5.0, 4.0}; // 500 m2 times 8 mm
    std::vector<double> given(3, 0.0);
    int at = 0;
    for (const auto& s : plan.shifts) {
        EXPECT_EQ(s.beginMinute, at);
        at += s.minutes + 1; // 20 s count as a minute
        for (const auto& station : s.stations)
            given[static_cast<std::size_t>(station.station) - 1] +=
                station.flow.inCubicMetresPerHour() * s.minutes / 60.0;
    }
    for (std::size_t z = 0; z < 3; ++z)
        EXPECT_GE(given[z], needs_m3[z] - 1e-6);
    EXPECT_NEAR(plan.total.inMinutes(), at - 1, 1e-9);
    double energy_kWh = 0.0;
    for (const auto& s : plan.shifts)
        energy_kWh += s.energy_kWh.value();
    EXPECT_NEAR(plan.totalEnergy_kWh.value(), energy_kWh, 1e-9);
    EXPECT_NEAR(plan.cost.value(), 0.3 * energy_kWh, 1e-9);
}

// Every shift is what the whole computation says of its set.
TEST(ShiftFinding, EveryShiftServesAsACase) {
    JobReading r = readJobText(jobText("", ""), "test.job.json");
    ASSERT_TRUE(r.job);
    const ShiftPlanFinding plan = planOf("");
    Job job = *r.job;
    job.casesGiven = true;
    for (const auto& s : plan.shifts) {
        for (const WaterLevel level : {WaterLevel::usual, WaterLevel::low, WaterLevel::high})
            job.cases.push_back(Case{"shift", s.zones, level, FilterState::clean, 1.0});
    }
    const auto found = test::analyseTyped(job, {.intervals = false, .zonesAtOnce = false});
    ASSERT_TRUE(found.ok());
    for (std::size_t i = 0; i < found->pumps[0].cases.size(); ++i) {
        const CaseAnswer& a = found->pumps[0].cases[i];
        EXPECT_TRUE(a.serves);
        if (i % 3 != 0) continue;
        double flow_m3_h = 0.0;
        for (const ZoneAnswer& z : a.zones)
            flow_m3_h += z.flow.inCubicMetresPerHour();
        EXPECT_NEAR(flow_m3_h, plan.shifts[i / 3].flow.inCubicMetresPerHour(), 1e-6);
    }
}

TEST(ShiftFinding, KeepsPairsTogetherAndApart) {
    EXPECT_EQ(setsOf(planOf(R"(, "apart": [["A", "B", "C"]])")),
              (std::vector<std::vector<std::string>>{{"A"}, {"B"}, {"C"}}));
    const auto together = setsOf(planOf(R"(, "together": [["A", "C"]])"));
    EXPECT_EQ(together, (std::vector<std::vector<std::string>>{{"A", "C"}, {"B"}}));
}

TEST(ShiftFinding, OpensNoMoreValvesThanTheController) {
    for (const auto& set : setsOf(planOf(R"(, "valves_at_once": 1)")))
        EXPECT_EQ(set.size(), 1U);
}

TEST(ShiftFinding, SaysWhenThePlanDoesNotFitTheWindow) {
    JobReading r = readJobText(jobText(R"(, "valves_at_once": 1)", ""), "test.job.json");
    ASSERT_TRUE(r.job);
    r.job->site.controller->window = std::pair<std::string, std::string>("23:30", "00:30");
    const auto found = test::analyseTyped(*r.job, {.intervals = false});
    ASSERT_TRUE(found.ok());
    const ShiftPlanFinding& plan = *found->pumps[0].shiftPlan;
    EXPECT_FALSE(plan.fitsWindow);
    const Caution* beyond = cautionOf(plan, "beyond-window");
    ASSERT_NE(beyond, nullptr);
    EXPECT_EQ(std::get<double>(findFact(beyond->values, "window_min")->value), 60.0); // over midnight
    EXPECT_EQ(std::get<std::string>(findFact(beyond->values, "ends")->value),
              timeOfMinutes(23 * 60 + 30 + plan.total.inMinutes()));
}

// The tank holds 12 m3 between -0.5 m and -1.5 m; at the usual -1 m it is half full: 6 of the 15 m3 needed.
// A and B need twice the time of C when they run together with it.
TEST(ShiftFinding, SaysWhereAZoneGetsMuchMoreThanItNeeds) {
    const ShiftPlanFinding plan = planOf(R"(, "together": [["A", "C"]])");
    const Caution* caution = cautionOf(plan, "more-than-needed");
    ASSERT_NE(caution, nullptr);
    EXPECT_EQ(std::get<std::string>(findFact(caution->values, "zone")->value), "C");
    double given_m3 = 0.0;
    for (const auto& s : plan.shifts)
        given_m3 += s.flow.inCubicMetresPerHour() * s.minutes / 60.0;
    EXPECT_NEAR(std::get<double>(findFact(caution->values, "all_given_m3")->value), given_m3, 1e-9);
    EXPECT_NEAR(std::get<double>(findFact(caution->values, "all_need_m3")->value), 15.0, 1e-9);
    EXPECT_EQ(cautionOf(planOf(R"(, "apart": [["A", "B", "C"]])"), "more-than-needed"), nullptr);
}

TEST(ShiftFinding, SaysWhenTheTankRunsDry) {
    const ShiftPlanFinding plan = planOf("", R"(, "volume_m3": 12)");
    ASSERT_FALSE(plan.tank.empty());
    EXPECT_NEAR(plan.tank.front().left.inCubicMetres(), 6.0, 1e-9);
    EXPECT_EQ(plan.tank.front().time, "23:00");
    const Caution* dry = cautionOf(plan, "tank-runs-dry");
    ASSERT_NE(dry, nullptr);
    double drawn_m3 = 0.0;
    for (const auto& s : plan.shifts)
        drawn_m3 += s.flow.inCubicMetresPerHour() * s.minutes / 60.0;
    EXPECT_NEAR(std::get<double>(findFact(dry->values, "short_m3")->value), drawn_m3 - 6.0, 1e-6);
    EXPECT_EQ(cautionOf(planOf("", R"(, "volume_m3": 60)"), "tank-runs-dry"), nullptr);
}

TEST(ShiftFinding, WritesALineForEveryStation) {
    JobReading r = readJobText(jobText("", ""), "test.job.json");
    ASSERT_TRUE(r.job);
    const auto found = test::analyseTyped(*r.job, {.intervals = false});
    ASSERT_TRUE(found.ok());
    const std::string csv = shiftsCsv(*found);
    EXPECT_TRUE(csv.starts_with("pump,shift,start,station,zone,minutes,flow_m3_h\r\n"));
    EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 1 + 3);
    EXPECT_NE(csv.find("\"P, \"\"1\"\"\",1,23:00,1,A,"), std::string::npos) << csv;
}

TEST(ShiftFinding, KeepsTheControllersKeysWhenWritten) {
    const std::string keys = R"(, "objective": "energy", "together": [["A", "B"]], "apart": [["B", "C"]])";
    JobReading first = readJobText(jobText(keys, ""), "test.job.json");
    ASSERT_TRUE(first.job);
    const std::string written = writeJob(*first.job);
    JobReading again = readJobText(written, "test.job.json");
    ASSERT_TRUE(again.job);
    EXPECT_EQ(again.job->site.controller->objective, ShiftObjective::energy);
    EXPECT_EQ(again.job->site.controller->together, first.job->site.controller->together);
    EXPECT_EQ(again.job->site.controller->apart, (std::vector<std::vector<std::string>>{{"B", "C"}}));
}

TEST(ShiftFinding, RefusesPairsOfZonesThatAreNotThere) {
    const JobReading r = readJobText(jobText(R"(, "apart": [["A", "D"], ["B"]])", ""), "test.job.json");
    EXPECT_FALSE(r.job);
    ASSERT_EQ(r.errors.size(), 2U);
    EXPECT_EQ(r.errors[0].code, "unknown-zone");
    EXPECT_EQ(r.errors[0].place, "site.controller.apart[0][1]");
    EXPECT_EQ(r.errors[1].code, "wrong-length");
}

TEST(ShiftFinding, TellsTheTimeOverMidnight) {
    EXPECT_EQ(timeOfMinutes(23 * 60 + 59 + 2), "00:01");
    EXPECT_EQ(minutesOfTime("03:10"), 190);
    EXPECT_EQ(minutesOfTime("24:00"), 1440);
}

} // namespace
} // namespace headmark
