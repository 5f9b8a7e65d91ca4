#include "analysis/irrigation/set_walk.h"

#include <algorithm>
#include <bit>
#include <utility>

namespace headmark {

namespace {

ZoneMask bitOf(int zone) { return ZoneMask{1} << static_cast<unsigned>(zone); }

} // namespace

SetWalk::SetWalk(const ZonesAtOnceQuestion& question, std::vector<int> order, SetVisitor& visitor, long most)
    : q_(question), order_(std::move(order)), visitor_(visitor), most_(most) {}

bool SetWalk::run() {
    SetBranch all;
    for (int zone : order_)
        all.free |= bitOf(zone);
    all.freeCount = static_cast<int>(order_.size());
    visit(all, 0, SetVerdict{}, nullptr);
    return !stopped_;
}

SetVerdict SetWalk::ask(ZoneMask set) {
    constexpr long kLookEvery = 256;
    const bool unwanted = q_.stop && questions_ % kLookEvery == 0 && q_.stop();
    if (questions_ >= most_ || unwanted) {
        stopped_ = true;
        return {};
    }
    ++questions_;
    const SetVerdict verdict = q_.ask(set);
    if (verdict.lowerOk) largestHolding_ = std::max(largestHolding_, std::popcount(set));
    return verdict;
}

// `held` is the verdict on the zones held open, `whole` that on them with all the free ones, if known.
void SetWalk::visit(const SetBranch& branch, std::size_t next, const SetVerdict& held,
                    const SetVerdict* whole) {
    if (stopped_ || !visitor_.wants(branch)) return;
    if (branch.freeCount == 0) {
        if (branch.heldCount > 0) held.works() ? visitor_.allWork(branch) : visitor_.allFail(branch);
        return;
    }
    SetVerdict room;
    if (decidedAsAWhole(branch, held, whole, room) || stopped_) return;
    open(branch, next, whole);
    SetBranch shut = branch;
    shut.free &= ~bitOf(order_[next]);
    --shut.freeCount;
    visit(shut, next + 1, held, nullptr);
}

void SetWalk::open(const SetBranch& branch, std::size_t next, const SetVerdict* whole) {
    SetBranch opened = branch;
    opened.held |= bitOf(order_[next]);
    opened.free &= ~bitOf(order_[next]);
    ++opened.heldCount;
    --opened.freeCount;
    if (stopped_ || !visitor_.wants(opened)) return;
    if (opened.heldCount > q_.mostOpen) return visitor_.allFail(opened);
    const SetVerdict verdict = opened.freeCount == 0 && whole ? *whole : ask(opened.held);
    if (stopped_) return;
    if (!verdict.lowerOk && (q_.inherits || verdict.failsForGood)) return visitor_.allFail(opened);
    visit(opened, next + 1, verdict, whole);
}

bool SetWalk::decidedAsAWhole(const SetBranch& branch, const SetVerdict& held, const SetVerdict*& whole,
                              SetVerdict& room) {
    if (!q_.inherits || branch.freeCount < 2) return false;
    const int size = branch.heldCount + branch.freeCount;
    // A set far larger than any that held will hardly hold; it is asked only to see whether a zone that has
    // too much pressure can be helped at all.
    const bool mayHold = size <= std::min(largestHolding_ + 1, q_.mostOpen) || branch.heldCount == 0;
    if (whole == nullptr && (mayHold || (held.tooHigh & branch.held) != 0)) {
        room = ask(branch.held | branch.free);
        whole = &room;
    }
    if (whole == nullptr || stopped_) return false;
    if ((whole->tooHigh & branch.held) != 0) {
        visitor_.allFail(branch);
        return true;
    }
    if (!whole->lowerOk || held.tooHigh != 0 || size > q_.mostOpen) return false;
    if (q_.upperLimits) {
        for (ZoneMask rest = branch.free; rest != 0; rest &= rest - 1) {
            if (ask(branch.held | (rest & (~rest + 1U))).tooHigh != 0 || stopped_) return false;
        }
    }
    visitor_.allWork(branch);
    return true;
}

} // namespace headmark
