#pragma once
// What the owner of the water asks before a pump draws from it: consent for a pump on the mains, a licence
// for drawing much from open water or the ground, the air gap of a break tank. The figures are rows of the
// table of limits, which hold for one country; the words say so.

#include "analysis/core/finding.h"
#include "analysis/duty/case_solver.h"

#include <span>

namespace headmark {

// By the greatest flow of the cases, and by what the zones ask for in a day.
[[nodiscard]] Cautions supplyRules(const CaseSolver& solver, std::span<const CaseAnswer> cases);

} // namespace headmark
