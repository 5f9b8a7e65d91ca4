#include "analysis/job/prepared_job.h"

#include "analysis/job/analyse.h"
#include "analysis/job/job_reader.h"
#include "tests/support/no_pages.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace headmark {
namespace {

constexpr double kM3_h = 1.0 / 3600.0;

// An invented terrace with a return, a regulated zone, a compensating one and two plain ones.
const char* const kTerrace = R"({
  "format": "headmark-job", "version": 1,
  "pumps": [
    {"name": "P", "chart_speed_rpm": 2900, "run_speed_rpm": 2900,
     "motor": {"rated_kW": 3, "efficiency_share": 0.84},
     "curves": {
       "head": {"points": [{"flow_m3_h": 0, "head_m": 50}, {"flow_m3_h": 8, "head_m": 42}, {"flow_m3_h": 16, "head_m": 22}]},
       "efficiency": {"points": [{"flow_m3_h": 0, "efficiency_share": 0}, {"flow_m3_h": 8, "efficiency_share": 0.6}, {"flow_m3_h": 16, "efficiency_share": 0.4}]},
       "npsh_required": {"points": [{"flow_m3_h": 0, "npsh_required_m": 1.5}, {"flow_m3_h": 16, "npsh_required_m": 4}]}}},
    {"name": "Q", "curves": {
       "head": {"points": [{"flow_m3_h": 0, "head_m": 38}, {"flow_m3_h": 6, "head_m": 33}, {"flow_m3_h": 12, "head_m": 20}]},
       "power": {"points": [{"flow_m3_h": 0, "power_kW": 0.6}, {"flow_m3_h": 6, "power_kW": 1.0}, {"flow_m3_h": 12, "power_kW": 1.3}]}}}
  ],
  "site": {
    "source": {"kind": "buried_tank", "levels_m": {"low": -2.6, "usual": -1.8, "high": -1.0}},
    "pump_level_m": 0,
    "suction": [{"fitting": "foot_valve_poppet_strainer"}, {"pipe": "suction_hose_51", "length_m": 6}],
    "delivery": [{"filter": "disc_1_1_2"}, {"pipe": "pe100_sdr17_63", "length_m": 60, "rise_to_m": 1.0}, {"takeoff": "T1"},
                 {"pipe": "pe100_sdr17_63", "length_m": 90}],
    "tank_return": {"pipe": "ldpe_pn4_20", "length_m": 8, "set_flow_m3_h": 0.3},
    "zones": [
      {"name": "A", "takeoff": "T1", "level_m": 1, "branch": [{"pipe": "pe80_sdr11_32", "length_m": 20}],
       "emitters": {"total_m3_h": 3, "at_kPa": 150, "min_kPa": 100}},
      {"name": "B", "level_m": 11, "branch": [{"pipe": "pe80_sdr11_32", "length_m": 15}],
       "emitters": {"total_m3_h": 3, "at_kPa": 150, "min_kPa": 100}},
      {"name": "C", "level_m": 3, "branch": [{"regulator": {"set_kPa": 120}}, {"pipe": "pe80_sdr11_32", "length_m": 10}],
       "emitters": {"total_m3_h": 2, "at_kPa": 100}},
      {"name": "D", "takeoff": "T1", "level_m": 2, "branch": [{"pipe": "pe80_sdr11_32", "length_m": 10}],
       "emitters": {"count": 1000, "flow_l_h": 2, "regulated_from_kPa": 80, "regulated_to_kPa": 400}}
    ]
  },
  "cases": [
    {"name": "one", "zones_open": ["A"]},
    {"name": "high", "zones_open": ["B"], "level": "low", "filter": "service"},
    {"name": "kinked", "zones_open": ["A", "B"], "level": "high"},
    {"name": "all", "zones_open": ["A", "B", "C", "D"], "speed_share": 0.95},
    {"name": "full", "zones_open": ["D"]},
    {"name": "shut", "zones_open": []}
  ]
})";

Job jobOf(const std::string& text) {
    auto read = readJobText(text, "test.job.json");
    EXPECT_TRUE(read.job) << (read.errors.empty() ? "" : read.errors[0].code + " " + read.errors[0].place);
    return read.job.value_or(Job());
}

PreparedJob preparedOf(const Job& job) {
    test::NoPages none;
    ChartBook book(none);
    auto prepared = PreparedJob::make(job, book);
    EXPECT_TRUE(prepared);
    return std::move(prepared).value();
}

Error refusalOf(const Job& job) {
    test::NoPages none;
    ChartBook book(none);
    const auto prepared = PreparedJob::make(job, book);
    EXPECT_FALSE(prepared);
    return prepared ? Error() : prepared.error();
}

