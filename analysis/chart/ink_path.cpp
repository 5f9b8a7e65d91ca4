#include "analysis/chart/ink_path.h"

#include "analysis/chart/dash_pattern.h"
#include "analysis/chart/ink_centres.h"
#include "analysis/chart/ink_row.h"
#include "analysis/chart/local_parabola.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace headmark {

namespace {

// A sight of the stroke that is accepted costs less than this (squared sigmas over place, width, darkness).
constexpr double kMostCost = 9.0;
// How far back the parabola looks that foretells the way: long against the noise of one centre, short against
// the bends of a pump's curves.
constexpr double kLeastLook_px = 50.0, kMostLook_px = 110.0, kLookWidths = 25.0;
constexpr std::size_t kMostPoints = 20000;

// Words are as large as the page allows, whatever the line's width: what hides a line, and the bare paper
// about it, as shares of the page's shorter side.
constexpr double kWordShare = 0.09, kMarginShare = 0.012;

double stepFor(const StrokeLook& look) { return std::clamp(0.5 * look.width_px, 1.0, 2.0); }

class Marcher {
  public:
    Marcher(const InkField& field, const Rulings& rulings, StrokeLook look, std::vector<PathPoint> history)
        : field_(field), rulings_(rulings), look_(look), points_(std::move(history)), step_(stepFor(look)) {
        lookBack_ = std::clamp(kLookWidths * look_.width_px, kLeastLook_px, kMostLook_px);
    }

    void run();

    [[nodiscard]] std::vector<PathPoint>& points() { return points_; }
    [[nodiscard]] const std::vector<PathGap>& gaps() const { return gaps_; }
    [[nodiscard]] PathEnd end() const { return end_; }

  private:
    struct Look {
        std::optional<PathPoint> seen;
        double offset_px = 0.0, width_px = 0.0;
    };
    // What is found on the way over a gap.
    struct Search {
        std::vector<InkRow> rows;
        int steps = 0, overInk = 0, nearInk = 0;
        bool lostInInk = false; // ink goes on from where the line was seen last
        double paper = 0.0;     // since the last ink on the way
    };
    [[nodiscard]] LocalParabola foretell() const { return foretell(lookBack_); }
    [[nodiscard]] LocalParabola foretell(double lookBack_px) const;
    [[nodiscard]] std::optional<LocalParabola> foretellFar() const;
    [[nodiscard]] Look lookAt(PagePoint at, PagePoint along) const;
    [[nodiscard]] bool alike(const StrokeSight& s) const;
    [[nodiscard]] bool thicker(const StrokeSight& s) const;
    void accept(const PathPoint& p);
    bool bridge();
    bool bridgeAlong(const LocalParabola& way);
    void lookAhead(Search& search, const LocalParabola& way, double ahead) const;
    void extendRows(Search& search, const StrokeSight& s, PagePoint at, PagePoint along, double ahead) const;
    [[nodiscard]] double gapTo(const InkRow& row) const;
    [[nodiscard]] double neededLength(const InkRow& row) const;
    [[nodiscard]] const InkRow* resumed(const Search& search) const;
    void takeUp(const InkRow& row, const Search& search);
    [[nodiscard]] double pageSide_px() const;
    [[nodiscard]] double longestPaper() const;
    [[nodiscard]] int mostMissed() const;
    bool turnsAway(double offset_px);
    [[nodiscard]] double longestDash() const { return dashes_.longestDash_px(look_.width_px); }
    bool leavesDashes();
    bool bridgeBeyondSolid();
    void learnDashes();
    void march();
    void dropScraps();
    bool bridgeFromClearOf();

