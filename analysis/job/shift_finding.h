#pragma once
// The shift plan of one pump: which zones run together, when, for how long, and whether the water lasts.
// Figures of a shift: pump as printed, usual water, clean filter. Sets are those that work at the worst of
// the given levels and filter states (zones at once). Needs: need_m3_per_day, or need_mm_per_day over
// area_m2. The source: `volume_m3` is what it holds between its high level and the level the pump stops at
// (the low one where none is given), over upright walls; the night begins at the usual level.

#include "analysis/duty/case_solver.h"
#include "analysis/duty/zone_sets.h"
#include "analysis/job/findings.h"
#include "analysis/job/job.h"

#include <atomic>

namespace headmark {

// Empty where no zone states a need.
[[nodiscard]] std::optional<ShiftPlanFinding> shiftFinding(const Job& job, const CaseSolver& solver,
                                                           const ZoneSets& sets,
                                                           const std::atomic<bool>* stop = nullptr);

// "21:00" and so on as minutes of the day; "HH:MM" of minutes after midnight, past it again.
[[nodiscard]] int minutesOfTime(const std::string& time);
[[nodiscard]] std::string timeOfMinutes(double minutes);

// What is keyed into a controller, one line a station in the order of starts: "pump,shift,start,station,zone,
// minutes,flow_m3_h"; without a window the start is minutes after the first.
[[nodiscard]] std::string shiftsCsv(const Findings& findings);

// What each zone asks for in a day; 0 where it states no need.
[[nodiscard]] std::vector<double> dailyNeeds_m3(const Site& site);

} // namespace headmark
