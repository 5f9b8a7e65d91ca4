#include "analysis/duty/zone_sets.h"

#include "analysis/duty/condensed_site.h"
#include "analysis/duty/set_bounds.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

using Where = SetDuty::Where;

} // namespace

std::vector<bool> openZones(ZoneMask mask, std::size_t zones) {
    std::vector<bool> open(zones);
    for (std::size_t z = 0; z < zones; ++z)
        open[z] = ((mask >> z) & 1U) != 0;
    return open;
}

class ZoneSets::Condensed {
  public:
    Condensed(std::unique_ptr<const CondensedSite> site, const CaseSolver& solver)
        : site_(std::move(site)), solver_(solver) {
        const PumpModel& pump = solver.pump();
        pumpHasLimits_ = pump.greatestPressure || (pump.motor && pump.motor->rated) || pump.npshRequired;
        bounds_ = std::make_unique<const SetBounds>(*site_, pumpHasLimits_);
    }

    // Empty: the exact questions must be asked.
    [[nodiscard]] std::optional<SetVerdict> verdict(ZoneMask set) const;
    [[nodiscard]] const CondensedSite& site() const { return *site_; }
    [[nodiscard]] const SetBounds& bounds() const { return *bounds_; }
    // A stretch that ends before the chart does is not inherited by larger sets.
    [[nodiscard]] bool badToTheEnd() const {
        for (const auto* curves : {&site_->printed(), &site_->high(), &site_->low()}) {
            for (const SupplyCurve& c : *curves) {
                for (const auto& b : {c.badStretches(), c.badFilterStretches()}) {
                    for (const auto& [from, to] : b) {
                        if (to < c.greatestNet_m3_s() * (1.0 - 1e-9)) return false;
                    }
                }
            }
        }
        return true;
    }

  private:
    using Open = std::vector<const CondensedZone*>;
    struct Asked {
        SetVerdict verdict;
        bool unsure = false;
        double leastNet_m3_s = 0.0, greatestNet_m3_s = 0.0;
    };
    void askWeak(const Open& open, Asked& a, std::optional<double>& start) const;
    void askFlow(const Open& open, Asked& a, std::optional<double>& start) const;
    void askFlowInCorner(const Open& open, std::size_t corner, Asked& a, std::optional<double>& start) const;
    void askStrong(const Open& open, Asked& a, std::optional<double>& start, bool judge) const;
    void judgeHighest(const Open& open, const SetDuty& d, Asked& a) const;
    static void fail(Asked& a, bool forGood) {
        a.verdict.lowerOk = false;
        a.verdict.failsForGood = a.verdict.failsForGood || forGood;
    }
    static bool inStretch(const std::vector<std::pair<double, double>>& stretches, double net, double hair,
                          bool& unsure) {
        for (const auto& [from, to] : stretches) {
            if (std::abs(net - from) < hair || std::abs(net - to) < hair) unsure = true;
            if (net > from && net < to) return true;
        }
        return false;
    }
    [[nodiscard]] bool hasUpper(const Open& open) const {
        return pumpHasLimits_ ||
               std::any_of(open.begin(), open.end(), [](const CondensedZone* z) { return z->hasGreatest; });
    }
    [[nodiscard]] double hair() const { return kFlowHair * site_->greatestNet_m3_s(); }

    std::unique_ptr<const CondensedSite> site_;
    const CaseSolver& solver_;
    bool pumpHasLimits_ = false;
    std::unique_ptr<const SetBounds> bounds_;
};

// Pump at its low end, low water: is every emitter above its lower limit?
void ZoneSets::Condensed::askWeak(const Open& open, Asked& a, std::optional<double>& start) const {
    a.leastNet_m3_s = site_->greatestNet_m3_s();
    for (const SupplyCurve& supply : site_->weakest()) {
        const SetDuty d = site_->duty(open, supply, start);
        if (d.where == Where::unsure) a.unsure = true;
        if (d.where == Where::left) {
            a.verdict.tooHigh |= kPumpTooSlow;
            a.leastNet_m3_s = 0.0;
            continue;
        }
        if (d.where == Where::none) fail(a, site_->falls());
        if (d.where == Where::right) fail(a, true);
        if (d.where != Where::inChart) continue;
        a.leastNet_m3_s = std::min(a.leastNet_m3_s, d.net_m3_s);
        for (std::size_t i = 0; i < open.size(); ++i) {
            const double spare_m = d.level_m[i] - open[i]->lowest_m;
            if (std::abs(spare_m) < kLevelHair_m) a.unsure = true;
            if (spare_m < 0.0) fail(a, d.onFallingPart);
        }
    }
}

