#pragma once
// What a remedy would give: for cautions whose cure is a change of the site, the change is made with the next
// part of the catalogue and the same case is run again; its figures go into the caution's remedy.
//
//   caution            change                                              figure, pump as printed
//   suction-velocity   that pipe in the size that keeps the limit          velocity there, NPSH margin
//   npsh-margin        all suction pipe wider, size by size, until the     NPSH margin
//                      caution is gone; else the pump lower by what lacks
//   main-velocity      that pipe in the size that keeps the limit          velocity there, duty flow
//   pressure-low       the set point where a drive holds one; else all     lowest pressure at the emitters
//                      delivery pipe one size wider; else the open zone
//                      left shut that cures it
//   pressure-high      a regulator at the branch's end, set to the limit   highest pressure at the emitters
//   filter-flow        the next filter of its kind that passes the flow    its clean loss
//   pipe-rating        the same outside diameter in a higher rating        rating, duty flow
//   check-valve-on-flooded-suction   the valve moved behind the pump       NPSH margin (or available) of the
//                                                                          case with the greatest flow
//
// Fittings are left as they are. Where no part of the catalogue cures it, the remedy stays a sentence without
// a figure. A pipe that the job spells out has no family in the catalogue and is left alone.

#include "analysis/job/findings.h"
#include "analysis/job/prepared_job.h"

#include <atomic>

namespace headmark {

// Into cases and connection sheet. At most kMostReruns changes for a pump; the rest keep their plain remedies. `stop` as of AnalyseOptions.
inline constexpr int kMostReruns = 60;
void addRerunRemedies(const PreparedJob& prepared, std::size_t pump, PumpFindings& findings,
                      const std::atomic<bool>* stop = nullptr);

} // namespace headmark
