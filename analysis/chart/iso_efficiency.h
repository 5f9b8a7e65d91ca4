#pragma once
// A pump's efficiency along its head curve, where the chart prints lines of equal efficiency instead of a
// curve.
//   Where a line of equal efficiency meets the head curve, head_iso(Q) = H(Q), the pump has that efficiency;
//   sigma_Q^2 = (sigma_iso^2 + sigma_H^2)/(dhead_iso/dQ - H')^2. A polynomial of at most degree 3 through
//   these places, errors in Q, and through none at no flow, where a pump gives no power to the water.
// A line that ends on the curve is read only up to the curve's own ink: from either end it is carried on
// straight, by at most kIsoEndReach.
// SI: m3/s, m, share. From the least place (no flow) to the greatest one; never beyond. Four places at least
// in two levels or more: fewer say too little of the top between them. Simplification: head curve and lines
// count as independent, though they share their chart's pins.

#include "analysis/chart/read_chart.h"

#include <vector>

namespace headmark {

// Of the head curve's extent in flow and head; a few strokes' widths. Rule of this program.
inline constexpr double kIsoEndReach = 0.02;

struct IsoCrossing {
    double flow_m3_s = 0.0, level_share = 0.0, sigmaFlow_m3_s = 0.0;
};

// Of one line of equal efficiency, by rising flow; places nearer to each other than a fiftieth of the curve
// are one, met twice by the noise of the ink.
[[nodiscard]] std::vector<IsoCrossing> isoCrossings(const PolynomialCurve& head, const ReadLine& line);

// Errors: "too-few-crossings" (crossings), and those of the fit.
[[nodiscard]] Result<SampleFit> efficiencyFrom(const std::vector<IsoCrossing>& crossings);

} // namespace headmark
