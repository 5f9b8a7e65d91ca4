#include "analysis/chart/way_ahead.h"

#include "analysis/chart/ink_centres.h"
#include "analysis/chart/median.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kMostOff_px = 24.0; // of a way from the one foretold
constexpr double kCell_px = 0.5;
constexpr int kHalfCells = static_cast<int>(kMostOff_px / kCell_px);
constexpr int kCells = 2 * kHalfCells + 1;
// What a step counts: a stroke alike 1 where it is centred.
constexpr double kPaper = -0.35, kPaperOfDashed = -0.12, kOtherInk = -0.12;
constexpr double kSightReach_px = 1.5;
constexpr double kPriorWeight = 4.0; // neighbouring steps see the same ink
constexpr double kMostMisfit = 14.0;
// Many sights tell the width better than one: so far it may differ, as a share, of a line whose width hardly
// varies and of others.
constexpr double kLeastOtherWidth = 0.15, kMostOtherWidth = 0.30;
// Of the line, before it is believed: a share of the gap, and so much of the stretch inked.
constexpr double kOfGap = 0.6, kInked = 0.4, kInkedOfDashed = 0.25;
constexpr double kPlace_px = 0.6; // of a centre
constexpr int kHalfGrid = 12;
constexpr double kGridSigmas = 3.0;

struct Sight {
    double offset_px = 0.0, width_px = 0.0, darkness = 0.0;
    double like = 1.0;  // 1: just as the line
    double slope = 0.0; // of its stroke there, against the way foretold, and one sigma of it
    double sigmaSlope = 1.0;
    std::size_t chain = 0, inChain = 0;
};

// Sights in a row from step to step: one stroke.
struct Chain {
    std::vector<double> ahead_px, offset_px;
    std::size_t lastStation = 0;
    [[nodiscard]] double length() const { return ahead_px.back() - ahead_px.front(); }
};

// What lies across the foretold way at one step.
struct Station {
    double ahead_px = 0.0;
    PagePoint at, along;
    std::vector<Sight> sights;
    std::vector<float> worth; // by cell
    std::vector<bool> inked;  // by cell
    bool nearInk = false, onRuling = false;
};

struct Bend {
    double b = 0.0, c = 0.0;
    [[nodiscard]] double at(double s) const { return b * s + 0.5 * c * s * s; }
};

struct Scored {
    Bend bend;
    double score = 0.0;
    std::size_t upTo = 0; // stations of the best prefix
};

class Searcher {
  public:
    Searcher(const InkField& field, const Rulings& rulings, const WayAsked& asked)
        : field_(field), rulings_(rulings), asked_(asked) {
        const double known = std::max(asked.known_px, 12.0);
        sigmaB_ = 0.02 + 1.2 / known;
        const double own = 0.4 * std::abs(asked.foretold.bend()); // bends change as they are
        sigmaC_ = std::min(0.0006 + own + (asked.broken ? 4.0 : 1.5) / (known * known), 0.008);
    }

    std::optional<WayAhead> find();
    [[nodiscard]] bool inkGoesOn() const;
    [[nodiscard]] bool leavesPage() const;
    [[nodiscard]] bool nothingAhead() const;

  private:
    void look();
    [[nodiscard]] Station stationAt(double ahead) const;
    void chainSights();
    void weigh(Station& station) const;
    void tellSlope(Sight& s) const;
    [[nodiscard]] bool runsAsRuling(const Station& station, const Sight& s) const;
    [[nodiscard]] bool runsAlong(const Sight& s, double slope, double sigma) const;
    [[nodiscard]] Scored score(const Bend& bend) const;
    [[nodiscard]] Bend refined(Bend bend) const;
    // A stroke alike on a way.
    struct Met {
        std::size_t station;
        const Sight* sight;
    };
    [[nodiscard]] std::vector<Met> metAlong(const Scored& way) const;
    [[nodiscard]] std::optional<std::size_t> confirmedFrom(const std::vector<Met>& met,
                                                           std::size_t first) const;
    [[nodiscard]] bool mayBeGap(const Scored& way, std::size_t first, bool& overInk) const;
    [[nodiscard]] double misfitOf(const Bend& bend, double ahead) const;
    [[nodiscard]] double mostOtherWidth() const;
    [[nodiscard]] std::optional<WayAhead> believed(const Scored& best) const;
    [[nodiscard]] const Sight* sightOn(const Station& station, const Bend& bend, double reach) const;

