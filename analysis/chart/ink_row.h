#pragma once
// A stroke like the line, seen while the line itself is out of sight, and those in a row with it: looked for
// ahead along the way foretold, and judged by how well the row goes on as the line did.

#include "analysis/chart/ink_path.h"

#include <vector>

namespace headmark {

// How far a stroke may stand off the foretold way, one sigma in pixels, so far ahead.
[[nodiscard]] double sigmaOfPlace(const StrokeLook& look, double ahead_px);

struct InkRow {
    std::vector<PathPoint> points;
    std::vector<double> ahead, offset; // of each: along the foretold way, and off it
    double widths = 0.0;               // summed
    int missed = 0;                    // steps since the last sight; below 0: closed
    bool amidInk = false;              // other ink stood by the way before it
    bool wide = false;                 // wider than the line: the line itself drawn thicker, or other ink
    bool solid = false;                // inked without a gap for longer than any dash of the line

    [[nodiscard]] double gap() const { return ahead.front(); }
    [[nodiscard]] double length() const { return ahead.back() - ahead.front(); }
    [[nodiscard]] double width() const { return widths / static_cast<double>(ahead.size()); }
    // How far from going on as the line did, squared sigmas over place and direction.
    [[nodiscard]] double cost(const StrokeLook& look) const;
};

} // namespace headmark
