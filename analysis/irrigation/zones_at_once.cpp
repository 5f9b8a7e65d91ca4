#include "analysis/irrigation/zones_at_once.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <cstddef>
#include <unordered_map>

namespace headmark {

namespace {

constexpr std::size_t kMostSetsListed = 20; // contract of the findings document

enum Verdict : std::uint8_t { kLowerFails = 1, kUpperPasses = 2 };

// Lists sets in job order: the set whose first differing zone comes first in the job comes first.
bool inJobOrder(ZoneMask a, ZoneMask b) {
    const ZoneMask first = (a ^ b) & (~(a ^ b) + 1U);
    return (a & first) != 0;
}

// The next larger mask with as many bits (Gosper).
ZoneMask nextOfSize(ZoneMask set) {
    const ZoneMask low = set & (~set + 1U);
    const ZoneMask ripple = set + low;
    return ripple | (((set ^ ripple) >> 2U) / low);
}

double combinations(int n, int k) {
    double c = 1.0;
    for (int i = 1; i <= k; ++i)
        c = c * (n - k + i) / i;
    return c;
}

class Search {
  public:
    explicit Search(const ZonesAtOnceQuestion& q) : q_(q) {}

    ZonesAtOnceAnswer run() {
        for (int size = 1; size <= q_.zones; ++size) {
            if (!level(size)) return bracket();
            // Every larger set holds one of these, and inherits its failure.
            if (q_.inherits && lowerFailures_ == static_cast<long>(verdicts_.size())) break;
        }
        answer_.anySetAtMost = answer_.anySet;
        answer_.bestSetAtMost = answer_.bestSet;
        return answer_;
    }

  private:
    // Decides every set of that size; false when there were too many or the questions ran out.
    bool level(int size) {
        if (combinations(q_.zones, size) > static_cast<double>(q_.mostSetsPerSize)) return false;
        smaller_ = std::move(verdicts_);
        verdicts_.clear();
        const long smallerFailures = lowerFailures_;
        lowerFailures_ = 0;
        std::vector<ZoneMask> works, fails;
        const ZoneMask end = ZoneMask{1} << static_cast<unsigned>(q_.zones);
        for (ZoneMask set = (ZoneMask{1} << static_cast<unsigned>(size)) - 1; set < end;
             set = nextOfSize(set)) {
            if (answer_.questions >= q_.mostQuestions) {
                lowerFailures_ = std::max(lowerFailures_, smallerFailures);
                return false;
            }
            (decide(set) ? works : fails).push_back(set);
        }
        record(size, std::move(works), std::move(fails));
        return true;
    }

    void record(int size, std::vector<ZoneMask> works, std::vector<ZoneMask> fails) {
        if (fails.empty()) {
            answer_.everyChoiceWorksFor.push_back(size);
            answer_.anySet = size;
            answer_.failingLarger.clear();
        } else if (answer_.failingLarger.empty()) {
            answer_.failingLarger = firstInJobOrder(std::move(fails));
        }
        if (!works.empty()) {
            answer_.bestSet = size;
            answer_.bestSetsCount = static_cast<long>(works.size());
            answer_.bestSets = firstInJobOrder(std::move(works));
        }
    }

    bool decide(ZoneMask set) {
        std::uint8_t v = 0;
        ZoneMask passing = 0; // zones that stand in a smaller set that passes
        if (q_.inherits && !smaller_.empty()) {
            for (ZoneMask rest = set; rest != 0; rest &= rest - 1) {
                const ZoneMask subset = set & ~(rest & (~rest + 1U));
                const std::uint8_t known = smaller_.at(subset);
                if (known & kLowerFails) v |= kLowerFails;
                if (known & kUpperPasses) passing |= subset;
            }
            if (passing == set) v |= kUpperPasses;
        }
        if (!(v & kLowerFails)) {
            ++answer_.questions;
            if (!q_.lowerOk(set)) v |= kLowerFails;
        }
        // Whether upper limits pass matters only while the lower ones hold.
        if (!(v & kLowerFails) && !(v & kUpperPasses)) {
            ++answer_.questions;
            if (q_.upperOk(set)) v |= kUpperPasses;
        }
        if (v & kLowerFails) ++lowerFailures_;
        verdicts_[set] = v;
        return (v & kUpperPasses) && !(v & kLowerFails);
    }

    static std::vector<ZoneMask> firstInJobOrder(std::vector<ZoneMask> sets) {
        std::sort(sets.begin(), sets.end(), inJobOrder);
        if (sets.size() > kMostSetsListed) sets.resize(kMostSetsListed);
        return sets;
    }

    // Smaller sizes are decided. A failing lower limit stands in some set of every larger size too, so that
    // no larger size can work for every choice.
    ZonesAtOnceAnswer bracket() {
        answer_.proven = false;
        answer_.bestSetAtMost = q_.zones;
        answer_.anySetAtMost = q_.inherits && lowerFailures_ > 0 ? answer_.anySet : q_.zones;
        return answer_;
    }

    const ZonesAtOnceQuestion& q_;
    std::unordered_map<ZoneMask, std::uint8_t> verdicts_, smaller_;
    long lowerFailures_ = 0;
    ZonesAtOnceAnswer answer_;
};

} // namespace

ZonesAtOnceAnswer zonesAtOnce(const ZonesAtOnceQuestion& question) {
    if (question.zones == 0) return {};
    if (question.zones > kMostMaskedZones) {
        ZonesAtOnceAnswer unknown;
        unknown.proven = false;
        unknown.anySetAtMost = unknown.bestSetAtMost = question.zones;
        return unknown;
    }
    return Search(question).run();
}

} // namespace headmark
