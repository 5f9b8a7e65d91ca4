#pragma once
// Whether a line that was taken up beyond a gap is the same one. Two lines that meet at a small angle look
// like one that goes on: at the gap their direction jumps, and what goes on, followed back over the gap,
// comes from elsewhere. A line of its own does neither.

#include "analysis/chart/ink_path.h"

namespace headmark {

// Cuts off what belongs to other lines, on both sides of `click`, which is kept. An end made so is `lost`.
void cutOffOthers(const InkField& field, const Rulings& rulings, InkPath& path, PagePoint click,
                  LineManner manner);

} // namespace headmark
