#pragma once
// The front door of the computing core: a job in, its findings out. Desktop and command line call this and
// nothing below it.

#include "analysis/core/result.h"
#include "analysis/job/findings.h"
#include "analysis/job/job.h"

namespace headmark {

struct AnalyseOptions {
    bool intervals = true; // 95 % intervals of every case with a duty
    bool zonesAtOnce = true;
    long mostSetQuestions = 150000; // to 16 zones: enough for every set; then the bracket is given
    long mostSetQuestionsBeyond = 20000; // more than 16 zones
};

// Errors: of pump curves ("too-few-points" ..., place "pumps[0].curves.head"), of runs ("no-bore" ..., place
// "site.delivery[2].fitting"), "curve-not-positive", "chart-not-read" (a pump given by a chart reading while
// no reader is at hand), "system-not-rising".
[[nodiscard]] Result<Findings> analyse(const Job& job, const AnalyseOptions& options = {});

// Everything that can be said wrong about a job before solving: curves, bores, sizes. Pumps given by chart
// readings are left out.
[[nodiscard]] Result<void> checkJob(const Job& job);

// A pump of the job made ready for computing. `place` prefixes errors ("pumps[0]").
[[nodiscard]] Result<PumpModel> pumpModelOf(const Pump& pump, const std::string& place);

} // namespace headmark
