#pragma once
// A parabola through a stretch of a path, in the frame of one of its points: n = a + b s + c s^2, s along the
// frame's direction, n to its normal (-y, x). For foretelling the next stretch and for smoothing.

#include "analysis/chart/ink_path.h"

#include <span>

namespace headmark {

class LocalParabola {
  public:
    // At least two points; with fewer than kLeastForBend, or a stretch shorter than kLeastStretch_px, a
    // straight line.
    LocalParabola(std::span<const PathPoint> stretch, PagePoint origin, PagePoint direction);

    [[nodiscard]] PagePoint at(double s_px) const;
    [[nodiscard]] PagePoint directionAt(double s_px) const;
    // 1/px: how fast the direction turns.
    [[nodiscard]] double bend() const { return 2.0 * c_; }
    // Signed distance of a point from the parabola, along the frame's normal.
    [[nodiscard]] double offsetOf(PagePoint p) const;

  private:
    PagePoint origin_, along_, normal_;
    double a_ = 0.0, b_ = 0.0, c_ = 0.0;
};

} // namespace headmark
