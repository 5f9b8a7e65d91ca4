#pragma once
// Which printed figure does each ruling of the grid stand for?
//   The pins' mapping puts every ruling at some figure, off by the pins' errors and the paper's curl. The
//   figures printed at a grid are multiples of 1, 2, 2.5, 4 or 5 times a power of ten; on a log axis one to
//   nine times one. The coarsest such step that has all but a tenth of the rulings near its multiples is the
//   grid's; near: a fifth of a step, and no more than 4 px and 1.2 % of the chart. Fewer than four rulings
//   tell nothing that way. A ruling with pins on it bears their figure.

#include "analysis/chart/mapping.h"
#include "analysis/chart/page.h"
#include "analysis/chart/rulings.h"

#include <vector>

namespace headmark {

[[nodiscard]] std::vector<KnownRuling> figuresOf(const Rulings& rulings, const ChartMapping& mapping,
                                                 const Reading& reading, const Page& page);

} // namespace headmark
