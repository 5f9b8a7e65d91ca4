#pragma once
// What to look at in the shown case, worst first, each with what to do and where the limit comes from; at the
// end, folded, the cautions that hold for every pump.

#include "analysis/duty/case_answer.h"
#include "app/desktop/duty/caution_rows.h"
#include "app/desktop/frame/card.h"

#include <QToolButton>

#include <optional>
#include <vector>

namespace headmark {

class CautionsCard : public Card {
    Q_OBJECT

  public:
    explicit CautionsCard(QWidget* parent = nullptr);

    void show(const std::optional<CaseAnswer>& answer, const Cautions& ofPump, const Site& site);
    [[nodiscard]] std::vector<QString> sentences() const { return rows_->sentences(); } // in the order shown

  private:
    CautionRows* rows_;
    QLabel* none_;
    QToolButton* usual_;
    QLabel* usualWords_;
};

} // namespace headmark
