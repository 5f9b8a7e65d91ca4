#pragma once
// How well the answer is known, in two blocks that are never mixed: what reading the chart and describing the
// site leave open (95 %), and what the maker may deliver.

#include "analysis/duty/case_answer.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/desk.h"

#include <optional>

namespace headmark {

class IntervalCard : public Card {
    Q_OBJECT

  public:
    explicit IntervalCard(QWidget* parent = nullptr);
    // `beingWorkedOut`: intervals follow in the background.
    void show(const CaseAnswer* answer, const DisplayUnits& units, bool beingWorkedOut);
    [[nodiscard]] QString readingWords() const { return reading_->text(); }
    [[nodiscard]] QString deliveredWords() const { return delivered_->text(); }

  private:
    QLabel *readingTitle_, *reading_, *deliveredTitle_, *delivered_;
};

} // namespace headmark
