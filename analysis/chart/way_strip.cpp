#include "analysis/chart/way_strip.h"

#include "analysis/chart/ink_centres.h"
#include "analysis/chart/ruling_strokes.h"

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
// One sigma of the bend of a line that bends, beyond that of others, 1/px and as a share of its bend.
constexpr double kBends = 0.002, kOfBend = 0.5, kMostBends = 0.016;
constexpr double kPerUnlike = 0.08; // half as much for one just alike

} // namespace

WayStrip::WayStrip(const InkField& field, const Rulings& rulings, const WayAsked& asked)
    : field_(field), rulings_(rulings), asked_(asked) {
    const double known = std::max(asked.known_px, 12.0);
    sigmaB_ = 0.02 + 1.2 / known;
    const double own = 0.4 * std::abs(asked.foretold.bend()); // bends change as they are
    sigmaC_ = std::min(0.0006 + own + (asked.broken ? 4.0 : 1.5) / (known * known), 0.008);
    if (asked.bends)
        sigmaC_ = std::min(sigmaC_ + kBends + kOfBend * std::abs(asked.foretold.bend()), kMostBends);
    look();
    chainSights();
    for (WayStation& station : stations_)
        weigh(station);
}

int WayStrip::cellOf(double offset_px) {
    const int cell = static_cast<int>(std::lround(offset_px / kCell_px)) + kHalfCells;
    return cell < 0 || cell >= kCells ? -1 : cell;
}

WayStation WayStrip::stationAt(double ahead) const {
    WayStation station;
    station.ahead_px = ahead;
    station.at = asked_.foretold.at(ahead);
    station.along = asked_.foretold.directionAt(ahead);
    const double likely = kWaySigmas * (sigmaB_ * ahead + 0.5 * sigmaC_ * ahead * ahead);
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
        const double unlike = unlikeness(asked_.look, s);
        if (unlike >= kAlike) continue;
        WaySight sight;
        sight.offset_px = s.offset_px;
        sight.width_px = s.width_px;
        sight.darkness = s.darkness;
        sight.like = std::exp(-kPerUnlike * unlike);
        station.sights.push_back(sight);
    }
    return station;
}

void WayStrip::chainSights() {
    for (std::size_t k = 0; k < stations_.size(); ++k) {
        const double ahead = stations_[k].ahead_px;
        for (WaySight& s : stations_[k].sights) {
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
    for (WayStation& station : stations_) {
        for (WaySight& s : station.sights)
            tellSlope(s);
        std::erase_if(station.sights, [&](const WaySight& s) { return runsAsRuling(station, s); });
    }
}

// From its neighbours in the stroke.
void WayStrip::tellSlope(WaySight& s) const {
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
bool WayStrip::runsAsRuling(const WayStation& station, const WaySight& s) const {
    constexpr double kKnown = 0.15, kReach_px = 3.0;
    if (s.sigmaSlope > kKnown) return false;
    const PagePoint normal{-station.along.y, station.along.x};
    const PagePoint way = station.along + s.slope * normal;
    const PagePoint along = (1.0 / length(way)) * way;
    const auto beside = rulings_.beside(station.at + s.offset_px * normal, along, kReach_px);
    return isRuling({0.0, s.width_px, s.darkness, 0.0}, beside);
}

bool WayStrip::runsAlong(const WaySight& s, double slope, double sigma) const {
    if (asked_.longestStroke_px > 0.0 && chains_[s.chain].length() > asked_.longestStroke_px) return false;
    return std::abs(s.slope - slope) <= 2.5 * (sigma + s.sigmaSlope);
}

void WayStrip::weigh(WayStation& station) const {
    for (const WaySight& s : station.sights) {
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

void WayStrip::look() {
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

const WaySight* WayStrip::sightOn(const WayStation& station, const WayBend& bend) const {
    const WaySight* nearest = nullptr;
    const double n = bend.at(station.ahead_px);
    for (const WaySight& s : station.sights) {
        if (std::abs(s.offset_px - n) > kSightReach_px) continue;
        if (!runsAlong(s, bend.b + bend.c * station.ahead_px, 0.0)) continue;
        if (!nearest || std::abs(s.offset_px - n) < std::abs(nearest->offset_px - n)) nearest = &s;
    }
    return nearest;
}

bool WayStrip::inkGoesOn() const {
    constexpr double kMostBare = 0.2;
    const double reach = 30.0 + 5.0 * asked_.look.width_px;
    std::size_t all = 0, inked = 0;
    for (const WayStation& station : stations_) {
        if (station.ahead_px - asked_.hidden_px > reach) break;
        ++all;
        inked += station.inked[static_cast<std::size_t>(kHalfCells)] && !station.onRuling ? 1 : 0;
    }
    return static_cast<double>(all) * asked_.step_px > (1.0 - kMostBare) * reach &&
           static_cast<double>(inked) > (1.0 - kMostBare) * static_cast<double>(all);
}

bool WayStrip::nothingAhead() const {
    return onlyPaper_ && std::none_of(stations_.begin(), stations_.end(), [&](const WayStation& s) {
               return s.nearInk &&
                      s.ahead_px > asked_.hidden_px + 2.0 * asked_.look.width_px + asked_.step_px;
           });
}

bool WayStrip::leavesPage() const {
    return stations_.empty() || (!onlyPaper_ && stations_.back().ahead_px - asked_.hidden_px <
                                                    asked_.longestPaper_px - asked_.step_px);
}

} // namespace headmark
