#include "analysis/chart/path_marcher.h"

#include "analysis/chart/ink_centres.h"
#include "analysis/chart/path_tail.h"
#include "analysis/chart/pen_change.h"
#include "analysis/chart/ruling_strokes.h"
#include "analysis/chart/run_together.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

// How far back the parabola looks that foretells the way: long against the noise of one centre, short against
// the bends of a pump's curves.
constexpr double kLeastLook_px = 50.0, kMostLook_px = 110.0, kLookWidths = 25.0;
constexpr std::size_t kMostPoints = 20000;
// Neighbours on a path are closer, in steps.
constexpr double kNoGap = 2.5;

// Words are as large as the page allows, whatever the line's width: what hides a line, and the bare paper
// about it, as shares of the page's shorter side.
constexpr double kWordShare = 0.09, kMarginShare = 0.012;

// How far a stroke may stand off the foretold way, one sigma in pixels.
double sigmaOfPlace(const StrokeLook& look) { return 0.4 + 0.1 * look.width_px; }

} // namespace

double stepFor(const StrokeLook& look) { return std::clamp(0.5 * look.width_px, 1.0, 2.0); }

PathMarcher::PathMarcher(const InkField& field, const Rulings& rulings, const StrokeLook& look,
                         std::vector<PathPoint> history, LineManner manner)
    : field_(field), rulings_(rulings), look_(look), points_(std::move(history)), step_(stepFor(look)),
      bends_(manner.bends), together_(manner.together) {
    if (manner.dashed) dashes_.expect();
    lookBack_ = std::clamp(kLookWidths * look_.width_px, kLeastLook_px, kMostLook_px);
}

double PathMarcher::lastWidth() const { return widthAtEnd(points_).value_or(look_.width_px); }

// The width of the line's far end, where that is another one.
std::optional<double> PathMarcher::farWidth() const {
    constexpr double kOther = 0.2;
    const auto far = widthAtStart(points_);
    const double last = lastWidth();
    return far && std::abs(*far - last) > kOther * std::max(*far, last) ? far : std::nullopt;
}

PathMarcher::Look PathMarcher::lookAt(PagePoint at, PagePoint along) const {
    Look look;
    const Profile profile = profileAcross(field_, at, along, kProfileReach_px, step_, &look_);
    const double sigmaPlace = sigmaOfPlace(look_);
    const auto beside = rulings_.beside(at, along, kProfileReach_px);
    double least = kAlike; // squared sigmas over place, width and darkness
    for (const StrokeSight& s : strokesBesideRulings(profile, look_, beside, dashes_.isDashed())) {
        const double place = s.offset_px / sigmaPlace;
        const double cost = place * place + unlikeness(look_, s);
        if (cost >= least) continue;
        least = cost;
        const PagePoint normal{-along.y, along.x};
        look.seen = PathPoint{at + s.offset_px * normal, along, 0.0, s.width_px};
        look.offset_px = s.offset_px;
        look.darkness = s.darkness;
    }
    return look;
}

void PathMarcher::learnSpread(double width_px, double darkness) {
    constexpr double kMemory = 0.03, kAdapt = 0.02;
    constexpr int kFewest = 30;
    look_.width_px += kAdapt * (width_px - look_.width_px);
    const double share = std::max(kMemory, 1.0 / (seen_ + 1));
    widthSpread_ += share * (std::abs(width_px - look_.width_px) - widthSpread_);
    darkSpread_ += share * (std::abs(darkness - look_.darkness) - darkSpread_);
    if (++seen_ < kFewest) return;
    look_.widthSpread_px = widthSpread_;
    look_.darknessSpread = darkSpread_;
}

void PathMarcher::accept(const PathPoint& p) {
    const PathPoint& last = points_.back();
    const double gap = length(p.at - last.at);
    if (gap > kNoGap * step_) {
        if (isBare(last.at, p.at)) dashes_.add(last.arc_px - dashFrom_, gap, widthSince(points_, dashFrom_));
        dashFrom_ = last.arc_px + gap;
    }
    PathPoint next = p;
    next.arc_px = last.arc_px + gap;
    points_.push_back(next);
}

