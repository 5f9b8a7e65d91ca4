#pragma once
// Reads the columns `ends` and `sizes` of parts.csv; the grammar stands there. Asserts on a broken table.

#include "analysis/connections/part_catalogue.h"

namespace headmark {

[[nodiscard]] std::vector<std::string> splitText(std::string_view text, char separator);
[[nodiscard]] std::vector<PartSize> sizesFromText(std::string_view text);
[[nodiscard]] End endFromToken(std::string_view token, const PartSize& size, std::string_view material);

} // namespace headmark
