#pragma once
// How deep a suction mouth must lie so that no air-drawing vortex reaches it.
//   S = D (1 + 2.3 v/sqrt(g D))     D: diameter of the mouth, v: velocity through it
// Source: ANSI/HI 9.8. A strainer counts with its open area: v = Q/area, D that of the pipe it sits on.

#include "analysis/units/quantities.h"

namespace headmark {

// Below the surface, to the mouth's upper edge. Bore above 0.
[[nodiscard]] Length leastSubmergence(Length mouth, Velocity through);

} // namespace headmark