// Paper between two places, and a little to both sides.
bool PathMarcher::isBare(PagePoint from, PagePoint to) const {
    const PagePoint way = to - from, aside = (1.5 / std::max(length(way), 1e-9)) * PagePoint{-way.y, way.x};
    for (const double share : {0.3, 0.4, 0.5, 0.6, 0.7}) {
        for (const double off : {-1.0, 0.0, 1.0}) {
            const PagePoint at = from + share * way + off * aside;
            if (field_.at(at.x, at.y) > 0.4 * look_.darkness) return false;
        }
    }
    return true;
}

// Of the way so far.
void PathMarcher::learnDashes() {
    std::vector<PathPoint> way = std::move(points_);
    points_.assign(1, way.front());
    dashFrom_ = way.front().arc_px;
    for (std::size_t i = 1; i < way.size(); ++i)
        accept(way[i]);
}

double PathMarcher::pageSide_px() const { return std::min(field_.region().width, field_.region().height); }

// How far bare paper may go on before the line has ended: a dash's gap, longer where the line was seen to
// have longer ones.
double PathMarcher::longestPaper() const {
    const double longest = std::max({14.0, 7.0 * look_.width_px, kMarginShare * pageSide_px()});
    return dashes_.isDashed() ? std::max(longest, 1.8 * dashes_.usualGap_px()) : longest;
}

void PathMarcher::takeUp(const WayAhead& way) {
    if (way.gap_px > 2.0 * look_.width_px + 4.0)
        gaps_.push_back({points_.back().at, way.seen.front().at, way.gap_px, way.overInk, way.misfit});
    resumes_.push_back({points_.size(), way.gap_px, way.misfit});
    for (const PathPoint& p : way.seen)
        accept(p);
    drift_ = 0.0;
}

// The line is out of sight: whether it goes on beyond a gap or other ink. Just before it is lost its sights
// may be drawn aside by what hides it, so that the way on is foretold without them.
bool PathMarcher::bridge() {
    if (bridgeFrom(2.0 * look_.width_px + step_)) return true;
    if (bareAhead_) return false;
    return bridgeFrom(0.4 * lookBack_) || bridgeInFarWidth();
}

// Of a line dashed elsewhere.
bool PathMarcher::isInThickStretch() const {
    return dashes_.isDashed() && dashes_.isThickStretch(lastWidth());
}

// Behind a word a thick stretch may end, and the line go on as thin as it was before it.
bool PathMarcher::bridgeInFarWidth() {
    const auto width = isInThickStretch()   ? std::optional(dashes_.usualWidth_px())
                       : dashes_.gaps() > 0 ? std::nullopt
                                            : farWidth();
    if (!width) return false;
    const PathEnd end = end_;
    if (bridgeFrom(2.0 * look_.width_px + step_, width)) {
        changesPen_ = true;
        return true;
    }
    end_ = end;
    return false;
}

bool PathMarcher::bridgeFrom(double back_px, std::optional<double> width_px) {
    const double end = points_.back().arc_px;
    const std::vector<PathPoint> hidden = takeBack(points_, end - back_px);
    const auto [foretold, known] = foretellNear(points_, lookBack_, step_);
    WayAsked asked{look_, foretold};
    asked.look.width_px = width_px.value_or(lastWidth());
    asked.known_px = known;
    asked.hidden_px = end - points_.back().arc_px;
    // A line that is seen again in time is waited for until enough of it is seen.
    constexpr double kToGrow = 1.7;
    asked.reach_px =
        asked.hidden_px + kToGrow * std::max(90.0 + 20.0 * look_.width_px, kWordShare * pageSide_px());
    asked.longestPaper_px = longestPaper();
    asked.confirm_px = std::max(8.0, 3.0 * look_.width_px);
    asked.step_px = step_;
    asked.dashed = dashes_.isDashed();
    asked.bends = bends_;
    asked.broken = dashes_.gaps() > 0;
    if (asked.dashed) asked.longestStroke_px = dashes_.longestDash_px(look_.width_px);
    WaySought sought = findWayAhead(field_, rulings_, asked);
    bareAhead_ = sought.nothingAhead;
    // A gap is no longer than the line is known to be; while little of it is, no longer than a crossing.
    constexpr double kKnown_px = 45.0, kSpare_px = 20.0;
    const double all = points_.back().arc_px - points_.front().arc_px;
    const double longest = warily_ && known < kKnown_px ? 2.0 * look_.width_px + 4.0 : all + kSpare_px;
    if (sought.way && sought.way->gap_px > longest) sought.way.reset();
    const bool drawnAside = sought.way && sought.way->overInk;
    if (!drawnAside) points_.insert(points_.end(), hidden.begin(), hidden.end());
    if (!sought.way) {
        end_ = sought.inkGoesOn ? PathEnd::lost : sought.leavesPage ? PathEnd::region : PathEnd::paper;
        return false;
    }
    look_.width_px = asked.look.width_px;
    takeUp(*sought.way);
    return true;
}

