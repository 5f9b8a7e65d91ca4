#pragma once
// Which strokes seen across a way are a ruling's ink, and which a line's.

#include "analysis/chart/rulings.h"

#include <vector>

namespace headmark {

// The strokes of a profile that are no ruling's ink; and where a line of that look stands half out of a
// ruling that it crosses at a shallow angle, the line by the edge that is seen of it; dashes are too short to
// be told so.
[[nodiscard]] std::vector<StrokeSight> strokesBesideRulings(const Profile& profile, const StrokeLook& look,
                                                            const std::vector<RulingBeside>& beside,
                                                            bool dashed);

// Whether a stroke seen across a way is no more than a ruling's own ink.
[[nodiscard]] bool isRuling(const StrokeSight& stroke, const std::vector<RulingBeside>& beside);

} // namespace headmark
