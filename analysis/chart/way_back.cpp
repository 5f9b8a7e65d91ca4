#include "analysis/chart/way_back.h"

#include "analysis/chart/path_marcher.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <utility>

namespace headmark {

namespace {

// In shorter ones no lines part; over a short one a bend looks like a jump.
constexpr double kLeastGap_px = 5.0, kLeastGapOfBending_px = 12.0;
// Either side of the gap.
constexpr double kReach_px = 80.0;
// A jump of direction, radians: no less, and so many of its sigmas.
constexpr double kLeastJump = 0.08, kSigmas = 3.5;
// Of the way back: the history it is foretold from, how far beyond the gap, and so much seen elsewhere.
constexpr double kMostKnown_px = 200.0, kLeastKnown_px = 40.0, kBeyond_px = 60.0, kElsewhere_px = 20.0;

using Points = std::vector<PathPoint>;

// At the gap before `first`: a cubic through both sides, n(s), and with it |s|, whose factor is half of the
// jump of direction.
bool jumps(const Points& points, std::size_t first) {
    const PagePoint a = points[first - 1].at, b = points[first].at;
    const PagePoint middle = 0.5 * (a + b), along = (1.0 / length(b - a)) * (b - a),
                    normal{-along.y, along.x};
    std::vector<PagePoint> near;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double from = points[i < first ? first - 1 : first].arc_px;
        if (std::abs(points[i].arc_px - from) > kReach_px) continue;
        near.push_back({dot(points[i].at - middle, along), dot(points[i].at - middle, normal)});
    }
    constexpr int kTerms = 5;
    constexpr std::size_t kFewest = 20;
    if (near.size() < kFewest) return false;
    Eigen::Matrix<double, kTerms, kTerms> sums = Eigen::Matrix<double, kTerms, kTerms>::Zero();
    Eigen::Matrix<double, kTerms, 1> right = Eigen::Matrix<double, kTerms, 1>::Zero();
    const auto terms = [](double s_px) {
        const double s = s_px / kReach_px;
        return Eigen::Matrix<double, kTerms, 1>{1.0, s, s * s, s * s * s, std::abs(s)};
    };
    for (const PagePoint& p : near) {
        sums += terms(p.x) * terms(p.x).transpose();
        right += p.y * terms(p.x);
    }
    const Eigen::Matrix<double, kTerms, kTerms> inverse = sums.inverse();
    const Eigen::Matrix<double, kTerms, 1> factors = inverse * right;
    double squares = 0.0;
    for (const PagePoint& p : near)
        squares += std::pow(p.y - factors.dot(terms(p.x)), 2);
    constexpr double kNeighboursAlike = 2.0; // their centres err together
    const double sigma = kNeighboursAlike * std::sqrt(squares / static_cast<double>(near.size()) *
                                                      inverse(kTerms - 1, kTerms - 1));
    constexpr double kToJump = 2.0 / kReach_px;
    const double jump = kToJump * std::abs(factors[kTerms - 1]);
    return jump > kLeastJump && jump > kSigmas * kToJump * sigma;
}

double distanceTo(const Points& points, std::size_t count, PagePoint p) {
    double nearest = 1e9;
    for (std::size_t k = 1; k < count; ++k) {
        const PagePoint a = points[k - 1].at, ab = points[k].at - a;
        const double share = std::clamp(dot(p - a, ab) / std::max(dot(ab, ab), 1e-9), 0.0, 1.0);
        nearest = std::min(nearest, length(p - (a + share * ab)));
    }
    return nearest;
}

bool comesFromElsewhere(const InkField& field, const Rulings& rulings, const InkPath& path, std::size_t first,
                        LineManner manner) {
    const Points& points = path.points;
    Points beyond;
    for (std::size_t i = first; i < points.size(); ++i)
        if (points[i].arc_px - points[first].arc_px < kMostKnown_px) beyond.push_back(points[i]);
    if (beyond.back().arc_px - beyond.front().arc_px < kLeastKnown_px) return false;
    turnRound(beyond);
    manner.together = false; // only what is seen of a line by itself tells where it comes from
    const double known = beyond.back().arc_px, gap = points[first].arc_px - points[first - 1].arc_px;
    PathMarcher back(field, rulings, path.look, std::move(beyond), manner);
    back.runTo(known + gap + kBeyond_px);
    const double off = std::max(2.5, 1.2 * path.look.width_px);
    const double longestStep = 2.0 * stepFor(path.look);
    double elsewhere = 0.0, onIt = 0.0;
    const Points& way = back.points();
    for (std::size_t i = 1; i < way.size(); ++i) {
        if (way[i].arc_px < known + 0.5 * gap) continue;
        const double seen = std::min(way[i].arc_px - way[i - 1].arc_px, longestStep);
        (distanceTo(points, first, way[i].at) > off ? elsewhere : onIt) += seen;
    }
    return elsewhere > std::max(kElsewhere_px, onIt);
}

// On the side the path leads to.
void cutOffBeyond(const InkField& field, const Rulings& rulings, InkPath& path, PagePoint click,
                  LineManner manner) {
    const auto nearer = [&](const PathPoint& a, const PathPoint& b) {
        return length(a.at - click) < length(b.at - click);
    };
    const double leastGap = manner.bends ? kLeastGapOfBending_px : kLeastGap_px;
    const auto own = std::min_element(path.points.begin(), path.points.end(), nearer);
    for (auto i = static_cast<std::size_t>(own - path.points.begin()) + 1; i < path.points.size(); ++i) {
        if (path.points[i].arc_px - path.points[i - 1].arc_px < leastGap) continue;
        if (!jumps(path.points, i) || !comesFromElsewhere(field, rulings, path, i, manner)) continue;
        path.points.resize(i);
        path.endsAt = PathEnd::lost;
        return;
    }
}

} // namespace

void cutOffOthers(const InkField& field, const Rulings& rulings, InkPath& path, PagePoint click,
                  LineManner manner) {
    for (int side = 0; side < 2; ++side) {
        cutOffBeyond(field, rulings, path, click, manner);
        turnRound(path.points);
        std::swap(path.startsAt, path.endsAt);
    }
}

} // namespace headmark
