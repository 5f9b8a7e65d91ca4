#pragma once
// One study of the installation: what to look at first, worst first; then its figures, each unfolding its
// working. Figures of one kind for many cases, levels or zones stand folded behind their range.

#include "analysis/practice/installation.h"
#include "app/desktop/duty/caution_rows.h"
#include "app/desktop/duty/flow_text.h"
#include "app/desktop/frame/card.h"
#include "app/words/phrasing.h"

#include <set>
#include <vector>

namespace headmark {

class StudyCard : public Card {
    Q_OBJECT

  public:
    explicit StudyCard(QWidget* parent = nullptr);

    void show(const Study& study, const Site& site); // what was unfolded of the topic stays so
    [[nodiscard]] const std::string& topic() const { return study_.topic; }
    [[nodiscard]] QString title() const { return title_; }
    [[nodiscard]] std::vector<QString> cautions() const { return rows_->sentences(); } // in the order shown
    [[nodiscard]] FlowText& figures() const { return *figures_; }

  private:
    void write(const Phrasing& phrasing);
    [[nodiscard]] QString groupHtml(const std::string& code, const Phrasing& phrasing) const;
    void follow(const QString& anchor);

    Study study_;
    Site site_;
    QString title_;
    CautionRows* rows_;
    FlowText* figures_;
    std::set<QString> unfolded_; // anchors
};

} // namespace headmark
