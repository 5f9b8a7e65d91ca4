#pragma once
// Small things that several screens of the place share.

#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/site/run_spot.h"
#include "app/words/phrasing.h"

namespace headmark {

// The place of the table row that shows what is said of `spot`: a whole suction or delivery is shown at the
// pump.
[[nodiscard]] std::string rowPlace(const RunSpot& spot);

// What is wrong, the item named as the screen names it.
[[nodiscard]] QString siteSentence(const Error& error, const Site& site);

// The usual water level anew; low and high keep their distance from it.
void moveUsualLevel(Site& site, Level usual);

} // namespace headmark