// NPSH, motor, filters and the chart's end, from the greatest flow of all; corner by corner where that does
// not settle it.
void ZoneSets::Condensed::askFlow(const Open& open, Asked& a, std::optional<double>& start) const {
    const auto clear = [&](const SupplyCurve& c) {
        if (a.greatestNet_m3_s > c.greatestNet_m3_s() - hair()) return false;
        return std::none_of(c.badStretches().begin(), c.badStretches().end(), [&](const auto& b) {
            return b.second > a.leastNet_m3_s - hair() && b.first < a.greatestNet_m3_s + hair();
        });
    };
    const auto allClear = [&](const std::vector<SupplyCurve>& curves) {
        return std::all_of(curves.begin(), curves.end(), clear);
    };
    if (allClear(site_->printed()) && allClear(site_->high()) && allClear(site_->low())) return;
    for (std::size_t c = 0; c < site_->printed().size(); ++c)
        askFlowInCorner(open, c, a, start);
}

void ZoneSets::Condensed::askFlowInCorner(const Open& open, std::size_t corner, Asked& a,
                                          std::optional<double>& start) const {
    const SupplyCurve &printed = site_->printed()[corner], &high = site_->high()[corner];
    const SetDuty p = site_->duty(open, printed, start);
    if (p.where == Where::unsure) a.unsure = true;
    if (p.where == Where::left) return;
    if (p.where != Where::inChart) return fail(a, p.where == Where::right || site_->falls());
    if (!site_->low().empty()) {
        // Under a drive printed and weaker pump are asked as well, each at its own speed.
        const SupplyCurve& low = site_->low()[corner];
        const SetDuty l = site_->duty(open, low, start);
        if (l.where == Where::unsure) a.unsure = true;
        if (inStretch(printed.badStretches(), p.net_m3_s, hair(), a.unsure)) fail(a, true);
        if (l.where == Where::inChart && inStretch(low.badStretches(), l.net_m3_s, hair(), a.unsure))
            fail(a, true);
    }
    const SetDuty h = site_->duty(open, high, start);
    if (h.where == Where::unsure) a.unsure = true;
    if (h.where == Where::inChart) {
        if (inStretch(high.badStretches(), h.net_m3_s, hair(), a.unsure)) fail(a, true);
        return;
    }
    if (high.corner().factor > 1.0 && h.where != Where::left && hasUpper(open)) fail(a, true);
    if (inStretch(printed.badFilterStretches(), p.net_m3_s, hair(), a.unsure)) fail(a, true);
}

// Pump at its high end, high water: the greatest flow, and whether any emitter is above its upper limit.
void ZoneSets::Condensed::askStrong(const Open& open, Asked& a, std::optional<double>& start,
                                    bool judge) const {
    for (std::size_t f = 0; f < site_->strongest().size(); ++f) {
        const SetDuty most = site_->duty(open, site_->strongest()[f], start);
        if (most.where == Where::unsure) a.unsure = true;
        if (most.where == Where::right) a.greatestNet_m3_s = 2.0 * site_->greatestNet_m3_s();
        a.greatestNet_m3_s = std::max(a.greatestNet_m3_s, most.net_m3_s);
        if (!judge) continue;
        if (most.where == Where::inChart) {
            judgeHighest(open, most, a);
            continue;
        }
        // The same filter's printed corner at high water.
        for (const SupplyCurve& printed : site_->printed()) {
            if (printed.corner().level != WaterLevel::high ||
                printed.corner().filter != site_->strongest()[f].corner().filter)
                continue;
            const SetDuty d = site_->duty(open, printed, start);
            if (d.where == Where::unsure) a.unsure = true;
            if (d.where == Where::inChart) judgeHighest(open, d, a);
        }
    }
}

void ZoneSets::Condensed::judgeHighest(const Open& open, const SetDuty& d, Asked& a) const {
    for (std::size_t i = 0; i < open.size(); ++i) {
        const double over_m = d.level_m[i] - open[i]->greatest_m;
        if (std::abs(over_m) < kLevelHair_m) a.unsure = true;
        if (over_m > 0.0) a.verdict.tooHigh |= ZoneMask{1} << open[i]->zone;
    }
}

