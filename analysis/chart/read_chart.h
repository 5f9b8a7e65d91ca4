#pragma once
// The front door of chart reading: a reading and its page in, traced samples and fitted curves out.
//   page -> mapping (pins) -> ink field -> path along the ink -> samples with sigma -> fit
// Each sample's sigma holds what following or clicking allows and what the pins allow.

#include "analysis/chart/mapping.h"
#include "analysis/chart/page.h"
#include "analysis/chart/reading.h"
#include "analysis/core/finding.h"
#include "analysis/core/result.h"
#include "analysis/curve/fit_samples.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace headmark {

enum class Trust { sure, doubtful };

// SI of the quantity (m3/s; m, share, W, m). `sigma` is one sigma of the value at that flow, the flow's own
// error carried over by the line's slope, the pins' error included.
struct LineSample {
    PixelPoint at; // in the reading's pixels
    double flow_m3_s = 0.0, value = 0.0;
    double sigma = 0.0;
};

struct ReadLine {
    std::string name;
    LineQuantity quantity = LineQuantity::head;
    ValueAxis axis = ValueAxis::left;
    bool powerAtMotorInput = false;
    std::optional<double> levelShare; // of lines of equal efficiency
    Trust trust = Trust::sure;
    std::vector<LineSample> samples; // along the line, by rising flow where it has a fit
    std::optional<SampleFit> fit;    // none for lines of equal efficiency
    Cautions cautions;               // place "lines[0]"; `doubtful` always has one with the pixel
};

struct ChartLines {
    ChartMapping mapping;
    Cautions mappingCautions;    // place "pins[3]" or "pins"
    std::vector<ReadLine> lines; // in the reading's order
    // Why a line, by its index, could not be read: its entry in `lines` has then no samples. Of readEachLine.
    std::map<std::size_t, Error> unread;
};

// Errors: of the page (page.h), of the mapping (mapping.h), place "lines[0].follow_from[1]" and the like:
//   "click-off-page" (x_px, y_px, width_px, height_px)
//   "click-on-paper" (x_px, y_px)            no ink within reach of the click
//   "click-off-line" (x_px, y_px)            a further click lies on other ink than the first
//   "click-on-ruling" (x_px, y_px)           the ink under the click is the grid's or the frame's
//   "line-too-short" (length_px)             what was followed is no line: a label, a dot, a grid crossing
//   "nothing-between" (least, greatest)      no sample between the flows asked for
//   and of the fit (fit_samples.h), place "lines[0]".
[[nodiscard]] Result<ChartLines> readChart(const Reading& reading, PageSource& pages);

// The same, except that a line that cannot be read does not keep the others from being read: see `unread`.
[[nodiscard]] Result<ChartLines> readEachLine(const Reading& reading, PageSource& pages);

} // namespace headmark
