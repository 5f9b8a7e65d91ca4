// The condensed verdict on sets of zones against the exact questions of CaseSolver, on invented sites.

#include "analysis/duty/zone_sets.h"

#include "support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <bit>

#include <random>
#include <string>

namespace headmark {
namespace {

using namespace testing;

struct Kind {
    bool upperLimits = false, drooping = false, chartBegins = false, laterals = false;
};

// Zones at three take-offs, on branches with and without regulators; a filter before them, sometimes a
// return.
struct Nursery {
    Site site;
    PumpModel pump;

    Nursery(std::mt19937& random, int zones, const Kind& kind) {
        const auto pick = [&](double lo, double hi) {
            return std::uniform_real_distribution<>(lo, hi)(random);
        };
        site = siteOf(sourceAt(pick(-4.0, -2.5), -2.0, pick(-1.5, 0.0)));
        site.source->levelsGiven = true;
        site.suction = {fitting(2.5, 51.0), pipe(51.0, 6.0, 0.05)};
        FilterItem filter;
        filter.loss = Pressure::fromKilopascals(pick(5.0, 20.0));
        filter.at = Flow::fromCubicMetresPerHour(8.0);
        filter.service = Pressure::fromKilopascals(pick(20.0, 50.0));
        if (pick(0, 1) < 0.3) filter.greatestFlow = Flow::fromCubicMetresPerHour(pick(8.0, 16.0));
        site.delivery = {fitting(2.0, 40.0), filter, pipe(55.4, 45.0)};
        if (pick(0, 1) < 0.2) site.delivery.emplace_back(regulator(pick(200.0, 350.0), 20.0));
        for (const char* takeoff : {"low", "middle"}) {
            site.delivery.emplace_back(TakeoffItem{takeoff});
            site.delivery.emplace_back(pipe(pick(40.0, 56.0), pick(20.0, 90.0)));
        }
        if (pick(0, 1) < 0.4) {
            TankReturn back;
            back.pipe = pipe(16.0, 6.0);
            back.setFlow = Flow::fromCubicMetresPerHour(pick(0.2, 0.8));
            site.tankReturn = back;
        }
        for (int z = 0; z < zones; ++z)
            site.zones.push_back(zone(z, pick, kind));
        const double shutOff = pick(30.0, 60.0), end = pick(9.0, 20.0);
        const double first = kind.chartBegins ? pick(0.3, 3.0) : 0.0;
        pump = pumpOf(kind.drooping
                          ? curveThrough({{first, 0.9 * shutOff}, {0.4 * end, shutOff}, {end, 0.5 * shutOff}})
                          : parabola(shutOff, 0.0, -0.55 * shutOff / (end * end), first, end));
        if (pick(0, 1) < 0.5) pump.npshRequired = parabola(1.5, 0.0, pick(1.0, 5.0) / (end * end), 0.0, end);
        if (pick(0, 1) < 0.5) {
            pump.power = parabola(700.0, pick(20.0, 80.0), 0.0, 0.0, end);
            pump.motor = Motor{Power::fromKilowatts(pick(1.0, 2.2)), Efficiency::fromShare(0.8), ""};
        }
        if (pick(0, 1) < 0.2) pump.greatestPressure = GaugePressure::fromKilopascals(pick(350.0, 600.0));
    }

