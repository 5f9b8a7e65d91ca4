#pragma once
// Which rows of the table of limits the program judges by: those with a figure that cautions and studies ask
// for. They are shown to be set per job, and printed in DEVELOPERS.md. The table holds more, for people.
// Kept true from both sides: Rules refuses to give a figure that is not listed here, and a test looks for
// every listed code in the sources.

#include "analysis/pipework/catalogue.h"

#include <span>
#include <string_view>
#include <vector>

namespace headmark {

// In the table's order.
[[nodiscard]] std::span<const std::string_view> judgingCodes();
[[nodiscard]] bool isJudgingCode(std::string_view code);

// Their rows that have a value, in the table's order; several of one code where it goes by power or size.
[[nodiscard]] std::vector<const LimitRow*> judgingRows();

} // namespace headmark
