#pragma once
// The parts of a connection sheet in the order the water meets them: number as on the drawing, part, what it
// is for, and whether the run lists it.

#include "analysis/connections/connection_sheet.h"

#include "app/desktop/installation/whole_table.h"

namespace headmark {

class PartsTable : public WholeTable {
    Q_OBJECT

  public:
    explicit PartsTable(QWidget* parent = nullptr);

    void show(const ConnectionSheet& sheet);
    void select(int part);
    [[nodiscard]] QString text() const; // with tabs, for the clipboard

  signals:
    void partChosen(int part);

  private:
    bool filling_ = false;
};

} // namespace headmark
