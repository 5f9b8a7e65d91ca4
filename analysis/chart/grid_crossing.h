#pragma once
// Where do two straight rulings of the grid cross, near a pointed place? For snapping a pin to the print.
//   Across each direction (level and upright, up to kSteepest off) the strokes are seen at stations along it;
//   those that stand in a row are a ruling, its line by least squares over them; two rulings of the two
//   directions that both reach their meeting point make a crossing. It may be a corner: rulings on one side.
// Pixels of the reading. The error is a few tenths of a pixel on scans, less on clean pages.
// Known limit: a pump's line that runs as straight and level as a ruling is taken for one; so the place is
// shown before it is used.

#include "analysis/chart/page.h"

#include <optional>

namespace headmark {

// The crossing nearest to `near_px` within `radius_px`; empty: none.
[[nodiscard]] std::optional<PixelPoint> gridCrossingNear(const Page& page, PixelPoint near_px,
                                                         double radius_px);

} // namespace headmark
