#include "analysis/duty/condensed_site.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kLevelTolerance_m = 1e-7;
constexpr double kFlowHair = 1e-5; // share of the chart's flow within which a meeting is not told apart

ZoneMask bitOf(std::size_t zone) { return ZoneMask{1} << zone; }

} // namespace

std::vector<const CondensedZone*> CondensedSite::open(ZoneMask set) const {
    std::vector<const CondensedZone*> open;
    open.reserve(zones_.size());
    for (const CondensedZone& z : zones_) {
        if (set & bitOf(z.zone)) open.push_back(&z);
    }
    return open;
}

// From the farthest open take-off to the first one.
CondensedSite::March CondensedSite::march(const std::vector<const CondensedZone*>& open, double far_m,
                                          std::vector<double>* level_m) const {
    March m;
    m.level_m = far_m;
    std::size_t node = open.front()->node;
    const auto climb = [&](std::size_t to) {
        for (; node > to; --node) {
            const SmoothTable::At loss = pieces_[node].at(m.net_m3_s);
            m.level_m += loss.value;
            m.levelSlope += loss.slope * m.netSlope;
        }
    };
    if (level_m) level_m->clear();
    for (const CondensedZone* z : open) {
        climb(z->node);
        const SmoothTable::At q = z->demand.at(m.level_m);
        m.net_m3_s += q.value;
        m.netSlope += q.slope * m.levelSlope;
        if (level_m) level_m->push_back(m.level_m);
    }
    // Zones of one take-off see one level: nothing climbed between them.
    climb(0);
    return m;
}

// From a take-off, open or not, to the first one.
CondensedSite::March CondensedSite::marchLoaded(const std::vector<const CondensedZone*>& open,
                                                const Load& load, std::size_t far, double far_m,
                                                std::vector<double>* node_m) const {
    March m;
    m.level_m = far_m;
    auto z = open.begin();
    while (z != open.end() && (*z)->node > far)
        ++z;
    for (std::size_t node = far;; --node) {
        if (node_m) (*node_m)[node] = m.level_m;
        if (node == load.node) m.net_m3_s += load.flow_m3_s;
        for (; z != open.end() && (*z)->node == node; ++z) {
            const SmoothTable::At q = (*z)->demand.at(m.level_m);
            m.net_m3_s += q.value;
            m.netSlope += q.slope * m.levelSlope;
        }
        if (node == 0) return m;
        const SmoothTable::At loss = pieces_[node].at(m.net_m3_s);
        m.level_m += loss.value;
        m.levelSlope += loss.slope * m.netSlope;
    }
}

void CondensedSite::reach(const std::vector<const CondensedZone*>& open, const Load& load, std::size_t far,
                          const SupplyCurve& supply, double& start_m, Reach& reach) const {
    constexpr double kFar_m = 1e4, kTolerance_m = 1e-6; // a load may ask for any level
    constexpr int kMostSteps = 100;
    double high = supply.topLevel_m() + 1e-6, low = high - kFar_m;
    double x = start_m > low && start_m < high ? start_m : high - 1e-3;
    for (int k = 0; k < kMostSteps; ++k) {
        const March m = marchLoaded(open, load, far, x, nullptr);
        SmoothTable::At s = supply.at(m.net_m3_s);
        if (m.net_m3_s < supply.topNet_m3_s()) s = {supply.topLevel_m(), 0.0};
        const double gap = s.value - m.level_m, slope = s.slope * m.netSlope - m.levelSlope;
        if (std::abs(gap) < kTolerance_m || high - low < kTolerance_m) break;
        (gap > 0.0 ? low : high) = x;
        const double next = slope < 0.0 ? x - gap / slope : low;
        x = next > low && next < high ? next : 0.5 * (low + high);
    }
    start_m = x;
    reach.node_m.resize(pieces_.size());
    reach.net_m3_s = marchLoaded(open, load, far, x, &reach.node_m).net_m3_s;
    reach.onFallingPart = reach.net_m3_s >= supply.topNet_m3_s();
}

double CondensedSite::lowestStart_m(const std::vector<const CondensedZone*>& open) const {
    double begin_m = open.front()->demand.begin_m();
    for (const CondensedZone* z : open)
        begin_m = std::min(begin_m, z->demand.begin_m());
    return begin_m - stillLoss_m_ - 1e-6;
}

