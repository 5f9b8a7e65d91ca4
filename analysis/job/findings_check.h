#pragma once
// Whether a document is a "headmark-findings" document (version 1) as findings_json.h writes it: types,
// needed keys, unknown keys, severities and bands. What its numbers mean is not judged, and no sum is done
// over.
//   null is allowed only where an answer may be unknown: duty, as_delivered.low and .high, efficiency, power,
//   npsh and the figures inside them that need a curve the pump may lack, tank_return_flow_m3_h,
//   zones_at_once, shift_plan and its energies and times a figure x_m3_h may have its 95 % interval x_95_m3_h
//   = [lo, hi], lo not above hi: "_95" stands before the unit,
//   or at the end where the key names none beside it ("kWh_per_m3_95")

#include "analysis/core/error.h"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <vector>

namespace headmark {

inline constexpr int kFindingsVersion = 1;

// Everything that is wrong, at most a hundred; empty: nothing.
[[nodiscard]] std::vector<Error> checkFindingsDocument(const nlohmann::ordered_json& document,
                                                       const std::string& fileName);

} // namespace headmark