std::optional<SetVerdict> ZoneSets::Condensed::verdict(ZoneMask set) const {
    const Open open = site_->open(set);
    Asked a;
    std::optional<double> start;
    askWeak(open, a, start);
    if (a.unsure) return std::nullopt;
    // A lower failure that larger sets inherit ends the matter; only what inherits not needs the rest.
    const bool judge = std::any_of(open.begin(), open.end(),
                                   [](const CondensedZone* z) { return std::isfinite(z->greatest_m); });
    start.reset();
    askStrong(open, a, start, judge);
    if (a.verdict.lowerOk) askFlow(open, a, start);
    if (a.unsure) return std::nullopt;
    if (a.verdict.works() && site_->ratingsMatter() &&
        !solver_.upperLimitsHold(openZones(set, solver_.model().site().zones.size()))) {
        a.verdict.tooHigh |= kTooHighSomewhere;
    }
    return a.verdict;
}

ZoneSets::ZoneSets(const CaseSolver& solver) : solver_(solver), inherits_(solver.limitsInherit()) {
    auto site = CondensedSite::make(solver);
    if (!site) return;
    site_ = std::make_unique<const Condensed>(std::move(site), solver);
    inherits_ = inherits_ && site_->site().falls() && site_->badToTheEnd();
}

ZoneSets::~ZoneSets() = default;

SetVerdict ZoneSets::askedExactly(ZoneMask set, ZoneMask knownTooHigh) const {
    ++exact_;
    const auto open = openZones(set, solver_.model().site().zones.size());
    SetVerdict v;
    v.lowerOk = solver_.lowerLimitsHold(open);
    v.failsForGood = !v.lowerOk && inherits_;
    if (!solver_.upperLimitsHold(open)) v.tooHigh = knownTooHigh | kTooHighSomewhere;
    return v;
}

SetVerdict ZoneSets::verdict(ZoneMask set) const {
    if (site_) {
        if (const auto v = site_->verdict(set)) return *v;
    }
    return askedExactly(set, 0);
}

ZonesAtOnceQuestion ZoneSets::question() const {
    ZonesAtOnceQuestion q;
    q.zones = static_cast<int>(solver_.model().site().zones.size());
    q.ask = [this](ZoneMask set) { return verdict(set); };
    if (site_) {
        q.bound = [this](const SetBranch& branch, int size, BoundOn on) {
            return site_->bounds().bound(branch, size, on);
        };
    }
    q.inherits = inherits_;
    q.upperLimits = upperLimits();
    q.burden = burden();
    q.mostThatCanWork = mostThatCanWork();
    return q;
}

bool ZoneSets::upperLimits() const {
    if (!site_) return true;
    const CondensedSite& s = site_->site();
    return s.ratingsMatter() ||
           std::any_of(s.zones().begin(), s.zones().end(),
                       [](const CondensedZone& z) { return std::isfinite(z.greatest_m); }) ||
           std::any_of(s.weakest().begin(), s.weakest().end(),
                       [](const SupplyCurve& c) { return c.leastNet_m3_s() > 0.0; });
}

std::vector<double> ZoneSets::burden() const {
    std::vector<double> flows;
    if (!site_) return flows;
    flows.resize(solver_.model().site().zones.size());
    for (const CondensedZone& z : site_->site().zones())
        flows[z.zone] = std::isfinite(z.lowest_m) ? z.demand.at(z.lowest_m).value : 1e9;
    return flows;
}

// A set of k holds only if the supply, at the k smallest draws, still reaches the k-th lowest level needed.
int ZoneSets::mostThatCanWork() const {
    const int zones = static_cast<int>(solver_.model().site().zones.size());
    if (!site_ || !inherits_) return zones;
    std::vector<double> draws = burden(), levels;
    for (const CondensedZone& z : site_->site().zones())
        levels.push_back(z.lowest_m);
    std::sort(draws.begin(), draws.end());
    std::sort(levels.begin(), levels.end());
    double sum = 0.0;
    for (int k = 0; k < zones; ++k) {
        const auto i = static_cast<std::size_t>(k);
        sum += draws[i] * (1.0 - 1e-6);
        for (const SupplyCurve& s : site_->site().weakest()) {
            const bool left = sum < s.leastNet_m3_s();
            if (!left &&
                (sum > s.greatestNet_m3_s() * (1.0 + 1e-6) || s.at(sum).value < levels[i] - kLevelHair_m))
                return k;
        }
    }
    return zones;
}

} // namespace headmark
