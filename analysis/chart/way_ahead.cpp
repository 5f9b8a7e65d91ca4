#include "analysis/chart/way_ahead.h"

#include "analysis/chart/median.h"
#include "analysis/chart/way_strip.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kPriorWeight = 4.0; // neighbouring steps see the same ink
constexpr double kMostMisfit = 14.0;
// Many sights tell the width better than one: so far it may differ, as a share, of a line whose width hardly
// varies and of others.
constexpr double kLeastOtherWidth = 0.15, kMostOtherWidth = 0.30;
// Of the line, before it is believed: a share of the gap, and so much of the stretch inked.
constexpr double kOfGap = 0.6, kInked = 0.4, kInkedOfDashed = 0.25;
constexpr double kPlace_px = 0.6; // of a centre
constexpr int kHalfGrid = 12;

struct Scored {
    WayBend bend;
    double score = 0.0;
    std::size_t upTo = 0; // stations of the best prefix
};

class Searcher {
  public:
    Searcher(const WayStrip& strip, const WayAsked& asked) : strip_(strip), asked_(asked) {}

    std::optional<WayAhead> find();

  private:
    [[nodiscard]] Scored score(const WayBend& bend) const;
    [[nodiscard]] WayBend refined(WayBend bend) const;
    // A stroke alike on a way.
    struct Met {
        std::size_t station;
        const WaySight* sight;
    };
    [[nodiscard]] std::vector<Met> metAlong(const Scored& way) const;
    [[nodiscard]] std::optional<std::size_t> confirmedFrom(const std::vector<Met>& met,
                                                           std::size_t first) const;
    [[nodiscard]] bool mayBeGap(const Scored& way, std::size_t first, bool& overInk) const;
    [[nodiscard]] double misfitOf(const WayBend& bend, double ahead) const;
    [[nodiscard]] double mostOtherWidth() const;
    [[nodiscard]] WayAhead takenFrom(const std::vector<Met>& met, std::size_t first,
                                     std::size_t confirmed) const;
    [[nodiscard]] std::optional<WayAhead> believed(const Scored& best) const;

    const WayStrip& strip_;
    const WayAsked& asked_;
};

Scored Searcher::score(const WayBend& bend) const {
    Scored scored{bend, 0.0, 0};
    double sum = 0.0;
    for (std::size_t k = 0; k < strip_.stations().size(); ++k) {
        const int cell = WayStrip::cellOf(bend.at(strip_.stations()[k].ahead_px));
        if (cell < 0) break;
        sum += static_cast<double>(strip_.stations()[k].worth[static_cast<std::size_t>(cell)]);
        if (sum > scored.score) {
            scored.score = sum;
            scored.upTo = k + 1;
        }
    }
    const double b = bend.b / strip_.sigmaB(), c = bend.c / strip_.sigmaC();
    scored.score -= 0.5 * kPriorWeight * (b * b + c * c);
    return scored;
}

// Least squares through the sights along the way, with what was foretold as one more measurement.
WayBend Searcher::refined(WayBend bend) const {
    constexpr double kSigma_px = 0.6; // with neighbours that see the same ink
    for (int round = 0; round < 2; ++round) {
        double bb = 1.0 / (strip_.sigmaB() * strip_.sigmaB()), bc = 0.0,
               cc = 1.0 / (strip_.sigmaC() * strip_.sigmaC()), rb = 0.0, rc = 0.0;
        for (std::size_t k = 0; k < score(bend).upTo; ++k) {
            const WaySight* s = strip_.sightOn(strip_.stations()[k], bend);
            if (!s) continue;
            const double x = strip_.stations()[k].ahead_px, y = 0.5 * x * x,
                         w = 1.0 / (kSigma_px * kSigma_px);
            bb += w * x * x;
            bc += w * x * y;
            cc += w * y * y;
            rb += w * x * s->offset_px;
            rc += w * y * s->offset_px;
        }
        const double det = bb * cc - bc * bc;
        bend = {(rb * cc - rc * bc) / det, (rc * bb - rb * bc) / det};
    }
    return bend;
}

// The places along a way where a stroke alike lies.
std::vector<Searcher::Met> Searcher::metAlong(const Scored& way) const {
    std::vector<Met> met;
    for (std::size_t k = 0; k < way.upTo; ++k)
        if (const WaySight* s = strip_.sightOn(strip_.stations()[k], way.bend)) met.push_back({k, s});
    return met;
}

// How much of the line is seen from the first of `met` on before it is believed, and up to which: none where
// there is too little of it.
std::optional<std::size_t> Searcher::confirmedFrom(const std::vector<Met>& met, std::size_t first) const {
    const double from = strip_.stations()[met[first].station].ahead_px;
    const double needed = std::max(asked_.confirm_px, kOfGap * (from - asked_.hidden_px));
    const double share = asked_.dashed ? kInkedOfDashed : kInked;
    double seen = asked_.step_px;
    for (std::size_t m = first + 1; m <= met.size(); ++m) {
        const double length = strip_.stations()[met[m - 1].station].ahead_px - from + asked_.step_px;
        if (seen >= needed && seen >= share * length) return m - 1;
        if (m == met.size()) break;
        const double apart =
            strip_.stations()[met[m].station].ahead_px - strip_.stations()[met[m - 1].station].ahead_px;
        if (apart > asked_.longestPaper_px + 2.0 * asked_.look.width_px) return std::nullopt;
        seen += std::min(apart, 2.0 * asked_.step_px);
    }
    return std::nullopt;
}

