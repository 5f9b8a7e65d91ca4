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
// service, no valve open, filling an empty main. An end: low, usual and high water where they differ, filling
// the main. A known system: one case.
[[nodiscard]] MadeCases madeCases(const Site& site,
                                  const std::vector<std::vector<std::string>>& proposedSets);

} // namespace headmark
