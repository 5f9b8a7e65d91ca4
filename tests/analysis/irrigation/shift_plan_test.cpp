// Shift plans against every division of the zones, written out here, and hand-worked nights.

#include "analysis/irrigation/shift_plan.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <memory>
#include <random>
#include <string>

namespace headmark {
namespace {

// A pump of `whole` m3/h shared by the open zones in proportion to their thirst, which takes `idle` kW and
// `perFlow` kW per m3/h; sets thirstier than `most` do not work.
struct Bench {
    std::vector<double> thirst, need_m3;
    double most = 0.0, idle_kW = 0.5, perFlow_kW = 0.1;

    [[nodiscard]] std::optional<SetRun> run(ZoneMask set) const {
        double sum = 0.0;
        for (std::size_t z = 0; z < thirst.size(); ++z)
            sum += (set >> z) & 1U ? thirst[z] : 0.0;
        if (sum > most) return std::nullopt;
        const double ease = 1.0 / (1.0 + 0.3 * sum / most); // the more is drawn, the less each zone gets
        SetRun r;
        r.flow_m3_s.assign(thirst.size(), 0.0);
        for (std::size_t z = 0; z < thirst.size(); ++z)
            r.flow_m3_s[z] = (set >> z) & 1U ? thirst[z] * ease / 3600.0 : 0.0;
        r.drawn_m3_s = sum * ease / 3600.0;
        r.input_W = 1e3 * (idle_kW + perFlow_kW * sum * ease);
        return r;
    }
};

ShiftPlanQuestion questionOf(const Bench& bench) {
    ShiftPlanQuestion q;
    q.need_m3 = bench.need_m3;
    q.run = [&bench](ZoneMask set) { return bench.run(set); };
    return q;
}

// Every division of the zones into shifts, one zone after the other into each shift or a new one.
struct Exhaustive {
    const ShiftPlanQuestion& q;
    double bestMinutes = 1e300, bestEnergy = 1e300, bestShifts = 1e300;
    double best = 1e300; // in the objective

    void divide(std::vector<ZoneMask>& sets, std::size_t zone) {
        if (zone == q.need_m3.size()) return weigh(sets);
        const ZoneMask bit = ZoneMask{1} << zone;
        for (std::size_t i = 0; i < sets.size(); ++i) {
            sets[i] |= bit;
            divide(sets, zone + 1);
            sets[i] &= ~bit;
        }
        sets.push_back(bit);
        divide(sets, zone + 1);
        sets.pop_back();
    }

