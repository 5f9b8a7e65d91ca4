#pragma once
// The front door of the computing core: a job in, its findings out. Desktop and command line call this and
// nothing below it.

#include "analysis/core/result.h"
#include "analysis/job/findings.h"
#include "analysis/job/job.h"
#include "analysis/job/prepared_job.h"
#include "analysis/job/pump_charts.h"

#include <atomic>

namespace headmark {

struct AnalyseOptions {
    bool intervals = true; // 95 % intervals of every case with a duty
    bool zonesAtOnce = true;
    long mostSetQuestions = 160000;           // about a second; then the bracket is given
    long mostSetQuestionsAskedExactly = 4000; // the same where the site cannot be condensed (zone_sets.h)
    bool installation = true;                 // suction, protection, control, motor, connections,
                                              // and what remedies would give
    bool whatAllowsOneMore = true;            // bigger main, cleaner filter, higher water: computed
    // Set from outside when the answer is no longer wanted; asked between pumps, cases, intervals and sets.
    const std::atomic<bool>* stop = nullptr;
};

// Errors: of pump curves ("too-few-points" ..., place "pumps[0].curves.head"), of runs ("no-bore" ..., place
// "site.delivery[2].fitting"), "curve-not-positive", those of site_check.h, "stopped"; of pumps given by
// charts those of pump_charts.h, which name the reading file and, as the fact "named_at", where the job names
// it. What is to be said of a pump's charts stands among the cautions of each of its cases, once.
[[nodiscard]] Result<Findings> analyse(const Job& job, PageSource& pages, const AnalyseOptions& options = {});

// The same with charts that may have been read before, and are kept for the next time.
[[nodiscard]] Result<Findings> analyse(const Job& job, ChartBook& book, const AnalyseOptions& options = {});

// The same of a job made ready before.
[[nodiscard]] Result<Findings> analyse(const PreparedJob& prepared, const AnalyseOptions& options = {});

// Everything that can be said wrong about a job before solving: curves, bores, sizes, reading files and the
// choice of their lines. No picture is opened.
[[nodiscard]] Result<void> checkJob(const Job& job);

// A pump of the job made ready for computing. `place` prefixes errors ("pumps[0]").
[[nodiscard]] Result<PumpModel> pumpModelOf(const Pump& pump, const std::string& place,
                                            const ChartedCurves& charted = {});

} // namespace headmark
