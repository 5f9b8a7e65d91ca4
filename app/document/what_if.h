#pragma once
// "What if": the shown pump and case with other zones open, another speed, another level of the water, or a
// valve tried in the main. Nothing of it enters the job. Asked while a slider moves, so callers ask off the
// screen's thread.
// The tried valve is one more fitting of the Kv given, first in the delivery run; a level is any between the
// source's low and high; both go through the same solver as the job itself.

#include "analysis/job/prepared_job.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace headmark {

struct WhatIfChange {
    std::optional<double> speedShare; // of the pump's running speed; empty: the case's own
    std::optional<Level> water;       // of the source; empty: the case's own
    std::optional<double> valveKv_m3_h;
    std::optional<std::vector<std::string>> zonesOpen; // empty: those of the case; in the job's order

    bool operator==(const WhatIfChange&) const = default;
    [[nodiscard]] bool isNone() const { return *this == WhatIfChange{}; }
};

struct WhatIfQuestion {
    std::shared_ptr<const PreparedJob> prepared;
    std::size_t pump = 0;
    MadeCase setting;
    WhatIfChange change;
    double greatest_m3_s = 0.0; // how far the system curve is wanted
};

struct WhatIfAnswer {
    WhatIfChange change;
    std::shared_ptr<const PreparedJob> tried; // the job with the change in it; its site names items
    Case setting;
    std::optional<CaseAnswer> of; // none without a pump; without intervals
    std::optional<PumpPlot> plot;
};

// The question answered there and then; the error of a site that cannot be. The valve of a tank return stays
// as it is set now.
[[nodiscard]] Result<WhatIfAnswer> whatIf(const WhatIfQuestion& question);

// The system curve of what was tried: it takes many times as long as the answer, so it is asked for apart.
[[nodiscard]] CurvePlot systemCurveOf(const WhatIfAnswer& answer, const WhatIfQuestion& question);

// The job's site with the change in it, and the case that looks at it.
[[nodiscard]] Site changedSite(const Site& site, const WhatIfChange& change);
[[nodiscard]] Case changedCase(const Case& setting, const WhatIfChange& change);

// What a case of the job can keep of a change: the zones open and the speed; level and valve it has no words
// for. The name is the one given.
[[nodiscard]] Case keptCase(const Case& setting, const WhatIfChange& change, const std::string& name);

// The valve of a slider's step: none at 0, ever tighter to kValveSteps, each step the same share tighter.
inline constexpr int kValveSteps = 100;
[[nodiscard]] std::optional<double> valveKvOfStep_m3_h(int step);

} // namespace headmark
