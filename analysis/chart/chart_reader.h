#pragma once
// One page read again and again while its pins and clicks are moved: a line is traced anew only if its own
// clicks changed, pins only move the scale. Gives what readChart gives, but each line's error by itself.

#include "analysis/chart/page.h"
#include "analysis/chart/read_chart.h"

#include <memory>
#include <vector>

namespace headmark {

class ChartReader {
  public:
    explicit ChartReader(std::shared_ptr<const Page> page);
    ~ChartReader();
    ChartReader(ChartReader&&) noexcept;
    ChartReader& operator=(ChartReader&&) noexcept;

    struct Outcome {
        std::optional<ChartLines>
            chart;                 // lines that could be read, in the reading's order; none without a mapping
        std::vector<Error> errors; // of the pins, or of single lines
    };
    [[nodiscard]] Outcome read(const Reading& reading);

  private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace headmark
