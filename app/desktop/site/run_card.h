#pragma once
// The run's table with what is done to it: search and insert, duplicate, remove, reorder.

#include "app/desktop/frame/card.h"
#include "app/desktop/site/catalogue_edit.h"
#include "app/desktop/site/run_model.h"

#include <QTableView>

namespace headmark {

class RunCard : public Card {
    Q_OBJECT

  public:
    explicit RunCard(Desk& desk, QWidget* parent = nullptr);

    void refresh();
    void select(const RunSpot& spot); // of none: the selection goes
    [[nodiscard]] RunSpot selected() const;
    [[nodiscard]] QTableView& table() { return *table_; }
    [[nodiscard]] RunModel& model() { return *model_; }
    [[nodiscard]] CatalogueEdit& search() { return *search_; }

  signals:
    void selectionMoved(const RunSpot& spot);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void makeTable();
    void makeButtons();
    void sayWhereInserted();
    void insertChosen(int index, bool before);
    void fitColumns();
    void spanHeadings();
    void enable();

    Desk& desk_;
    RunModel* model_;
    QTableView* table_;
    CatalogueEdit* search_;
    QPushButton *before_, *duplicate_, *remove_, *up_, *down_;
    RunSpot wanted_;
    bool insertBefore_ = false;
};

} // namespace headmark
