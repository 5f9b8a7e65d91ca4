#pragma once
// Where a pump's flow-head table is typed instead of a page being read.

#include "app/desktop/charts/table_model.h"

#include <QLineEdit>
#include <QTableView>

namespace headmark {

class TableEditor : public QWidget {
    Q_OBJECT

  public:
    TableEditor(Desk& desk, QWidget* parent);
    void show(std::optional<std::size_t> pump);
    [[nodiscard]] std::optional<std::size_t> pump() const { return model_->pump(); }
    [[nodiscard]] QTableView& table() { return *table_; }

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void follow();
    void rename();
    Desk& desk_;
    TableModel* model_;
    QTableView* table_;
    QLineEdit* name_;
    QLabel* said_;
};

} // namespace headmark
