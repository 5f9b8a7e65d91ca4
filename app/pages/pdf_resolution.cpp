#include "app/pages/pdf_resolution.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kLeast_dpi = 150.0, kGreatest_dpi = 400.0;
constexpr double kPointsPerInch = 72.0;
constexpr double kGoodEnough_px = 0.02;
constexpr double kFarthestShare = 0.1;
// Pages beyond this are refused for their size anyway.
constexpr double kLongestSearched_px = 1e6;

double drawnDpi(double dpi) {
    while (dpi < kLeast_dpi)
        dpi *= 2.0;
    while (dpi > kGreatest_dpi)
        dpi /= 2.0;
    return dpi;
}

// The whole length of the longer side, nearest to `wanted_px`, at which the shorter side is whole as well.
double wholeLongerSide(double wanted_px, double shorterPerLonger) {
    const double start = std::max(1.0, std::round(wanted_px));
    if (start > kLongestSearched_px) return start;
    double best = start, leastError = 1.0;
    for (double step = 0.0; step <= std::max(1.0, kFarthestShare * wanted_px); step += 1.0) {
        for (const double longer : {start + step, start - step}) {
            const double shorter = longer * shorterPerLonger;
            if (longer < 1.0 || shorter < 0.5) continue;
            const double error = std::abs(shorter - std::round(shorter));
            if (error < leastError) {
                leastError = error;
                best = longer;
            }
            if (error <= kGoodEnough_px) return longer;
        }
    }
    return best;
}

} // namespace

PdfResolution pdfResolution(double width_pt, double height_pt, double dpi) {
    HEADMARK_ASSERT(width_pt > 0.0 && height_pt > 0.0 && dpi > 0.0 && std::isfinite(dpi),
                    "a page has a size and a resolution");
    const double longer_pt = std::max(width_pt, height_pt), shorter_pt = std::min(width_pt, height_pt);
    const double longer_px =
        wholeLongerSide(longer_pt * drawnDpi(dpi) / kPointsPerInch, shorter_pt / longer_pt);
    const double shorter_px = std::max(1.0, std::round(longer_px * shorter_pt / longer_pt));
    PdfResolution resolution;
    resolution.width_px = width_pt >= height_pt ? longer_px : shorter_px;
    resolution.height_px = width_pt >= height_pt ? shorter_px : longer_px;
    resolution.scale = longer_px / (longer_pt * dpi / kPointsPerInch);
    return resolution;
}

} // namespace headmark
