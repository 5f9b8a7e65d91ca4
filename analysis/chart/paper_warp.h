#pragma once
// What known rulings say of curled paper: a smooth shift of u or of v that brings each ruling to its figure.
//   off = sum c_k T_k(u, v) by robust least squares over the rulings of one sense, T_k products of powers up
//   to the fourth along the rulings, fewer across them than there are rulings
// Taken only where it explains far more of the scatter than so many idle terms would (an F ratio): flat paper
// stays flat. Its own error: the spread of each term once the places and scales that the mapping decides
// (1, u, v) are taken out of it.

#include "analysis/chart/mapping.h"
#include "analysis/chart/ruling_scatter.h"

#include <vector>

namespace headmark {

struct SenseWarp {
    bool taken = false;
    SmoothWarp::Coefficients shift = SmoothWarp::Coefficients::Zero();
    std::vector<SmoothWarp::Coefficients> errors; // each one sigma, independent of each other
};

// From the places of the level rulings (a shift of v) or the upright ones (of u).
[[nodiscard]] SenseWarp warpOf(const std::vector<RulingPlace>& places, bool upright);

} // namespace headmark