// Heads of the curve at a flow: one, or the two ends of an upright.
std::pair<double, double> headsAt(const CurvePlot& curve, double flow) {
    const double close = 1e-7 * curve.flow_m3_s.back() + 1e-12;
    double low = 1e9, high = -1e9;
    for (std::size_t i = 1; i < curve.flow_m3_s.size(); ++i) {
        const double from = curve.flow_m3_s[i - 1], to = curve.flow_m3_s[i];
        if (flow < from - close || flow > to + close) continue;
        const bool upright = to - from <= close;
        const double share = upright ? 0.0 : (flow - from) / (to - from);
        const double at = curve.value[i - 1] + share * (curve.value[i] - curve.value[i - 1]);
        low = std::min(low, at);
        high = std::max(high, upright ? curve.value[i] : at);
    }
    return {low, high};
}

TEST(PreparedJob, SystemCurveCrossesThePumpCurveAtTheDutyPoint) {
    const PreparedJob job = preparedOf(jobOf(kTerrace));
    int crossed = 0;
    for (std::size_t pump = 0; pump < job.pumps(); ++pump) {
        for (const MadeCase& c : job.cases()) {
            const CaseAnswer answer = job.answer(pump, c.setting);
            if (!answer.duty) continue;
            const double flow = answer.duty->flow.inCubicMetresPerSecond();
            const double head = answer.duty->head.inMetres();
            const CurvePlot system = job.systemCurve(c.setting, 16 * kM3_h, pump);
            const auto [low, high] = headsAt(system, flow);
            EXPECT_LE(low, head * (1.0 + 1e-4)) << pump << " " << c.setting.name;
            EXPECT_GE(high, head * (1.0 - 1e-4)) << pump << " " << c.setting.name;
            if (low < high - 1e-3 * head) continue; // an upright: it stands across the pump's curve
            EXPECT_NEAR(low, head, 1e-4 * head) << pump << " " << c.setting.name;
            ++crossed;
        }
    }
    EXPECT_GE(crossed, 8);
}

TEST(PreparedJob, SystemCurveIsTheKnownOneWhereItIsKnown) {
    Job job = jobOf(R"({"format": "headmark-job", "version": 1, "pumps": [{"curves": {"head": {"points":
        [{"flow_m3_h": 0, "head_m": 100}, {"flow_m3_h": 80, "head_m": 95}]}}}],
        "site": {"system": {"static_head_m": 80.772, "resistance_m_per_m3_h_2": 0.00458}}})");
    const CurvePlot curve = preparedOf(job).systemCurve({}, 60 * kM3_h);
    ASSERT_FALSE(curve.value.empty());
    for (std::size_t i = 0; i < curve.value.size(); ++i) {
        const double q = curve.flow_m3_s[i] / kM3_h;
        EXPECT_NEAR(curve.value[i], 80.772 + 0.00458 * q * q, 1e-6);
    }
}

TEST(PreparedJob, AnswersAsTheWholeAnalysisDoes) {
    const Job job = jobOf(kTerrace);
    const PreparedJob prepared = preparedOf(job);
    const auto whole = test::analyseTyped(job, {.intervals = false, .zonesAtOnce = false});
    ASSERT_TRUE(whole);
    ASSERT_EQ(prepared.pumps(), whole->pumps.size());
    for (std::size_t pump = 0; pump < prepared.pumps(); ++pump) {
        ASSERT_EQ(prepared.cases().size(), whole->pumps[pump].cases.size());
        for (std::size_t c = 0; c < prepared.cases().size(); ++c) {
            const CaseAnswer one = prepared.answer(pump, prepared.cases()[c].setting);
            const CaseAnswer& other = whole->pumps[pump].cases[c];
            EXPECT_EQ(one.serves, other.serves);
            EXPECT_EQ(one.cautions.size(), other.cautions.size());
            ASSERT_EQ(one.duty.has_value(), other.duty.has_value());
            if (one.duty) {
                EXPECT_EQ(one.duty->flow, other.duty->flow);
            }
        }
    }
    const auto needs = prepared.needs();
    ASSERT_EQ(needs.size(), whole->needs.size());
    for (std::size_t i = 0; i < needs.size(); ++i) {
        EXPECT_EQ(needs[i].caseName, whole->needs[i].caseName);
        EXPECT_EQ(needs[i].head, whole->needs[i].head);
    }
}

