#include "analysis/irrigation/size_walk.h"

#include <algorithm>
#include <bit>

namespace headmark {

namespace {

ZoneMask bitOf(int zone) { return ZoneMask{1} << static_cast<unsigned>(zone); }

BoundOn lookedFor(SizeAim aim) {
    switch (aim) {
    case SizeAim::findWorking:
    case SizeAim::listWorking:
        return BoundOn::noneWork;
    case SizeAim::findFailing:
    case SizeAim::listFailing:
        return BoundOn::allWork;
    case SizeAim::countWorking:
        return BoundOn::both;
    }
    return BoundOn::both;
}

} // namespace

long combinations(int n, int k) {
    if (k < 0 || k > n) return 0;
    k = std::min(k, n - k);
    __extension__ using Wide = __int128; // the product before the division may pass 64 bits
    Wide c = 1;
    for (int i = 1; i <= k; ++i)
        c = c * (n - k + i) / i;
    return static_cast<long>(c);
}

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

SizeWalk::SizeWalk(const ZonesAtOnceQuestion& question, const std::vector<int>& order, int size, SizeAim aim,
                   long most)
    : q_(question), order_(order), size_(size), aim_(aim), most_(most) {}

bool SizeWalk::run() {
    SetBranch all;
    for (int zone : order_)
        all.free |= bitOf(zone);
    all.freeCount = static_cast<int>(order_.size());
    visit(all, 0);
    return !stopped_;
}

bool SizeWalk::spend() {
    constexpr long kLookEvery = 256;
    const bool unwanted = q_.stop && questions_ % kLookEvery == 0 && q_.stop();
    if (questions_ >= most_ || unwanted) stopped_ = true;
    if (!stopped_) ++questions_;
    return !stopped_;
}

bool SizeWalk::done() const {
    switch (aim_) {
    case SizeAim::findWorking:
    case SizeAim::findFailing:
        return !found_.empty();
    case SizeAim::listWorking:
    case SizeAim::listFailing:
        return found_.size() >= kMostSetsListed;
    case SizeAim::countWorking:
        break;
    }
    return false;
}

void SizeWalk::note(const SetBranch& b, bool work) {
    const int more = size_ - b.heldCount;
    if (aim_ == SizeAim::countWorking) {
        if (work) counted_ += combinations(b.freeCount, more);
        return;
    }
    const bool wanted = work == (aim_ == SizeAim::findWorking || aim_ == SizeAim::listWorking);
    if (wanted) appendChoices(b.held, b.free, more, found_);
}

void SizeWalk::settle(ZoneMask set) {
    if (!spend()) return;
    note({set, 0, size_, 0}, q_.ask(set).works());
}

void SizeWalk::visit(const SetBranch& branch, std::size_t next) {
    const int more = size_ - branch.heldCount;
    if (stopped_ || done() || more < 0 || more > branch.freeCount) return;
    if (more == 0) return settle(branch.held);
    if (more == branch.freeCount) return settle(branch.held | branch.free);
    if (!spend()) return;
    const SetBound bound = q_.bound(branch, size_, lookedFor(aim_));
    if (bound.noneWork || bound.allWork) return note(branch, bound.allWork);
    SetBranch rest = branch;
    const ZoneMask zone = bitOf(order_[next]);
    rest.free &= ~zone;
    --rest.freeCount;
    SetBranch opened = rest;
    opened.held |= zone;
    ++opened.heldCount;
    visit(opened, next + 1);
    visit(rest, next + 1);
}

} // namespace headmark
