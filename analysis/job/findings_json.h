#pragma once
// Findings as a "headmark-findings" document (version 1). Text in it is English always.

#include "analysis/job/findings.h"
#include "analysis/job/wording.h"

#include <string>

namespace headmark {

// Pretty-printed JSON with a final newline.
[[nodiscard]] std::string findingsJson(const Findings& findings, const Wording& wording);

} // namespace headmark