    template <class Pick>
    static Zone zone(int z, Pick& pick, const Kind& kind) {
        const char* takeoffs[] = {"", "low", "middle"};
        Zone zone = zoneOf("Zone " + std::to_string(z), pick(0.6, 3.5), pick(-1.0, 12.0), takeoffs[z % 3]);
        zone.branch = {fitting(5.0, 28.0), pipe(28.0, pick(5.0, 40.0))};
        if (z % 4 == 1) zone.branch.emplace_back(regulator(pick(80.0, 200.0), pick(0.0, 30.0)));
        if (z % 4 == 3) {
            zone.emitters.law.regulatedFrom = Pressure::fromKilopascals(80.0);
            zone.emitters.law.regulatedTo = Pressure::fromKilopascals(400.0);
        }
        if (kind.laterals && z % 2 == 0) {
            Laterals l;
            l.count = 8;
            l.pipe.bore = Length::fromMillimetres(13.6);
            l.pipe.roughness = Length::fromMillimetres(0.007);
            l.length = Length::fromMetres(24.0);
            l.spacing = Length::fromMetres(0.3);
            l.slopeShare = pick(-0.03, 0.03);
            zone.laterals = l;
            zone.emitters.whole = false;
            zone.emitters.law.nominal = Flow::fromLitresPerHour(pick(1.0, 4.0));
        }
        if (z % 5 != 4) zone.emitters.least = GaugePressure::fromKilopascals(pick(60.0, 130.0));
        if (kind.upperLimits) zone.emitters.greatest = GaugePressure::fromKilopascals(pick(150.0, 320.0));
        return zone;
    }
};

Kind kindOf(int round) { return {round % 2 == 1, round % 5 == 2, round % 7 == 3, round % 3 == 2}; }

TEST(ZoneSets, AgreeWithTheExactQuestions) {
    std::mt19937 random(8);
    int condensed = 0, working = 0, asked = 0;
    long exact = 0;
    for (int round = 0; round < 40; ++round) {
        const int zones = 2 + round % 5;
        const Nursery nursery(random, zones, kindOf(round));
        const SiteModel model = modelOf(nursery.site);
        const CaseSolver solver(model, nursery.pump, round % 4 == 3 ? asPrinted() : Limits{});
        const ZoneSets sets(solver);
        condensed += sets.condensed() ? 1 : 0;
        for (ZoneMask set = 1; set < (ZoneMask{1} << static_cast<unsigned>(zones)); ++set) {
            const auto open = openZones(set, nursery.site.zones.size());
            const bool lower = solver.lowerLimitsHold(open), upper = solver.upperLimitsHold(open);
            const SetVerdict v = sets.verdict(set);
            EXPECT_EQ(v.works(), lower && upper) << "round " << round << " set " << set;
            EXPECT_EQ(v.lowerOk, lower) << "round " << round << " set " << set;
            if (v.lowerOk) {
                EXPECT_EQ(v.tooHigh == 0, upper) << "round " << round << " set " << set;
            }
            ++asked;
            working += v.works() ? 1 : 0;
        }
        if (sets.condensed()) exact += sets.exactQuestions();
        if (HasFailure()) return;
    }
    EXPECT_GE(condensed, 36);     // the comparison must not be of the exact questions with themselves
    EXPECT_LT(exact, asked / 50); // nor where it is condensed
    EXPECT_GT(working, 100);
}

// Whatever is inherited must be so: checked set by set against every larger set around it.
TEST(ZoneSets, FailForGoodOnlyWhereEveryLargerSetFails) {
    std::mt19937 random(9);
    for (int round = 0; round < 30; ++round) {
        const int zones = 4;
        const Nursery nursery(random, zones, kindOf(round));
        const SiteModel model = modelOf(nursery.site);
        const CaseSolver solver(model, nursery.pump, Limits{});
        const ZoneSets sets(solver);
        for (ZoneMask set = 1; set < 16; ++set) {
            const SetVerdict v = sets.verdict(set);
            if (v.lowerOk || !(v.failsForGood || sets.inherits())) continue;
            for (ZoneMask larger = set; larger < 16; ++larger) {
                if ((larger & set) != set) continue;
                EXPECT_FALSE(solver.lowerLimitsHold(openZones(larger, 4)))
                    << round << " " << set << " " << larger;
            }
        }
    }
}

// A filter in a branch makes the zone's draw depend on its state: not condensed, but answered.
TEST(ZoneSets, AreAskedExactlyWhereTheSiteCannotBeCondensed) {
    std::mt19937 random(10);
    Nursery nursery(random, 3, {});
    FilterItem filter;
    filter.loss = Pressure::fromKilopascals(5.0);
    filter.at = Flow::fromCubicMetresPerHour(2.0);
    filter.service = Pressure::fromKilopascals(30.0);
    nursery.site.zones[0].branch.emplace_back(filter);
    const SiteModel model = modelOf(nursery.site);
    const CaseSolver solver(model, nursery.pump, Limits{});
    const ZoneSets sets(solver);
    EXPECT_FALSE(sets.condensed());
    for (ZoneMask set = 1; set < 8; ++set) {
        const auto open = openZones(set, 3);
        EXPECT_EQ(sets.verdict(set).works(), solver.lowerLimitsHold(open) && solver.upperLimitsHold(open));
    }
    EXPECT_EQ(sets.exactQuestions(), 7);
}

TEST(ZoneSets, NoLargerSetWorksThanTheBoundSays) {
    std::mt19937 random(11);
    for (int round = 0; round < 20; ++round) {
        const Nursery nursery(random, 6, {});
        const SiteModel model = modelOf(nursery.site);
        const CaseSolver solver(model, nursery.pump, Limits{});
        const ZoneSets sets(solver);
        for (ZoneMask set = 1; set < 64; ++set) {
            if (!sets.verdict(set).works()) continue;
            EXPECT_LE(std::popcount(set), sets.mostThatCanWork());
        }
    }
}

} // namespace
} // namespace headmark
