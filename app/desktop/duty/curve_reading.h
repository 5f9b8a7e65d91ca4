#pragma once
// Values of drawn curves between their points, by straight lines, and the edges of bands about them. Nothing
// is worked out here that the curves do not already say.

#include "analysis/job/prepared_job.h"

#include <optional>
#include <vector>

namespace headmark {

// Empty outside the curve.
[[nodiscard]] std::optional<double> valueAt(const CurvePlot& curve, double flow_m3_s);
[[nodiscard]] std::optional<double> valueAt(const std::optional<CurvePlot>& curve, double flow_m3_s);

// Lower and upper edge at the curve's own flows.
struct CurveEdges {
    std::vector<double> low, high;
};
// Head as the maker may deliver it: the curve less and more its share of the head.
[[nodiscard]] CurveEdges deliveredEdges(const PumpPlot& plot);
// 95 % of a reading with the curve's sigma; empty where the curve is exact.
[[nodiscard]] CurveEdges readingEdges(const CurvePlot& curve);

} // namespace headmark
