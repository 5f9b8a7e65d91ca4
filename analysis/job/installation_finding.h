#pragma once
// The studies of practice/installation.h for one pump of a job, and their part of the findings document.

#include "analysis/job/findings.h"
#include "analysis/job/prepared_job.h"
#include "analysis/job/wording.h"

#include <nlohmann/json_fwd.hpp>

#include <span>

namespace headmark {

[[nodiscard]] std::vector<Study> installationFinding(const PreparedJob& prepared, std::size_t pump,
                                                     std::span<const CaseAnswer> cases);

// [{"topic": "suction", "figures": [{"code", "place", "values", title, formula, with, result, source}],
//   "cautions": []}]; the last of `values` is the result.
[[nodiscard]] nlohmann::ordered_json installationJson(const std::vector<Study>& studies,
                                                      const Wording& wording);

} // namespace headmark
