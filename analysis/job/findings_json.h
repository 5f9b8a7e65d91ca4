#pragma once
// Findings as a "headmark-findings" document (version 1). Text in it is English always; the sentences come
// from app/words through this interface, so that the core holds none.

#include "analysis/job/findings.h"

#include <string>

namespace headmark {

class Wording {
  public:
    virtual ~Wording() = default;
    struct WorkingText {
        std::string title, formula, with, result, source;
    };
    [[nodiscard]] virtual std::string cautionText(const Caution& caution) const = 0;
    [[nodiscard]] virtual std::string remedyText(const Caution& caution) const = 0; // empty: none
    [[nodiscard]] virtual WorkingText workingText(const WorkingStep& step) const = 0;
};

// Pretty-printed JSON with a final newline.
[[nodiscard]] std::string findingsJson(const Findings& findings, const Wording& wording);

} // namespace headmark
