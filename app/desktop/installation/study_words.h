#pragma once
// Words of a study's figures of one kind, such as the share that a return takes in every case.

#include "analysis/core/finding.h"
#include "app/words/phrasing.h"

#include <QString>

#include <string_view>
#include <vector>

namespace headmark {

// "Share of the pump's flow that the return takes"; a kind without words of its own: the first step's title.
[[nodiscard]] QString groupTitle(const WorkingStep& first, const Phrasing& phrasing);
[[nodiscard]] std::vector<std::string_view> groupedCodes(); // those with words

// "21 %", with the digits that the findings have.
[[nodiscard]] QString figureWords(const WorkingStep& step, const Phrasing& phrasing);

// "5 % to 21 %", least and greatest; one result where all read alike. Not empty.
[[nodiscard]] QString groupRange(const std::vector<const WorkingStep*>& steps, const Phrasing& phrasing);

} // namespace headmark
