#pragma once
// The sentences inside documents. They come from app/words through this interface, so that the core holds
// none.

#include "analysis/core/finding.h"

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

} // namespace headmark
