#pragma once
// The whole answer as a page of text, at most 100 columns wide, for a terminal or a mail: what the site
// needs, then for every pump the verdict in words, the cases as a table, the pressures at the emitters, the
// cautions with their remedies (one caution of several cases once), the 95 % intervals apart from what the
// maker may deliver, and the usual cautions. A figure that is not known is a dash, with the reason under the
// table.

#include "analysis/job/findings.h"
#include "analysis/job/job.h"
#include "app/words/phrasing.h"

#include <QString>

namespace headmark {

inline constexpr int kTableColumns = 100;

// The phrasing's site is not used: names come from the job.
[[nodiscard]] QString findingsTable(const Findings& findings, const Job& job,
                                    Phrasing phrasing = englishPhrasing());

} // namespace headmark