    const InkField& field_;
    const Rulings& rulings_;
    StrokeLook look_;
    std::vector<PathPoint> points_;
    std::vector<PathGap> gaps_;
    DashPattern dashes_;
    PathEnd end_ = PathEnd::paper;
    double step_ = 1.0, lookBack_ = 0.0, dashFrom_ = 0.0;
    std::vector<std::pair<std::size_t, double>> resumes_; // first point beyond each gap, and the gap
    double drift_ = 0.0, trustedTo_ = 0.0;                // see turnsAway
    // See bridgeFromClearOf: last sights first, and how long a stretch they are.
    std::vector<PathPoint> hidden_;
    double hiddenLength_ = 0.0;
    bool beyondSolid_ = false; // see bridgeBeyondSolid
    int timesBack_ = 0;
};

LocalParabola Marcher::foretell(double lookBack_px) const {
    const PathPoint& last = points_.back();
    std::size_t first = points_.size() - 1;
    // So much of it inked: of a dashed line, some dashes.
    constexpr double kMostGaps = 2.5;
    const auto enough = static_cast<std::size_t>(lookBack_px / step_);
    while (first > 0 && points_.size() - first <= enough &&
           last.arc_px - points_[first - 1].arc_px <= kMostGaps * lookBack_px)
        --first;
    first = std::min(first, points_.size() - std::min<std::size_t>(points_.size(), 4));
    return {std::span(points_).subspan(first), last.at, last.along};
}

// Over a long gap the way counts farther on: as long a stretch as one parabola still follows. Empty: no
// longer one than otherwise.
std::optional<LocalParabola> Marcher::foretellFar() const {
    const auto spread = [&](const LocalParabola& way) {
        double sum = 0.0;
        std::size_t n = 0;
        for (auto p = points_.rbegin(); p != points_.rend() && points_.back().arc_px - p->arc_px <= lookBack_;
             ++p, ++n)
            sum += std::abs(way.offsetOf(p->at));
        return sum / static_cast<double>(n);
    };
    constexpr double kWorse = 1.15, kLeast_px = 0.05;
    std::optional<LocalParabola> way;
    const double near = spread(foretell());
    for (const double times : {1.5, 2.2, 3.0}) {
        const LocalParabola longer = foretell(times * lookBack_);
        if (spread(longer) > kWorse * near + kLeast_px) break;
        way = longer;
    }
    return way;
}

// Squared sigmas of a stroke's width and darkness against the line's.
double unlikeness(const StrokeLook& look, const StrokeSight& s) {
    const double sigmaNarrower = 0.25 * look.width_px + 0.35;
    // Wider is a line alike beside it: the middle of both is the middle of neither, and a shallow crossing
    // would turn the way by it.
    const double sigmaWider = 0.12 * look.width_px + 0.25;
    const double sigmaDark = 0.25 * look.darkness + 0.02;
    const double wider = s.width_px - look.width_px;
    const double width = wider / (wider > 0.0 ? sigmaWider : sigmaNarrower);
    // Darker may be other ink underneath; lighter may not be the line at all.
    const double dark = (s.darkness - look.darkness) / sigmaDark;
    return width * width + dark * dark;
}

bool Marcher::alike(const StrokeSight& s) const { return unlikeness(look_, s) < kMostCost; }

bool Marcher::thicker(const StrokeSight& s) const {
    constexpr double kMostTimes = 3.5;
    return s.width_px > look_.width_px && s.width_px < kMostTimes * look_.width_px + 1.0 &&
           s.darkness > 0.6 * look_.darkness;
}

Marcher::Look Marcher::lookAt(PagePoint at, PagePoint along) const {
    Look look;
    const Profile profile = profileAcross(field_, at, along, kProfileReach_px, step_, &look_);
    const double sigmaPlace = sigmaOfPlace(look_, 0.0);
    const auto beside = rulings_.beside(at, along, kProfileReach_px);
    double least = kMostCost;
    for (const StrokeSight& s : strokesIn(profile, 0.3 * look_.darkness)) {
        const double place = s.offset_px / sigmaPlace;
        const double cost = place * place + unlikeness(look_, s);
        if (cost >= least || isRuling(s, beside)) continue;
        least = cost;
        const PagePoint normal{-along.y, along.x};
        look.seen = PathPoint{at + s.offset_px * normal, along, 0.0};
        look.offset_px = s.offset_px;
        look.width_px = s.width_px;
    }
    return look;
}

void Marcher::accept(const PathPoint& p) {
    const PathPoint& last = points_.back();
    points_.push_back({p.at, p.along, last.arc_px + length(p.at - last.at)});
}

double Marcher::pageSide_px() const { return std::min(field_.region().width, field_.region().height); }

// How far bare paper may go on before the line has ended: a dash's gap, longer where the line was seen to
// have longer ones.
double Marcher::longestPaper() const {
    double longest = std::max({14.0, 7.0 * look_.width_px, kMarginShare * pageSide_px()});
    if (dashes_.isDashed()) longest = std::max(longest, 1.8 * dashes_.usualGap_px());
    return longest;
}

void Marcher::extendRows(Search& search, const StrokeSight& s, PagePoint at, PagePoint along,
                         double ahead) const {
    const PathPoint point{at + s.offset_px * PagePoint{-along.y, along.x}, along, 0.0};
    const bool wide = !alike(s);
    for (InkRow& row : search.rows) {
        const double apart = ahead - row.ahead.back();
        if (row.missed < 0 || apart <= 0.0 || row.wide != wide) continue;
        if (std::abs(s.offset_px - row.offset.back()) > 0.5 + 0.35 * apart) continue;
        if (wide && std::abs(s.width_px - row.width()) > 0.15 * row.width() + 0.5) continue;
        row.points.push_back(point);
        row.ahead.push_back(ahead);
        row.offset.push_back(s.offset_px);
        row.widths += s.width_px;
        row.missed = 0;
        constexpr double kUnbroken = 0.85;
        row.solid = dashes_.isDashed() && row.length() > longestDash() &&
                    step_ * static_cast<double>(row.points.size()) > kUnbroken * row.length();
        return;
    }
    constexpr int kMostNear = 4; // one in so many steps: a ruling that crosses
    const bool amidInk = kMostNear * search.nearInk > search.steps + kMostNear;
    search.rows.push_back({{point}, {ahead}, {s.offset_px}, s.width_px, 0, amidInk, wide, false});
}

void Marcher::lookAhead(Search& search, const LocalParabola& way, double ahead) const {
    const PagePoint at = way.at(ahead), along = way.directionAt(ahead);
    const Profile profile = profileAcross(field_, at, along, kProfileReach_px, step_, &look_);
    const auto beside = rulings_.beside(at, along, kProfileReach_px);
    const double window = 2.5 * sigmaOfPlace(look_, ahead) + 1.0;
    for (InkRow& row : search.rows)
        if (row.missed >= 0) ++row.missed;
    for (const StrokeSight& s : strokesIn(profile, 0.3 * look_.darkness)) {
        if (std::abs(s.offset_px) <= window && (alike(s) || thicker(s)) && !isRuling(s, beside))
            extendRows(search, s, at, along, ahead);
    }
    for (InkRow& row : search.rows)
        if (row.missed > mostMissed()) row.missed = -1;
    if (ahead <= hiddenLength_) return;
    ++search.steps;
    // Ink of any colour hides the line.
    const Profile any = look_.byColour ? profileAcross(field_, at, along, kProfileReach_px, step_) : profile;
    const auto inked = [&](double ink) { return ink > 0.4 * look_.darkness; };
    const bool over = inked(any.ink[any.ink.size() / 2]);
    const bool onRuling = std::any_of(beside.begin(), beside.end(), [](const RulingBeside& b) {
        return std::abs(b.offset_px) < 0.5 * b.width_px + 1.0;
    });
    search.overInk += over && !onRuling ? 1 : 0;
    search.nearInk += std::any_of(any.ink.begin(), any.ink.end(), inked) ? 1 : 0;
    search.paper = over ? 0.0 : search.paper + step_;
    const double goesOn = 30.0 + 5.0 * look_.width_px;
    const double beyond = ahead - hiddenLength_;
    if (beyond < goesOn) search.lostInInk = beyond > 0.8 * goesOn && 10 * search.overInk > 8 * search.steps;
}

double Marcher::gapTo(const InkRow& row) const { return std::max(row.gap() - hiddenLength_, 0.0); }

double Marcher::neededLength(const InkRow& row) const {
    const double gap = gapTo(row);
    // A dash and the next one.
    if (beyondSolid_) return 0.7 * longestDash();
    if (row.wide) return std::max(25.0, 3.0 * row.width());
    double confirm = std::max(8.0, 3.0 * look_.width_px);
    if (dashes_.isDashed()) confirm = std::min(confirm, std::max(0.7 * dashes_.usualDash_px(), 3.0 * step_));
    if (gap > longestPaper() + step_) return std::max(confirm, 0.6 * gap);
    const bool unlike = dashes_.isDashed() && gap > 1.6 * dashes_.usualGap_px() + step_;
    if (row.amidInk || unlike) return std::min(confirm, 2.0 * gap);
    // Dots of a dashed line are about as long as wide.
    return std::min({confirm, 2.0 * gap, std::max(0.8 * look_.width_px, 1.5 * step_)});
}

// Steps without a sight that leave a row one row: those of a dash's gap where the line is dashed.
int Marcher::mostMissed() const {
    constexpr int kOfSolid = 2;
    if (!dashes_.isDashed()) return kOfSolid;
    return std::max(kOfSolid, static_cast<int>(2.0 * dashes_.usualGap_px() / step_) + 3);
}

// The row that goes on as the line did and better than any other.
const InkRow* Marcher::resumed(const Search& search) const {
    const InkRow* best = nullptr;
    double least = kMostCost;
    for (const InkRow& row : search.rows) {
        // What was seen before does not count again.
        const bool longEnough =
            row.length() >= neededLength(row) && row.ahead.back() > hiddenLength_ + 1.5 * step_;
        const double cost = row.cost(look_) + (row.wide ? 3.0 : 0.0);
        if (!longEnough || cost >= least || row.solid) continue;
        best = &row;
        least = cost;
    }
    if (!best) return nullptr;
    // One that is still growing and may be the better one is waited for.
    for (const InkRow& row : search.rows) {
        if (&row == best || row.missed < 0 || row.solid || row.length() < 2.0 * step_) continue;
        if (row.length() < neededLength(row) && row.cost(look_) + (row.wide ? 3.0 : 0.0) < least)
            return nullptr;
    }
    return best;
}

// A row is believed: note the gap and go on from there.
void Marcher::takeUp(const InkRow& row, const Search& search) {
    const double gap = gapTo(row);
    const bool overInk = 2 * search.overInk > static_cast<int>(gap / step_);
    const bool paper = !overInk && gap > 1.5 * step_;
    if (paper) {
        for (auto p = hidden_.rbegin(); p != hidden_.rend(); ++p)
            points_.push_back(*p);
        dashes_.add(points_.back().arc_px - dashFrom_, gap);
    }
    if (gap > 2.0 * look_.width_px + 4.0)
        gaps_.push_back({points_.back().at, row.points.front().at, gap, overInk, row.cost(look_)});
    dashFrom_ = points_.back().arc_px + gap;
    resumes_.emplace_back(points_.size(), gap);
    for (const PathPoint& p : row.points) {
        const double before = points_.back().arc_px;
        accept(p);
        if (&p != &row.points.front() && points_.back().arc_px - before > 2.5 * step_)
            dashFrom_ = points_.back().arc_px;
    }
    if (row.wide) look_.width_px = row.width();
}

// The line is out of sight: whether it goes on beyond a gap or other ink.
bool Marcher::bridge() {
    if (bridgeAlong(foretell())) return true;
    const PathEnd end = end_;
    const auto farther = foretellFar();
    const bool resumed = farther && bridgeAlong(*farther);
    if (!resumed) end_ = end;
    return resumed;
}

bool Marcher::bridgeAlong(const LocalParabola& way) {
    const double mostHidden = std::max(90.0 + 20.0 * look_.width_px, kWordShare * pageSide_px());
    // A row that began in time is waited for until it is long enough.
    constexpr double kToGrow = 1.7;
    Search search;
    for (double ahead = step_; ahead < hiddenLength_ + kToGrow * mostHidden; ahead += step_) {
        const PagePoint at = way.at(ahead);
        if (!field_.contains(at.x, at.y)) {
            end_ = PathEnd::region;
            return false;
        }
        lookAhead(search, way, ahead);
        if (const InkRow* row = resumed(search)) {
            takeUp(*row, search);
            return true;
        }
        const bool growing = std::any_of(search.rows.begin(), search.rows.end(),
                                         [](const InkRow& row) { return row.missed >= 0; });
        // Words in a gap stand beside the way as well as on it.
        const bool words = 3 * search.nearInk > search.steps;
        if (!growing && (ahead > hiddenLength_ + mostHidden || (search.paper > longestPaper() && !words)))
            break;
    }
    end_ = search.lostInInk ? PathEnd::lost : PathEnd::paper;
    return false;
}

// Just before the line is lost its sights may be drawn aside by what hides it: the way on is foretold without
// them. They stand where nothing is found, and where bare paper follows.
bool Marcher::bridgeFromClearOf() {
    hidden_.clear();
    const double end = points_.back().arc_px, from = end - 2.0 * look_.width_px - step_;
    constexpr std::size_t kLeastLeft = 20;
    while (points_.size() > kLeastLeft && points_.back().arc_px > from) {
        hidden_.push_back(points_.back());
        points_.pop_back();
    }
    hiddenLength_ = end - points_.back().arc_px;
    const bool resumed = bridge();
    if (!resumed) {
        for (auto p = hidden_.rbegin(); p != hidden_.rend(); ++p)
            points_.push_back(*p);
    }
    hidden_.clear();
    hiddenLength_ = 0.0;
    return resumed;
}

// The gaps and dashes of the way so far.
void Marcher::learnDashes() {
    dashFrom_ = points_.front().arc_px;
    for (std::size_t i = 1; i < points_.size(); ++i) {
        const double gap = points_[i].arc_px - points_[i - 1].arc_px;
        if (gap <= 2.5 * step_) continue;
        const PagePoint between = 0.5 * (points_[i].at + points_[i - 1].at);
        if (field_.at(between.x, between.y) < 0.3 * look_.darkness) {
            dashes_.add(points_[i - 1].arc_px - dashFrom_, gap);
        }
        dashFrom_ = points_[i].arc_px;
    }
}

// Sights that lie off the foretold way to one side again and again are another line's, parting from this one:
// the path is taken back to where that began.
bool Marcher::turnsAway(double offset_px) {
    constexpr double kMemory = 0.15; // per step
    drift_ += kMemory * (offset_px - drift_);
    const double most = 0.2 + 0.45 * sigmaOfPlace(look_, 0.0);
    if (std::abs(drift_) < most || points_.back().arc_px < trustedTo_) return false;
    const double back = 10.0 * step_ + look_.width_px;
    const double from = points_.back().arc_px - back;
    trustedTo_ = points_.back().arc_px + 3.0 * back;
    drift_ = 0.0;
    while (points_.size() > 8 && points_.back().arc_px > from)
        points_.pop_back();
    return true;
}

// A dashed line that shows no more gaps has gone over to a solid one: the path is taken back to where the
// last gap ended.
bool Marcher::leavesDashes() {
    if (!dashes_.isDashed() || points_.back().arc_px - dashFrom_ < longestDash()) return false;
    constexpr int kMostTimes = 6;
    if (++timesBack_ > kMostTimes) return false;
    while (points_.size() > 8 && points_.back().arc_px > dashFrom_)
        points_.pop_back();
    return true;
}

bool Marcher::bridgeBeyondSolid() {
    beyondSolid_ = true;
    const bool resumed = bridge();
    beyondSolid_ = false;
    if (!resumed && end_ == PathEnd::paper) end_ = PathEnd::lost;
    return resumed;
}

// A scrap of ink beyond the last gap, shorter than a letter's stroke or than the gap itself, is no end of a
// line; a dash after a gap like the others is.
void Marcher::dropScraps() {
    while (!resumes_.empty()) {
        const auto [first, gap] = resumes_.back();
        resumes_.pop_back();
        if (first == 0 || first >= points_.size()) continue;
        const bool asBefore =
            dashes_.gaps() > DashPattern::kPattern && gap <= 1.6 * dashes_.usualGap_px() + step_;
        const double scrap = points_.back().arc_px - points_[first].arc_px;
        if (asBefore || scrap >= std::max({8.0, 3.0 * look_.width_px, gap})) return;
        if (!gaps_.empty() && length(gaps_.back().to - points_[first].at) < 0.01) gaps_.pop_back();
        points_.resize(first);
    }
}

void Marcher::run() {
    march();
    dropScraps();
}

void Marcher::march() {
    learnDashes();
    LocalParabola way = foretell();
    while (points_.size() < kMostPoints) {
        const PagePoint at = way.at(step_), along = way.directionAt(step_);
        if (!field_.contains(at.x, at.y)) {
            end_ = PathEnd::region;
            return;
        }
        const Look look = lookAt(at, along);
        if (look.seen) {
            accept(*look.seen);
            points_.back().along = along;
            constexpr double kAdapt = 0.02;
            look_.width_px += kAdapt * (look.width_px - look_.width_px);
            if (turnsAway(look.offset_px) && !bridge()) return;
            if (leavesDashes() && !bridgeBeyondSolid()) return;
        } else if (!bridgeFromClearOf()) {
            return;
        }
        way = foretell();
    }
}

// Centres along the strip under the click.
std::vector<PathPoint> seedPoints(const InkField& field, const StrokeStart& start) {
    std::vector<PathPoint> seeds;
    const PagePoint normal{-start.along.y, start.along.x};
    const double step = stepFor(start.look), half = 12.0;
    for (double s = -half; s <= half; s += step) {
        const PagePoint at = start.at + s * start.along;
        const Profile p = profileAcross(field, at, start.along, 8.0, step, &start.look);
        std::optional<double> offset;
        for (const StrokeSight& k : strokesIn(p, 0.3 * start.look.darkness)) {
            const bool alike = std::abs(k.width_px - start.look.width_px) < 0.5 * start.look.width_px + 0.5;
            if (!alike || std::abs(k.offset_px) > 2.5) continue;
            if (!offset || std::abs(k.offset_px) < std::abs(*offset)) offset = k.offset_px;
        }
        if (!offset) continue;
        PathPoint point{at + *offset * normal, start.along, 0.0};
        if (!seeds.empty()) point.arc_px = seeds.back().arc_px + length(point.at - seeds.back().at);
        seeds.push_back(point);
    }
    return seeds;
}

void reverse(std::vector<PathPoint>& points) {
    std::reverse(points.begin(), points.end());
    double arc = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (i > 0) arc += length(points[i].at - points[i - 1].at);
        points[i].arc_px = arc;
        points[i].along = -1.0 * points[i].along;
    }
}

} // namespace

