#pragma once
// What a pipe bears in warm water: its nominal rating times a factor of its plastic at the water's
// temperature.
//   PE 1 at 20 C, 0.74 at 40 C; PVC-U 1 at 25 C, 0.63 at 45 C: rows pe_temperature_factor and
//   pvcu_temperature_factor of the table of limits, straight lines between them. Colder than the first
//   row: 1. Warmer than the last: the last line goes on.
// Source: EN 12201-1 Annex A / ISO 13761; EN ISO 1452-2 Annex A (from memory, see the table).
// Simplifications: the wall is as warm as the water; hoses and pipe that a job spells out bear what is given.

#include "analysis/pipework/element.h"
#include "analysis/pipework/rules.h"

namespace headmark {

struct WarmFactors {
    double polyethylene = 1.0, pvcu = 1.0;
    [[nodiscard]] double of(const Element& element) const;
    // Empty where the element has no rating.
    [[nodiscard]] std::optional<double> rating_kPa(const Element& element) const;
};

[[nodiscard]] WarmFactors warmFactors(const Rules& rules, Temperature water);

// What is to be said besides where a rating is less than the nominal one; nothing else.
[[nodiscard]] Facts warmFacts(const Element& element, const WarmFactors& warm, Temperature water);

} // namespace headmark
