#pragma once
// From a traced line's pixels to samples in SI with their errors, and to the fitted curve.

#include "analysis/chart/line_tracing.h"
#include "analysis/chart/mapping.h"
#include "analysis/chart/read_chart.h"

namespace headmark {

// SI of one printed unit of the quantity, and of the flow.
struct PrintedFactors {
    double flow = 1.0, value = 1.0;
};
[[nodiscard]] PrintedFactors printedFactors(const Reading& reading, LineQuantity quantity);

// Fills samples, fit, trust and cautions of a read line. `index` of the line in the reading. Errors:
// "nothing-between", those of the fit; place "lines[index]".
[[nodiscard]] Result<ReadLine> lineFromTrace(const Reading& reading, std::size_t index,
                                             const ChartMapping& mapping, const Page& page,
                                             const TracedLine& traced);

} // namespace headmark
