#include "analysis/chart/ink_centres.h"

#include "analysis/chart/local_parabola.h"
#include "analysis/chart/median.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>

namespace headmark {

namespace {

// The points around one, to both sides.
std::span<const PathPoint> around(const std::vector<PathPoint>& points, std::size_t i, double reach_px) {
    std::size_t first = i, last = i;
    while (first > 0 && points[i].arc_px - points[first - 1].arc_px <= reach_px)
        --first;
    while (last + 1 < points.size() && points[last + 1].arc_px - points[i].arc_px <= reach_px)
        ++last;
    return std::span(points).subspan(first, last - first + 1);
}

// Medians about each: a line may be drawn thicker over a stretch, or widen as it turns.
std::vector<double> usualAbout(const std::vector<double>& values) {
    constexpr std::size_t kHalf = 40, kEvery = 10;
    std::vector<double> usual(values.size());
    for (std::size_t i = 0; i < values.size(); i += kEvery) {
        const std::size_t first = i > kHalf ? i - kHalf : 0, last = std::min(i + kHalf, values.size());
        const double here = medianOf({values.begin() + static_cast<std::ptrdiff_t>(first),
                                      values.begin() + static_cast<std::ptrdiff_t>(last)});
        for (std::size_t k = i; k < std::min(i + kEvery, values.size()); ++k)
            usual[k] = here;
    }
    return usual;
}

// A thin pen seen through a lens is as wide as the thick one, but fainter. What is fainter over a short
// stretch only is a ruling beyond the line's end, or rubbed off.
bool isFainterOverAStretch(const std::vector<double>& darks) {
    constexpr double kFainter = 0.6, kLeastShare = 0.2;
    const double usual = medianOf(darks);
    const auto fainter =
        std::count_if(darks.begin(), darks.end(), [&](double dark) { return dark < kFainter * usual; });
    return static_cast<double>(fainter) > kLeastShare * static_cast<double>(darks.size());
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
    std::vector<PathPoint> together; // with other lines: no stroke of their own to measure
    std::vector<double> widths, darks, bases, offs;
    for (std::size_t i = 0; i < path.points.size(); ++i) {
        if (path.points[i].spare_px > 0.0) {
            together.push_back(path.points[i]);
            continue;
        }
        const LocalParabola smooth(around(path.points, i, reach), path.points[i].at, path.points[i].along);
        const PagePoint at = smooth.at(0.0), along = smooth.directionAt(0.0), normal{-along.y, along.x};
        const Profile profile = profileAcross(field, at, along, kProfileReach_px, 1.0, &path.look);
        std::optional<StrokeSight> nearest;
        for (const StrokeSight& s : strokesIn(profile, kLeastOfLine * path.look.darkness)) {
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
    const std::vector<double> usual = usualAbout(widths),
                              usualDark = path.changesPen || isFainterOverAStretch(darks)
                                              ? usualAbout(darks)
                                              : std::vector<double>(darks.size(), dark);
    std::vector<double> widthsOff, basesOff;
    for (std::size_t i = 0; i < measured.size(); ++i) {
        widthsOff.push_back(std::abs(measured[i].width_px - usual[i]));
        basesOff.push_back(std::abs(measured[i].base - base));
    }
    // A thin stroke looks wider or narrower by where it falls between the pixels.
    const double mostWidthOff = std::max(4.0 * medianOf(widthsOff), 0.5);
    const double mostBaseOff = std::max(5.0 * medianOf(basesOff), 0.06 * dark);
    const double mostOff = std::max(5.0 * medianOf(offs), 0.5);
    std::vector<PathPoint> kept;
    for (std::size_t i = 0; i < measured.size(); ++i) {
        const Measured& m = measured[i];
        const bool clean = std::abs(m.width_px - usual[i]) <= mostWidthOff &&
                           std::abs(m.base - base) <= mostBaseOff && m.darkness > 0.6 * usualDark[i] &&
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
    const auto byArc = [](const PathPoint& a, const PathPoint& b) { return a.arc_px < b.arc_px; };
    const std::size_t alone = kept.size();
    kept.insert(kept.end(), together.begin(), together.end());
    std::inplace_merge(kept.begin(), kept.begin() + static_cast<std::ptrdiff_t>(alone), kept.end(), byArc);
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
