#pragma once
// One line of a reading on its page: from clicks to places in pixels, by following the ink, from clicked
// spots, or both. Pixels of the page held (page.h); knows nothing of flows and heads.

#include "analysis/chart/ink_path.h"
#include "analysis/chart/reading.h"
#include "analysis/core/finding.h"
#include "analysis/core/result.h"

#include <optional>
#include <string>
#include <vector>

namespace headmark {

// A place of the line: error across the line when followed, in both directions when clicked.
struct TracedPoint {
    PagePoint at;
    PagePoint along;       // of a followed one
    double sigma_px = 0.0; // page pixels
    bool clicked = false;
};

struct TracedLine {
    std::vector<TracedPoint> points; // along the line
    std::optional<StrokeLook> look;  // of a followed line
    Cautions cautions;
    bool doubtful = false;
};

// `place` prefixes errors ("lines[0]"). Errors: "click-off-page", "click-on-paper", "click-off-line",
// "line-too-short" of read_chart.h.
[[nodiscard]] Result<TracedLine> traceLine(const ChartLine& line, const InkField& field, const Page& page,
                                           const PixelSigmas& sigmas, const std::string& place,
                                           const Rulings& rulings = {});

// A reading's pixel on the page held, and back.
[[nodiscard]] PagePoint pagePointOf(PixelPoint p, const Page& page);
[[nodiscard]] PixelPoint pixelPointOf(PagePoint p, const Page& page);

} // namespace headmark