TEST(PreparedJob, KnowsItsNeedsBeforeAnyPump) {
    Job job = jobOf(kTerrace);
    job.site.tankReturn.reset();
    const auto withPumps = preparedOf(job).needs();
    job.pumps.clear();
    const PreparedJob prepared = preparedOf(job);
    EXPECT_EQ(prepared.pumps(), 0u);
    const auto needs = prepared.needs();
    ASSERT_EQ(needs.size(), 5u); // nothing is needed with every valve shut
    for (std::size_t i = 0; i < needs.size(); ++i) {
        EXPECT_EQ(needs[i].flow, withPumps[i].flow);
        EXPECT_EQ(needs[i].head, withPumps[i].head);
    }
    const CurvePlot curve = prepared.systemCurve(prepared.cases()[0].setting, 8 * kM3_h);
    const auto [low, high] = headsAt(curve, needs[0].flow.inCubicMetresPerSecond());
    EXPECT_NEAR(low, needs[0].head.inMetres(), 1e-4 * high); // one zone alone: its need lies on its curve
}

TEST(PreparedJob, AddsTheReturnsSetFlowToTheNeedBeforeAnyPump) {
    Job job = jobOf(kTerrace);
    job.pumps.clear();
    const auto with = preparedOf(job).needs();
    job.site.tankReturn.reset();
    const auto without = preparedOf(job).needs();
    ASSERT_EQ(with.size(), without.size());
    for (std::size_t i = 0; i < with.size(); ++i)
        EXPECT_NEAR((with[i].flow - without[i].flow).inCubicMetresPerHour(), 0.3, 1e-6);
}

TEST(PreparedJob, LongSectionRunsFromTheWaterToTheEmitters) {
    const PreparedJob job = preparedOf(jobOf(kTerrace));
    const Case& one = job.cases()[0].setting;
    const CaseAnswer answer = job.answer(0, one);
    ASSERT_TRUE(answer.duty);
    const auto section = job.longSection(0, one);
    ASSERT_GE(section.size(), 5u);
    EXPECT_EQ(section[0].place, "suction[0]");
    EXPECT_DOUBLE_EQ(section[0].energyBefore_m, -1.8); // the usual water level
    const LongSectionItem* hose = &section[1];
    EXPECT_EQ(hose->place, "suction[1]");
    EXPECT_DOUBLE_EQ(hose->length_m, 6.0);
    const double area_m2 = std::numbers::pi / 4.0 * 0.051 * 0.051; // bore of the hose: 51 mm
    EXPECT_NEAR(hose->velocity_m_s, answer.duty->flow.inCubicMetresPerSecond() / area_m2,
                0.02 * hose->velocity_m_s);
    double returned = 0.0, branchEnd_m = 0.0;
    for (const LongSectionItem& item : section) {
        EXPECT_NEAR(item.energyAfter_m, item.energyBefore_m - item.loss_m, 1e-9) << item.place;
        if (item.place == "pump") {
            EXPECT_NEAR(-item.loss_m, answer.duty->head.inMetres(), 1e-9);
        } else {
            EXPECT_GE(item.loss_m, -1e-12) << item.place;
        }
        if (item.place == "tank_return") returned = item.flow_m3_s;
        if (item.place == "zones[0].branch[0]") branchEnd_m = item.energyAfter_m;
    }
    EXPECT_NEAR(returned, answer.tankReturnFlow->inCubicMetresPerSecond(), 1e-12);
    // Pressure at the emitters as head over the zone's level of 1 m.
    const double kPaPerMetre = 999.1026 * 9.80665 / 1000.0;
    EXPECT_NEAR((branchEnd_m - 1.0) * kPaPerMetre, answer.zones[0].lowest.inKilopascals(), 0.05);
}

TEST(PreparedJob, LongSectionIsEmptyWithoutADuty) {
    Job job = jobOf(kTerrace);
    for (Zone& zone : job.site.zones)
        zone.level = Level::fromMetres(200.0);
    job.site.tankReturn.reset();
    const PreparedJob prepared = preparedOf(job);
    EXPECT_TRUE(prepared.longSection(0, prepared.cases()[0].setting).empty());
}

TEST(PreparedJob, PlotsTheCurvesAsTypedAndTheirBand) {
    const PreparedJob job = preparedOf(jobOf(kTerrace));
    const PumpPlot plot = job.plot(0, job.cases()[0].setting);
    EXPECT_NEAR(plot.head.value.front(), 50.0, 1e-9);
    EXPECT_NEAR(plot.head.value.back(), 22.0, 1e-9);
    EXPECT_NEAR(plot.head.flow_m3_s.back(), 16 * kM3_h, 1e-12);
    EXPECT_TRUE(plot.head.sigma.empty()); // three points are exact
    EXPECT_DOUBLE_EQ(plot.deliveredShare, 0.08);
    ASSERT_TRUE(plot.efficiency && plot.shaftPower && plot.npshRequired && plot.npshAvailable);
    // The parabola through (0, 0), (8, 0.6), (16, 0.4): eta = 0.125 q - 0.00625 q^2, greatest at 10 m3/h.
    ASSERT_TRUE(plot.preferred_m3_s);
    EXPECT_NEAR(plot.preferred_m3_s->first / kM3_h, 7.0, 1e-6);
    EXPECT_NEAR(plot.preferred_m3_s->second / kM3_h, 12.0, 1e-6);
    EXPECT_GT(plot.npshAvailable->value.front(), plot.npshAvailable->value.back());
    // P = rho g Q H / eta at 16 m3/h: 999.1 x 9.80665 x 0.0044444 x 22 / 0.4 = 2395 W.
    EXPECT_NEAR(plot.shaftPower->value.back(), 2395.0, 1.0);
    // The motor's efficiency is 84 %: 2395 / 0.84 = 2851 W.
    ASSERT_TRUE(plot.inputPower);
    EXPECT_NEAR(plot.inputPower->value.back(), 2851.0, 1.2);
}

