#include "analysis/irrigation/zones_at_once.h"

#include "analysis/core/assertion.h"
#include "analysis/irrigation/set_walk.h"
#include "analysis/irrigation/size_by_size.h"
#include "analysis/irrigation/size_walk.h"

#include <algorithm>
#include <cstddef>
#include <numeric>

namespace headmark {

namespace {

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
    if (question.bound) {
        answerSizeBySize(question, question.mostQuestions, answer);
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
    answerSizeBySize(question, question.mostQuestions - walk.questions(), answer);
    return answer;
}

} // namespace headmark
