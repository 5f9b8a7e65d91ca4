// The condensed verdict on sets of zones against the exact questions of CaseSolver, on invented sites.

#include "analysis/duty/zone_sets.h"

#include "support/random_nursery.h"

#include <gtest/gtest.h>

#include <bit>

#include <random>
#include <string>

namespace headmark {
namespace {

using namespace testing;

// A drive that holds a pressure between what the pump just gives and hardly any.
void holdPressure(Nursery& nursery, int round) {
    const double shutOff_m = nursery.pump.head.at(nursery.pump.head.flowOfMaximum());
    const double share = 0.35 + 0.1 * (round % 7);
    nursery.site.control = ControlKind::pressureHeld;
    nursery.site.hold = GaugePressure::fromKilopascals(9.81 * share * shutOff_m);
}

void expectAgreement(std::uint32_t seed, bool held, int fewestCondensed) {
    std::mt19937 random(seed);
    int condensed = 0, working = 0, asked = 0;
    long exact = 0;
    for (int round = 0; round < 40; ++round) {
        const int zones = 2 + round % 5;
        Nursery nursery(random, zones, kindOf(round));
        if (held) holdPressure(nursery, round);
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
        if (::testing::Test::HasFailure()) return;
    }
    EXPECT_GE(condensed, fewestCondensed); // the comparison must not be of the exact questions with themselves
    EXPECT_LT(exact, asked / 50);          // nor where it is condensed
    EXPECT_GT(working, 100);
}

TEST(ZoneSets, AgreeWithTheExactQuestions) { expectAgreement(8, false, 36); }

TEST(ZoneSets, AgreeWithTheExactQuestionsUnderADrive) { expectAgreement(13, true, 30); }

// Whatever is inherited must be so: checked set by set against every larger set around it.
void expectInheritance(std::uint32_t seed, bool held) {
    std::mt19937 random(seed);
    for (int round = 0; round < 30; ++round) {
        const int zones = 4;
        Nursery nursery(random, zones, kindOf(round));
        if (held) holdPressure(nursery, round);
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

TEST(ZoneSets, FailForGoodOnlyWhereEveryLargerSetFails) { expectInheritance(9, false); }
TEST(ZoneSets, FailForGoodUnderADriveOnlyWhereEveryLargerSetFails) { expectInheritance(14, true); }

// What is said of a whole branch must hold for every set in it, asked one by one.
void expectBounds(std::uint32_t seed, bool held) {
    std::mt19937 random(seed);
    int none = 0, all = 0, asked = 0;
    for (int round = 0; round < 60; ++round) {
        const int zones = 6 + round % 2;
        Nursery nursery(random, zones, kindOf(round));
        if (held) holdPressure(nursery, round);
        const SiteModel model = modelOf(nursery.site);
        const CaseSolver solver(model, nursery.pump, Limits{});
        const ZoneSets sets(solver);
        const ZonesAtOnceQuestion q = sets.question();
        if (!q.bound) continue;
        const ZoneMask whole = (ZoneMask{1} << static_cast<unsigned>(zones)) - 1U;
        for (int draw = 0; draw < 60; ++draw) {
            SetBranch branch;
            branch.held = std::uniform_int_distribution<ZoneMask>(0, whole)(random);
            branch.free = std::uniform_int_distribution<ZoneMask>(0, whole)(random) & ~branch.held;
            branch.heldCount = std::popcount(branch.held);
            branch.freeCount = std::popcount(branch.free);
            if (branch.freeCount < 2) continue;
            const int size =
                branch.heldCount + std::uniform_int_distribution<int>(1, branch.freeCount - 1)(random);
            const bool noneWork = q.bound(branch, size, BoundOn::noneWork).noneWork;
            const bool allWork = q.bound(branch, size, BoundOn::allWork).allWork;
            ++asked;
            none += noneWork ? 1 : 0;
            all += allWork ? 1 : 0;
            for (ZoneMask set = 1; set <= whole; ++set) {
                const bool inBranch = (set & branch.held) == branch.held &&
                                      (set & ~(branch.held | branch.free)) == 0 && std::popcount(set) == size;
                if (!inBranch || !(noneWork || allWork)) continue;
                EXPECT_EQ(sets.verdict(set).works(), allWork) << "round " << round << " set " << set;
            }
            if (::testing::Test::HasFailure()) return;
        }
    }
    EXPECT_GT(none, asked / 4); // bounds that say nothing would hold as well
    EXPECT_GT(all, asked / 50);
}

TEST(ZoneSets, BoundsHoldForEverySetOfTheirBranch) { expectBounds(12, false); }
TEST(ZoneSets, BoundsHoldUnderADriveForEverySetOfTheirBranch) { expectBounds(15, true); }

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
