#include "analysis/chart/ink_path.h"

#include "analysis/chart/local_parabola.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

// A sight of the stroke that is accepted costs less than this (squared sigmas over place, width, darkness).
constexpr double kMostCost = 9.0;
// How far back the parabola looks that foretells the way: long against the noise of one centre, short against
// the bends of a pump's curves.
constexpr double kLeastLook_px = 50.0, kMostLook_px = 110.0, kLookWidths = 25.0;
constexpr double kProfileReach_px = 10.0;
constexpr std::size_t kMostPoints = 20000;

double stepFor(const StrokeLook& look) { return std::clamp(0.5 * look.width_px, 1.0, 2.0); }

class Marcher {
  public:
    Marcher(const InkField& field, StrokeLook look, std::vector<PathPoint> history)
        : field_(field), look_(look), points_(std::move(history)), step_(stepFor(look)) {
        lookBack_ = std::clamp(kLookWidths * look_.width_px, kLeastLook_px, kMostLook_px);
    }

    void run();

    [[nodiscard]] std::vector<PathPoint>& points() { return points_; }
    [[nodiscard]] const std::vector<PathGap>& gaps() const { return gaps_; }
    [[nodiscard]] PathEnd end() const { return end_; }

  private:
    struct Look {
        std::optional<PathPoint> seen;
        bool overInk = false;
    };
    [[nodiscard]] LocalParabola foretell() const;
    [[nodiscard]] Look lookAt(PagePoint at, PagePoint along, double coasted) const;
    void accept(const PathPoint& p);
    void settle(double coasted, bool overInk);

    const InkField& field_;
    StrokeLook look_;
    std::vector<PathPoint> points_, pending_;
    std::vector<PathGap> gaps_;
    PathEnd end_ = PathEnd::paper;
    double step_ = 1.0, lookBack_ = 0.0;
};

LocalParabola Marcher::foretell() const {
    const PathPoint& last = points_.back();
    std::size_t first = points_.size() - 1;
    while (first > 0 && last.arc_px - points_[first - 1].arc_px <= lookBack_)
        --first;
    first = std::min(first, points_.size() - std::min<std::size_t>(points_.size(), 4));
    return {std::span(points_).subspan(first), last.at, last.along};
}

Marcher::Look Marcher::lookAt(PagePoint at, PagePoint along, double coasted) const {
    Look look;
    const Profile profile = profileAcross(field_, at, along, kProfileReach_px, step_, &look_);
    const double sigmaPlace = 0.4 + 0.1 * look_.width_px + 0.02 * coasted;
    const double sigmaNarrower = 0.25 * look_.width_px + 0.35;
    // Wider is a line alike beside it: the middle of both is the middle of neither, and a shallow crossing
    // would turn the way by it.
    const double sigmaWider = 0.12 * look_.width_px + 0.25;
    const double sigmaDark = 0.25 * look_.darkness + 0.02;
    double least = kMostCost;
    for (const StrokeSight& s : strokesIn(profile, 0.3 * look_.darkness)) {
        const double place = s.offset_px / sigmaPlace;
        const double wider = s.width_px - look_.width_px;
        const double width = wider / (wider > 0.0 ? sigmaWider : sigmaNarrower);
        // Darker may be other ink underneath; lighter may not be the line at all.
        const double dark = (s.darkness - look_.darkness) / sigmaDark;
        const double cost = place * place + width * width + dark * dark;
        if (cost >= least) continue;
        least = cost;
        const PagePoint normal{-along.y, along.x};
        look.seen = PathPoint{at + s.offset_px * normal, along, 0.0};
    }
    const std::size_t middle = profile.ink.size() / 2;
    look.overInk = profile.ink[middle] > 0.4 * look_.darkness;
    return look;
}

void Marcher::accept(const PathPoint& p) {
    const PathPoint& last = points_.back();
    points_.push_back({p.at, p.along, last.arc_px + length(p.at - last.at)});
}

// A run of sights after a gap is believed: note the gap and go on from there.
void Marcher::settle(double coasted, bool overInk) {
    if (coasted > 2.0 * look_.width_px + 4.0)
        gaps_.push_back({points_.back().at, pending_.front().at, coasted, overInk});
    for (const PathPoint& p : pending_)
        accept(p);
    pending_.clear();
}

