#pragma once
// The text inside JSON documents: always English with a decimal point, whatever the user's language.

#include "analysis/job/findings_json.h"
#include "app/words/phrasing.h"

namespace headmark {

class EnglishWording : public Wording {
  public:
    // With a site, zones and items are named as the job names them; the site must outlive the wording.
    explicit EnglishWording(const Site* site = nullptr) : phrasing_(englishPhrasing(site)) {}

    [[nodiscard]] std::string cautionText(const Caution& caution) const override;
    [[nodiscard]] std::string remedyText(const Caution& caution) const override;
    [[nodiscard]] WorkingText workingText(const WorkingStep& step) const override;
    [[nodiscard]] PartText partText(const PlacedPart& part) const override;
    [[nodiscard]] std::string jointText(const JointVerdict& verdict) const override;
    [[nodiscard]] std::string billText(const BillRow& row) const override;
    [[nodiscard]] std::string stepText(const AssemblyStep& step) const override;
    [[nodiscard]] CommissioningText commissioningText(const CommissioningRow& row) const override;

  private:
    Phrasing phrasing_;
};

} // namespace headmark
