#pragma once
// Which BSP thread is it? From a diameter measured with a caliper: over the crests of a male thread, or
// across the crests of a female one.
//   male:   measured against the major diameter d; class B of ISO 228-1 allows d less 0.2 to 0.4 mm
//   female: measured against the minor diameter D1 = d - 2 (0.640327 pitch); tolerance upwards only
// A taper thread (ISO 7-1, 1 in 16 on the diameter) measures less at its small end and more at its large one:
// over its length it passes the same sizes, so its measure may lie below that of the gauge plane.
// A size is a candidate when the measure lies within kBelow_mm below to kAbove_mm above the nominal figure of
// a male thread, and the mirror image for a female one. Where two sizes come within it, both are named.
// Outside every size: no candidate, and the nearest two with their distance.
// Source: diameters ISO 228-1 (threads.csv); widths of the window: common practice, no source.

#include "analysis/units/quantities.h"

#include <string>
#include <vector>

namespace headmark {

enum class ThreadSide { male, female };

struct ThreadCandidate {
    std::string size;  // "1-1/2"
    Length nominal;    // major or minor diameter of that size
    Length difference; // measured less nominal
    double threadsPerInch = 0.0;
};

struct ThreadSizeFinding {
    enum class State { notRun, sure, ambiguous, none } state = State::notRun;
    std::vector<ThreadCandidate> candidates; // nearest first; state none: the two nearest sizes
};

[[nodiscard]] ThreadSizeFinding threadSizeFromDiameter(Length measured, ThreadSide side);

} // namespace headmark
