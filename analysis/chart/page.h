#pragma once
// A page as the chart reader sees it, and where pages come from. Opening files and formats is the business of
// the program around (app/pages); tests bring their own pages.

#include "analysis/chart/reading.h"
#include "analysis/core/result.h"

#include <cstdint>
#include <memory>
#include <vector>

namespace headmark {

// Row-major, no padding. Transparent parts lie on white; orientation tags and PDF page rotation are applied.
struct Page {
    int width = 0, height = 0;        // pixels held here
    std::vector<std::uint8_t> grey;   // width x height, 0 black, 255 white
    std::vector<std::uint8_t> colour; // RGB, 3 x width x height; empty: the page has no colour
    // Pixels held here per pixel of the reading, where a PDF page was drawn finer or coarser than its `dpi`:
    // held = (reading + 0.5) scale - 0.5.
    double scale = 1.0;
};

class PageSource {
  public:
    virtual ~PageSource() = default;

    // Errors carry file = the picture as the user named it (empty when embedded) and place = the key in the
    // reading ("chart.path", "chart.base64", "chart.page"):
    //   the codes of a file that cannot be read ("no-such-file", "is-folder", "not-regular-file",
    //   "cannot-read", "file-too-large", "empty-file")
    //   "not-a-picture"      (facts: none)                 no format known here
    //   "wrong-media-type"   (said, found)                 embedded bytes are of another format than said
    //   "broken-picture"     (format, why)                 truncated or damaged
    //   "picture-too-large"  (width_px, height_px, megapixels, limit_megapixels)
    //   "no-such-page"       (page, pages)
    //   "locked-pdf"         (none)                        asks for a password
    //   "page-not-in-pdf"    (key, format)                 `page` or `dpi` given for a picture that is no PDF
    [[nodiscard]] virtual Result<std::shared_ptr<const Page>> open(const ChartPage& chart) = 0;
};

} // namespace headmark
