#pragma once
// A reading as the text of a "headmark-reading" file, the inverse of reading_reader.h: reading what was
// written gives the same reading, finished or not. Numbers have 12 significant digits; kept "x_" keys stand
// where they stood, if their object is still there; an embedded picture is written as base64.

#include "analysis/chart/reading.h"

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace headmark {

[[nodiscard]] nlohmann::ordered_json readingDocument(const Reading& reading);

// Two spaces of indent, a newline at the end; text that is no UTF-8 is replaced, never refused.
[[nodiscard]] std::string writeReading(const Reading& reading);

} // namespace headmark
