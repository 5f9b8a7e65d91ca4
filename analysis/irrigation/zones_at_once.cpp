#include "analysis/irrigation/zones_at_once.h"

#include "analysis/core/assertion.h"
#include "analysis/irrigation/set_walk.h"

#include <algorithm>
#include <bit>
#include <cstddef>
#include <numeric>
#include <optional>

namespace headmark {

namespace {

constexpr std::size_t kMostSetsListed = 20; // contract of the findings document

// Exact for up to 62 zones: the greatest is 4.7e17.
long combinations(int n, int k) {
    if (k < 0 || k > n) return 0;
    k = std::min(k, n - k);
    __extension__ using Wide = __int128; // the product before the division may pass 64 bits
    Wide c = 1;
    for (int i = 1; i <= k; ++i)
        c = c * (n - k + i) / i;
    return static_cast<long>(c);
}

// Appends choices of `more` zones of `free`, in job order, until the list is full.
void appendChoices(ZoneMask held, ZoneMask free, int more, std::vector<ZoneMask>& list) {
    if (list.size() >= kMostSetsListed) return;
    if (more == 0) {
        list.push_back(held);
        return;
    }
    while (std::popcount(free) >= more && list.size() < kMostSetsListed) {
        const ZoneMask first = free & (~free + 1U);
        free &= ~first;
        appendChoices(held | first, free, more - 1, list);
    }
}

// Counts the sets of every size that work and lists the first of each kind. Told of branches in job order.
class Count final : public SetVisitor {
  public:
    explicit Count(int zones)
        : working(static_cast<std::size_t>(zones) + 1, 0), firstWorking(working.size()),
          firstFailing(working.size()) {}

    void allWork(const SetBranch& b) override {
        for (int k = 0; k <= b.freeCount; ++k) {
            const auto size = static_cast<std::size_t>(b.heldCount + k);
            if (size == 0) continue;
            working[size] += combinations(b.freeCount, k);
            appendChoices(b.held, b.free, k, firstWorking[size]);
        }
    }
    void allFail(const SetBranch& b) override {
        for (int k = 0; k <= b.freeCount; ++k) {
            const auto size = static_cast<std::size_t>(b.heldCount + k);
            if (size > 0) appendChoices(b.held, b.free, k, firstFailing[size]);
        }
    }
    [[nodiscard]] bool wants(const SetBranch&) const override { return true; }

    std::vector<long> working; // by size
    std::vector<std::vector<ZoneMask>> firstWorking, firstFailing;
};

// Looks for one set of one size that works, or one that does not.
class Finder final : public SetVisitor {
  public:
    Finder(int size, bool working) : size_(size), working_(working) {}

    void allWork(const SetBranch& b) override { note(b, true); }
    void allFail(const SetBranch& b) override { note(b, false); }
    [[nodiscard]] bool wants(const SetBranch& b) const override {
        return !found && b.heldCount <= size_ && b.heldCount + b.freeCount >= size_;
    }
    std::optional<ZoneMask> found;

  private:
    void note(const SetBranch& b, bool works) {
        if (works != working_ || !wants(b)) return;
        std::vector<ZoneMask> one;
        appendChoices(b.held, b.free, size_ - b.heldCount, one);
        found = one.front();
    }
    int size_;
    bool working_;
};

class Bracket {
  public:
    Bracket(const ZonesAtOnceQuestion& q, long questions) : q_(q), left_(questions) {
        easyFirst_.resize(static_cast<std::size_t>(q.zones));
        std::iota(easyFirst_.begin(), easyFirst_.end(), 0);
        if (q.burden.size() == easyFirst_.size()) {
            std::stable_sort(easyFirst_.begin(), easyFirst_.end(), [&](int a, int b) {
                return q.burden[static_cast<std::size_t>(a)] < q.burden[static_cast<std::size_t>(b)];
            });
        }
        hardFirst_.assign(easyFirst_.rbegin(), easyFirst_.rend());
    }

    void fill(ZonesAtOnceAnswer& answer) {
        answer.proven = false;
        answer.bestSetAtMost = std::min({q_.zones, q_.mostOpen, q_.mostThatCanWork});
        answer.anySetAtMost = answer.bestSetAtMost;
        growAny(answer);
        growBest(answer);
        answer.anySetAtMost = std::min(answer.anySetAtMost, answer.bestSetAtMost);
    }

  private:
    enum class Found { yes, no, unknown };

    Found find(int size, bool working, long share, ZoneMask* set = nullptr) {
        Finder finder(size, working);
        SetWalk walk(q_, working ? easyFirst_ : hardFirst_, finder, std::min(left_, share));
        const bool whole = walk.run();
        left_ -= walk.questions();
        asked += walk.questions();
        if (finder.found && set) *set = *finder.found;
        return finder.found ? Found::yes : whole ? Found::no : Found::unknown;
    }

