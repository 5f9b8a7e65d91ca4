// Zones at once against a plain count of every set, written here, on random questions.

#include "analysis/irrigation/zones_at_once.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <functional>
#include <random>
#include <set>
#include <string>
#include <vector>

namespace headmark {
namespace {

// A question as two: are the lower limits of a set kept, and which zones have too much pressure in it?
using LowerOk = std::function<bool(ZoneMask)>;
using TooHigh = std::function<ZoneMask(ZoneMask)>;

ZonesAtOnceQuestion questionOf(int zones, LowerOk lowerOk, TooHigh tooHigh = {}) {
    ZonesAtOnceQuestion q;
    q.zones = zones;
    q.upperLimits = static_cast<bool>(tooHigh);
    q.ask = [=](ZoneMask set) {
        SetVerdict v;
        v.lowerOk = lowerOk(set);
        if (tooHigh) v.tooHigh = tooHigh(set);
        return v;
    };
    return q;
}

// Not known in which zone the pressure is too high.
TooHigh somewhere(std::function<bool(ZoneMask)> upperOk) {
    return [=](ZoneMask set) { return upperOk(set) ? ZoneMask{0} : kTooHighSomewhere; };
}

bool workingIn(const ZonesAtOnceQuestion& q, ZoneMask set) {
    return q.ask(set).works() && std::popcount(set) <= q.mostOpen;
}

std::vector<int> zonesOf(ZoneMask set) {
    std::vector<int> zones;
    for (int i = 0; i < 64; ++i) {
        if ((set >> static_cast<unsigned>(i)) & 1U) zones.push_back(i);
    }
    return zones;
}

// Masks of `sets` as lists of zone numbers in job order, which is the order of the lists as words.
std::vector<std::vector<int>> inWords(const std::vector<ZoneMask>& sets) {
    std::vector<std::vector<int>> words;
    for (ZoneMask set : sets)
        words.push_back(zonesOf(set));
    return words;
}

struct Count {
    int anySet = 0, bestSet = 0;
    std::vector<int> everyChoice;
    std::vector<std::vector<int>> best, failingLarger; // all, in job order
};

Count countEverySet(const ZonesAtOnceQuestion& q) {
    Count count;
    std::vector<std::vector<std::vector<int>>> works(static_cast<std::size_t>(q.zones) + 1), fails = works;
    for (ZoneMask set = 1; set < (ZoneMask{1} << static_cast<unsigned>(q.zones)); ++set) {
        (workingIn(q, set) ? works : fails)[static_cast<std::size_t>(std::popcount(set))].push_back(
            zonesOf(set));
    }
    for (int n = 1; n <= q.zones; ++n) {
        const auto size = static_cast<std::size_t>(n);
        if (fails[size].empty()) {
            count.anySet = n;
            count.everyChoice.push_back(n);
        }
        if (!works[size].empty()) {
            count.bestSet = n;
            count.best = works[size];
        }
    }
    if (count.anySet < q.zones) count.failingLarger = fails[static_cast<std::size_t>(count.anySet) + 1];
    std::sort(count.best.begin(), count.best.end());
    std::sort(count.failingLarger.begin(), count.failingLarger.end());
    return count;
}

std::vector<std::vector<int>> firstTwenty(std::vector<std::vector<int>> sets) {
    if (sets.size() > 20) sets.resize(20);
    return sets;
}

void expectAgrees(const ZonesAtOnceQuestion& q) {
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    const Count count = countEverySet(q);
    EXPECT_TRUE(answer.proven);
    EXPECT_EQ(answer.anySet, count.anySet);
    EXPECT_EQ(answer.everyChoiceWorksFor, count.everyChoice);
    EXPECT_EQ(answer.bestSet, count.bestSet);
    EXPECT_EQ(answer.anySetAtMost, count.anySet);
    EXPECT_EQ(answer.bestSetAtMost, count.bestSet);
    EXPECT_EQ(answer.bestSetsCount, static_cast<long>(count.best.size()));
    EXPECT_EQ(inWords(answer.bestSets), firstTwenty(count.best));
    EXPECT_EQ(inWords(answer.failingLarger), firstTwenty(count.failingLarger));
}

// A pump of falling head on zones of unequal thirst: lower limits fail once the sum passes a bound (or once
// zones that share a thin branch meet); each zone's upper limit passes once the sum passes a bound of its
// own.
ZonesAtOnceQuestion monotone(std::mt19937& random, bool upperLimits, bool zonesKnown = true) {
    const int zones = std::uniform_int_distribution<int>(1, 12)(random);
    std::uniform_real_distribution<double> thirst(0.2, 2.0);
    std::vector<double> draw;
    double sum = 0.0;
    for (int i = 0; i < zones; ++i)
        sum += draw.emplace_back(thirst(random));
    const double most = sum * std::uniform_real_distribution<double>(0.0, 1.2)(random);
    // What must be open with each zone lest its pressure be too high.
    std::uniform_real_distribution<double> company(-0.3, 0.7);
    std::vector<double> least;
    for (int i = 0; i < zones; ++i)
        least.push_back(upperLimits ? sum * company(random) : 0.0);
    std::vector<ZoneMask> quarrels;
    for (int i = std::uniform_int_distribution<int>(0, 3)(random); i > 0; --i) {
        std::uniform_int_distribution<unsigned> zone(0, static_cast<unsigned>(zones) - 1U);
        quarrels.push_back((ZoneMask{1} << zone(random)) | (ZoneMask{1} << zone(random)) |
                           (ZoneMask{1} << zone(random)));
    }
    const auto total = [draw](ZoneMask set) {
        double s = 0.0;
        for (int i : zonesOf(set))
            s += draw[static_cast<std::size_t>(i)];
        return s;
    };
    const LowerOk lowerOk = [=](ZoneMask set) {
        return total(set) <= most && std::none_of(quarrels.begin(), quarrels.end(), [&](ZoneMask quarrel) {
                   return (set & quarrel) == quarrel;
               });
    };
    const TooHigh tooHigh = [=](ZoneMask set) {
        ZoneMask high = 0;
        for (int i : zonesOf(set)) {
            if (total(set) < least[static_cast<std::size_t>(i)])
                high |= ZoneMask{1} << static_cast<unsigned>(i);
        }
        return zonesKnown || high == 0 ? high : kTooHighSomewhere;
    };
    return questionOf(zones, lowerOk, upperLimits ? tooHigh : TooHigh{});
}

TEST(ZonesAtOnce, AgreesWithCountingEverySetWhereAnswersAreInherited) {
    std::mt19937 random(1);
    for (int i = 0; i < 300; ++i) {
        SCOPED_TRACE("question " + std::to_string(i));
        ZonesAtOnceQuestion q = monotone(random, i % 2 == 1, i % 4 != 3);
        if (i % 3 == 2) q.mostOpen = std::uniform_int_distribution<int>(1, 12)(random);
        expectAgrees(q);
        if (HasFailure()) return;
    }
}

TEST(ZonesAtOnce, AgreesWithCountingEverySetWhereNothingIsInherited) {
    std::mt19937 random(2);
    for (int i = 0; i < 100; ++i) {
        SCOPED_TRACE("question " + std::to_string(i));
        const int zones = std::uniform_int_distribution<int>(1, 9)(random);
        // Sets that work at random, the more surely the odder the draw: plateaus at any size occur.
        std::vector<bool> lower(std::size_t{1} << static_cast<unsigned>(zones)), upper(lower.size());
        const double chance = std::uniform_real_distribution<double>(0.5, 1.0)(random);
        for (std::size_t set = 0; set < lower.size(); ++set) {
            lower[set] = std::bernoulli_distribution(chance)(random);
            upper[set] = std::bernoulli_distribution(std::sqrt(chance))(random);
        }
        ZonesAtOnceQuestion q = questionOf(
            zones, [&](ZoneMask set) { return lower[set]; },
            somewhere([&](ZoneMask set) { return upper[set]; }));
        q.inherits = false;
        expectAgrees(q);
        if (HasFailure()) return;
    }
}

// Zones of unequal thirst on a pump that gives `most`; each zone has too much pressure while less than its
// own `enough` is drawn. A bound on branches by the least and the greatest sums, worked out anew here.
struct Thirst {
    std::vector<double> draw, enough;
    double most = 0.0;

