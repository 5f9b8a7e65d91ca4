#pragma once
// Words of a shift plan's totals: how long, what it costs, what it is the best of.

#include "analysis/job/findings.h"
#include "analysis/job/job.h"
#include "app/words/phrasing.h"

namespace headmark {

// "45 min", "5 h 12 min"; to whole minutes.
[[nodiscard]] QString durationWords(double minutes, const Phrasing& phrasing);

// "3.04 EUR"
[[nodiscard]] QString costWords(double cost, const Job& job, const Phrasing& phrasing);

// "least time", "least energy", "fewest shifts"
[[nodiscard]] QString objectiveWords(ShiftObjective objective, const Phrasing& phrasing);

// Whether a better division may exist, and how much better at most.
[[nodiscard]] QString provenWords(const ShiftPlanFinding& plan, const Phrasing& phrasing);

} // namespace headmark