    const InkField& field_;
    const Rulings& rulings_;
    const WayAsked& asked_;
    double sigmaB_ = 0.0, sigmaC_ = 0.0;
    std::vector<Station> stations_;
    std::vector<Chain> chains_;
    bool onlyPaper_ = false;
};

bool isAlike(const StrokeLook& look, const StrokeSight& s) { return unlikeness(look, s) < 9.0; }

Station Searcher::stationAt(double ahead) const {
    Station station;
    station.ahead_px = ahead;
    station.at = asked_.foretold.at(ahead);
    station.along = asked_.foretold.directionAt(ahead);
    const double likely = kGridSigmas * (sigmaB_ * ahead + 0.5 * sigmaC_ * ahead * ahead);
    const double reach = std::clamp(4.0 + likely, kProfileReach_px, kMostOff_px);
    const Profile profile =
        profileAcross(field_, station.at, station.along, reach, asked_.step_px, &asked_.look);
    const Profile any = asked_.look.byColour
                            ? profileAcross(field_, station.at, station.along, reach, asked_.step_px)
                            : profile;
    const auto beside = rulings_.beside(station.at, station.along, reach);
    station.onRuling = std::any_of(beside.begin(), beside.end(), [](const RulingBeside& b) {
        return std::abs(b.offset_px) < 0.5 * b.width_px + 1.0;
    });
    const double paper = asked_.dashed ? kPaperOfDashed : kPaper;
    station.worth.assign(kCells, static_cast<float>(paper));
    station.inked.assign(kCells, false);
    const int half = static_cast<int>(any.ink.size() / 2);
    for (int i = -std::min(half, kHalfCells); i <= std::min(half, kHalfCells); ++i) {
        if (any.ink[static_cast<std::size_t>(i + half)] <= 0.4 * asked_.look.darkness) continue;
        station.inked[static_cast<std::size_t>(i + kHalfCells)] = true;
        station.worth[static_cast<std::size_t>(i + kHalfCells)] = static_cast<float>(kOtherInk);
        if (std::abs(i) * kCell_px <= kProfileReach_px) station.nearInk = true;
    }
    for (const StrokeSight& s : strokesBesideRulings(profile, asked_.look, beside, asked_.dashed)) {
        if (!isAlike(asked_.look, s)) continue;
        Sight sight;
        sight.offset_px = s.offset_px;
        sight.width_px = s.width_px;
        sight.darkness = s.darkness;
        sight.like = std::exp(-0.08 * unlikeness(asked_.look, s));
        station.sights.push_back(sight);
    }
    return station;
}

void Searcher::chainSights() {
    for (std::size_t k = 0; k < stations_.size(); ++k) {
        const double ahead = stations_[k].ahead_px;
        for (Sight& s : stations_[k].sights) {
            std::size_t own = chains_.size();
            for (std::size_t c = chains_.size(); c-- > 0;) {
                const Chain& chain = chains_[c];
                const double apart = ahead - chain.ahead_px.back();
                if (chain.lastStation == k || apart > 1.5 * asked_.step_px) continue;
                if (std::abs(s.offset_px - chain.offset_px.back()) <= 0.3 + 0.6 * apart) own = c;
            }
            if (own == chains_.size()) chains_.emplace_back();
            Chain& chain = chains_[own];
            s.chain = own;
            s.inChain = chain.ahead_px.size();
            chain.ahead_px.push_back(ahead);
            chain.offset_px.push_back(s.offset_px);
            chain.lastStation = k;
        }
    }
    for (Station& station : stations_) {
        for (Sight& s : station.sights)
            tellSlope(s);
        std::erase_if(station.sights, [&](const Sight& s) { return runsAsRuling(station, s); });
    }
}