// Where the set meets the supply, taken as level left of its top. Empty: nothing flows.
std::optional<double> CondensedSite::meet(const std::vector<const CondensedZone*>& open,
                                          const SupplyCurve& supply, std::optional<double> start_m) const {
    const auto gap = [&](double far_m, double& slope) {
        const March m = march(open, far_m);
        SmoothTable::At s = supply.at(m.net_m3_s);
        if (m.net_m3_s < supply.topNet_m3_s()) s = {supply.topLevel_m(), 0.0};
        slope = s.slope * m.netSlope - m.levelSlope;
        return s.value - m.level_m;
    };
    double slope = 0.0;
    double low = lowestStart_m(open), high = supply.topLevel_m() + 1e-6;
    if (!(low < high) || gap(low, slope) <= 0.0) return std::nullopt;
    double x = start_m && *start_m > low && *start_m < high ? *start_m : 0.5 * (low + high);
    constexpr int kMostSteps = 200;
    for (int k = 0; k < kMostSteps; ++k) {
        const double g = gap(x, slope);
        if (std::abs(g) < kLevelTolerance_m || high - low < kLevelTolerance_m) break;
        (g > 0.0 ? low : high) = x;
        const double next = slope < 0.0 ? x - g / slope : low;
        // A zone that begins to flow bends the curve: where Newton leaves the bracket, halve it.
        x = next > low && next < high ? next : 0.5 * (low + high);
    }
    return x;
}

SetDuty CondensedSite::placed(const std::vector<const CondensedZone*>& open, const SupplyCurve& supply,
                              double far_m) const {
    SetDuty d;
    const March m = march(open, far_m, &d.level_m);
    d.net_m3_s = m.net_m3_s;
    const double hair = kFlowHair * supply.greatestNet_m3_s();
    const double end = supply.greatestNet_m3_s(), begin = supply.leastNet_m3_s();
    d.onFallingPart = d.net_m3_s >= supply.topNet_m3_s();
    if (std::abs(d.net_m3_s - end) < hair || (begin > 0.0 && std::abs(d.net_m3_s - begin) < hair)) {
        d.where = SetDuty::Where::unsure;
    } else if (d.net_m3_s > end) {
        d.where = SetDuty::Where::right;
    } else {
        d.where = d.net_m3_s < begin ? SetDuty::Where::left : SetDuty::Where::inChart;
    }
    return d;
}

SetDuty CondensedSite::duty(const std::vector<const CondensedZone*>& open, const SupplyCurve& supply,
                            std::optional<double>& start_m) const {
    SetDuty d;
    const auto met = meet(open, supply, start_m);
    if (!met) {
        d.where = supply.leastNet_m3_s() > 0.0 ? SetDuty::Where::left : SetDuty::Where::none;
        return d;
    }
    const double net = march(open, *met).net_m3_s;
    const double top = supply.topNet_m3_s(), hair = kFlowHair * supply.greatestNet_m3_s();
    if (top > 0.0 && std::abs(net - top) < hair) {
        d.where = SetDuty::Where::unsure;
        return d;
    }
    if (net < top) return onRisingPart(open, supply, lowestStart_m(open), *met, start_m);
    start_m = *met;
    return placed(open, supply, *met);
}

// Left of the supply's top: looked at in steps, from the right; the first change of sign is the duty.
SetDuty CondensedSite::onRisingPart(const std::vector<const CondensedZone*>& open, const SupplyCurve& supply,
                                    double from_m, double to_m, std::optional<double>& start_m) const {
    constexpr int kLooks = 48;
    SetDuty d;
    d.onFallingPart = false;
    const auto gap = [&](double far_m) {
        const March m = march(open, far_m);
        return supply.at(m.net_m3_s).value - m.level_m;
    };
    double right = to_m, atRight = gap(to_m), before = atRight;
    for (int i = kLooks - 1; i >= 0; --i) {
        const double x = from_m + (to_m - from_m) * i / kLooks;
        const double g = gap(x);
        if (g > 0.0) {
            double low = x, high = right;
            while (high - low > 1e-9) {
                const double middle = 0.5 * (low + high);
                (gap(middle) > 0.0 ? low : high) = middle;
            }
            start_m = low;
            d = placed(open, supply, low);
            d.onFallingPart = false;
            if (d.net_m3_s < kFlowHair * supply.greatestNet_m3_s()) d.where = SetDuty::Where::unsure;
            return d;
        }
        // A top between two looks may touch zero unseen.
        const bool topBetween = i < kLooks - 1 && atRight >= g && atRight >= before;
        if (topBetween && -atRight <= std::max(atRight - g, atRight - before) + 1e-3) {
            d.where = SetDuty::Where::unsure;
            return d;
        }
        before = atRight;
        right = x;
        atRight = g;
    }
    d.where = supply.leastNet_m3_s() > 0.0 ? SetDuty::Where::unsure : SetDuty::Where::none;
    return d;
}

} // namespace headmark
