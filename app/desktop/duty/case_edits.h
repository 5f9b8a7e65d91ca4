#pragma once
// The edits of a job's cases. A job without cases of its own has some made for it; the first edit makes those
// its own, except the filling of the main, which no job file can name.

#include "analysis/job/made_cases.h"
#include "app/document/document.h"

#include <vector>

namespace headmark {

// Each returns the index of the case to show next.
[[nodiscard]] int addCase(Document& document, const std::vector<MadeCase>& made, Case added);
[[nodiscard]] int addCases(Document& document, const std::vector<MadeCase>& made,
                           const std::vector<Case>& added); // the first of them
[[nodiscard]] int changeCase(Document& document, const std::vector<MadeCase>& made, std::size_t index,
                             const Case& changed);
[[nodiscard]] int duplicateCase(Document& document, const std::vector<MadeCase>& made, std::size_t index);
// With its last case gone the job has cases made for it again.
[[nodiscard]] int deleteCase(Document& document, const std::vector<MadeCase>& made, std::size_t index);

// The name, or the name with a number where a case of that name stands there already.
[[nodiscard]] std::string freeCaseName(const std::vector<MadeCase>& cases, const std::string& name);

} // namespace headmark
