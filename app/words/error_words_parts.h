#pragma once
// The parts of error_words.h: sentences by what they are about, and what all of them use.

#include "analysis/core/error.h"

#include <QCoreApplication>
#include <QString>

#include <span>
#include <string_view>

namespace headmark {

// The translation context. In every sentence %1 is where it happened.
struct Errors {
    Q_DECLARE_TR_FUNCTIONS(Errors)
};

struct ErrorEntry {
    std::string_view code;
    QString (*make)(const Error& error, const QString& where);
};

[[nodiscard]] std::span<const ErrorEntry> fileErrorEntries(); // files and keys
[[nodiscard]] std::span<const ErrorEntry> jobErrorEntries();  // what a job's values mean
// Of chart readings: what their keys mean; opening their pictures; pins, clicks, lines and curves.
[[nodiscard]] std::span<const ErrorEntry> readingErrorEntries();
[[nodiscard]] std::span<const ErrorEntry> pictureErrorEntries();
[[nodiscard]] std::span<const ErrorEntry> lineErrorEntries();

// As a file writes it; a list with commas.
[[nodiscard]] QString factText(const Fact& fact);
// Empty where the error has no such fact.
[[nodiscard]] QString factText(const Error& error, const char* key);
// Whether a list of near matches came along.
[[nodiscard]] bool hasNear(const Error& error);

} // namespace headmark
