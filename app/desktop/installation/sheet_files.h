#pragma once
// The connection sheet as files.

#include "analysis/job/findings.h"
#include "analysis/job/job.h"

#include <QString>

namespace headmark {

// PDF: the whole sheet; SVG and PNG: the drawing; CSV: the list of parts, semicolons between. By the path's
// ending; all or nothing. `pump` has connections.
[[nodiscard]] bool writeSheet(const QString& path, const PumpFindings& pump, const Job& job);

} // namespace headmark
