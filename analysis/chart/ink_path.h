#pragma once
// The path of a line along its ink, from the stroke under a click to both of its ends.
//   At each step the next place is foretold from the way so far (a parabola through the last stretch); of the
//   strokes seen across that place the one of the same width, darkness and colour nearest to it is taken.
//   Where none is like it (crossings, labels, gaps) the smooth way ahead is sought that meets most of the
//   line (way_ahead.h); over bare paper it goes no farther than a gap, over other ink a little more.
// So crossings are passed by position, slope and curvature, and rulings by being unlike.

#include "analysis/chart/rulings.h"
#include "analysis/chart/stroke.h"

#include <vector>

namespace headmark {

// What is known of a line before it is followed.
struct LineManner {
    bool dashed = false;
    bool bends = false;    // more than a curve over the flow does: a line of equal efficiency
    bool together = false; // towards zero flow it may run into its neighbours: an efficiency
};

// A place where the stroke itself was seen.
struct PathPoint {
    PagePoint at;
    PagePoint along;   // unit vector in the sense of the path
    double arc_px = 0; // from the start of the path
    double width_px = 0.0;
    double spare_px = 0.0; // amid other lines it runs together with: how far the line may lie off this place
};

// A stretch without a sight of the stroke, longer than a crossing of one stroke would make it.
struct PathGap {
    PagePoint from, to;
    double length_px = 0.0;
    bool overInk = false; // other ink lay there (crossing, label); else paper
    double misfit = 0.0;  // squared sigmas over place and direction of what was taken up beyond it
};

enum class PathEnd {
    paper,  // the ink ends
    region, // the part of the page looked at ends
    lost    // other ink goes on, none of it like the line
};

struct InkPath {
    StrokeLook look;
    std::vector<PathPoint> points;
    std::vector<PathGap> gaps;
    bool changesPen = false; // drawn thicker or thinner over a stretch
    PathEnd startsAt = PathEnd::paper, endsAt = PathEnd::paper;

    [[nodiscard]] double length_px() const;
};

// Ink of `rulings` that run along with the line is no sight of it.
[[nodiscard]] InkPath followInk(const InkField& field, const StrokeStart& start, const Rulings& rulings = {},
                                LineManner manner = {});

// From places along some of its dashes.
[[nodiscard]] InkPath followDashes(const InkField& field, const StrokeLook& look,
                                   const std::vector<PathPoint>& seen, const Rulings& rulings = {},
                                   LineManner manner = {.dashed = true});

} // namespace headmark
