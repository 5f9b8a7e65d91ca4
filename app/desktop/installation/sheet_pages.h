#pragma once
// The connection sheet on paper: page one the drawing across, then the parts, how they join, the list to
// order by, the order of assembly, and the commissioning list with blanks to write in. A4; a PDF, or as the
// print dialog has it.

#include "analysis/job/findings.h"
#include "analysis/job/job.h"

#include <QPagedPaintDevice>
#include <QString>

namespace headmark {

[[nodiscard]] QString sheetHtml(const PumpFindings& pump, const Job& job);
// Pages on that device, the drawing's page first. `pump` has connections.
void paintSheet(QPagedPaintDevice& device, const PumpFindings& pump, const Job& job);

} // namespace headmark
