#include "analysis/chart/path_tail.h"

#include "analysis/chart/median.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace headmark {

namespace {

template <typename Place>
std::optional<double> usualWidth(Place from, const Place end) {
    constexpr std::size_t kMany = 24;
    std::vector<double> widths;
    for (; from != end && widths.size() < kMany; ++from)
        widths.push_back(from->width_px);
    if (widths.size() < kMany) return std::nullopt;
    std::sort(widths.begin(), widths.end());
    const double usual = widths[widths.size() / 2];
    const double spread = widths[3 * widths.size() / 4] - widths[widths.size() / 4];
    return spread < 0.15 * usual + 0.3 ? std::optional(usual) : std::nullopt;
}

} // namespace

LocalParabola foretell(const std::vector<PathPoint>& path, double lookBack_px, double step_px) {
    const PathPoint& last = path.back();
    std::size_t first = path.size() - 1;
    constexpr double kMostGaps = 1.6;
    const auto enough = static_cast<std::size_t>(lookBack_px / step_px);
    while (first > 0 && path.size() - first <= enough &&
           last.arc_px - path[first - 1].arc_px <= kMostGaps * lookBack_px)
        --first;
    first = std::min(first, path.size() - std::min<std::size_t>(path.size(), 4));
    return {std::span(path).subspan(first), last.at, last.along};
}

Foretold foretellNear(const std::vector<PathPoint>& path, double lookBack_px, double step_px) {
    constexpr double kFollows_px = 0.45, kShortest = 0.35, kShorter = 0.7;
    for (double times = 1.0;; times *= kShorter) {
        const double back = times * lookBack_px;
        const LocalParabola way = foretell(path, back, step_px);
        double sum = 0.0, known = 0.0;
        std::size_t n = 0;
        for (auto p = path.rbegin(); p != path.rend() && path.back().arc_px - p->arc_px <= back; ++p, ++n) {
            sum += std::abs(way.offsetOf(p->at));
            known = path.back().arc_px - p->arc_px;
        }
        if (times < kShortest || sum <= kFollows_px * static_cast<double>(n)) return {way, known};
    }
}

std::vector<PathPoint> takeBack(std::vector<PathPoint>& path, double to_px) {
    constexpr std::size_t kLeastLeft = 8;
    std::size_t left = path.size();
    while (left > kLeastLeft && path[left - 1].arc_px > to_px)
        --left;
    std::vector<PathPoint> taken(path.begin() + static_cast<std::ptrdiff_t>(left), path.end());
    path.resize(left);
    return taken;
}

std::optional<double> widthAtStart(const std::vector<PathPoint>& path) {
    return usualWidth(path.begin(), path.end());
}

std::optional<double> widthAtEnd(const std::vector<PathPoint>& path) {
    return usualWidth(path.rbegin(), path.rend());
}

double widthSince(const std::vector<PathPoint>& path, double arc_px) {
    std::vector<double> widths;
    for (auto p = path.rbegin(); p != path.rend() && p->arc_px >= arc_px; ++p)
        widths.push_back(p->width_px);
    return widths.empty() ? 0.0 : medianOf(std::move(widths));
}

} // namespace headmark
