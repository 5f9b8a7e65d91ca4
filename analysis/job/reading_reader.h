#pragma once
// From a reading file ("format": "headmark-reading", version 1) to a Reading. The version is checked before
// anything else; then everything that is wrong is collected, each with the path of its key. Defaults are
// those of reading.h; the flow's unit has none, since gallons and cubic metres look alike. The picture is not
// opened.
//   at least two different flows must be pinned, and two different values on every value axis that a line
//   uses
//   lines without a name become "Line 1", "Line 2" and so on; a name may be used once per quantity

#include "analysis/chart/reading.h"
#include "analysis/core/error.h"
#include "analysis/job/finish.h"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>
#include <vector>

namespace headmark {

inline constexpr int kReadingVersion = 1;

// Either a reading, or at least one error (at most a hundred).
struct ReadingReading {
    std::optional<Reading> reading;
    std::vector<Error> errors;
};

// Sets the chart's folder to that of the file.
[[nodiscard]] ReadingReading readReadingFile(const std::string& path, Finish finish = Finish::whole);
[[nodiscard]] ReadingReading readReadingDocument(const nlohmann::ordered_json& document,
                                                 const std::string& fileName, Finish finish = Finish::whole);

} // namespace headmark
