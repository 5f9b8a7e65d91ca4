#pragma once
// What the answer at hand says of the case shown: its setting, its way of the water, errors and cautions of
// the site. Empty where the answer is of no use yet.

#include "app/desktop/frame/desk.h"

#include <QString>

#include <optional>
#include <vector>

namespace headmark {

// The setting of the shown case, or null. Lives as long as the answer.
[[nodiscard]] const MadeCase* shownCase(const Answer& answer, const Shown& shown);

// "needed: 4.2 m³/h at 27 m" while there is no pump; empty where nothing can be said.
[[nodiscard]] QString neededWords(const Answer& answer, const Shown& shown, const DisplayUnits& units);

// Errors that concern the site, in the order given.
[[nodiscard]] std::vector<Error> siteErrors(const Answer& answer);
// Cautions of the shown case that stand at the site, notes left out.
[[nodiscard]] Cautions siteCautions(const Answer& answer);

} // namespace headmark