// Between the last sight and the first that is believed: not too much bare paper, unless words stand there.
bool Searcher::mayBeGap(const Scored& way, std::size_t first, bool& overInk) const {
    double paper = 0.0, longest = 0.0;
    std::size_t over = 0, near = 0;
    for (std::size_t k = 0; k < first; ++k) {
        const WayStation& station = strip_.stations()[k];
        const int cell = WayStrip::cellOf(way.bend.at(station.ahead_px));
        const bool inked = cell >= 0 && station.inked[static_cast<std::size_t>(cell)];
        paper = inked ? 0.0 : paper + asked_.step_px;
        longest = std::max(longest, paper);
        over += inked ? 1 : 0;
        near += station.nearInk ? 1 : 0;
    }
    overInk = 2 * over > first;
    return longest <= asked_.longestPaper_px || 3 * near > first;
}

// Squared sigmas by which a way leaves the one foretold where the line is taken up.
double Searcher::misfitOf(const WayBend& bend, double ahead) const {
    const double place =
        std::hypot(kPlace_px, strip_.sigmaB() * ahead, 0.5 * strip_.sigmaC() * ahead * ahead);
    const double slope = std::hypot(strip_.sigmaB(), strip_.sigmaC() * ahead);
    return std::pow(bend.at(ahead) / place, 2) + std::pow((bend.b + bend.c * ahead) / slope, 2);
}

double Searcher::mostOtherWidth() const {
    const StrokeLook& look = asked_.look;
    if (!look.widthSpread_px) return kMostOtherWidth;
    return std::clamp(0.12 + 3.0 * *look.widthSpread_px / look.width_px, kLeastOtherWidth, kMostOtherWidth);
}

// The line from the first place on that is believed: as far as it goes without a break and as wide.
WayAhead Searcher::takenFrom(const std::vector<Met>& met, std::size_t first, std::size_t confirmed) const {
    WayAhead way;
    std::vector<double> widths;
    constexpr int kMostOdd = 4; // of another width in a row: a crossing; more are another pen or line
    int odd = 0;
    for (std::size_t m = first; m < met.size(); ++m) {
        const WayStation& station = strip_.stations()[met[m].station];
        const double width = met[m].sight->width_px;
        if (m > confirmed) {
            if (station.ahead_px - strip_.stations()[met[m - 1].station].ahead_px > asked_.longestPaper_px)
                break;
            const double usual = medianOf(widths);
            odd = std::abs(width - usual) > 0.3 * usual + 0.7 ? odd + 1 : 0;
            if (odd > kMostOdd) break;
            if (odd > 0) continue;
        }
        const PagePoint normal{-station.along.y, station.along.x};
        way.seen.push_back({station.at + met[m].sight->offset_px * normal, station.along, 0.0, width});
        widths.push_back(width);
    }
    way.width_px = medianOf(widths);
    return way;
}

std::optional<WayAhead> Searcher::believed(const Scored& best) const {
    const std::vector<Met> met = metAlong(best);
    for (std::size_t first = 0; first < met.size(); ++first) {
        const auto confirmed = confirmedFrom(met, first);
        if (!confirmed) continue;
        bool overInk = false;
        if (!mayBeGap(best, met[first].station, overInk)) return std::nullopt;
        WayAhead way = takenFrom(met, first, *confirmed);
        const double asWide = way.width_px / asked_.look.width_px, otherWidth = mostOtherWidth();
        if (asWide < 1.0 - otherWidth || asWide > 1.1 + otherWidth) continue; // partly hidden by other ink
        const double ahead = strip_.stations()[met[first].station].ahead_px;
        way.overInk = overInk;
        way.gap_px = ahead - asked_.hidden_px;
        way.misfit = misfitOf(best.bend, ahead + 0.5 * asked_.confirm_px);
        if (way.misfit > kMostMisfit) return std::nullopt;
        return way;
    }
    return std::nullopt;
}

std::optional<WayAhead> Searcher::find() {
    const auto any = std::count_if(strip_.stations().begin(), strip_.stations().end(),
                                   [](const WayStation& s) { return !s.sights.empty(); });
    if (static_cast<double>(any) * asked_.step_px < asked_.confirm_px) return std::nullopt;
    std::vector<Scored> all;
    Scored best;
    for (int i = -kHalfGrid; i <= kHalfGrid; ++i) {
        for (int j = -kHalfGrid; j <= kHalfGrid; ++j) {
            all.push_back(score({kWaySigmas * strip_.sigmaB() * i / kHalfGrid,
                                 kWaySigmas * strip_.sigmaC() * j / kHalfGrid}));
            if (all.back().score > best.score) best = all.back();
        }
    }
    if (best.upTo == 0 || best.score * asked_.step_px < 0.5 * asked_.confirm_px) return std::nullopt;
    // Where two ways part that are nearly as good, none is believed.
    const double apart = std::max(2.5, 1.2 * asked_.look.width_px);
    constexpr double kNearlyAsGood = 0.8;
    for (const Scored& other : all) {
        if (other.score < kNearlyAsGood * best.score) continue;
        const double end = strip_.stations()[std::min(other.upTo, best.upTo) - 1].ahead_px;
        if (std::abs(other.bend.at(end) - best.bend.at(end)) > apart + 0.02 * end) return std::nullopt;
    }
    const Scored refinedBest = score(refined(best.bend));
    return believed(refinedBest.upTo > 0 && refinedBest.score >= 0.8 * best.score ? refinedBest : best);
}

} // namespace

WaySought findWayAhead(const InkField& field, const Rulings& rulings, const WayAsked& asked) {
    const WayStrip strip(field, rulings, asked);
    WaySought sought;
    sought.way = Searcher(strip, asked).find();
    sought.inkGoesOn = strip.inkGoesOn();
    sought.leavesPage = strip.leavesPage();
    sought.nothingAhead = strip.nothingAhead();
    return sought;
}

} // namespace headmark
