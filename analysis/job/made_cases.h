#pragma once
// The cases worth looking at where a job names none (at most kMostMadeCases; what was dropped is said).

#include "analysis/job/job.h"

#include <vector>

namespace headmark {

inline constexpr std::size_t kMostMadeCases = 40; // contract of the job file

struct MadeCase {
    Case setting;
    bool fillingEmptyMain = false;
};

struct MadeCases {
    std::vector<MadeCase> cases;
    std::size_t dropped = 0;
};

// Zones: each alone at high water with clean filter, every proposed set at low water with the filter at
// service, and where the sets are known (`setsKnown`) every zone that none of them takes in alone in the same
// way, the shifts at usual water with clean filter as planned (but none whose zones already stand there
// under the same conditions, as on a site with one water level and no filter), no valve open, filling an
// empty main. An end: low, usual and high water where they differ, filling the main. A known system: one
// case. Beyond the limit the last single zones are dropped first, then the last shifts.
[[nodiscard]] MadeCases madeCases(const Site& site, const std::vector<std::vector<std::string>>& proposedSets,
                                  const std::vector<std::vector<std::string>>& shifts = {},
                                  bool setsKnown = false);

} // namespace headmark
