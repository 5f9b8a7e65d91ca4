#pragma once
// How a number came about, in words: what was computed, by which formula, from which figures, with what
// result and on whose authority. The figures stand in the formula's order with their units, so that it can be
// done by hand.

#include "analysis/core/finding.h"
#include "app/words/phrasing.h"

#include <QString>

#include <string_view>
#include <vector>

namespace headmark {

struct WorkingWords {
    QString title, formula, with, result, source;
};

// An unknown code is named, with its figures listed.
[[nodiscard]] WorkingWords workingWords(const WorkingStep& step, const Phrasing& phrasing);

// Title of a study of the installation ("suction"); an unknown topic is given back.
[[nodiscard]] QString topicTitle(std::string_view topic, const Phrasing& phrasing);
[[nodiscard]] std::vector<std::string_view> wordedTopics();

// The codes that have words of their own.
[[nodiscard]] std::vector<std::string_view> wordedWorkingCodes();

} // namespace headmark
