#pragma once
// The limits of the trade that cautions are judged by: rows of pipework/data/velocities_and_limits.csv, each
// with its source, and what a job sets in their place.

#include "analysis/core/finding.h"

#include <map>
#include <string>
#include <string_view>

namespace headmark {

class Rules {
  public:
    Rules() = default;
    // By code of the table; every row of that code takes the value. Unknown codes are refused by the reader.
    explicit Rules(std::map<std::string, double> own) : own_(std::move(own)) {}

    // What the job sets, by code.
    [[nodiscard]] const std::map<std::string, double>& own() const { return own_; }

    // Of a code that the table has with a value.
    [[nodiscard]] double value(std::string_view code, std::string_view appliesTo = {}) const;
    // The row whose `applies_to` range of rated power ("over 4 to 7.5 kW") holds, or the nearest size
    // ("2.2 kW") at or above; the last row beyond the table.
    [[nodiscard]] double valueForPower(std::string_view code, double rated_kW) const;
    // Between the rows whose `applies_to` is a temperature ("25 C"), in the table's order: straight lines;
    // the first row's value below it, the last line on beyond it.
    [[nodiscard]] double valueAt_C(std::string_view code, double celsius) const;
    // "common practice, no source" where the table has none; "set in the job" where the job does.
    [[nodiscard]] std::string source(std::string_view code) const;

  private:
    std::map<std::string, double> own_;
};

} // namespace headmark
