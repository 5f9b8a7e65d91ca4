#pragma once
// Every caution as a sentence a practitioner understands: what, where, the figures with their limit, why it
// matters; and every remedy as a sentence that says what to do.

#include "analysis/core/finding.h"
#include "app/words/phrasing.h"

#include <QString>

#include <string_view>
#include <vector>

namespace headmark {

// An unknown code is named with its place and facts. Where a figure and its limit would round to the same
// text, both get the digits that tell them apart.
[[nodiscard]] QString cautionSentence(const Caution& caution, const Phrasing& phrasing);

// Empty where the caution has no remedy.
[[nodiscard]] QString remedySentence(const Caution& caution, const Phrasing& phrasing);

// A few words for a verdict line: "pressure too low".
[[nodiscard]] QString cautionLabel(std::string_view code, const Phrasing& phrasing);

[[nodiscard]] QString severityWords(Severity severity, const Phrasing& phrasing);

// The codes that have words of their own.
[[nodiscard]] std::vector<std::string_view> wordedCautionCodes();
[[nodiscard]] std::vector<std::string_view> wordedRemedyCodes();

} // namespace headmark
