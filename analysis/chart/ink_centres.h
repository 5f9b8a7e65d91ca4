#pragma once
// Where exactly the middle of a followed stroke runs.

#include "analysis/chart/ink_path.h"

#include <cstddef>

namespace headmark {

// How far to each side of a path ink is looked at: past the widest line and its nearest neighbours.
inline constexpr double kProfileReach_px = 10.0;

// The centres measured once more, each against the smooth path on both sides of it; places where the stroke
// is overlaid by other ink are left out. Then at most `most` points, evenly spread.
void refineCentres(const InkField& field, InkPath& path, std::size_t most);

} // namespace headmark
