#pragma once
// A made page read the way a person would: pins clicked 0.7 px off (one sigma), the line 1 px off near its
// middle; then compared with the truth the page was drawn from.
//   floor: what perfect tracing through the same misplaced pins leaves, the true path carried through the
//   mapping from the pins alone
// All errors and sigmas as shares of the value axis' pinned span.

#include "analysis/chart/read_chart.h"
#include "tests/pages/made_page.h"

#include <optional>
#include <random>
#include <string>
#include <vector>

namespace headmark::pages {

// Hands out one page that is already there.
class OnePage final : public PageSource {
  public:
    explicit OnePage(const Page& page) : page_(std::shared_ptr<const Page>(), &page) {}
    Result<std::shared_ptr<const Page>> open(const ChartPage&) override { return page_; }

  private:
    std::shared_ptr<const Page> page_;
};

struct RedrawOptions {
    double pin_px = 0.7, click_px = 1.0;
    double clickSpread = 0.05; // of the drawn length, about its middle
};

// The reading of one line of the page, with this draw's errors.
Reading readingOf(const MadePage& page, const MadeLine& line, const RedrawOptions& options,
                  std::mt19937& random);

struct Comparison {
    std::string page, line;
    bool read = false; // false: refused, see `refusal`
    std::string refusal;
    Trust trust = Trust::sure;
    double rms = 0.0, greatest = 0.0; // of the fitted curve against the truth
    double floor = 0.0;
    double covered = 0.0;  // share of the true length between the ends of what was read
    double pastEnds = 0.0; // share of the true length read beyond its ends
    int degree = 0;
    std::optional<PixelPoint> astray;  // the first sample that is not on the line
    std::vector<std::string> cautions; // codes
    // At 41 flows over the common range: whether the truth lies within 1.96 sigma, and sigma and error there.
    std::vector<bool> held;
    std::vector<double> sigmas, errors;
    // Whether the truth lies at all of them within the band that is to hold a whole line (whole_band.h).
    bool whollyHeld = false;
    std::vector<double> sampleOffs; // of every sample, the error in its own sigmas
    std::optional<SampleFit> fit;
};

Comparison compare(const MadePage& page, const MadeLine& line, const Reading& reading);

} // namespace headmark::pages
