#pragma once
// One page read again and again while its pins and clicks are moved: a line is traced anew only if its own
// clicks changed, pins only move the scale. Gives what readChart gives, but each line's error by itself; what
// was read before never changes what is read next.
//   Half-done pins do not keep the rest from being read: a value axis with fewer than two different figures
//   is left aside where the other one has them, and its lines are not read. Cautions are complete: each
//   line's names its line as the fact "line", remedy and source are those of chart_codes.h.

#include "analysis/chart/page.h"
#include "analysis/chart/read_chart.h"

#include <memory>
#include <optional>
#include <vector>

namespace headmark {

// The grid is looked for between the pinned corners and refines the mapping. `asKnown` is quick, for a pin
// that is dragged: while the corners are within a twentieth of the chart of where the grid was looked for
// last, it is not looked for anew, refines once instead of twice, and no pin is sought that alone is wrong.
enum class GridLook { anew, asKnown };

class ChartReader {
  public:
    // `page` not null, of at least one pixel.
    explicit ChartReader(std::shared_ptr<const Page> page);
    ~ChartReader();
    ChartReader(ChartReader&&) noexcept;
    ChartReader& operator=(ChartReader&&) noexcept;

    struct Outcome {
        // A line for every line of the reading, those that could not be read without samples and in `unread`;
        // none without a mapping.
        std::optional<ChartLines> chart;
        std::vector<Error> errors; // of the units and pins, then those of `unread`
        bool provisional = false;  // read as known: anew it may come out a little otherwise
    };
    [[nodiscard]] Outcome read(const Reading& reading, GridLook look = GridLook::anew);

  private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace headmark
