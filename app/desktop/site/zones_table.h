#pragma once
// The zones as a table, with what an adviser scans for: valve, flow and emitter pressure in the shown case,
// whether the limits are kept, the need, where it leaves the main.

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/desk.h"

#include <QTableWidget>

namespace headmark {

class ZonesTable : public Card {
    Q_OBJECT

  public:
    explicit ZonesTable(Desk& desk, QWidget* parent = nullptr);

    void refresh();
    void select(int zone); // of none: the selection goes
    [[nodiscard]] QTableWidget& table() const { return *table_; }

  signals:
    void zoneChosen(int zone);

  private:
    void fillRow(int row, const Zone& zone, const CaseAnswer* answer);
    void put(int row, int column, const QString& text, bool figure = false, const QColor& colour = {});

    Desk& desk_;
    QTableWidget* table_;
    bool filling_ = false;
};

} // namespace headmark
