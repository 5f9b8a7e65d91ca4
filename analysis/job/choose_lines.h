#pragma once
// Which line of which reading is which curve of a pump. Needs the reading files alone, no picture.
//   a quantity with exactly one line in a reading needs no entry in the job; two candidates without a choice,
//   and a quantity given twice (by two readings, or by a reading and `curves`), are errors that name both

#include "analysis/chart/reading.h"
#include "analysis/core/result.h"
#include "analysis/job/job.h"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace headmark {

// Line `line` of the pump's reading `reading`, both from 0.
struct ChosenLine {
    std::size_t reading = 0, line = 0;
};
using ChosenLines = std::map<CurveQuantity, ChosenLine>;

// Of a pump, in the order of its `readings`.
using PumpReadings = std::vector<std::shared_ptr<const Reading>>;

// `place`: the pump's in the job, "pumps[0]". Errors, all placed in the job:
//   "unknown-line" (quantity, name, reading, known)   the reading has no line of that name and quantity
//   "line-choice-needed" (quantity, lines, reading)   several candidates and no choice
//   "quantity-given-twice" (quantity, line, first, first_line where the first is a line too)
//   "pump-without-head" (name)
[[nodiscard]] Result<ChosenLines> chooseLines(const Pump& pump, const PumpReadings& readings,
                                              const std::string& place);

// The key of a quantity in job and reading files.
[[nodiscard]] const char* keyOf(CurveQuantity quantity);

} // namespace headmark