TEST(PreparedJob, PlotsEfficiencyFromPowerWhereThatIsPrinted) {
    const PreparedJob job = preparedOf(jobOf(kTerrace));
    const PumpPlot plot = job.plot(1, job.cases()[0].setting);
    ASSERT_TRUE(plot.efficiency && plot.shaftPower);
    // rho g Q H / P at 12 m3/h: 999.1 x 9.80665 x 0.0033333 x 20 / 1300 = 0.5025.
    EXPECT_NEAR(plot.efficiency->value.back(), 0.5025, 1e-4);
    EXPECT_NEAR(plot.shaftPower->value.back(), 1300.0, 1e-6);
    EXPECT_FALSE(plot.npshRequired);
}

// Affinity laws: flow with the speed, head with its square.
TEST(PreparedJob, PlotsAtTheSpeedOfTheCase) {
    const PreparedJob job = preparedOf(jobOf(kTerrace));
    const PumpPlot plot = job.plot(0, job.cases()[3].setting);
    EXPECT_NEAR(plot.head.value.front(), 50.0 * 0.95 * 0.95, 1e-9);
    EXPECT_NEAR(plot.head.flow_m3_s.back(), 16 * 0.95 * kM3_h, 1e-12);
}

TEST(PreparedJob, WholeAnswerKnowsTheNeedsBeforeAnyPump) {
    Job job = jobOf(kTerrace);
    job.pumps.clear();
    const auto findings = test::analyseTyped(job);
    ASSERT_TRUE(findings);
    EXPECT_TRUE(findings->pumps.empty());
    EXPECT_EQ(findings->needs.size(), 5u);
}

TEST(PreparedJob, WholeAnswerStopsWhenAsked) {
    const PreparedJob prepared = preparedOf(jobOf(kTerrace));
    std::atomic<bool> stop = true;
    AnalyseOptions options;
    options.stop = &stop;
    const auto stopped = analyse(prepared, options);
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().code, "stopped");
    stop = false;
    EXPECT_TRUE(analyse(prepared, options));
}

TEST(PreparedJob, RefusesASiteWithoutAnyOutlet) {
    Job job = jobOf(kTerrace);
    job.site.zones.clear();
    EXPECT_EQ(refusalOf(job).code, "one-of-needed");
    EXPECT_EQ(refusalOf(job).place, "site");
}

TEST(PreparedJob, RefusesZonesThatNoFileCouldHold) {
    Job job = jobOf(kTerrace);
    job.site.zones[2].name = "A";
    EXPECT_EQ(refusalOf(job).code, "duplicate-name");
    EXPECT_EQ(refusalOf(job).place, "site.zones[2].name");
    job.site.zones[2].name = "C";
    job.site.zones[3].takeoff = "T9";
    EXPECT_EQ(refusalOf(job).code, "unknown-takeoff");
    EXPECT_EQ(refusalOf(job).place, "site.zones[3].takeoff");
    job = jobOf(kTerrace);
    job.site.delivery.push_back(TakeoffItem{"T1"});
    EXPECT_EQ(refusalOf(job).code, "duplicate-name");
    EXPECT_EQ(refusalOf(job).place, "site.delivery[4].takeoff");
    job = jobOf(kTerrace);
    job.cases[1].zonesOpen.push_back("E");
    EXPECT_EQ(refusalOf(job).code, "unknown-zone");
    EXPECT_EQ(refusalOf(job).place, "cases[1].zones_open[1]");
}

TEST(PreparedJob, RefusesAKnownSystemWithoutFigures) {
    Job job = jobOf(kTerrace);
    job.site.zones.clear();
    job.cases.clear();
    job.site.system = KnownSystem();
    EXPECT_EQ(refusalOf(job).code, "one-of-needed");
    EXPECT_EQ(refusalOf(job).place, "site.system");
}

} // namespace
} // namespace headmark
