#pragma once
// Zones at once of one pump: how many, which, what limits them, what would allow one more.

#include "analysis/duty/case_solver.h"
#include "analysis/duty/zone_sets.h"
#include "analysis/job/findings.h"
#include "analysis/job/job.h"

#include <atomic>

namespace headmark {

struct ZonesFindingOptions {
    long mostQuestions = 160000;           // about a second; then the bracket is given
    long mostQuestionsAskedExactly = 4000; // where the site cannot be condensed (zone_sets.h)
    bool oneMore = true;                   // try what would allow one more zone
    const std::atomic<bool>* stop = nullptr;
};

[[nodiscard]] ZonesAtOnceFinding zonesFinding(const Job& job, const CaseSolver& solver, const ZoneSets& sets,
                                              const ZonesFindingOptions& options);

[[nodiscard]] std::vector<std::string> zoneNames(ZoneMask mask, const Site& site);

} // namespace headmark
