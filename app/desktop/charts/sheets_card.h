#pragma once
// The job's charts and typed tables as a small list, and the ways to a further one.

#include "app/desktop/charts/chart_session.h"
#include "app/desktop/frame/card.h"

#include <QListWidget>

namespace headmark {

class SheetsCard : public Card {
    Q_OBJECT

  public:
    SheetsCard(ChartSession& session, QWidget* parent);
    // The typed table in view, none for a chart.
    void setTable(std::optional<std::size_t> pump);
    [[nodiscard]] QListWidget& list() { return *list_; }

  signals:
    void openAsked();
    void pasteAsked();
    void tableAsked();  // a new one
    void chartChosen(); // the session shows it
    void tableChosen(std::size_t pump);

  private:
    void follow();
    void take();
    void removeChosen();
    void anotherOnPage();
    ChartSession& session_;
    QListWidget* list_;
    QPushButton* another_;
    QPushButton* remove_;
    std::optional<std::size_t> table_;
    bool filling_ = false;
};

} // namespace headmark
