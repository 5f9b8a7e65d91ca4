#include "analysis/duty/set_bounds.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

namespace headmark {

namespace {

constexpr double kLess = 1.0 - 1e-6, kMore = 1.0 + 1e-6; // room for the rounding of the tables
constexpr double kNoStart_m = 1e9;
constexpr std::size_t kMostNodesLookedAt = 4; // those with the greatest need; more seldom decide

ZoneMask bitOf(const CondensedZone& z) { return ZoneMask{1} << z.zone; }

} // namespace

SetBounds::SetBounds(const CondensedSite& site, bool pumpHasLimits)
    : site_(site), pumpHasLimits_(pumpHasLimits) {
    for (const CondensedZone& z : site.zones()) {
        if (burden_m3_s_.size() <= z.zone) burden_m3_s_.resize(z.zone + 1, 0.0);
        if (!std::isfinite(z.lowest_m)) continue;
        burden_m3_s_[z.zone] = z.demand.at(z.lowest_m).value * kLess;
        lightFirst_.push_back(&z);
    }
    std::stable_sort(
        lightFirst_.begin(), lightFirst_.end(),
        [&](const CondensedZone* a, const CondensedZone* b) { return burdenOf(*a) < burdenOf(*b); });
    for (Starts* s : {&weak_, &strong_, &printed_, &high_, &weakLow_, &strongLow_})
        s->assign(site.printed().size(), std::vector<double>(site.lastNode() + 1, kNoStart_m));
}

SetBound SetBounds::bound(const SetBranch& branch, int size, BoundOn on) const {
    Branch b;
    b.held = site_.open(branch.held);
    b.heldMask = branch.held;
    b.free = branch.free;
    b.more = static_cast<std::size_t>(size - branch.heldCount);
    SetBound result;
    if (on != BoundOn::noneWork) result.allWork = allWork(b);
    if (on != BoundOn::allWork && !result.allWork)
        result.noneWork = noneHold(b) || allTooHigh(b) || allStopped(b);
    return result;
}

Load SetBounds::leastBurden(const Branch& b) const {
    Load load{site_.lastNode(), 0.0};
    for (const CondensedZone& z : site_.zones()) {
        if (b.free & bitOf(z)) load.node = std::min(load.node, z.node);
    }
    std::size_t taken = 0;
    for (auto z = lightFirst_.begin(); z != lightFirst_.end() && taken < b.more; ++z) {
        if (!(b.free & bitOf(**z))) continue;
        load.flow_m3_s += burdenOf(**z);
        ++taken;
    }
    return load;
}

double SetBounds::greatestDraw_m3_s(const Branch& b, const Reach& highest) const {
    draws_.clear();
    for (const CondensedZone& z : site_.zones()) {
        if (b.free & bitOf(z)) draws_.push_back(z.demand.at(highest.node_m[z.node]).value);
    }
    const auto end = draws_.begin() + static_cast<std::ptrdiff_t>(std::min(b.more, draws_.size()));
    std::partial_sort(draws_.begin(), end, draws_.end(), std::greater<>());
    return std::accumulate(draws_.begin(), end, 0.0) * kMore;
}

bool SetBounds::highestAt(const Branch& b, std::size_t node, const Load& least, const SupplyCurve& supply,
                          double& start_m, Reach& reach) const {
    // One load is enough: what is drawn beyond the take-off is drawn at it, and the free zones' share may lie
    // no farther; where it lies nearer, both are drawn there, which only raises the level.
    double beyond_m3_s = 0.0;
    for (const CondensedZone* z : b.held) {
        if (z->node > node) beyond_m3_s += burdenOf(*z);
    }
    const Load load{std::min(least.node, node), least.flow_m3_s + beyond_m3_s};
    site_.reach(b.held, load, node, supply, start_m, reach);
    return reach.onFallingPart;
}

bool SetBounds::heldAlone(const Branch& b, const SupplyCurve& supply, std::vector<double>& starts,
                          Reach& reach) const {
    site_.reach(b.held, {}, site_.lastNode(), supply, starts[site_.lastNode()], reach);
    return reach.onFallingPart;
}

// --- no set works ---

bool SetBounds::noneHold(Branch& b) const {
    for (const CondensedZone* z : b.held) {
        if (!std::isfinite(z->lowest_m)) return true;
    }
    for (std::size_t i = 0; i < site_.weakest().size(); ++i) {
        if (noneHoldOn(b, i)) return true;
    }
    return false;
}

// Drops free zones that no set of the branch can hold, which makes the others' least draw greater.
bool SetBounds::noneHoldOn(Branch& b, std::size_t corner) const {
    const SupplyCurve& supply = site_.weakest()[corner];
    for (;;) {
        const Load least = leastBurden(b);
        if (!highestAt(b, 0, least, supply, weak_[corner][0], near_)) return false;
        if (near_.net_m3_s > supply.greatestNet_m3_s() + hair()) return true;
        highest_.node_m.assign(site_.lastNode() + 1, near_.node_m[0]);
        if (heldMissOn(b, corner, least)) return true;
        ZoneMask left = 0;
        std::size_t count = 0;
        for (const CondensedZone* z : lightFirst_) {
            if (!(b.free & bitOf(*z)) || highest_.node_m[z->node] < z->lowest_m - kLevelHair_m) continue;
            left |= bitOf(*z);
            ++count;
        }
        if (count < b.more) return true;
        if (left == b.free) return false;
        b.free = left;
    }
}

// Held zones at the take-offs of the greatest need; narrows highest_ on the way.
bool SetBounds::heldMissOn(const Branch& b, std::size_t corner, const Load& least) const {
    nodes_.clear();
    for (const CondensedZone* z : b.held) { // farthest first: zones of one take-off follow each other
        if (!nodes_.empty() && nodes_.back().second == z->node) {
            nodes_.back().first = std::max(nodes_.back().first, z->lowest_m);
        } else {
            nodes_.emplace_back(z->lowest_m, z->node);
        }
    }
    const std::size_t looks = std::min(nodes_.size(), kMostNodesLookedAt);
    std::partial_sort(nodes_.begin(), nodes_.begin() + static_cast<std::ptrdiff_t>(looks), nodes_.end(),
                      std::greater<>());
    for (std::size_t i = 0; i < looks; ++i) {
        const auto& [need_m, node] = nodes_[i];
        if (node > 0) {
            if (!highestAt(b, node, least, site_.weakest()[corner], weak_[corner][node], near_)) continue;
            for (std::size_t n = node; n <= site_.lastNode(); ++n)
                highest_.node_m[n] = std::min(highest_.node_m[n], near_.node_m[node]);
        }
        if (highest_.node_m[node] < need_m - kLevelHair_m) return true;
    }
    return false;
}

// Upper limits of held zones; the free zones that cannot hold are dropped already.
bool SetBounds::allTooHigh(const Branch& b) const {
    const bool any = std::any_of(b.held.begin(), b.held.end(),
                                 [](const CondensedZone* z) { return std::isfinite(z->greatest_m); });
    if (!any) return false;
    for (std::size_t i = 0; i < site_.strongest().size(); ++i) {
        if (allTooHighOn(b, i)) return true;
    }
    return false;
}

bool SetBounds::allTooHighOn(const Branch& b, std::size_t corner) const {
    const SupplyCurve& supply = site_.strongest()[corner];
    if (!heldAlone(b, supply, strong_[corner], highest_)) return false;
    if (highest_.net_m3_s < supply.leastNet_m3_s() + hair()) return false;
    const auto over = [](const Reach& at, const CondensedZone& z) {
        return at.node_m[z.node] > z.greatest_m + kLevelHair_m;
    };
    if (std::none_of(b.held.begin(), b.held.end(), [&](const auto* z) { return over(highest_, *z); }))
        return false;
    const double most_m3_s = greatestDraw_m3_s(b, highest_);
    const auto lowestAt = [&](std::size_t node) {
        site_.reach(b.held, {node, most_m3_s}, site_.lastNode(), supply, strongLow_[corner][node], lowest_);
    };
    lowestAt(0); // the greatest net flow
    if (lowest_.net_m3_s > supply.greatestNet_m3_s() - hair()) return false;
    std::size_t looked = 0;
    for (const CondensedZone* z : b.held) {
        if (!over(highest_, *z)) continue;
        if (looked != z->node) lowestAt(looked = z->node);
        if (over(lowest_, *z)) return true;
    }
    return false;
}

// Flow so great in every set that NPSH, motor or a filter stop, up to the end of the chart.
bool SetBounds::allStopped(const Branch& b) const {
    const auto stops = [&](const SupplyCurve& supply, const std::vector<std::pair<double, double>>& bad,
                           double& start_m) {
        if (bad.empty() || bad.back().second < supply.greatestNet_m3_s() * (1.0 - 1e-9)) return false;
        return highestAt(b, 0, leastBurden(b), supply, start_m, near_) &&
               near_.net_m3_s > bad.back().first + hair() && near_.net_m3_s > supply.leastNet_m3_s() + hair();
    };
    for (std::size_t i = 0; i < site_.high().size(); ++i) {
        const SupplyCurve &high = site_.high()[i], &printed = site_.printed()[i];
        if (!stops(high, high.badStretches(), high_[i][0])) continue;
        if (pumpHasLimits_ || stops(printed, printed.badFilterStretches(), printed_[i][0])) return true;
    }
    return false;
}

// --- all sets work ---

bool SetBounds::allWork(const Branch& b) const {
    if (site_.ratingsMatter()) return false;
    double least_m3_s = site_.greatestNet_m3_s(), greatest_m3_s = 0.0;
    for (std::size_t i = 0; i < site_.weakest().size(); ++i) {
        if (!allHoldOn(b, i, least_m3_s)) return false;
    }
    for (std::size_t i = 0; i < site_.strongest().size(); ++i) {
        if (!allLowEnoughOn(b, i, greatest_m3_s)) return false;
    }
    return flowsAreClear(least_m3_s, greatest_m3_s);
}

bool SetBounds::allHoldOn(const Branch& b, std::size_t corner, double& leastNet_m3_s) const {
    const SupplyCurve& supply = site_.weakest()[corner];
    if (!heldAlone(b, supply, weak_[corner], highest_)) return false;
    if (supply.leastNet_m3_s() > 0.0 && highest_.net_m3_s < supply.leastNet_m3_s() + hair()) return false;
    leastNet_m3_s = std::min(leastNet_m3_s, highest_.net_m3_s);
    const double most_m3_s = greatestDraw_m3_s(b, highest_);
    std::size_t looked = site_.lastNode() + 1;
    for (const CondensedZone& z : site_.zones()) {
        if (!((b.heldMask | b.free) & bitOf(z))) continue;
        if (looked != z.node) {
            looked = z.node;
            site_.reach(b.held, {looked, most_m3_s}, site_.lastNode(), supply, weakLow_[corner][looked],
                        lowest_);
            if (lowest_.net_m3_s > supply.greatestNet_m3_s() - hair()) return false;
        }
        if (lowest_.node_m[z.node] < z.lowest_m + kLevelHair_m) return false;
    }
    site_.reach(b.held, {0, most_m3_s}, site_.lastNode(), supply, weakLow_[corner][0], lowest_);
    return lowest_.net_m3_s < supply.greatestNet_m3_s() - hair();
}

// Every set holds its lower limits, so every zone draws at least its burden.
bool SetBounds::allLowEnoughOn(const Branch& b, std::size_t corner, double& greatestNet_m3_s) const {
    const SupplyCurve& supply = site_.strongest()[corner];
    if (!heldAlone(b, supply, strong_[corner], highest_)) return false;
    if (supply.leastNet_m3_s() > 0.0 && highest_.net_m3_s < supply.leastNet_m3_s() + hair()) return false;
    const Load least = leastBurden(b);
    for (const CondensedZone& z : site_.zones()) {
        if (!((b.heldMask | b.free) & bitOf(z))) continue;
        if (highest_.node_m[z.node] < z.greatest_m - kLevelHair_m) continue;
        if (!highestAt(b, z.node, least, supply, strong_[corner][z.node], near_)) return false;
        if (near_.node_m[z.node] > z.greatest_m - kLevelHair_m) return false;
    }
    site_.reach(b.held, {0, greatestDraw_m3_s(b, highest_)}, site_.lastNode(), supply, strongLow_[corner][0],
                lowest_);
    greatestNet_m3_s = std::max(greatestNet_m3_s, lowest_.net_m3_s);
    return lowest_.net_m3_s < supply.greatestNet_m3_s() - hair();
}

bool SetBounds::flowsAreClear(double least_m3_s, double greatest_m3_s) const {
    const auto clear = [&](const SupplyCurve& c) {
        if (greatest_m3_s > c.greatestNet_m3_s() - hair()) return false;
        return std::none_of(c.badStretches().begin(), c.badStretches().end(), [&](const auto& bad) {
            return bad.second > least_m3_s - hair() && bad.first < greatest_m3_s + hair();
        });
    };
    return std::all_of(site_.printed().begin(), site_.printed().end(), clear) &&
           std::all_of(site_.high().begin(), site_.high().end(), clear) &&
           std::all_of(site_.low().begin(), site_.low().end(), clear);
}

} // namespace headmark