void Marcher::run() {
    // Over bare paper a dash's gap, over other ink the length of a shallow crossing or a short label.
    const double mostPaper = std::max(14.0, 6.0 * look_.width_px);
    const double mostInk = 60.0 + 20.0 * look_.width_px;
    const double confirm = std::max(8.0, 3.0 * look_.width_px);
    double coasted = 0.0, paper = 0.0, gapStart = 0.0;
    bool overInk = false;
    LocalParabola way = foretell();
    while (points_.size() < kMostPoints) {
        const double ahead = coasted + step_;
        const PagePoint at = way.at(ahead), along = way.directionAt(ahead);
        if (!field_.contains(at.x, at.y)) {
            end_ = PathEnd::region;
            return;
        }
        const Look look = lookAt(at, along, coasted);
        if (look.seen && coasted == 0.0) {
            accept(*look.seen);
            points_.back().along = along;
            way = foretell();
            continue;
        }
        coasted = ahead;
        if (look.seen) {
            if (pending_.empty()) gapStart = coasted;
            pending_.push_back(*look.seen);
            if (length(pending_.back().at - pending_.front().at) >= std::min(confirm, 2.0 * gapStart)) {
                settle(gapStart, overInk);
                coasted = paper = 0.0;
                overInk = false;
                way = foretell();
            }
            continue;
        }
        pending_.clear();
        overInk = overInk || look.overInk;
        paper = look.overInk ? 0.0 : paper + step_;
        if (paper > mostPaper) {
            end_ = PathEnd::paper;
            return;
        }
        if (coasted > mostInk) {
            end_ = PathEnd::lost;
            return;
        }
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

InkPath followInk(const InkField& field, const StrokeStart& start) {
    InkPath path;
    path.look = start.look;
    std::vector<PathPoint> seeds = seedPoints(field, start);
    if (seeds.size() < 4) {
        path.points = std::move(seeds);
        return path;
    }
    Marcher forward(field, path.look, std::move(seeds));
    forward.run();
    path.gaps = forward.gaps();
    path.endsAt = forward.end();
    // Back from there with all of the way so far as its past.
    std::vector<PathPoint> past = std::move(forward.points());
    reverse(past);
    Marcher backward(field, path.look, std::move(past));
    backward.run();
    path.gaps.insert(path.gaps.end(), backward.gaps().begin(), backward.gaps().end());
    path.startsAt = backward.end();
    path.points = std::move(backward.points());
    reverse(path.points);
    return path;
}

namespace {

double medianOf(std::vector<double> v) {
    if (v.empty()) return 0.0;
    const auto middle = v.begin() + static_cast<std::ptrdiff_t>(v.size() / 2);
    std::nth_element(v.begin(), middle, v.end());
    return *middle;
}

// The points around one, to both sides.
std::span<const PathPoint> around(const std::vector<PathPoint>& points, std::size_t i, double reach_px) {
    std::size_t first = i, last = i;
    while (first > 0 && points[i].arc_px - points[first - 1].arc_px <= reach_px)
        --first;
    while (last + 1 < points.size() && points[last + 1].arc_px - points[i].arc_px <= reach_px)
        ++last;
    return std::span(points).subspan(first, last - first + 1);
}

struct Measured {
    PathPoint point;
    double width_px = 0.0, darkness = 0.0, base = 0.0, off_px = 0.0;
};

} // namespace

void refineCentres(const InkField& field, InkPath& path, std::size_t most) {
    if (path.points.size() < 8) return;
    const double reach = std::clamp(15.0 * path.look.width_px, 25.0, 60.0);
    std::vector<Measured> measured;
    std::vector<double> widths, darks, bases, offs;
    for (std::size_t i = 0; i < path.points.size(); ++i) {
        const LocalParabola smooth(around(path.points, i, reach), path.points[i].at, path.points[i].along);
        const PagePoint at = smooth.at(0.0), along = smooth.directionAt(0.0), normal{-along.y, along.x};
        const Profile profile = profileAcross(field, at, along, kProfileReach_px, 1.0, &path.look);
        std::optional<StrokeSight> nearest;
        for (const StrokeSight& s : strokesIn(profile, 0.3 * path.look.darkness)) {
            if (!nearest || std::abs(s.offset_px) < std::abs(nearest->offset_px)) nearest = s;
        }
        if (!nearest || std::abs(nearest->offset_px) > 2.0 + 0.5 * path.look.width_px) continue;
        Measured m;
        m.point = {at + nearest->offset_px * normal, along, path.points[i].arc_px};
        m.width_px = nearest->width_px;
        m.darkness = nearest->darkness;
        m.base = nearest->base;
        m.off_px = nearest->offset_px;
        widths.push_back(m.width_px);
        darks.push_back(m.darkness);
        bases.push_back(m.base);
        offs.push_back(std::abs(m.off_px));
        measured.push_back(m);
    }
    const double width = medianOf(widths), dark = medianOf(darks), base = medianOf(bases);
    std::vector<double> widthsOff, basesOff;
    for (const Measured& m : measured) {
        widthsOff.push_back(std::abs(m.width_px - width));
        basesOff.push_back(std::abs(m.base - base));
    }
    // A thin stroke looks wider or narrower by where it falls between the pixels.
    const double mostWidthOff = std::max(4.0 * medianOf(widthsOff), 0.5);
    const double mostBaseOff = std::max(5.0 * medianOf(basesOff), 0.06 * dark);
    const double mostOff = std::max(5.0 * medianOf(offs), 0.5);
    std::vector<PathPoint> kept;
    for (const Measured& m : measured) {
        const bool clean = std::abs(m.width_px - width) <= mostWidthOff &&
                           std::abs(m.base - base) <= mostBaseOff && m.darkness > 0.6 * dark &&
                           std::abs(m.off_px) <= mostOff;
        if (clean) kept.push_back(m.point);
    }
    // Overlaid everywhere (fills, dense rulings): all of them, rather than none.
    constexpr std::size_t kLeastKeptShare = 4;
    if (kept.size() * kLeastKeptShare < path.points.size() && !measured.empty()) {
        kept.clear();
        for (const Measured& m : measured)
            if (std::abs(m.off_px) <= mostOff) kept.push_back(m.point);
    }
    path.look.width_px = width;
    path.look.darkness = dark;
    if (kept.size() > most && most > 1) {
        std::vector<PathPoint> thinned;
        for (std::size_t k = 0; k < most; ++k)
            thinned.push_back(kept[k * (kept.size() - 1) / (most - 1)]);
        kept = std::move(thinned);
    }
    path.points = std::move(kept);
}

} // namespace headmark
