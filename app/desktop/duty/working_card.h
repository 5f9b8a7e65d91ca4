#pragma once
// How the figures of the shown case came about: every step by its title and result; a click unfolds formula,
// figures put in and source.

#include "analysis/duty/case_answer.h"
#include "app/desktop/duty/flow_text.h"
#include "app/desktop/frame/card.h"

#include <QStringList>

#include <optional>
#include <set>

namespace headmark {

class WorkingCard : public Card {
    Q_OBJECT

  public:
    explicit WorkingCard(QWidget* parent = nullptr);

    void show(const std::optional<CaseAnswer>& answer, const Site& site);
    void showZonesAtOnce(const QString& words); // empty: none known
    // Unfolds the steps behind a figure of the strip ("duty", "efficiency", "npsh-available", "energy",
    // "zones-at-once") or a step's own code. The y of the first in this card, or -1: there is none.
    [[nodiscard]] int unfold(const QString& code);
    void refreshTheme();
    [[nodiscard]] QString text() const { return text_->toPlainText(); }

  private:
    void write();
    void follow(const QString& anchor);

    FlowText* text_;
    Working steps_;
    Site site_;
    QString zonesAtOnce_;
    std::set<QString> unfolded_; // anchors
    bool all_ = false;           // every step listed, not only the main ones
};

} // namespace headmark