    void weigh(const std::vector<ZoneMask>& sets) {
        double minutes = q.delay_min * (static_cast<double>(sets.size()) - 1.0), energy = 0.0;
        for (ZoneMask set : sets) {
            const auto has = [&](int z) { return ((set >> static_cast<unsigned>(z)) & 1U) != 0; };
            if (std::popcount(set) > q.mostOpen) return;
            for (const auto& [a, b] : q.together) {
                if (has(a) != has(b)) return;
            }
            for (const auto& [a, b] : q.apart) {
                if (has(a) && has(b)) return;
            }
            const auto run = q.run(set);
            if (!run) return;
            double longest = 0.0;
            for (std::size_t z = 0; z < q.need_m3.size(); ++z) {
                if (has(static_cast<int>(z)))
                    longest = std::max(longest, q.need_m3[z] / run->flow_m3_s[z] / 60.0);
            }
            minutes += std::ceil(longest - 1e-7);
            energy += *run->input_W * std::ceil(longest - 1e-7) * 60.0;
        }
        const double value = q.objective == ShiftObjective::time     ? minutes
                             : q.objective == ShiftObjective::energy ? energy
                                                                     : static_cast<double>(sets.size());
        best = std::min(best, value);
    }
};

double valueOf(const ShiftPlanQuestion& q, const ShiftPlan& plan) {
    if (q.objective == ShiftObjective::time) return plan.total_min;
    if (q.objective == ShiftObjective::shifts) return static_cast<double>(plan.shifts.size());
    double energy = 0.0;
    for (const Shift& s : plan.shifts)
        energy += *s.energy_J();
    return energy;
}

Bench randomBench(std::mt19937& random, int zones) {
    const auto pick = [&](double lo, double hi) { return std::uniform_real_distribution<>(lo, hi)(random); };
    Bench bench;
    for (int z = 0; z < zones; ++z) {
        bench.thirst.push_back(pick(0.5, 4.0));
        bench.need_m3.push_back(pick(0.5, 6.0));
    }
    bench.most = pick(4.0, 12.0);
    bench.idle_kW = pick(0.0, 1.0);
    return bench;
}

TEST(ShiftPlan, AgreesWithEveryDivisionOfUpToSixZones) {
    std::mt19937 random(6);
    int unsolvable = 0;
    for (int i = 0; i < 240; ++i) {
        SCOPED_TRACE("plan " + std::to_string(i));
        const int zones = 1 + i % 6;
        const Bench bench = randomBench(random, zones);
        ShiftPlanQuestion q = questionOf(bench);
        q.objective = static_cast<ShiftObjective>(i % 3);
        q.delay_min = i % 2;
        if (i % 4 == 1) q.mostOpen = 2;
        if (i % 5 == 1 && zones > 2) q.apart = {{0, zones - 1}};
        if (i % 5 == 2 && zones > 2) q.together = {{1, 2}};
        Exhaustive all{q};
        std::vector<ZoneMask> sets;
        all.divide(sets, 0);
        const ShiftPlan plan = planShifts(q);
        EXPECT_TRUE(plan.proven);
        if (all.best > 1e299) {
            EXPECT_NE(plan.impossible, 0U);
            ++unsolvable;
            continue;
        }
        EXPECT_EQ(plan.impossible, 0U);
        EXPECT_NEAR(valueOf(q, plan), all.best, 1e-9 * all.best);
        ZoneMask covered = 0;
        for (const Shift& s : plan.shifts) {
            EXPECT_EQ(covered & s.zones, 0U);
            covered |= s.zones;
            for (int z = 0; z < zones; ++z) { // every zone has its need
                if (!((s.zones >> static_cast<unsigned>(z)) & 1U)) continue;
                const auto at = static_cast<std::size_t>(z);
                EXPECT_GE(s.run.flow_m3_s[at] * s.minutes * 60.0, bench.need_m3[at] * (1.0 - 1e-8));
            }
        }
        EXPECT_EQ(covered, (ZoneMask{1} << static_cast<unsigned>(zones)) - 1U);
        if (HasFailure()) return;
    }
    EXPECT_LT(unsolvable, 60);
}

// Two zones of 1 m3/h each, 2 m3 and 1 m3: 120 and 60 minutes. Together 2 m3/h is more than the 1.5 that
// work.
TEST(ShiftPlan, TakesWholeMinutesAndTheDelayBetween) {
    ShiftPlanQuestion q;
    q.need_m3 = {2.0, 1.001, 0.0};
    q.delay_min = 2;
    q.run = [](ZoneMask set) -> std::optional<SetRun> {
        if (std::popcount(set) > 1) return std::nullopt;
        SetRun r;
        r.flow_m3_s.assign(3, 1.0 / 3600.0);
        return r;
    };
    const ShiftPlan plan = planShifts(q);
    ASSERT_EQ(plan.shifts.size(), 2U); // the third needs nothing
    EXPECT_EQ(plan.shifts[0].minutes, 120);
    EXPECT_EQ(plan.shifts[1].minutes, 61); // 60.06
    EXPECT_EQ(plan.total_min, 183);
    EXPECT_FALSE(plan.shifts[0].energy_J().has_value());
}

TEST(ShiftPlan, NamesTheZonesThatCannotRun) {
    Bench bench{{1.0, 9.0, 2.0}, {1.0, 1.0, 1.0}, 5.0};
    const ShiftPlanQuestion q = questionOf(bench);
    const ShiftPlan plan = planShifts(q);
    EXPECT_EQ(plan.impossible, 0b010U);
    ASSERT_EQ(plan.shifts.size(), 1U);
    EXPECT_EQ(plan.shifts[0].zones, 0b101U);
}

TEST(ShiftPlan, NamesZonesWhosePairsContradict) {
    Bench bench{{1.0, 1.0, 1.0}, {1.0, 1.0, 1.0}, 5.0};
    ShiftPlanQuestion q = questionOf(bench);
    q.together = {{0, 1}};
    q.apart = {{0, 1}};
    const ShiftPlan plan = planShifts(q);
    EXPECT_EQ(plan.impossible, 0b011U);
}

TEST(ShiftPlan, SaysItsGapBeyondTheZonesItProves) {
    std::mt19937 random(30);
    for (int i = 0; i < 10; ++i) {
        Bench bench = randomBench(random, 24);
        ShiftPlanQuestion q = questionOf(bench);
        q.mostDelivered_m3_s = bench.most / 3600.0; // no set that works draws more
        const ShiftPlan plan = planShifts(q);
        EXPECT_FALSE(plan.proven);
        EXPECT_EQ(plan.impossible, 0U);
        double needs_m3 = 0.0;
        ZoneMask covered = 0;
        for (double need : bench.need_m3)
            needs_m3 += need;
        for (const Shift& s : plan.shifts)
            covered |= s.zones;
        EXPECT_EQ(covered, (ZoneMask{1} << 24U) - 1U);
        const double bound_min = needs_m3 / bench.most * 60.0;
        EXPECT_NEAR(plan.gapShare, (plan.total_min - bound_min) / plan.total_min, 1e-9);
        EXPECT_LT(plan.gapShare, 0.6);
    }
}

// Not proven, but not far off: where the exact search can look too.
TEST(ShiftPlan, IsNotFarFromTheLeastBeyondTheZonesItProves) {
    std::mt19937 random(31);
    for (int i = 0; i < 6; ++i) {
        // Twelve zones, exact; then a thirteenth that needs a minute and fits nowhere else than alone.
        Bench bench = randomBench(random, 12);
        const ShiftPlan exact = planShifts(questionOf(bench));
        bench.thirst.push_back(bench.most);
        bench.need_m3.push_back(bench.most / 1.3 / 60.0 * 0.99);
        const ShiftPlan found = planShifts(questionOf(bench));
        EXPECT_GE(found.total_min, exact.total_min + 1);
        EXPECT_LE(found.total_min, 1.15 * (exact.total_min + 1));
    }
}

Shift shiftOf(int minutes, double drawn_m3_h) {
    Shift s;
    s.minutes = minutes;
    s.run.drawn_m3_s = drawn_m3_h / 3600.0;
    return s;
}

// By hand: 5 m3 at first; 60 min at 4 m3/h less 1 m3/h leave 2; a minute of rest adds 1/60; 60 min at 3 m3/h
// net 2 m3/h take 2 of 2 + 1/60.
TEST(TankNight, CountsWhatIsDrawnAndWhatFlowsIn) {
    const TankNight night = tankNight({shiftOf(60, 4.0), shiftOf(60, 3.0)}, {6.0, 5.0, 1.0 / 3600.0, 1});
    EXPECT_FALSE(night.dry_min);
    ASSERT_EQ(night.points.size(), 4U);
    EXPECT_NEAR(night.points[1].left_m3, 2.0, 1e-9);
    EXPECT_NEAR(night.points[2].left_m3, 2.0 + 1.0 / 60.0, 1e-9);
    EXPECT_NEAR(night.points[3].left_m3, 1.0 / 60.0, 1e-9);
    EXPECT_NEAR(night.points[3].minute, 121.0, 1e-9);
}

// 3 m3 at 6 m3/h are gone after 30 minutes; 3 m3 are missing at the end of the hour.
TEST(TankNight, SaysWhenItRunsDry) {
    const TankNight night = tankNight({shiftOf(60, 6.0)}, {10.0, 3.0, 0.0, 0});
    ASSERT_TRUE(night.dry_min);
    EXPECT_NEAR(*night.dry_min, 30.0, 1e-9);
    EXPECT_NEAR(night.short_m3, 3.0, 1e-9);
    EXPECT_NEAR(night.points.back().left_m3, 0.0, 1e-12);
}

TEST(TankNight, DoesNotFillBeyondFull) {
    const TankNight night = tankNight({shiftOf(60, 1.0)}, {5.0, 4.9, 2.0 / 3600.0, 0});
    EXPECT_EQ(night.points.back().left_m3, 5.0);
}

} // namespace
} // namespace headmark
