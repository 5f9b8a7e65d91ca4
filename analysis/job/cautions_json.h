#pragma once
// Cautions as the list that findings, lines and field checks carry. Whole JSON header, so only for the
// writers of documents.

#include "analysis/core/finding.h"
#include "analysis/job/wording.h"

#include <nlohmann/json.hpp>

namespace headmark {

// A figure that is not finite is null.
[[nodiscard]] nlohmann::ordered_json finiteJson(double value);

// Under their keys.
[[nodiscard]] nlohmann::ordered_json factsJson(const Facts& facts);

[[nodiscard]] nlohmann::ordered_json cautionsJson(const Cautions& cautions, const Wording& wording);

} // namespace headmark
