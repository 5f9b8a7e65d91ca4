#pragma once
// An invented small job with a drawn page, for tests of the document.

#include "app/document/document.h"

#include <QString>

namespace headmark::test {

// A pump typed as three points: 43 m at no flow, 38 m at 8, 27 m at 14 m3/h.
[[nodiscard]] Pump tablePump(const std::string& name);

// A page of 600 x 400 pixels with one dark line from (60, 80) to (540, 300), bent downwards, saved as PNG.
void drawPage(const QString& path, int drop_px = 0);

// Its reading: pins at (60, 360), (540, 360) and (60, 40) for 0 and 12 m3/h, 0 and 40 m; the line "upper" is
// clicked at its middle.
[[nodiscard]] Reading pageReading(const std::string& page);

// What would be written, all of it.
[[nodiscard]] std::string textOf(const Workspace& workspace);

// A blank site with the page's pump.
[[nodiscard]] Workspace chartedWorkspace(const std::string& page);

} // namespace headmark::test
