#pragma once
// Whether a line goes on in another width: drawn thicker where the pump may run, and in its own width beyond.
// Two lines that meet are wide as well, but more and more so; a ruling goes on where a line ended, but
// fainter.

#include "analysis/chart/way_ahead.h"

#include <optional>

namespace headmark {

struct PenChange {
    WayAhead way;
    double darkness = 0.0;
};

// From the last sight of a line of that look along the way foretold from `known_px` of it. Empty: it does
// not.
[[nodiscard]] std::optional<PenChange> findPenChange(const InkField& field, const Rulings& rulings,
                                                     const StrokeLook& look, const LocalParabola& foretold,
                                                     double known_px, double step_px);

} // namespace headmark