bool PathMarcher::goOnInOtherWidth() {
    const auto [way, known] = foretellNear(points_, lookBack_, step_);
    const auto change = findPenChange(field_, rulings_, look_, way, known, step_);
    if (!change) return false;
    if (dashes_.isDashed() && isInThickStretch() == dashes_.isThickStretch(change->way.width_px))
        return false;
    changesPen_ = true;
    look_.width_px = change->way.width_px;
    look_.darkness = change->darkness;
    takeUp(change->way);
    return true;
}

// Sights that lie off the foretold way to one side again and again are another line's, parting from this one:
// the path is taken back to where that began.
bool PathMarcher::turnsAway(double offset_px) {
    constexpr double kMemory = 0.15; // per step
    drift_ += kMemory * (offset_px - drift_);
    const double most = 0.2 + 0.45 * sigmaOfPlace(look_);
    if (std::abs(drift_) < most || points_.back().arc_px < trustedTo_) return false;
    const double back = 10.0 * step_ + look_.width_px;
    const double from = points_.back().arc_px - back;
    trustedTo_ = points_.back().arc_px + 3.0 * back;
    drift_ = 0.0;
    takeBack(points_, from);
    return true;
}

// A dashed line that shows no more gaps has gone over to a solid one: the path is taken back to where the
// last gap ended.
bool PathMarcher::leavesDashes() {
    if (!dashes_.isDashed() || points_.back().arc_px - dashFrom_ < dashes_.longestDash_px(look_.width_px))
        return false;
    if (dashes_.isThickStretch(widthSince(points_, dashFrom_))) return false;
    constexpr int kMostTimes = 6;
    if (++timesBack_ > kMostTimes) return false;
    takeBack(points_, dashFrom_);
    return true;
}

// A scrap of ink beyond the last gap, shorter than a letter's stroke or than the gap itself, is no end of a
// line; one that goes on just as foretold is, and a dash after a gap like the others.
void PathMarcher::dropScraps() {
    constexpr double kAsForetold = 1.0; // squared sigmas
    while (!resumes_.empty()) {
        const Resume last = resumes_.back();
        resumes_.pop_back();
        if (last.first == 0 || last.first >= points_.size()) continue;
        const bool asBefore =
            dashes_.gaps() > DashPattern::kPattern && last.gap_px <= 1.6 * dashes_.usualGap_px() + step_;
        const double scrap = points_.back().arc_px - points_[last.first].arc_px;
        const double letter = std::max(8.0, 3.0 * look_.width_px);
        if (asBefore || scrap >= (last.misfit < kAsForetold ? letter : std::max(letter, last.gap_px))) return;
        if (!gaps_.empty() && length(gaps_.back().to - points_[last.first].at) < 0.01) gaps_.pop_back();
        points_.resize(last.first);
    }
}

void PathMarcher::goOnTogether() {
    std::vector<PathPoint> longer =
        followTogether(field_, rulings_, look_, points_, longestPaper(), lookBack_);
    if (longer.empty()) return;
    points_ = std::move(longer);
    end_ = PathEnd::paper;
}

void PathMarcher::march() {
    while (points_.size() < kMostPoints && points_.back().arc_px < goal_px_) {
        const LocalParabola way = foretell(points_, lookBack_, step_);
        const PagePoint at = way.at(step_), along = way.directionAt(step_);
        if (!field_.contains(at.x, at.y)) {
            end_ = PathEnd::region;
            return;
        }
        const Look look = lookAt(at, along);
        if (look.seen) {
            accept(*look.seen);
            learnSpread(look.seen->width_px, look.darkness);
            if ((turnsAway(look.offset_px) || leavesDashes()) && !bridge()) return;
        } else if (!goOnInOtherWidth() && !bridge()) {
            return;
        }
    }
}

void PathMarcher::runTo(double arc_px) {
    goal_px_ = arc_px;
    run();
}

void PathMarcher::run() {
    learnDashes();
    march();
    dropScraps();
    if (together_ && !warily_ && end_ != PathEnd::region) goOnTogether();
}

} // namespace headmark
