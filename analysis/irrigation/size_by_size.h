#pragma once
// Zones at once decided size by size, each with a share of the questions: from both ends of what is still
// open, so that what is left undecided is a bracket.

#include "analysis/irrigation/zones_at_once.h"

namespace headmark {

// The answer's bracket, or the exact answer where the questions suffice and a bound is known. Asks at most
// `questions`.
void answerSizeBySize(const ZonesAtOnceQuestion& question, long questions, ZonesAtOnceAnswer& answer);

} // namespace headmark