    // Sizes from one zone up. Where answers are inherited the first lower failure is one in every larger
    // size too; elsewhere only every size for itself is known.
    void growAny(ZonesAtOnceAnswer& answer) {
        for (int n = 1; n <= answer.anySetAtMost; ++n) {
            ZoneMask set = 0;
            const Found failing = find(n, false, left_ / 4 + 1, &set);
            if (failing == Found::unknown) return boundAny(answer, n + 1);
            if (failing == Found::no) {
                answer.everyChoiceWorksFor.push_back(n);
                answer.anySet = n;
                answer.failingLarger.clear();
                continue;
            }
            if (answer.failingLarger.empty()) answer.failingLarger = {set};
            ++asked;
            const SetVerdict verdict = q_.ask(set);
            if (!verdict.lowerOk && (q_.inherits || verdict.failsForGood)) {
                answer.anySetAtMost = answer.anySet;
                return;
            }
        }
        // Decided up to the end.
        answer.anySetAtMost = answer.anySet;
    }

    // A failing set of a larger size, found by opening the thirstiest zones first.
    void boundAny(ZonesAtOnceAnswer& answer, int from) {
        for (int n = from; n <= answer.anySetAtMost; ++n) {
            ZoneMask set = 0;
            if (find(n, false, left_ / 16 + 1, &set) != Found::yes) continue;
            ++asked;
            const SetVerdict verdict = q_.ask(set);
            if (verdict.lowerOk || !(q_.inherits || verdict.failsForGood)) continue;
            answer.anySetAtMost = n - 1;
            return;
        }
    }

    void growBest(ZonesAtOnceAnswer& answer) {
        for (int n = std::max(1, answer.anySet); n <= answer.bestSetAtMost; ++n) {
            ZoneMask set = 0;
            const Found working = find(n, true, left_ / 3 + 1, &set);
            if (working == Found::yes) {
                answer.bestSet = n;
                answer.bestSets = {set};
                answer.bestSetsCount = 1;
            } else if (working == Found::no && q_.inherits && !q_.upperLimits) {
                answer.bestSetAtMost = answer.bestSet; // what larger set works holds one of this size
                return;
            } else if (working == Found::unknown) {
                break;
            }
        }
        shrinkMost(answer);
    }

    // From above: sizes at which nothing works.
    void shrinkMost(ZonesAtOnceAnswer& answer) {
        while (answer.bestSetAtMost > answer.bestSet) {
            ZoneMask set = 0;
            const Found working = find(answer.bestSetAtMost, true, left_ / 3 + 1, &set);
            if (working == Found::unknown) return;
            if (working == Found::no) {
                --answer.bestSetAtMost;
                continue;
            }
            answer.bestSet = answer.bestSetAtMost;
            answer.bestSets = {set};
            answer.bestSetsCount = 1;
        }
    }

    const ZonesAtOnceQuestion& q_;
    long left_;
    std::vector<int> easyFirst_, hardFirst_;

  public:
    long asked = 0;
};

void fromCount(const ZonesAtOnceQuestion& q, Count& count, ZonesAtOnceAnswer& answer) {
    for (int n = 1; n <= q.zones; ++n) {
        const auto size = static_cast<std::size_t>(n);
        if (count.working[size] > 0) answer.bestSet = n;
        if (count.working[size] == combinations(q.zones, n)) {
            answer.everyChoiceWorksFor.push_back(n);
            answer.anySet = n;
        }
    }
    const auto best = static_cast<std::size_t>(answer.bestSet);
    if (answer.bestSet > 0) {
        answer.bestSetsCount = count.working[best];
        answer.bestSets = std::move(count.firstWorking[best]);
    }
    if (answer.anySet < q.zones) {
        answer.failingLarger = std::move(count.firstFailing[static_cast<std::size_t>(answer.anySet) + 1]);
    }
    answer.anySetAtMost = answer.anySet;
    answer.bestSetAtMost = answer.bestSet;
}

} // namespace

ZonesAtOnceAnswer zonesAtOnce(const ZonesAtOnceQuestion& question) {
    ZonesAtOnceAnswer answer;
    if (question.zones == 0) return answer;
    if (question.zones > kMostMaskedZones) {
        answer.proven = false;
        answer.anySetAtMost = answer.bestSetAtMost =
            std::min({question.zones, question.mostOpen, question.mostThatCanWork});
        return answer;
    }
    std::vector<int> jobOrder(static_cast<std::size_t>(question.zones));
    std::iota(jobOrder.begin(), jobOrder.end(), 0);
    Count count(question.zones);
    // A little under half is kept for the bracket.
    SetWalk walk(question, std::move(jobOrder), count, question.mostQuestions * 6 / 10);
    const bool whole = walk.run();
    answer.questions = walk.questions();
    if (whole) {
        fromCount(question, count, answer);
        return answer;
    }
    Bracket bracket(question, question.mostQuestions - walk.questions());
    bracket.fill(answer);
    answer.questions += bracket.asked;
    return answer;
}

} // namespace headmark
