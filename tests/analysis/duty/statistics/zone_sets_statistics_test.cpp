// Zones at once on 300 generated nurseries of up to 12 zones, half with upper limits, some drooping: the walk
// against a plain count of every set; and on each the verdict on some sets against the exact questions.

#include "analysis/duty/zone_sets.h"

#include "support/random_nursery.h"

#include <gtest/gtest.h>

#include <bit>
#include <cstdint>

namespace headmark {
namespace {

using namespace testing;

TEST(ZoneSetsStatistics, AgreeWithBruteForceOnThreeHundredNurseries) {
    std::mt19937 random(300);
    int withAnswer = 0;
    for (int round = 0; round < 300; ++round) {
        SCOPED_TRACE("round " + std::to_string(round));
        const int zones = 3 + round % 10;
        const Nursery nursery(random, zones, kindOf(round));
        const SiteModel model = modelOf(nursery.site);
        const CaseSolver solver(model, nursery.pump, Limits{});
        const ZoneSets sets(solver);
        if (!sets.condensed() && zones > 8) continue; // too slow to count
        ZonesAtOnceQuestion q;
        q.zones = zones;
        q.ask = [&](ZoneMask set) { return sets.verdict(set); };
        q.inherits = sets.inherits();
        q.upperLimits = sets.upperLimits();
        const ZonesAtOnceAnswer answer = zonesAtOnce(q);
        std::vector<long> working(static_cast<std::size_t>(zones) + 1, 0), all(working);
        const ZoneMask end = ZoneMask{1} << static_cast<unsigned>(zones);
        for (ZoneMask set = 1; set < end; ++set) {
            const auto size = static_cast<std::size_t>(std::popcount(set));
            ++all[size];
            working[size] += sets.verdict(set).works() ? 1 : 0;
        }
        int any = 0, best = 0;
        for (int n = 1; n <= zones; ++n) {
            const auto size = static_cast<std::size_t>(n);
            if (working[size] == all[size]) any = n;
            if (working[size] > 0) best = n;
        }
        EXPECT_TRUE(answer.proven);
        EXPECT_EQ(answer.anySet, any);
        EXPECT_EQ(answer.bestSet, best);
        if (best > 0) {
            EXPECT_EQ(answer.bestSetsCount, working[static_cast<std::size_t>(best)]);
        }
        withAnswer += best > 0 ? 1 : 0;
        for (int i = 0; i < 20; ++i) {
            const ZoneMask set = std::uniform_int_distribution<ZoneMask>(1, end - 1)(random);
            const auto open = openZones(set, nursery.site.zones.size());
            EXPECT_EQ(sets.verdict(set).works(), solver.lowerLimitsHold(open) && solver.upperLimitsHold(open))
                << set;
        }
        if (HasFailure()) return;
    }
    EXPECT_GT(withAnswer, 150);
}

} // namespace
} // namespace headmark
