#pragma once
// Along which smooth way does a line that is out of sight go on?
//   Ahead of its last sight the page is laid out along the way foretold: at every step the strokes alike, and
//   where other ink or bare paper lies. Every way n = b s + c s^2/2 about the one foretold (s along it, n to
//   its normal, pixels) is scored by what it meets: strokes alike for it, paper against it, other ink hardly
//   against it; b and c cost as they are unlikely. So scraps of a line between words, crossings and gaps
//   count together, where no single one of them would tell.

#include "analysis/chart/local_parabola.h"
#include "analysis/chart/rulings.h"

#include <optional>
#include <vector>

namespace headmark {

struct WayAsked {
    StrokeLook look;
    LocalParabola foretold; // from the last sight that is trusted
    double known_px = 0.0;  // of the line behind that foretells the way
    double hidden_px = 0.0; // sights so near are known already
    double reach_px = 0.0;  // how far ahead is looked
    double longestPaper_px = 0.0;
    double confirm_px = 0.0; // so much of the line is seen before it is believed
    double step_px = 1.0;
    bool dashed = false;
    bool bends = false;            // more than a curve over the flow does: a line of equal efficiency
    bool broken = false;           // by gaps so far: fewer places foretell the way
    double longestStroke_px = 0.0; // of a dashed line; 0: any
};

struct WayAhead {
    std::vector<PathPoint> seen; // the sights along it, from the first on
    double gap_px = 0.0;         // before the first
    bool overInk = false;        // other ink over most of the gap
    double misfit = 0.0;         // squared sigmas over direction and bend
    double width_px = 0.0;       // of the sights
};

struct WaySought {
    std::optional<WayAhead> way; // empty: none is believed, or two that part are nearly as good
    bool inkGoesOn = false;      // other ink, along the foretold way from where the line was seen last
    bool nothingAhead = false;   // bare paper, but for the line's own end
    bool leavesPage = false;     // within the longest bare paper
};

[[nodiscard]] WaySought findWayAhead(const InkField& field, const Rulings& rulings, const WayAsked& asked);

} // namespace headmark
