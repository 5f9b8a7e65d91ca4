#pragma once
// Where the check valve of a flooded pump stands, and what NPSH each place leaves: the case with the greatest
// flow answered twice, with the valve at the pump's inlet and behind the pump. Source of the rule that it
// stands behind the pump unless the water can fall below it: water_sources.csv, trade practice.

#include "analysis/job/prepared_job.h"

#include <optional>
#include <span>

namespace headmark {

// Empty for mains and for a pump in the water, where the water does not stand above the pump at every level, or no run lists such a valve.
[[nodiscard]] std::optional<WorkingStep> checkValvePlace(const PreparedJob& prepared, std::size_t pump,
                                                         std::span<const CaseAnswer> cases);

} // namespace headmark