// From its neighbours in the stroke.
void Searcher::tellSlope(Sight& s) const {
    constexpr std::size_t kHalf = 4;
    constexpr double kSigma_px = 0.6, kLeastSigma = 0.04;
    const Chain& chain = chains_[s.chain];
    const std::size_t from = s.inChain > kHalf ? s.inChain - kHalf : 0;
    const std::size_t to = std::min(s.inChain + kHalf, chain.ahead_px.size() - 1);
    const double run = chain.ahead_px[to] - chain.ahead_px[from];
    if (run > 0.0) s.slope = (chain.offset_px[to] - chain.offset_px[from]) / run;
    s.sigmaSlope = kLeastSigma + kSigma_px / std::max(run, 1.0);
}

// A ruling that crosses the foretold way aslant, seen along itself.
bool Searcher::runsAsRuling(const Station& station, const Sight& s) const {
    constexpr double kKnown = 0.15, kReach_px = 3.0;
    if (s.sigmaSlope > kKnown) return false;
    const PagePoint normal{-station.along.y, station.along.x};
    const PagePoint way = station.along + s.slope * normal;
    const PagePoint along = (1.0 / length(way)) * way;
    const auto beside = rulings_.beside(station.at + s.offset_px * normal, along, kReach_px);
    return isRuling({0.0, s.width_px, s.darkness, 0.0}, beside);
}

bool Searcher::runsAlong(const Sight& s, double slope, double sigma) const {
    if (asked_.longestStroke_px > 0.0 && chains_[s.chain].length() > asked_.longestStroke_px) return false;
    return std::abs(s.slope - slope) <= 2.5 * (sigma + s.sigmaSlope);
}

void Searcher::weigh(Station& station) const {
    for (const Sight& s : station.sights) {
        if (!runsAlong(s, 0.0, sigmaB_ + sigmaC_ * station.ahead_px)) continue;
        const int from = static_cast<int>(std::ceil((s.offset_px - kSightReach_px) / kCell_px));
        const int to = static_cast<int>(std::floor((s.offset_px + kSightReach_px) / kCell_px));
        for (int i = std::max(from, -kHalfCells); i <= std::min(to, kHalfCells); ++i) {
            const double off = (i * kCell_px - s.offset_px) / kSightReach_px;
            float& worth = station.worth[static_cast<std::size_t>(i + kHalfCells)];
            const double here = kOtherInk + (1.0 - kOtherInk) * s.like * (1.0 - 0.8 * off * off);
            worth = std::max(worth, static_cast<float>(here));
        }
    }
}

void Searcher::look() {
    double bare_px = 0.0;
    for (double ahead = asked_.step_px; ahead <= asked_.reach_px; ahead += asked_.step_px) {
        const PagePoint at = asked_.foretold.at(ahead);
        if (!field_.contains(at.x, at.y)) break;
        if (ahead <= asked_.hidden_px) continue;
        stations_.push_back(stationAt(ahead));
        // No way may lead over so much bare paper.
        bare_px = stations_.back().nearInk ? 0.0 : bare_px + asked_.step_px;
        onlyPaper_ = bare_px > asked_.longestPaper_px + 2.0 * asked_.step_px;
        if (onlyPaper_) break;
    }
}

Scored Searcher::score(const Bend& bend) const {
    Scored scored{bend, 0.0, 0};
    double sum = 0.0;
    for (std::size_t k = 0; k < stations_.size(); ++k) {
        const int cell =
            static_cast<int>(std::lround(bend.at(stations_[k].ahead_px) / kCell_px)) + kHalfCells;
        if (cell < 0 || cell >= kCells) break;
        sum += static_cast<double>(stations_[k].worth[static_cast<std::size_t>(cell)]);
        if (sum > scored.score) {
            scored.score = sum;
            scored.upTo = k + 1;
        }
    }
    const double b = bend.b / sigmaB_, c = bend.c / sigmaC_;
    scored.score -= 0.5 * kPriorWeight * (b * b + c * c);
    return scored;
}

const Sight* Searcher::sightOn(const Station& station, const Bend& bend, double reach) const {
    const Sight* nearest = nullptr;
    const double n = bend.at(station.ahead_px);
    for (const Sight& s : station.sights) {
        if (std::abs(s.offset_px - n) > reach) continue;
        if (!runsAlong(s, bend.b + bend.c * station.ahead_px, 0.0)) continue;
        if (!nearest || std::abs(s.offset_px - n) < std::abs(nearest->offset_px - n)) nearest = &s;
    }
    return nearest;
}

