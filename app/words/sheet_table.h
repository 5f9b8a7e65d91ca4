#pragma once
// Connection sheet and commissioning sheet of one pump as a page of text, at most kTableColumns wide:
// cautions with what to do, the parts in the order the water meets them with what each is for, what joins
// them, the list to order by, the order of assembly, and the commissioning list with the figures to expect
// and blanks.

#include "analysis/job/findings.h"
#include "analysis/job/job.h"
#include "app/words/phrasing.h"
#include "app/words/text_page.h"

namespace headmark {

// The phrasing's site is not used: names come from the job.
[[nodiscard]] QString sheetTable(const PumpFindings& pump, const Job& job,
                                 Phrasing phrasing = englishPhrasing());

} // namespace headmark
