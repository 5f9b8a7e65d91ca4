#pragma once
// A job as the text of a "headmark-job" file, the inverse of job_reader.h: reading what was written gives the
// same job. Catalogue items are written as their codes, numbers to 12 significant digits (so that 8 m3/h
// comes back as 8), kept "x_" keys where they stood, if their object is still there.

#include "analysis/job/job.h"

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace headmark {

[[nodiscard]] nlohmann::ordered_json jobDocument(const Job& job);

// Two spaces of indent, a newline at the end; text that is no UTF-8 is replaced, never refused.
[[nodiscard]] std::string writeJob(const Job& job);

} // namespace headmark