double InkPath::length_px() const {
    return points.size() < 2 ? 0.0 : points.back().arc_px - points.front().arc_px;
}

InkPath followInk(const InkField& field, const StrokeStart& start, const Rulings& rulings) {
    InkPath path;
    path.look = start.look;
    std::vector<PathPoint> seeds = seedPoints(field, start);
    if (seeds.size() < 4) {
        path.points = std::move(seeds);
        return path;
    }
    Marcher forward(field, rulings, path.look, std::move(seeds));
    forward.run();
    path.gaps = forward.gaps();
    // Back from there with all of the way so far as its past.
    std::vector<PathPoint> past = std::move(forward.points());
    reverse(past);
    Marcher backward(field, rulings, path.look, std::move(past));
    backward.run();
    path.gaps.insert(path.gaps.end(), backward.gaps().begin(), backward.gaps().end());
    path.startsAt = backward.end();
    // Once more on from the first end: near the click the way was too short to foretell much.
    past = std::move(backward.points());
    reverse(past);
    Marcher onward(field, rulings, path.look, std::move(past));
    onward.run();
    path.gaps.insert(path.gaps.end(), onward.gaps().begin(), onward.gaps().end());
    path.endsAt = onward.end();
    path.points = std::move(onward.points());
    return path;
}

} // namespace headmark
