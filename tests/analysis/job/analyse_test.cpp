// The front door as a whole: zones at once against plain enumeration of every set in every corner, made
// cases, laws between cases, and answers that must not depend on how a job is written.
#include "analysis/job/analyse.h"

#include "analysis/job/job_reader.h"
#include "analysis/job/made_cases.h"
#include "tests/support/no_pages.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <sstream>

namespace headmark {
namespace {

Job jobOf(const std::string& text) {
    JobReading r = readJobText(text, "test.job.json");
    EXPECT_TRUE(r.job.has_value()) << (r.errors.empty() ? "" : r.errors[0].code + " " + r.errors[0].place);
    return r.job.value_or(Job{});
}

// A random nursery: zones at several take-offs and levels, some with upper limits, some compensating.
std::string randomJob(std::mt19937& random, int zones, bool upperLimits, bool drooping) {
    const auto pick = [&](double lo, double hi) { return std::uniform_real_distribution<>(lo, hi)(random); };
    std::ostringstream j;
    const double shutOff = pick(25, 60), end = pick(9, 22);
    j << R"({"format": "headmark-job", "version": 1, "pumps": [{"name": "P", "curves": {"head": {"points": [)"
      << R"({"flow_m3_h": 0, "head_m": )" << (drooping ? shutOff * 0.9 : shutOff) << R"(}, {"flow_m3_h": )"
      << end * 0.5 << R"(, "head_m": )" << shutOff * (drooping ? 0.92 : 0.85) << R"(}, {"flow_m3_h": )" << end
      << R"(, "head_m": )" << shutOff * 0.45 << "}]}, "
      << R"("npsh_required": {"points": [{"flow_m3_h": 0, "npsh_required_m": 1.5}, {"flow_m3_h": )" << end
      << R"(, "npsh_required_m": )" << pick(3, 6) << R"(}]}}}], "site": {"source": {"kind": "buried_tank", )"
      << R"("levels_m": {"low": -3.2, "usual": -2, "high": -0.8}}, "pump_level_m": 0, )"
      << R"("suction": [{"fitting": "foot_valve_poppet_strainer"}, {"pipe": "suction_hose_51", "length_m": 6}], )"
      << R"("delivery": [{"filter": "disc_1_1_2"}, {"pipe": "pe100_sdr17_63", "length_m": 40}, {"takeoff": "T1"}, )"
      << R"({"pipe": "pe100_sdr17_63", "length_m": )" << pick(20, 120) << R"(}], "zones": [)";
    for (int z = 0; z < zones; ++z) {
        const double flow = pick(0.8, 4.0);
        j << (z ? ", " : "") << R"({"name": "Z)" << z << R"(", "level_m": )" << pick(-1, 12)
          << (z % 2 ? R"(, "takeoff": "T1")" : "")
          << R"(, "branch": [{"fitting": "solenoid_valve", "size": "1"}, )"
          << R"({"pipe": "pe80_sdr11_32", "length_m": )" << pick(5, 40) << R"(}], "emitters": )";
        if (z % 3 == 2) {
            j << R"({"count": )" << static_cast<int>(flow * 500)
              << R"(, "flow_l_h": 2, "regulated_from_kPa": 80, )"
              << R"("regulated_to_kPa": )" << (upperLimits ? 260 : 600) << "}}";
        } else {
            j << R"({"total_m3_h": )" << flow << R"(, "at_kPa": 150, "min_kPa": )" << pick(60, 140);
            if (upperLimits) j << R"(, "max_kPa": )" << pick(180, 330);
            j << "}}";
        }
    }
    j << "]}}";
    return j.str();
}

// Every set, at every level and filter state, by the same verdict that a single case gets.
struct Plain {
    int anySet = 0, bestSet = 0;
    long bestCount = 0;
    std::vector<int> every;
};

Plain enumerate(const Job& job) {
    Job cases = job;
    cases.cases.clear();
    cases.casesGiven = true;
    const std::size_t n = job.site.zones.size();
    for (unsigned set = 1; set < (1U << n); ++set) {
        for (const WaterLevel level : {WaterLevel::low, WaterLevel::usual, WaterLevel::high}) {
            for (const FilterState filter : {FilterState::clean, FilterState::service}) {
                Case c;
                c.name = std::to_string(set);
                for (std::size_t z = 0; z < n; ++z) {
                    if ((set >> z) & 1U) c.zonesOpen.push_back(job.site.zones[z].name);
                }
                c.level = level;
                c.filter = filter;
                cases.cases.push_back(c);
            }
        }
    }
    const auto found = test::analyseTyped(cases, {.intervals = false, .zonesAtOnce = false});
    EXPECT_TRUE(found.ok());
    Plain plain;
    std::vector<long> working(n + 1, 0), all(n + 1, 0);
    for (std::size_t i = 0; i < found->pumps[0].cases.size(); i += 6) {
        bool works = true;
        for (std::size_t k = 0; k < 6; ++k)
            works = works && found->pumps[0].cases[i + k].serves;
        const std::size_t size = cases.cases[i].zonesOpen.size();
        ++all[size];
        if (works) ++working[size];
    }
    for (std::size_t size = 1; size <= n; ++size) {
        if (working[size] > 0) {
            plain.bestSet = static_cast<int>(size);
            plain.bestCount = working[size];
        }
        if (working[size] == all[size]) {
            plain.anySet = static_cast<int>(size);
            plain.every.push_back(static_cast<int>(size));
        }
    }
    return plain;
}

TEST(Analyse, ZonesAtOnceAgreeWithEnumeratingEverySetInEveryCorner) {
    std::mt19937 random(20260401);
    int withAnswer = 0;
    for (int round = 0; round < 60; ++round) {
        const int zones = 2 + round % 4;
        const std::string text = randomJob(random, zones, round % 2 == 1, round % 5 == 4);
        const Job job = jobOf(text);
        const auto found = test::analyseTyped(job, {.intervals = false});
        ASSERT_TRUE(found.ok());
        const ZonesAtOnceFinding& z = *found->pumps[0].zonesAtOnce;
        const Plain plain = enumerate(job);
        EXPECT_TRUE(z.proven);
        EXPECT_EQ(z.anySet, plain.anySet) << "round " << round << "\n" << text;
        EXPECT_EQ(z.bestSet, plain.bestSet) << "round " << round << "\n" << text;
        EXPECT_EQ(z.bestSetsCount, plain.bestCount) << "round " << round << "\n" << text;
        EXPECT_EQ(z.everyChoiceWorksFor, plain.every) << "round " << round << "\n" << text;
        if (z.bestSet > 0) ++withAnswer;
    }
    EXPECT_GT(withAnswer, 15); // the comparison must not be of nothing with nothing
}

TEST(Analyse, LimitsNameWhatALargerSetBreaks) {
    std::mt19937 random(7);
    for (int round = 0; round < 20; ++round) {
        const auto found =
            test::analyseTyped(jobOf(randomJob(random, 4, false, false)), {.intervals = false});
        ASSERT_TRUE(found.ok());
        const ZonesAtOnceFinding& z = *found->pumps[0].zonesAtOnce;
        EXPECT_TRUE(z.anySet == 4 || !z.limits.empty()) << round;
    }
}

TEST(Analyse, SixteenZonesAreProven) {
    std::mt19937 random(16);
    const auto found = test::analyseTyped(jobOf(randomJob(random, 16, true, false)), {.intervals = false});
    ASSERT_TRUE(found.ok());
    EXPECT_TRUE(found->pumps[0].zonesAtOnce->proven);
}

TEST(Analyse, AnswersDoNotDependOnTheDatum) {
    std::mt19937 random(3);
    Job job = jobOf(randomJob(random, 3, false, false));
    const auto before = test::analyseTyped(job);
    const Head up = Head::fromMetres(137.0);
    job.site.pumpLevel = job.site.pumpLevel + up;
    job.site.source->low = job.site.source->low + up;
    job.site.source->usual = job.site.source->usual + up;
    job.site.source->high = job.site.source->high + up;
    for (Zone& z : job.site.zones)
        z.level = z.level + up;
    const auto after = test::analyseTyped(job);
    ASSERT_TRUE(before.ok() && after.ok());
    for (std::size_t i = 0; i < before->pumps[0].cases.size(); ++i) {
        const auto& a = before->pumps[0].cases[i].duty;
        const auto& b = after->pumps[0].cases[i].duty;
        ASSERT_EQ(a.has_value(), b.has_value());
        if (!a) continue;
        // 1e-9: the solver's residual tolerance in m over heads of tens of m
        EXPECT_NEAR(a->flow.inCubicMetresPerHour(), b->flow.inCubicMetresPerHour(), 1e-7);
        EXPECT_NEAR(a->head.inMetres(), b->head.inMetres(), 1e-7);
    }
}

TEST(Analyse, ReturnPassesItsSetFlowWithEveryZoneShutAndUsualWater) {
    std::mt19937 random(11);
    Job job = jobOf(randomJob(random, 2, false, false));
    TankReturn back;
    back.pipe.kind = PipeKind{"", Length::fromMillimetres(20), Length::fromMillimetres(0.01), {}, {}, true};
    back.pipe.length = Length::fromMetres(8);
    back.setFlow = Flow::fromCubicMetresPerHour(0.3);
    job.site.tankReturn = back;
    job.casesGiven = true;
    job.cases = {Case{"shut", {}, WaterLevel::usual, FilterState::clean, 1.0}};
    const auto found = test::analyseTyped(job);
    ASSERT_TRUE(found.ok());
    const CaseAnswer& shut = found->pumps[0].cases[0];
    ASSERT_TRUE(shut.duty && shut.tankReturnFlow);
    EXPECT_NEAR(shut.tankReturnFlow->inCubicMetresPerHour(), 0.3, 1e-7);
    EXPECT_NEAR(shut.duty->flow.inCubicMetresPerHour(), 0.3, 1e-7);
}

TEST(Analyse, ShutValvesWithoutReturnAreSaidToHarmThePump) {
    std::mt19937 random(12);
    Job job = jobOf(randomJob(random, 2, false, false));
    const auto found = test::analyseTyped(job);
    ASSERT_TRUE(found.ok());
    const auto& cases = found->pumps[0].cases;
    const auto shut = std::find_if(cases.begin(), cases.end(),
                                   [](const CaseAnswer& a) { return a.name == "no valve open"; });
    ASSERT_NE(shut, cases.end());
    EXPECT_FALSE(shut->serves);
    EXPECT_TRUE(std::any_of(shut->cautions.begin(), shut->cautions.end(),
                            [](const Caution& c) { return c.code == "no-flow"; }));
}

// The contract asks for no more than a pump's head curve and an outlet.
TEST(Analyse, TheSmallestJobsAreAnswered) {
    const std::string pump =
        R"({"format": "headmark-job", "version": 1, "pumps": [{"name": "P", "curves": {"head": )"
        R"({"points": [{"flow_m3_h": 0, "head_m": 30}, {"flow_m3_h": 10, "head_m": 10}]}, )"
        R"("npsh_required": {"points": [{"flow_m3_h": 0, "npsh_required_m": 2}, )"
        R"({"flow_m3_h": 10, "npsh_required_m": 4}]}}}], "site": )";
    // 30 - 2 Q = 10 + 0.2 Q^2 (m, m3/h): Q = (-2 + sqrt(4 + 16)) / 0.4 = 6.180340
    const auto known = test::analyseTyped(
        jobOf(pump + R"({"system": {"static_head_m": 10, "resistance_m_per_m3_h_2": 0.2}}})"));
    ASSERT_TRUE(known.ok() && known->pumps[0].cases[0].duty);
    EXPECT_NEAR(known->pumps[0].cases[0].duty->flow.inCubicMetresPerHour(), 6.180340, 1e-6);
    // No source: the water stands at 0 m and nothing is said of the suction. No pipe: 30 - 2 Q = 12.
    const auto end = test::analyseTyped(jobOf(pump + R"({"end": {"level_m": 12}}})"));
    ASSERT_TRUE(end.ok() && end->pumps[0].cases[0].duty);
    EXPECT_NEAR(end->pumps[0].cases[0].duty->flow.inCubicMetresPerHour(), 9.0, 1e-5);
    EXPECT_FALSE(end->pumps[0].cases[0].npsh.has_value());
    const auto& cautions = end->pumps[0].cases[0].cautions;
    EXPECT_TRUE(std::any_of(cautions.begin(), cautions.end(),
                            [](const Caution& c) { return c.code == "source-level-assumed"; }));
}

TEST(Analyse, NoNeedIsStatedWhereARegulatorKeepsTheZoneTooLow) {
    Job job = jobOf(
        R"({"format": "headmark-job", "version": 1, "pumps": [{"name": "P", "curves": {"head": {"points": [)"
        R"({"flow_m3_h": 0, "head_m": 50}, {"flow_m3_h": 10, "head_m": 30}]}}}], "site": {"zones": [)"
        R"({"name": "Z", "level_m": 0, "branch": [{"regulator": {"set_kPa": 60}}], "emitters": )"
        R"({"total_m3_h": 3, "at_kPa": 100, "min_kPa": 80}}]}})");
    const auto held = test::analyseTyped(job);
    ASSERT_TRUE(held.ok());
    EXPECT_TRUE(held->needs.empty());
    const Caution& first = held->pumps[0].cases[0].cautions.front();
    EXPECT_EQ(first.code, "pressure-low");
    EXPECT_EQ(first.remedy, "set-the-regulator-higher");
    std::get<RegulatorItem>(job.site.zones[0].branch[0]).set = GaugePressure::fromKilopascals(120);
    const auto free = test::analyseTyped(job);
    ASSERT_TRUE(free.ok());
    EXPECT_FALSE(free->needs.empty());
}

TEST(MadeCases, KeepTheHarmfulOnesAndSayHowManyWereDropped) {
    std::mt19937 random(5);
    const Job job = jobOf(randomJob(random, 30, false, false));
    const std::vector<std::vector<std::string>> proposed(20, {"Z0", "Z1"});
    const MadeCases made = madeCases(job.site, proposed);
    EXPECT_EQ(made.cases.size(), kMostMadeCases);
    EXPECT_EQ(made.dropped, 30U + 20U + 2U - kMostMadeCases);
    EXPECT_TRUE(made.cases.back().fillingEmptyMain);
    EXPECT_TRUE(made.cases[made.cases.size() - 2].setting.zonesOpen.empty());
}

// Without sets at once: each zone alone, no valve open, and the filling where there is a main.
TEST(Analyse, SaysHowManyMadeCasesWereDropped) {
    const auto dropped = [](std::size_t zones) -> std::optional<std::int64_t> {
        Job job = jobOf(
            R"({"format": "headmark-job", "version": 1, "pumps": [{"name": "P", "curves": {"head": {"points": [)"
            R"({"flow_m3_h": 0, "head_m": 50}, {"flow_m3_h": 10, "head_m": 30}]}}}], "site": {"zones": [)"
            R"({"name": "Z", "level_m": 0, "emitters": {"total_m3_h": 3, "at_kPa": 100}}]}})");
        const Zone zone = job.site.zones[0];
        job.site.zones.assign(zones, zone);
        for (std::size_t i = 0; i < zones; ++i)
            job.site.zones[i].name = "Z" + std::to_string(i);
        AnalyseOptions options;
        options.zonesAtOnce = options.intervals = options.installation = false;
        const auto found = test::analyseTyped(job, options);
        EXPECT_TRUE(found.ok());
        for (const Caution& c : found->pumps[0].cautions) {
            if (c.code == "cases-dropped")
                return std::get<std::int64_t>(findFact(c.values, "dropped")->value);
        }
        return std::nullopt;
    };
    EXPECT_EQ(dropped(kMostMadeCases - 1), std::nullopt); // with "no valve open" just as many as are kept
    EXPECT_EQ(dropped(kMostMadeCases), 1);
}

TEST(MadeCases, HoldTheShiftsAtUsualWaterWithACleanFilter) {
    std::mt19937 random(5);
    Job job = jobOf(randomJob(random, 4, false, false));
    job.site.source->low = Level::fromMetres(-3.0);
    job.site.source->usual = Level::fromMetres(-2.0);
    job.site.source->high = Level::fromMetres(-1.0);
    const MadeCases made = madeCases(job.site, {{"Z0", "Z2"}}, {{"Z0", "Z2"}, {"Z1"}, {"Z3"}});
    ASSERT_EQ(made.cases.size(), 4U + 1U + 3U + 2U);
    const Case& first = made.cases[5].setting;
    EXPECT_EQ(first.name, "shift 1 (Z0 + Z2), usual water, clean filter");
    EXPECT_EQ(first.zonesOpen, (std::vector<std::string>{"Z0", "Z2"}));
    EXPECT_EQ(first.level, WaterLevel::usual);
    EXPECT_EQ(first.filter, FilterState::clean);
}

// With one water level a shift of one zone is that zone alone again; a set is the same only without a filter.
TEST(MadeCases, HoldNoShiftTwice) {
    std::mt19937 random(5);
    Job job = jobOf(randomJob(random, 4, false, false));
    job.site.source->low = job.site.source->high = job.site.source->usual;
    std::erase_if(job.site.delivery, [](const RunItem& i) { return std::holds_alternative<FilterItem>(i); });
    const std::vector<std::vector<std::string>> shifts{{"Z2", "Z0"}, {"Z1"}, {"Z0", "Z3"}};
    const auto shiftsIn = [&] {
        std::vector<std::vector<std::string>> found;
        for (const MadeCase& c : madeCases(job.site, {{"Z0", "Z2"}}, shifts).cases) {
            if (c.setting.name.starts_with("shift")) found.push_back(c.setting.zonesOpen);
        }
        return found;
    };
    EXPECT_EQ(shiftsIn(), (std::vector<std::vector<std::string>>{{"Z0", "Z3"}}));
    job.site.delivery.insert(job.site.delivery.begin(), FilterItem{});
    EXPECT_EQ(shiftsIn(), (std::vector<std::vector<std::string>>{{"Z2", "Z0"}, {"Z0", "Z3"}}));
}

TEST(MadeCases, DropSingleZonesBeforeShifts) {
    std::mt19937 random(5);
    const Job job = jobOf(randomJob(random, 30, false, false));
    const std::vector<std::vector<std::string>> proposed(20, {"Z0", "Z1"});
    std::vector<std::vector<std::string>> shifts;
    for (int i = 0; i < 29; ++i)
        shifts.push_back({"Z" + std::to_string(i), "Z" + std::to_string(i + 1)});
    const MadeCases made = madeCases(job.site, proposed, shifts);
    EXPECT_EQ(made.cases.size(), kMostMadeCases);
    EXPECT_EQ(made.dropped, 30U + 20U + 29U + 2U - kMostMadeCases);
    EXPECT_EQ(made.cases[20].setting.zonesOpen, shifts[0]);  // no single zone is left
    EXPECT_EQ(made.cases[37].setting.zonesOpen, shifts[17]); // the first of the shifts are
    EXPECT_TRUE(made.cases.back().fillingEmptyMain);
}

// One note for all the valves of a case: the one with the least, and the others by name.
TEST(Analyse, SlackZoneValvesShareOneNote) {
    const Job job = jobOf(R"({"format": "headmark-job", "version": 1,
      "pumps": [{"name": "P", "curves": {"head": {"points": [{"flow_m3_h": 0, "head_m": 40}, {"flow_m3_h": 8, "head_m": 30}, {"flow_m3_h": 12, "head_m": 20}]}}}],
      "site": {"source": {"levels_m": {"usual": 0}}, "zones": [
        {"name": "North", "level_m": 0, "branch": [{"fitting": "solenoid_valve", "size": "1"}], "emitters": {"total_m3_h": 1.0, "at_kPa": 200}},
        {"name": "Middle", "level_m": 0, "branch": [{"fitting": "solenoid_valve", "size": "1"}], "emitters": {"total_m3_h": 0.5, "at_kPa": 200}},
        {"name": "South", "level_m": 0, "branch": [{"fitting": "solenoid_valve", "size": "1"}], "emitters": {"total_m3_h": 4.0, "at_kPa": 200}}]},
      "cases": [{"name": "all", "zones_open": ["North", "Middle", "South"]}, {"name": "one", "zones_open": ["North"]}]})");
    const auto found = test::analyseTyped(job);
    ASSERT_TRUE(found.ok());
    const auto slackOf = [&](std::size_t c) {
        std::vector<Caution> slack;
        for (const Caution& one : found->pumps[0].cases[c].cautions) {
            if (one.code == "zone-valve-slack") slack.push_back(one);
        }
        return slack;
    };
    const auto all = slackOf(0), one = slackOf(1);
    ASSERT_EQ(all.size(), 1U);
    EXPECT_EQ(std::get<std::string>(findFact(all[0].values, "zone")->value), "Middle");
    EXPECT_EQ(std::get<std::string>(findFact(all[0].values, "other_zones")->value), "\"North\"");
    ASSERT_EQ(one.size(), 1U);
    EXPECT_EQ(findFact(one[0].values, "other_zones"), nullptr);
}

TEST(MadeCases, CoverEveryZoneAloneAtHighWater) {
    std::mt19937 random(5);
    const Job job = jobOf(randomJob(random, 4, false, false));
    const MadeCases made = madeCases(job.site, {{"Z0", "Z2"}});
    ASSERT_EQ(made.cases.size(), 4U + 1U + 2U);
    for (std::size_t z = 0; z < 4; ++z) {
        EXPECT_EQ(made.cases[z].setting.zonesOpen, std::vector<std::string>{job.site.zones[z].name});
        EXPECT_EQ(made.cases[z].setting.level, WaterLevel::high);
        EXPECT_EQ(made.cases[z].setting.filter, FilterState::clean);
    }
    EXPECT_EQ(made.cases[4].setting.level, WaterLevel::low);
    EXPECT_EQ(made.cases[4].setting.filter, FilterState::service);
}

// A zone that no set takes in is not called served for its high water alone.
TEST(MadeCases, TryAZoneOutsideEverySetAtLowWaterToo) {
    std::mt19937 random(5);
    const Job job = jobOf(randomJob(random, 4, false, false));
    const MadeCases made = madeCases(job.site, {{"Z0", "Z2"}}, {}, true);
    ASSERT_EQ(made.cases.size(), 4U + 1U + 2U + 2U);
    for (const std::size_t i : {5u, 6u}) {
        EXPECT_EQ(made.cases[i].setting.zonesOpen, std::vector<std::string>{i == 5 ? "Z1" : "Z3"});
        EXPECT_EQ(made.cases[i].setting.level, WaterLevel::low);
        EXPECT_EQ(made.cases[i].setting.filter, FilterState::service);
    }
}

} // namespace
} // namespace headmark
