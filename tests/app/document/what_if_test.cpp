// What is tried moves the curves by what the laws say, worked out by hand.
#include "app/document/what_if.h"

#include "app/document/workspace.h"
#include "app/pages/file_pages.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

// The garden of a blank job, its water from -3 to -1 m, with an invented pump of H = 40 m - 0.5 Q² (m3/h).
class WhatIf : public testing::Test {
  protected:
    WhatIf() {
        Job job = blankWorkspace().job;
        job.site.source->low = Level::fromMetres(-3.0);
        job.site.source->high = Level::fromMetres(-1.0);
        Pump pump;
        pump.name = "invented";
        CurvePoints head;
        for (const double q : {0.0, 2.0, 4.0, 6.0, 7.0})
            head.points.push_back({Flow::fromCubicMetresPerHour(q), 40.0 - 0.5 * q * q});
        head.degree = 2;
        pump.curves[CurveQuantity::head] = head;
        job.pumps.push_back(pump);
        FilePages pages;
        ChartBook book(pages);
        auto prepared = PreparedJob::make(job, book);
        question_.prepared = std::make_shared<const PreparedJob>(std::move(prepared).value());
        question_.setting.setting.zonesOpen = {"Zone 1"};
        question_.greatest_m3_s = Flow::fromCubicMetresPerHour(4.0).inCubicMetresPerSecond();
    }

    // The system curve's last head: at the greatest flow asked for, 4 m3/h.
    double headAtFour(const WhatIfChange& change) {
        question_.change = change;
        const auto answer = whatIf(question_);
        EXPECT_TRUE(answer.ok());
        const CurvePlot curve = systemCurveOf(*answer, question_);
        EXPECT_NEAR(curve.flow_m3_s.back() * 3600.0, 4.0, 1e-6);
        return curve.value.back();
    }

    WhatIfQuestion question_;
};

TEST_F(WhatIf, AValveAddsItsLossToWhatTheSiteAsks) {
    WhatIfChange valve;
    valve.valveKv_m3_h = 5.0;
    // IEC 60534: Kv is the flow in m3/h at a loss of 1 bar, 10.197 m of water: 10.197 m (4/5)² = 6.526 m.
    EXPECT_NEAR(headAtFour(valve) - headAtFour({}), 6.526, 1e-3);
}

TEST_F(WhatIf, WaterOneMetreLowerAsksOneMetreMore) {
    WhatIfChange lower;
    lower.water = Level::fromMetres(-3.0); // usual: -2 m
    EXPECT_NEAR(headAtFour(lower) - headAtFour({}), 1.0, 1e-6);
}

TEST_F(WhatIf, ASlowerPumpFollowsTheAffinityLaws) {
    question_.change.speedShare = 0.9;
    const auto answer = whatIf(question_);
    ASSERT_TRUE(answer.ok() && answer->plot);
    // Flow with the speed, head with its square: 0.81 · 40 m at no flow, the end at 0.9 · 7 m3/h.
    EXPECT_NEAR(answer->plot->head.value.front(), 32.4, 1e-6);
    EXPECT_NEAR(answer->plot->head.flow_m3_s.back() * 3600.0, 6.3, 1e-6);
}

TEST_F(WhatIf, GivesTheJobsOwnAnswerWhereNothingIsTried) {
    const auto answer = whatIf(question_);
    ASSERT_TRUE(answer.ok() && answer->of && answer->of->duty);
    const CaseAnswer own = question_.prepared->answer(0, question_.setting.setting);
    EXPECT_EQ(answer->of->duty->flow, own.duty->flow);
    WhatIfChange same; // the level it has already, through the way of a tried one
    same.water = Level::fromMetres(-2.0);
    question_.change = same;
    const auto tried = whatIf(question_);
    ASSERT_TRUE(tried.ok() && tried->of && tried->of->duty);
    EXPECT_NEAR(tried->of->duty->flow.inCubicMetresPerHour(), own.duty->flow.inCubicMetresPerHour(), 1e-9);
}

TEST_F(WhatIf, TurnsZonesAsACaseWithThoseZonesWould) {
    Job job = question_.prepared->job();
    Zone second = job.site.zones.front();
    second.name = "Zone 2";
    second.level = Level::fromMetres(second.level.inMetres() + 3.0);
    job.site.zones.push_back(second);
    FilePages pages;
    ChartBook book(pages);
    question_.prepared = std::make_shared<const PreparedJob>(std::move(PreparedJob::make(job, book)).value());
    question_.change.zonesOpen = std::vector<std::string>{"Zone 1", "Zone 2"};
    question_.change.speedShare = 0.95;
    const auto tried = whatIf(question_);
    ASSERT_TRUE(tried.ok() && tried->of && tried->of->duty);
    const Case kept = keptCase(question_.setting.setting, question_.change, "both");
    EXPECT_EQ(kept.name, "both");
    const CaseAnswer own = question_.prepared->answer(0, kept);
    ASSERT_TRUE(own.duty);
    EXPECT_EQ(tried->of->duty->flow, own.duty->flow);
    EXPECT_EQ(tried->of->zones.size(), 2U);
    const CurvePlot triedCurve = systemCurveOf(*tried, question_);
    const CurvePlot ownCurve = question_.prepared->systemCurve(kept, question_.greatest_m3_s);
    EXPECT_EQ(triedCurve.value, ownCurve.value);
}

TEST_F(WhatIf, ACaseKeepsZonesAndSpeedButNoValveAndNoLevelBetween) {
    WhatIfChange change;
    change.zonesOpen = std::vector<std::string>{};
    change.valveKv_m3_h = 5.0;
    change.water = Level::fromMetres(-2.4);
    const Case& from = question_.setting.setting;
    const Case kept = keptCase(from, change, "shut");
    EXPECT_TRUE(kept.zonesOpen.empty());
    EXPECT_EQ(kept.level, from.level);
    EXPECT_EQ(kept.speedShare, from.speedShare);
}

TEST_F(WhatIf, LeavesTheReturnsValveAsItIsSet) {
    Job job = question_.prepared->job();
    TankReturn back;
    back.pipe = std::get<PipeItem>(job.site.delivery.front());
    back.setFlow = Flow::fromCubicMetresPerHour(0.5);
    job.site.tankReturn = back;
    FilePages pages;
    ChartBook book(pages);
    question_.prepared = std::make_shared<const PreparedJob>(std::move(PreparedJob::make(job, book)).value());
    question_.change.valveKv_m3_h = 5.0;
    const auto answer = whatIf(question_);
    ASSERT_TRUE(answer.ok());
    EXPECT_EQ(answer->tried->solver(0).returnKv_m3_h(), question_.prepared->solver(0).returnKv_m3_h());
}

TEST(ValveSteps, TightenByTheSameShareEach) {
    EXPECT_FALSE(valveKvOfStep_m3_h(0));
    const double share = *valveKvOfStep_m3_h(2) / *valveKvOfStep_m3_h(1);
    EXPECT_LT(share, 1.0);
    for (int step = 2; step < kValveSteps; ++step)
        EXPECT_NEAR(*valveKvOfStep_m3_h(step + 1) / *valveKvOfStep_m3_h(step), share, 1e-12);
}

} // namespace
} // namespace headmark
