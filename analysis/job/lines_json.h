#pragma once
// A read chart as a "headmark-lines" document (version 1): of every line its samples and its curve.
//   samples  keyed by the quantity ("head_m", "efficiency_share", "power_kW", "npsh_required_m"), with one
//            sigma that includes the pins' error
//   fit      y = sum c_k Q^k, Q in m3/h, y in the unit of the quantity's key, with the covariance of c; and
//            under "scaled" the same curve in Legendre polynomials of (Q - centre)/half_range, which keeps
//            its digits where the powers cancel each other. Neither says anything outside flow_range_m3_h.
//   "cautions" beside the mapping where there are any about the pins, and at every line
// Text in it is English always.

#include "analysis/chart/read_chart.h"
#include "analysis/job/wording.h"

#include <string>

namespace headmark {

// What the files call a line's quantity, and the key its values stand under.
struct LineQuantityKeys {
    std::string_view name;     // "npsh_required"
    std::string_view valueKey; // "npsh_required_m"
    std::string_view unit;     // "m", the end of valueKey
    double fromSi;             // key's unit per SI unit
};
// Lines of equal efficiency lie in the flow-head plane: their values are heads.
[[nodiscard]] const LineQuantityKeys& keysOf(LineQuantity quantity);

[[nodiscard]] std::string_view nameOf(MappingModel model);

// Pretty-printed JSON with a final newline.
[[nodiscard]] std::string linesJson(const ChartLines& lines, const Wording& wording);

} // namespace headmark
