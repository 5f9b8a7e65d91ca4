#pragma once
// What the last stretch of a path tells of the line: how it goes on, and how wide it is.

#include "analysis/chart/ink_path.h"
#include "analysis/chart/local_parabola.h"

#include <optional>
#include <vector>

namespace headmark {

// A parabola through the last `lookBack_px` of at least one place, inked for the most part: of a dashed line,
// some dashes. `step_px` is the path's.
[[nodiscard]] LocalParabola foretell(const std::vector<PathPoint>& path, double lookBack_px, double step_px);

struct Foretold {
    LocalParabola way;
    double known_px; // the stretch it comes from
};
// From no longer a stretch than one parabola follows.
[[nodiscard]] Foretold foretellNear(const std::vector<PathPoint>& path, double lookBack_px, double step_px);

// The places beyond `to_px` along the path, taken off it; its first eight are never.
std::vector<PathPoint> takeBack(std::vector<PathPoint>& path, double to_px);

// Median widths, px: over the first or last places, where these agree (a crossing widens some), and since
// `arc_px` of the path, 0 where no place is.
[[nodiscard]] std::optional<double> widthAtStart(const std::vector<PathPoint>& path);
[[nodiscard]] std::optional<double> widthAtEnd(const std::vector<PathPoint>& path);
[[nodiscard]] double widthSince(const std::vector<PathPoint>& path, double arc_px);

} // namespace headmark
