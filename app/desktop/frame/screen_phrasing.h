#pragma once
// How sentences are made for the screen: translated, in the user's number format and units, with a site's
// names.

#include "app/words/phrasing.h"

namespace headmark {

[[nodiscard]] Phrasing screenPhrasing(const Site* site = nullptr);
[[nodiscard]] inline Phrasing screenPhrasing(const Site& site) { return screenPhrasing(&site); }

// For every sentence made from now on. The desk calls it; sentences on the screen are made anew by whoever
// shows them.
void setScreenUnits(const WordUnits& units);

} // namespace headmark
