#include "analysis/irrigation/size_by_size.h"

#include "analysis/irrigation/set_walk.h"
#include "analysis/irrigation/size_walk.h"

#include <algorithm>
#include <bit>
#include <cstddef>
#include <numeric>
#include <optional>

namespace headmark {

namespace {

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

class SizeBySize {
  public:
    SizeBySize(const ZonesAtOnceQuestion& q, long questions) : q_(q), left_(questions) {
        jobOrder_.resize(static_cast<std::size_t>(q.zones));
        std::iota(jobOrder_.begin(), jobOrder_.end(), 0);
        easyFirst_ = jobOrder_;
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
        answer.bestSetsCounted = answer.bestSetAtMost == 0;
        if (!q_.bound) return; // decided as far as the bracket goes, not listed
        answer.proven = !undecided_;
        list(answer);
    }
    [[nodiscard]] long asked() const { return asked_; }

  private:
    enum class Found { yes, no, unknown };

    SizeWalk walked(const std::vector<int>& order, int size, SizeAim aim, long share, bool& whole) {
        SizeWalk walk(q_, order, size, aim, std::min(left_, share));
        whole = walk.run();
        left_ -= walk.questions();
        asked_ += walk.questions();
        return walk;
    }

    Found find(int size, bool working, long share, ZoneMask* set = nullptr) {
        if (q_.bound) {
            bool whole = false;
            const SizeWalk walk = walked(working ? easyFirst_ : hardFirst_, size,
                                         working ? SizeAim::findWorking : SizeAim::findFailing, share, whole);
            if (!walk.found().empty() && set) *set = walk.found().front();
            return !walk.found().empty() ? Found::yes : whole ? Found::no : Found::unknown;
        }
        Finder finder(size, working);
        SetWalk walk(q_, working ? easyFirst_ : hardFirst_, finder, std::min(left_, share));
        const bool whole = walk.run();
        left_ -= walk.questions();
        asked_ += walk.questions();
        if (finder.found && set) *set = *finder.found;
        return finder.found ? Found::yes : whole ? Found::no : Found::unknown;
    }

    // Sizes from one zone up. Where answers are inherited the first lower failure is one in every larger
    // size too; elsewhere only every size for itself is known.
    void growAny(ZonesAtOnceAnswer& answer) {
        for (int n = 1; n <= answer.anySetAtMost; ++n) {
            ZoneMask set = 0;
            const Found failing = find(n, false, left_ / 4 + 1, &set);
            if (failing == Found::unknown) {
                undecided_ = true;
                return boundAny(answer, n + 1);
            }
            if (failing == Found::no) {
                answer.everyChoiceWorksFor.push_back(n);
                answer.anySet = n;
                answer.failingLarger.clear();
                continue;
            }
            if (answer.failingLarger.empty()) answer.failingLarger = {set};
            ++asked_;
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
            ++asked_;
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
            if (working == Found::unknown) {
                undecided_ = true;
                return;
            }
            if (working == Found::no) {
                --answer.bestSetAtMost;
                continue;
            }
            answer.bestSet = answer.bestSetAtMost;
            answer.bestSets = {set};
            answer.bestSetsCount = 1;
        }
    }

    // The first best sets in job order, how many there are, and what fails with one zone more.
    void list(ZonesAtOnceAnswer& answer) {
        bool whole = false;
        if (answer.bestSet > 0) {
            const SizeWalk best = walked(jobOrder_, answer.bestSet, SizeAim::listWorking, left_ / 2, whole);
            if (!best.found().empty()) answer.bestSets = best.found();
            answer.bestSetsCounted = whole && best.found().size() < kMostSetsListed;
            answer.bestSetsCount = static_cast<long>(answer.bestSets.size());
        }
        if (answer.anySet >= q_.mostOpen && answer.anySet < q_.zones) { // whatever they are
            answer.failingLarger.clear();
            appendChoices(0, (ZoneMask{1} << static_cast<unsigned>(q_.zones)) - 1U, answer.anySet + 1,
                          answer.failingLarger);
        } else if (answer.anySet < q_.zones && answer.anySet == answer.anySetAtMost) {
            const SizeWalk failing =
                walked(jobOrder_, answer.anySet + 1, SizeAim::listFailing, left_ / 4, whole);
            if (!failing.found().empty()) answer.failingLarger = failing.found();
        }
        if (answer.bestSet == 0 || answer.bestSetsCounted) return;
        const SizeWalk count = walked(easyFirst_, answer.bestSet, SizeAim::countWorking, left_, whole);
        answer.bestSetsCounted = whole;
        answer.bestSetsCount = std::max(answer.bestSetsCount, count.counted());
    }

    const ZonesAtOnceQuestion& q_;
    long left_;
    std::vector<int> jobOrder_, easyFirst_, hardFirst_;
    long asked_ = 0;
    bool undecided_ = false;
};

} // namespace

void answerSizeBySize(const ZonesAtOnceQuestion& question, long questions, ZonesAtOnceAnswer& answer) {
    SizeBySize sizes(question, questions);
    sizes.fill(answer);
    answer.questions += sizes.asked();
}

} // namespace headmark
