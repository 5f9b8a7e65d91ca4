#pragma once
// Every error as one whole sentence: which file, which key, what was found, what is allowed, what to do.
// Figures quote the file, so they are written as a file writes them, whatever the user's language.

#include "analysis/core/error.h"

#include <QString>

#include <string_view>
#include <vector>

namespace headmark {

// A sentence for every code; an unknown one is named with its facts.
[[nodiscard]] QString sentence(const Error& error);

// The first ten sentences, one a line, and how many more there are.
[[nodiscard]] QString sentences(const std::vector<Error>& errors);

// The codes that have a sentence of their own.
[[nodiscard]] std::vector<std::string_view> wordedErrorCodes();

} // namespace headmark