// Least squares through the sights along the way, with what was foretold as one more measurement.
Bend Searcher::refined(Bend bend) const {
    constexpr double kSigma_px = 0.6; // with neighbours that see the same ink
    for (int round = 0; round < 2; ++round) {
        double bb = 1.0 / (sigmaB_ * sigmaB_), bc = 0.0, cc = 1.0 / (sigmaC_ * sigmaC_), rb = 0.0, rc = 0.0;
        for (std::size_t k = 0; k < score(bend).upTo; ++k) {
            const Sight* s = sightOn(stations_[k], bend, kSightReach_px);
            if (!s) continue;
            const double x = stations_[k].ahead_px, y = 0.5 * x * x, w = 1.0 / (kSigma_px * kSigma_px);
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
        if (const Sight* s = sightOn(stations_[k], way.bend, kSightReach_px)) met.push_back({k, s});
    return met;
}

// How much of the line is seen from the first of `met` on before it is believed, and up to which: none where
// there is too little of it.
std::optional<std::size_t> Searcher::confirmedFrom(const std::vector<Met>& met, std::size_t first) const {
    const double from = stations_[met[first].station].ahead_px;
    const double needed = std::max(asked_.confirm_px, kOfGap * (from - asked_.hidden_px));
    const double share = asked_.dashed ? kInkedOfDashed : kInked;
    double seen = asked_.step_px;
    for (std::size_t m = first + 1; m <= met.size(); ++m) {
        const double length = stations_[met[m - 1].station].ahead_px - from + asked_.step_px;
        if (seen >= needed && seen >= share * length) return m - 1;
        if (m == met.size()) break;
        const double apart = stations_[met[m].station].ahead_px - stations_[met[m - 1].station].ahead_px;
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
        const Station& station = stations_[k];
        const int cell = static_cast<int>(std::lround(way.bend.at(station.ahead_px) / kCell_px)) + kHalfCells;
        const bool inked = station.inked[static_cast<std::size_t>(std::clamp(cell, 0, kCells - 1))];
        paper = inked ? 0.0 : paper + asked_.step_px;
        longest = std::max(longest, paper);
        over += inked ? 1 : 0;
        near += station.nearInk ? 1 : 0;
    }
    overInk = 2 * over > first;
    return longest <= asked_.longestPaper_px || 3 * near > first;
}

// Squared sigmas by which a way leaves the one foretold where the line is taken up.
double Searcher::misfitOf(const Bend& bend, double ahead) const {
    const double place = std::hypot(kPlace_px, sigmaB_ * ahead, 0.5 * sigmaC_ * ahead * ahead);
    const double slope = std::hypot(sigmaB_, sigmaC_ * ahead);
    return std::pow(bend.at(ahead) / place, 2) + std::pow((bend.b + bend.c * ahead) / slope, 2);
}

double Searcher::mostOtherWidth() const {
    const StrokeLook& look = asked_.look;
    if (!look.widthSpread_px) return kMostOtherWidth;
    return std::clamp(0.12 + 3.0 * *look.widthSpread_px / look.width_px, kLeastOtherWidth, kMostOtherWidth);
}

std::optional<WayAhead> Searcher::believed(const Scored& best) const {
    const std::vector<Met> met = metAlong(best);
    for (std::size_t first = 0; first < met.size(); ++first) {
        const auto confirmed = confirmedFrom(met, first);
        if (!confirmed) continue;
        WayAhead way;
        if (!mayBeGap(best, met[first].station, way.overInk)) return std::nullopt;
        std::vector<double> widths;
        constexpr int kMostOdd = 4; // of another width in a row: a crossing; more are another pen or line
        int odd = 0;
        for (std::size_t m = first; m < met.size(); ++m) {
            const Station& station = stations_[met[m].station];
            if (m > *confirmed) {
                if (station.ahead_px - stations_[met[m - 1].station].ahead_px > asked_.longestPaper_px) break;
                const double usual = medianOf(widths);
                odd = std::abs(met[m].sight->width_px - usual) > 0.3 * usual + 0.7 ? odd + 1 : 0;
                if (odd > kMostOdd) break;
                if (odd > 0) continue;
            }
            const PagePoint normal{-station.along.y, station.along.x};
            way.seen.push_back(
                {station.at + met[m].sight->offset_px * normal, station.along, 0.0, met[m].sight->width_px});
            widths.push_back(met[m].sight->width_px);
        }
        const double ahead = stations_[met[first].station].ahead_px;
        way.gap_px = ahead - asked_.hidden_px;
        way.width_px = medianOf(widths);
        way.misfit = misfitOf(best.bend, ahead + 0.5 * asked_.confirm_px);
        const double asWide = way.width_px / asked_.look.width_px;
        const double otherWidth = mostOtherWidth();
        if (asWide < 1.0 - otherWidth || asWide > 1.1 + otherWidth) continue; // partly hidden by other ink
        if (way.misfit > kMostMisfit) return std::nullopt;
        return way;
    }
    return std::nullopt;
}

bool Searcher::inkGoesOn() const {
    constexpr double kMostBare = 0.2;
    const double reach = 30.0 + 5.0 * asked_.look.width_px;
    std::size_t all = 0, inked = 0;
    for (const Station& station : stations_) {
        if (station.ahead_px - asked_.hidden_px > reach) break;
        ++all;
        inked += station.inked[static_cast<std::size_t>(kHalfCells)] && !station.onRuling ? 1 : 0;
    }
    return static_cast<double>(all) * asked_.step_px > (1.0 - kMostBare) * reach &&
           static_cast<double>(inked) > (1.0 - kMostBare) * static_cast<double>(all);
}

bool Searcher::nothingAhead() const {
    return onlyPaper_ && std::none_of(stations_.begin(), stations_.end(), [&](const Station& s) {
               return s.nearInk &&
                      s.ahead_px > asked_.hidden_px + 2.0 * asked_.look.width_px + asked_.step_px;
           });
}

bool Searcher::leavesPage() const {
    return stations_.empty() || (!onlyPaper_ && stations_.back().ahead_px - asked_.hidden_px <
                                                    asked_.longestPaper_px - asked_.step_px);
}

std::optional<WayAhead> Searcher::find() {
    look();
    chainSights();
    for (Station& station : stations_)
        weigh(station);
    const auto any =
        std::count_if(stations_.begin(), stations_.end(), [](const Station& s) { return !s.sights.empty(); });
    if (static_cast<double>(any) * asked_.step_px < asked_.confirm_px) return std::nullopt;
    std::vector<Scored> all;
    Scored best;
    for (int i = -kHalfGrid; i <= kHalfGrid; ++i) {
        for (int j = -kHalfGrid; j <= kHalfGrid; ++j) {
            all.push_back(
                score({kGridSigmas * sigmaB_ * i / kHalfGrid, kGridSigmas * sigmaC_ * j / kHalfGrid}));
            if (all.back().score > best.score) best = all.back();
        }
    }
    if (best.upTo == 0 || best.score * asked_.step_px < 0.5 * asked_.confirm_px) return std::nullopt;
    // Where two ways part that are nearly as good, none is believed.
    const double apart = std::max(2.5, 1.2 * asked_.look.width_px);
    constexpr double kNearlyAsGood = 0.8;
    for (const Scored& other : all) {
        if (other.score < kNearlyAsGood * best.score) continue;
        const double end = stations_[std::min(other.upTo, best.upTo) - 1].ahead_px;
        if (std::abs(other.bend.at(end) - best.bend.at(end)) > apart + 0.02 * end) return std::nullopt;
    }
    const Scored refinedBest = score(refined(best.bend));
    return believed(refinedBest.upTo > 0 && refinedBest.score >= 0.8 * best.score ? refinedBest : best);
}

} // namespace

WaySought findWayAhead(const InkField& field, const Rulings& rulings, const WayAsked& asked) {
    Searcher searcher(field, rulings, asked);
    WaySought sought;
    sought.way = searcher.find();
    sought.inkGoesOn = searcher.inkGoesOn();
    sought.leavesPage = searcher.leavesPage();
    sought.nothingAhead = searcher.nothingAhead();
    return sought;
}

} // namespace headmark
