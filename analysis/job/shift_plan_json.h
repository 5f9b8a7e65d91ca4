#pragma once
// The shift plan inside a "headmark-findings" document.

#include "analysis/job/findings.h"
#include "analysis/job/wording.h"

#include <nlohmann/json.hpp>

namespace headmark {

[[nodiscard]] nlohmann::ordered_json shiftPlanJson(const ShiftPlanFinding& plan, const Wording& wording);

} // namespace headmark
