#pragma once
// NPSH available at a pump's inlet, and how high above the water it may stand.
//   NPSH_available = (p_surface - p_vapour)/(rho g) + surface above pump - loss
//   greatest lift  = (p_surface - p_vapour)/(rho g) - loss - NPSH that must be available
// p: absolute; surface above pump: negative on a lift; loss: of the suction up to the pump's inlet.
// Source: definition; compared with published examples in tests/published/npsh_test.cpp.

#include "analysis/units/quantities.h"

namespace headmark {

struct SuctionState {
    AbsolutePressure onSurface; // the air's, or that in a closed tank
    AbsolutePressure vapour;
    Density density;
    Head surfaceAbovePump;
    Head loss;
};

[[nodiscard]] Head npshAvailable(const SuctionState& state);

// Of the pump above the surface; `state.surfaceAbovePump` plays no part. Negative: it must be flooded.
[[nodiscard]] Head greatestLiftFor(const SuctionState& state, Head needed);

} // namespace headmark
