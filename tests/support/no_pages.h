#pragma once
// For jobs whose pumps are typed: opening a picture is a failure of the test.

#include "analysis/job/analyse.h"

#include <gtest/gtest.h>

namespace headmark::test {

class NoPages final : public PageSource {
  public:
    [[nodiscard]] Result<std::shared_ptr<const Page>> open(const ChartPage& chart) override {
        ADD_FAILURE() << "a picture was opened: " << chart.path;
        return Error{"no-such-file", chart.path, "chart.path", {}};
    }
};

// A job without charts.
[[nodiscard]] inline Result<Findings> analyseTyped(const Job& job, const AnalyseOptions& options = {}) {
    NoPages none;
    return analyse(job, none, options);
}

} // namespace headmark::test
