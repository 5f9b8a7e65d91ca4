#pragma once
// What can be put into a run, and the search through it by words: "63 pe100", "solenoid 1", "elbow 2".

#include "analysis/duty/site.h"

#include <QString>

#include <vector>

namespace headmark {

struct CatalogueChoice {
    QString words;    // "PE100 pipe, OD 63 SDR17"
    QString searched; // lower case: words, code, kind
    RunItem item;     // a pipe of 10 m, a regulator of 150 kPa: figures to be changed at once
};

// Every pipe, fitting (as the pipe and in each size), filter, regulator; free values; a take-off.
[[nodiscard]] const std::vector<CatalogueChoice>& catalogueChoices();
[[nodiscard]] const std::vector<CatalogueChoice>& pipeChoices();

// Indices of those that hold every typed word, at most `most`; nothing typed: all, in their order.
[[nodiscard]] std::vector<int> matching(const std::vector<CatalogueChoice>& choices, const QString& typed,
                                        int most = 80);

} // namespace headmark
