#pragma once
// The dashes or dots under a click, or to both sides of one that fell between them: a strip through the click
// that is inked here and there, bare beside itself, and runs along no ruling. Where a line is dashed the
// short strip under a click (stroke.h) sees one dash or none, or a ruling that goes by.

#include "analysis/chart/ink_path.h"

#include <optional>
#include <vector>

namespace headmark {

struct DashStart {
    StrokeLook look;
    std::vector<PathPoint> seen; // the places of the dashes along the strip
};

// Empty: no such strip within `reach_px` of the click. `wanted` looks for one colour only.
[[nodiscard]] std::optional<DashStart> dashesUnder(const InkField& field, PagePoint click, double reach_px,
                                                   const std::optional<InkDensity>& wanted,
                                                   const Rulings& rulings);

} // namespace headmark
