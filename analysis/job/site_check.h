#pragma once
// Whether a job's site can be computed at all: what a site that is still being described may lack, and no
// whole job file does. Errors:
//   "one-of-needed" at "site" (neither zones nor end nor system) or "site.system" (a known system without
//   figures); "duplicate-name" of zones and take-offs, "unknown-takeoff" of a zone, "unknown-zone" of a case;
//   "system-not-rising"

#include "analysis/core/result.h"
#include "analysis/job/job.h"

namespace headmark {

[[nodiscard]] Result<void> checkSite(const Job& job);

} // namespace headmark
