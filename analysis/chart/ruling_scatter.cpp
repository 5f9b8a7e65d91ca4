#include "analysis/chart/ruling_scatter.h"
#include "analysis/chart/median.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace headmark {

namespace {

// Usual shift of a ruling off its figure: plotters put frame and grid on whole dots and curves between them
// (a dot's rounding is 0.29 of it), and pages are printed finer than they are scanned. Counts as half a
// ruling. Rule of this program: with less, frames without a grid promised more than pages of other plotters
// hold.
constexpr double kUsualApart_px = 0.17, kUsualCounts = 0.5;
constexpr double kLeastWithin_px = 0.02;
constexpr double kClip = 3.0; // sigmas; farther off stand other lines

double square(double x) { return x * x; }

struct OneRuling {
    std::vector<double> off; // along it
    double mean = 0.0;
};

std::vector<OneRuling> rulingsOf(const std::vector<RulingPlace>& places, bool upright) {
    std::map<std::size_t, OneRuling> byRuling;
    for (const RulingPlace& p : places)
        if (p.upright == upright) byRuling[p.ruling].off.push_back(p.pixels);
    std::vector<OneRuling> all;
    for (auto& [index, ruling] : byRuling) {
        ruling.mean = medianOf(ruling.off);
        all.push_back(std::move(ruling));
    }
    return all;
}

} // namespace

double RulingScatter::ofPlace(std::size_t places) const {
    return std::sqrt(static_cast<double>(places) * square(apart_px) + square(within_px));
}

RulingScatter scatterOf(const std::vector<RulingPlace>& places, bool upright, double taken) {
    RulingScatter scatter;
    const std::vector<OneRuling> rulings = rulingsOf(places, upright);
    scatter.rulings = rulings.size();
    if (rulings.empty()) return scatter;
    const auto count = static_cast<double>(rulings.size());
    std::vector<double> means, within;
    for (const OneRuling& r : rulings) {
        means.push_back(r.mean);
        for (const double off : r.off)
            within.push_back(off - r.mean);
    }
    const double own = std::max(normalSpreadOf(within), kLeastWithin_px);
    // Neighbours side by side: their own errors do not meet, what bends both alike does.
    double alike = 0.0;
    std::size_t pairs = 0;
    for (std::size_t k = 1; k < rulings.size(); ++k) {
        const OneRuling &a = rulings[k - 1], &b = rulings[k];
        if (a.off.size() != b.off.size()) continue;
        for (std::size_t i = 0; i < a.off.size(); ++i, ++pairs)
            alike += std::clamp(a.off[i] - a.mean, -kClip * own, kClip * own) *
                     std::clamp(b.off[i] - b.mean, -kClip * own, kClip * own);
    }
    // Less than its own standard error is chance.
    const auto told = static_cast<double>(std::max<std::size_t>(pairs, 1));
    scatter.shared_px = std::sqrt(std::max(alike / told - square(own) / std::sqrt(told), 0.0));
    scatter.shared_px = std::min(scatter.shared_px, own);
    scatter.within_px = std::max(std::sqrt(square(own) - square(scatter.shared_px)), kLeastWithin_px);
    constexpr double kEnoughToClip = 6.0;
    const double most =
        count < kEnoughToClip ? 1e9 : kClip * std::max(normalSpreadOf(means), kLeastWithin_px);
    double squares = 0.0;
    for (const double mean : means)
        squares += square(std::clamp(mean, -most, most));
    const double spare = std::max(count - taken, 0.0);
    // The fit took `taken` of `count` parts of the scatter with it.
    scatter.apart_px = std::sqrt((kUsualCounts * square(kUsualApart_px) + (spare > 0.0 ? squares : 0.0)) /
                                 (kUsualCounts + spare));
    return scatter;
}

} // namespace headmark
