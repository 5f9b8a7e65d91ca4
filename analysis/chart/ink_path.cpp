#include "analysis/chart/ink_path.h"

#include "analysis/chart/path_marcher.h"
#include "analysis/chart/way_back.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace headmark {

namespace {

// Centres along the strip under the click.
std::vector<PathPoint> seedPoints(const InkField& field, const StrokeStart& start) {
    std::vector<PathPoint> seeds;
    const PagePoint normal{-start.along.y, start.along.x};
    const double step = stepFor(start.look), half = 12.0;
    for (double s = -half; s <= half; s += step) {
        const PagePoint at = start.at + s * start.along;
        const Profile p = profileAcross(field, at, start.along, 8.0, step, &start.look);
        std::optional<double> offset;
        double width = 0.0;
        for (const StrokeSight& k : strokesIn(p, kLeastOfLine * start.look.darkness)) {
            const bool alike = std::abs(k.width_px - start.look.width_px) < 0.5 * start.look.width_px + 0.5;
            if (!alike || std::abs(k.offset_px) > 2.5) continue;
            if (offset && std::abs(k.offset_px) >= std::abs(*offset)) continue;
            offset = k.offset_px;
            width = k.width_px;
        }
        if (!offset) continue;
        PathPoint point{at + *offset * normal, start.along, 0.0, width};
        if (!seeds.empty()) point.arc_px = seeds.back().arc_px + length(point.at - seeds.back().at);
        seeds.push_back(point);
    }
    return seeds;
}

InkPath followFrom(const InkField& field, const StrokeLook& look, std::vector<PathPoint> seeds,
                   const Rulings& rulings, LineManner manner) {
    InkPath path;
    path.look = look;
    constexpr std::size_t kFewest = 4;
    if (seeds.size() < kFewest) {
        path.points = std::move(seeds);
        return path;
    }
    // Near the click the way is too short to foretell much: first as far as it is plain to both sides, then
    // with all of that as its past; once more to both where the last of it was by far the most.
    const PagePoint click = seeds[seeds.size() / 2].at;
    LineManner known = manner;
    std::vector<PathPoint> way = std::move(seeds);
    constexpr int kUsual = 4, kMost = 6;
    bool grewMuch = false;
    for (int k = 0; k < kUsual || (k < kMost && (grewMuch || k % 2 == 1)); ++k) {
        const double before = way.back().arc_px - way.front().arc_px;
        PathMarcher marcher(field, rulings, look, std::move(way), manner);
        if (k < 2) marcher.goWarily();
        marcher.run();
        path.gaps.insert(path.gaps.end(), marcher.gaps().begin(), marcher.gaps().end());
        known.dashed = known.dashed || marcher.isDashed();
        path.changesPen = path.changesPen || marcher.changesPen();
        (k % 2 == 0 ? path.endsAt : path.startsAt) = marcher.end();
        way = std::move(marcher.points());
        grewMuch = way.back().arc_px - way.front().arc_px > 2.0 * before;
        turnRound(way);
    }
    path.points = std::move(way);
    cutOffOthers(field, rulings, path, click, known);
    return path;
}

} // namespace

void turnRound(std::vector<PathPoint>& points) {
    std::reverse(points.begin(), points.end());
    double arc = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (i > 0) arc += length(points[i].at - points[i - 1].at);
        points[i].arc_px = arc;
        points[i].along = -1.0 * points[i].along;
    }
}

double InkPath::length_px() const {
    return points.size() < 2 ? 0.0 : points.back().arc_px - points.front().arc_px;
}

InkPath followInk(const InkField& field, const StrokeStart& start, const Rulings& rulings,
                  LineManner manner) {
    return followFrom(field, start.look, seedPoints(field, start), rulings, manner);
}

InkPath followDashes(const InkField& field, const StrokeLook& look, const std::vector<PathPoint>& seen,
                     const Rulings& rulings, LineManner manner) {
    return followFrom(field, look, seen, rulings, manner);
}

} // namespace headmark
