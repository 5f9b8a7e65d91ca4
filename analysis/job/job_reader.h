#pragma once
// From a job file ("format": "headmark-job", version 1) to a Job. The version is checked before anything
// else; then everything that is wrong is collected, each with the path of its key. Defaults are those of
// job.h.
//   levels_m: one or more of low, usual, high; a missing one takes `usual`, else the nearest given (a missing
//   `usual` between two given ones takes the low one, the careful choice for suction)
//   names left out become "Pump 1", "Zone 1", "Case 1" and so on
//   an empty list of cases counts as left out

#include "analysis/job/finish.h"
#include "analysis/job/job.h"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace headmark {

inline constexpr int kJobVersion = 1;

// Either a job, or at least one error (at most a hundred).
struct JobReading {
    std::optional<Job> job;
    std::vector<Error> errors;
};

// Sets the job's folder to that of the file.
[[nodiscard]] JobReading readJobFile(const std::string& path, Finish finish = Finish::whole);
[[nodiscard]] JobReading readJobText(std::string_view text, const std::string& fileName,
                                     Finish finish = Finish::whole);
[[nodiscard]] JobReading readJobDocument(const nlohmann::ordered_json& document, const std::string& fileName,
                                         Finish finish = Finish::whole);

} // namespace headmark
