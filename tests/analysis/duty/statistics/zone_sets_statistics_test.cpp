// Zones at once on 300 generated nurseries of 3 to 12 zones, half with upper limits, some drooping: the
// answer against a count of every set by the full hydraulics (the pipe tree solved in every corner, nothing
// condensed, nothing inherited).

#include "analysis/duty/zone_sets.h"

#include "support/random_nursery.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <bit>
#include <cstdint>

namespace headmark {
namespace {

using namespace testing;

struct Counted {
    int any = 0, best = 0;
    std::vector<int> everyChoice;
    std::vector<ZoneMask> bestSets; // in job order: by their first zone, then by their second, and so on
};

bool inJobOrder(ZoneMask a, ZoneMask b) {
    const ZoneMask differ = a ^ b;
    return (a & (differ & (~differ + 1U))) != 0; // who holds the first zone that only one of them holds
}

Counted countEverySet(const CaseSolver& solver, int zones) {
    std::vector<std::vector<ZoneMask>> working(static_cast<std::size_t>(zones) + 1);
    std::vector<std::size_t> all(working.size(), 0);
    for (ZoneMask set = 1; set < (ZoneMask{1} << static_cast<unsigned>(zones)); ++set) {
        const auto size = static_cast<std::size_t>(std::popcount(set));
        const auto open = openZones(set, static_cast<std::size_t>(zones));
        ++all[size];
        if (solver.lowerLimitsHold(open) && solver.upperLimitsHold(open)) working[size].push_back(set);
    }
    Counted c;
    for (int n = 1; n <= zones; ++n) {
        const auto size = static_cast<std::size_t>(n);
        if (!working[size].empty()) c.best = n;
        if (working[size].size() != all[size]) continue;
        c.everyChoice.push_back(n);
        c.any = n;
    }
    if (c.best == 0) return c;
    c.bestSets = std::move(working[static_cast<std::size_t>(c.best)]);
    std::sort(c.bestSets.begin(), c.bestSets.end(), inJobOrder);
    return c;
}

// Few jobs with many zones, since each zone more doubles the count.
int zonesOf(int round) {
    constexpr int kUsual = 6; // 3 to 8
    if (round % 60 == 59) return 12;
    if (round % 30 == 14) return 11;
    if (round % 15 == 7) return 10;
    if (round % 10 == 3) return 9;
    return 3 + round % kUsual;
}

TEST(ZoneSetsStatistics, AgreeWithBruteForceOnThreeHundredNurseries) {
    std::mt19937 random(300);
    int withAnswer = 0, condensed = 0, drooping = 0, gaps = 0;
    for (int round = 0; round < 300; ++round) {
        SCOPED_TRACE("round " + std::to_string(round));
        const int zones = zonesOf(round);
        const Kind kind = kindOf(round);
        const Nursery nursery(random, zones, kind);
        const SiteModel model = modelOf(nursery.site);
        const CaseSolver solver(model, nursery.pump, Limits{});
        const ZoneSets sets(solver);
        const ZonesAtOnceAnswer answer = zonesAtOnce(sets.question());
        const Counted counted = countEverySet(solver, zones);
        EXPECT_TRUE(answer.proven);
        EXPECT_EQ(answer.anySet, counted.any);
        EXPECT_EQ(answer.everyChoiceWorksFor, counted.everyChoice);
        EXPECT_EQ(answer.bestSet, counted.best);
        EXPECT_TRUE(answer.bestSetsCounted);
        EXPECT_EQ(answer.bestSetsCount, static_cast<long>(counted.bestSets.size()));
        auto first = counted.bestSets;
        first.resize(std::min<std::size_t>(first.size(), 20)); // as many as the findings list
        EXPECT_EQ(answer.bestSets, first);
        withAnswer += counted.best > 0 ? 1 : 0;
        condensed += sets.condensed() ? 1 : 0;
        drooping += kind.drooping ? 1 : 0;
        gaps += static_cast<int>(counted.everyChoice.size()) < counted.any ? 1 : 0;
        if (HasFailure()) return;
    }
    // The jobs must be worth asking: answers, bounds in use, sizes that fail below sizes that work.
    EXPECT_GT(withAnswer, 150);
    EXPECT_GT(condensed, 240);
    EXPECT_GT(drooping, 40);
    RecordProperty("sizes_skipped", gaps);
}

} // namespace
} // namespace headmark
