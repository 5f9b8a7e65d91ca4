#pragma once
// The sentences inside documents. They come from app/words through this interface, so that the core holds
// none.

#include "analysis/connections/assembly.h"
#include "analysis/connections/bill.h"
#include "analysis/connections/commissioning.h"
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

    // Of the connection sheet.
    struct PartText {
        std::string name, size, purpose;
    };
    struct CommissioningText {
        std::string what, expected; // expected empty: nothing is known
    };
    [[nodiscard]] virtual PartText partText(const PlacedPart& part) const = 0;
    [[nodiscard]] virtual std::string jointText(const JointVerdict& verdict) const = 0;
    [[nodiscard]] virtual std::string billText(const BillRow& row) const = 0;
    [[nodiscard]] virtual std::string stepText(const AssemblyStep& step) const = 0;
    [[nodiscard]] virtual CommissioningText commissioningText(const CommissioningRow& row) const = 0;
};

} // namespace headmark
