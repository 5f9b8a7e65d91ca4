#pragma once
// Words for tests of documents: the codes themselves.

#include "analysis/job/wording.h"

namespace headmark::test {

class PlainWording final : public Wording {
  public:
    [[nodiscard]] std::string cautionText(const Caution& c) const override { return "about " + c.code; }
    [[nodiscard]] std::string remedyText(const Caution& c) const override { return c.remedy; }
    [[nodiscard]] WorkingText workingText(const WorkingStep& step) const override {
        return {step.code, "", "", "", ""};
    }
    [[nodiscard]] PartText partText(const PlacedPart& part) const override {
        return {part.part, part.size.text(), part.purpose};
    }
    [[nodiscard]] std::string jointText(const JointVerdict& verdict) const override { return verdict.code; }
    [[nodiscard]] std::string billText(const BillRow& row) const override { return row.part; }
    [[nodiscard]] std::string stepText(const AssemblyStep& step) const override { return step.code; }
    [[nodiscard]] CommissioningText commissioningText(const CommissioningRow& row) const override {
        return {row.code, ""};
    }
};

} // namespace headmark::test
