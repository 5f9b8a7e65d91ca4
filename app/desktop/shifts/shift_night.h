#pragma once
// One night of a shift plan as the chart, the table and the files show it: the plan with the names, the
// window and the levels that stand in the job. Nothing is computed here that the findings do not say.

#include "analysis/job/findings.h"
#include "analysis/job/job.h"
#include "app/document/display_units.h"

#include <QString>

#include <optional>
#include <string>
#include <vector>

namespace headmark {

struct ShiftNight {
    std::string pump;
    ShiftPlanFinding plan;
    std::vector<std::string> zones; // names of all, in the job's order: station 1 and so on
    std::vector<QString> idle;      // by zone: why it stands in no shift; empty where it stands in one
    std::optional<int> begin_min;   // of the window, after midnight
    std::optional<int> window_min;  // its length
    Level high, stop;               // of the source; meant where the plan has a tank
    std::optional<double> dry_min;  // after the beginning, when the source runs dry first
    DisplayUnits units;

    // "21:40", or "1:05" after the first start where no window is given.
    [[nodiscard]] QString timeOf(double minute) const;
};

// `pump` counts those of the findings; it has a plan.
[[nodiscard]] ShiftNight shiftNight(const Job& job, const Findings& findings, std::size_t pump,
                                    const DisplayUnits& units);

} // namespace headmark
