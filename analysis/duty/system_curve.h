#pragma once
// The head a site asks of a pump at each flow through it: static lift and every loss on the way with that
// flow shared out among the outlets as the tree shares it, a tank return included. It kinks where an outlet
// begins to run, is full (compensating emitters) or a regulator begins to hold back.
//   method: the tree solved behind a source that falls steeply through the flow asked for,
//           H(Q) = head - fall (Q - flow); the pair (Q, H) it settles at lies on the curve whatever the fall.
//           Where the curve bends the flows are halved; where outlets or regulators stand differently at two
//           flows the change is closed in on by halving, to kKinkWidth of the greatest flow.
//   at no flow: the head at which the first outlet is about to run (below it nothing flows at any head)
//   the curve ends at the greatest flow asked for, or where it reaches `top_m` (raised where the curve begins
//   near it or above); where no more flows whatever the head it stands upright there

#include "analysis/pipework/tree.h"

#include <vector>

namespace headmark {

inline constexpr double kKinkWidth = 1e-6;

// By rising flow, from 0; heads of one flow (an upright end) by rising head.
struct SystemCurve {
    std::vector<double> flow_m3_s, head_m;
};

// `greatest_m3_s` above zero. Empty where the tree could not be solved at all.
[[nodiscard]] SystemCurve systemCurveOf(const PipeTree& tree, double greatest_m3_s, double top_m);

} // namespace headmark