    [[nodiscard]] double sum(ZoneMask set) const {
        double s = 0.0;
        for (int z : zonesOf(set))
            s += draw[static_cast<std::size_t>(z)];
        return s;
    }
    [[nodiscard]] std::pair<double, double> sums(const SetBranch& b, int size) const {
        std::vector<double> free;
        for (int z : zonesOf(b.free))
            free.push_back(draw[static_cast<std::size_t>(z)]);
        std::sort(free.begin(), free.end());
        double least = sum(b.held), greatest = least;
        for (int k = 0; k < size - b.heldCount; ++k) {
            least += free[static_cast<std::size_t>(k)];
            greatest += free[free.size() - 1 - static_cast<std::size_t>(k)];
        }
        return {least, greatest};
    }
    [[nodiscard]] ZonesAtOnceQuestion question(bool upper) const {
        ZonesAtOnceQuestion q = questionOf(
            static_cast<int>(draw.size()), [*this](ZoneMask set) { return sum(set) <= most; },
            upper ? TooHigh([*this](ZoneMask set) {
                ZoneMask high = 0;
                for (int z : zonesOf(set)) {
                    if (sum(set) < enough[static_cast<std::size_t>(z)])
                        high |= ZoneMask{1} << static_cast<unsigned>(z);
                }
                return high;
            })
                  : TooHigh{});
        q.bound = [*this, upper](const SetBranch& b, int size, BoundOn on) {
            const auto [least, greatest] = sums(b, size);
            SetBound bound;
            if (on != BoundOn::allWork) bound.noneWork = least > most;
            if (on != BoundOn::noneWork) bound.allWork = greatest <= most;
            for (int z : zonesOf(b.held | b.free)) {
                const double wanted = upper ? enough[static_cast<std::size_t>(z)] : 0.0;
                if (least < wanted) bound.allWork = false;
                const bool held = ((b.held >> static_cast<unsigned>(z)) & 1U) != 0;
                if (on != BoundOn::allWork && held && greatest < wanted) bound.noneWork = true;
            }
            return bound;
        };
        q.burden = draw;
        return q;
    }
};

Thirst randomThirst(std::mt19937& random, int zones) {
    const auto pick = [&](double lo, double hi) { return std::uniform_real_distribution<>(lo, hi)(random); };
    Thirst t;
    for (int z = 0; z < zones; ++z) {
        t.draw.push_back(z % 3 == 2 ? 1.5 : pick(0.5, 4.0)); // some alike
        t.enough.push_back(pick(0.0, 6.0));
    }
    t.most = pick(2.0, 3.0 * zones);
    return t;
}

TEST(ZonesAtOnce, AgreesWithCountingEverySetWhereABoundIsKnown) {
    std::mt19937 random(77);
    for (int round = 0; round < 200; ++round) {
        SCOPED_TRACE("round " + std::to_string(round));
        const Thirst t = randomThirst(random, 1 + round % 11);
        ZonesAtOnceQuestion q = t.question(round % 2 == 1);
        if (round % 5 == 3) q.mostOpen = 3;
        expectAgrees(q);
        EXPECT_TRUE(zonesAtOnce(q).bestSetsCounted);
        if (HasFailure()) return;
    }
}

TEST(ZonesAtOnce, BracketsTheTruthWhereABoundIsKnownButFewQuestionsAllowed) {
    std::mt19937 random(78);
    int cut = 0, uncounted = 0;
    for (int round = 0; round < 60; ++round) {
        SCOPED_TRACE("round " + std::to_string(round));
        const Thirst t = randomThirst(random, 12);
        ZonesAtOnceQuestion q = t.question(round % 2 == 1);
        q.mostQuestions = 20 + 4 * round;
        const ZonesAtOnceAnswer answer = zonesAtOnce(q);
        const Count count = countEverySet(q);
        EXPECT_LE(answer.questions, q.mostQuestions + 24); // a found set of each size is looked at once more
        EXPECT_LE(answer.anySet, count.anySet);
        EXPECT_GE(answer.anySetAtMost, count.anySet);
        EXPECT_LE(answer.bestSet, count.bestSet);
        EXPECT_GE(answer.bestSetAtMost, count.bestSet);
        for (ZoneMask set : answer.bestSets)
            EXPECT_TRUE(workingIn(q, set));
        if (answer.proven) {
            EXPECT_EQ(answer.everyChoiceWorksFor, count.everyChoice);
            EXPECT_EQ(answer.bestSet, count.bestSet);
            EXPECT_LE(answer.bestSetsCount, static_cast<long>(count.best.size()));
            if (!answer.bestSetsCounted) ++uncounted;
        } else {
            ++cut;
        }
    }
    EXPECT_GT(cut, 5);
    EXPECT_GT(uncounted, 0);
}

TEST(ZonesAtOnce, AsksLessWhereAnswersAreInherited) {
    // The first two zones never go together.
    ZonesAtOnceQuestion q = questionOf(6, [](ZoneMask set) { return (set & 0b11) != 0b11; });
    const ZonesAtOnceAnswer few = zonesAtOnce(q);
    q.inherits = false;
    const ZonesAtOnceAnswer all = zonesAtOnce(q);
    EXPECT_EQ(few.bestSets, all.bestSets);
    EXPECT_EQ(few.bestSetsCount, all.bestSetsCount);
    EXPECT_EQ(all.questions, 63); // every set
    EXPECT_LE(few.questions, 21); // a third of them
}

TEST(ZonesAtOnce, CountsTheQuestionsItAsks) {
    std::mt19937 random(4);
    ZonesAtOnceQuestion q = monotone(random, true);
    const auto ask = q.ask;
    long asked = 0;
    q.ask = [&](ZoneMask set) { return ++asked, ask(set); };
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    EXPECT_GT(asked, 0);
    EXPECT_EQ(answer.questions, asked);
}

TEST(ZonesAtOnce, KeepsToTheValvesOfTheController) {
    ZonesAtOnceQuestion q = questionOf(7, [](ZoneMask) { return true; });
    q.mostOpen = 3;
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    EXPECT_EQ(answer.anySet, 3);
    EXPECT_EQ(answer.everyChoiceWorksFor, (std::vector<int>{1, 2, 3}));
    EXPECT_EQ(answer.bestSet, 3);
    EXPECT_EQ(answer.bestSetsCount, 35); // 7 choose 3
    EXPECT_TRUE(answer.proven);
}

// The third zone stands low and is over its limit in every company; sets without it say nothing of it.
TEST(ZonesAtOnce, DoesNotInheritAnUpperLimitForAZoneThatWasShut) {
    ZonesAtOnceQuestion q = questionOf(
        3, [](ZoneMask) { return true; }, [](ZoneMask set) { return set & 0b100; });
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    EXPECT_EQ(answer.anySet, 0);
    EXPECT_EQ(answer.bestSet, 2);
    EXPECT_EQ(answer.bestSets, (std::vector<ZoneMask>{0b011}));
}

// One zone alone leaves the pressure too high; two at once bring it down.
TEST(ZonesAtOnce, TakesAnySetLiterallyWhereMoreWorkButFewerDoNot) {
    ZonesAtOnceQuestion q = questionOf(
        4, [](ZoneMask set) { return std::popcount(set) <= 3; },
        somewhere([](ZoneMask set) { return std::popcount(set) >= 2; }));
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    EXPECT_EQ(answer.anySet, 3);
    EXPECT_EQ(answer.everyChoiceWorksFor, (std::vector<int>{2, 3}));
    EXPECT_EQ(answer.bestSet, 3);
    EXPECT_EQ(answer.bestSetsCount, 4); // 4 choose 3
    EXPECT_EQ(answer.failingLarger, (std::vector<ZoneMask>{0b1111}));
}

TEST(ZonesAtOnce, SkipsASizeThatFailsBetweenSizesThatWork) {
    ZonesAtOnceQuestion q =
        questionOf(5, [](ZoneMask set) { return std::popcount(set) != 2 && std::popcount(set) != 5; });
    q.inherits = false; // only a drooping curve can do this
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    EXPECT_EQ(answer.everyChoiceWorksFor, (std::vector<int>{1, 3, 4}));
    EXPECT_EQ(answer.anySet, 4);
    EXPECT_EQ(answer.bestSet, 4);
}

TEST(ZonesAtOnce, ListsSetsInJobOrder) {
    ZonesAtOnceQuestion q = questionOf(4, [](ZoneMask set) { return std::popcount(set) <= 2; });
    const std::vector<std::vector<int>> byHand{{0, 1}, {0, 2}, {0, 3}, {1, 2}, {1, 3}, {2, 3}};
    EXPECT_EQ(inWords(zonesAtOnce(q).bestSets), byHand);
}

TEST(ZonesAtOnce, ListsAtMostTwentySetsButCountsAll) {
    ZonesAtOnceQuestion q = questionOf(10, [](ZoneMask set) { return std::popcount(set) <= 5; });
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    EXPECT_EQ(answer.bestSets.size(), 20U);
    EXPECT_EQ(answer.bestSetsCount, 252);        // 10 choose 5
    EXPECT_EQ(answer.failingLarger.size(), 20U); // of 10 choose 6
    EXPECT_EQ(zonesOf(answer.bestSets.front()), (std::vector<int>{0, 1, 2, 3, 4}));
    EXPECT_EQ(std::set<ZoneMask>(answer.bestSets.begin(), answer.bestSets.end()).size(), 20U);
}

TEST(ZonesAtOnce, SaysNoneWhereNoZoneWorks) {
    ZonesAtOnceQuestion q = questionOf(3, [](ZoneMask) { return false; });
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    EXPECT_EQ(answer.anySet, 0);
    EXPECT_EQ(answer.bestSet, 0);
    EXPECT_TRUE(answer.bestSets.empty());
    EXPECT_EQ(answer.bestSetsCount, 0);
    EXPECT_TRUE(answer.proven);
    EXPECT_LE(answer.questions, 6); // what fails alone fails in company
    EXPECT_EQ(inWords(answer.failingLarger), (std::vector<std::vector<int>>{{0}, {1}, {2}}));
}

TEST(ZonesAtOnce, AnswersNoZonesWithNothing) {
    const ZonesAtOnceAnswer answer = zonesAtOnce({});
    EXPECT_EQ(answer.anySet, 0);
    EXPECT_EQ(answer.bestSet, 0);
    EXPECT_TRUE(answer.proven);
}

TEST(ZonesAtOnce, DecidesSixteenZonesWithTheUsualAllowance) {
    ZonesAtOnceQuestion q = questionOf(
        16, [](ZoneMask set) { return std::popcount(set) <= 11; },
        somewhere([](ZoneMask set) { return std::popcount(set) >= 3; }));
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    EXPECT_TRUE(answer.proven);
    EXPECT_EQ(answer.anySet, 11);
    EXPECT_EQ(answer.everyChoiceWorksFor, (std::vector<int>{3, 4, 5, 6, 7, 8, 9, 10, 11}));
    EXPECT_EQ(answer.bestSetsCount, 4368); // 16 choose 11
}

TEST(ZonesAtOnce, GivesATrueBracketWhenItsQuestionsRunOut) {
    std::mt19937 random(5);
    int unproven = 0;
    for (int i = 0; i < 300; ++i) {
        ZonesAtOnceQuestion q = monotone(random, i % 2 == 1);
        q.inherits = i % 3 != 0;
        const Count count = countEverySet(q);
        q.mostQuestions = std::uniform_int_distribution<long>(0, 60)(random);
        const ZonesAtOnceAnswer answer = zonesAtOnce(q);
        SCOPED_TRACE("question " + std::to_string(i));
        unproven += answer.proven ? 0 : 1;
        EXPECT_LE(answer.questions, q.mostQuestions + 2 * q.zones); // a question more for every size
        EXPECT_LE(answer.anySet, count.anySet);
        EXPECT_GE(answer.anySetAtMost, count.anySet);
        EXPECT_LE(answer.bestSet, count.bestSet);
        EXPECT_GE(answer.bestSetAtMost, count.bestSet);
        if (answer.proven) {
            EXPECT_EQ(answer.anySet, count.anySet);
            EXPECT_EQ(answer.anySetAtMost, count.anySet);
            EXPECT_EQ(answer.bestSet, count.bestSet);
            EXPECT_EQ(answer.bestSetAtMost, count.bestSet);
            EXPECT_EQ(inWords(answer.bestSets), firstTwenty(count.best));
        }
        for (ZoneMask set : answer.bestSets)
            EXPECT_TRUE(workingIn(q, set));
        if (HasFailure()) return;
    }
    EXPECT_GT(unproven, 50);
}

TEST(ZonesAtOnce, BracketsMoreZonesThanItCanDecide) {
    ZonesAtOnceQuestion q = questionOf(22, [](ZoneMask set) { return std::popcount(set) <= 9; });
    q.mostQuestions = 20000;
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    EXPECT_FALSE(answer.proven);
    EXPECT_GE(answer.anySet, 1);
    EXPECT_LE(answer.anySet, 9);
    EXPECT_GE(answer.anySetAtMost, 9);
    EXPECT_LE(answer.bestSet, 9);
    EXPECT_GE(answer.bestSetAtMost, 9);
}

// Far more sets than questions: what can be shown from single sets and sizes still stands.
TEST(ZonesAtOnce, GivesATightBracketForFortyTwoZones) {
    ZonesAtOnceQuestion q =
        questionOf(42, [](ZoneMask set) { return (set & 0b11) != 0b11 && std::popcount(set) <= 7; });
    q.mostQuestions = 20000;
    q.mostThatCanWork = 8;
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    EXPECT_FALSE(answer.proven);
    EXPECT_EQ(answer.anySet, 1);
    EXPECT_EQ(answer.anySetAtMost, 1); // the first two zones never go together
    EXPECT_EQ(answer.bestSet, 7);
    EXPECT_LE(answer.bestSetAtMost, 8);
}

TEST(ZonesAtOnce, DecidesManyZonesWhereFewRunTogether) {
    ZonesAtOnceQuestion q = questionOf(60, [](ZoneMask set) { return std::popcount(set) <= 2; });
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    EXPECT_TRUE(answer.proven);
    EXPECT_EQ(answer.anySet, 2);
    EXPECT_EQ(answer.bestSet, 2);
    EXPECT_EQ(answer.bestSetsCount, 1770); // 60 choose 2
}

TEST(ZonesAtOnce, LeavesOpenWhatAMaskCannotHold) {
    ZonesAtOnceQuestion q;
    q.zones = kMostMaskedZones + 1;
    q.mostOpen = 1000;
    q.mostThatCanWork = 1000;
    q.ask = [](ZoneMask) { return SetVerdict{}; };
    const ZonesAtOnceAnswer answer = zonesAtOnce(q);
    EXPECT_FALSE(answer.proven);
    EXPECT_EQ(answer.anySetAtMost, kMostMaskedZones + 1);
    EXPECT_EQ(answer.bestSetAtMost, kMostMaskedZones + 1);
    EXPECT_EQ(answer.bestSet, 0);
}

} // namespace
} // namespace headmark
