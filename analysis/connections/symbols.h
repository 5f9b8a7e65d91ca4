#pragma once
// Our own set of symbols, in strokes around the origin: water flows along x, from -width/2 to width/2, with
// the pipe's axis at y = 0. What hangs on a tee (gauge, vent, vessel) has its connection at -width/2 too and
// is turned by whoever places it.

#include "analysis/connections/strokes.h"

#include <string_view>

namespace headmark {

struct SymbolSize {
    double length = 0.0; // along the water
    double across = 0.0;
};

// Column `symbol` of parts.csv. "none" has no size.
[[nodiscard]] bool knownSymbol(std::string_view kind);
[[nodiscard]] SymbolSize symbolSize(std::string_view kind);
// `mirrored`: drawn with its ends the other way round (a tail that leads out of a hose, a widening reducer).
[[nodiscard]] std::vector<Stroke> symbolStrokes(std::string_view kind, bool mirrored = false);

} // namespace headmark
