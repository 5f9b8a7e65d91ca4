#pragma once
// "Rules of the trade", folded until asked for: the table of what this job is judged by, its figures to be
// set.

#include "app/desktop/frame/card.h"
#include "app/desktop/installation/rules_model.h"

#include <QTableView>

namespace headmark {

class RulesCard : public Card {
    Q_OBJECT

  public:
    explicit RulesCard(Desk& desk, QWidget* parent = nullptr);

    void refresh();
    [[nodiscard]] QTableView& table() const { return *table_; }
    [[nodiscard]] RulesModel& model() const { return *model_; }
    [[nodiscard]] QPushButton& showButton() const { return *show_; }
    [[nodiscard]] QPushButton& backButton() const { return *back_; }
    [[nodiscard]] QString summary() const { return summary_->text(); }

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void makeTable();
    void unfold(bool open);
    void enable();
    void fit(); // columns to the width, rows to their words, the table to its rows
    void giveBack();

    Desk& desk_;
    RulesModel* model_;
    QTableView* table_;
    QPushButton *show_, *back_;
    QLabel *summary_, *about_;
};

} // namespace headmark
