#pragma once
// The parts of a connection sheet in the order the water meets them: number as on the drawing, part, what it
// is for, and whether the run lists it.

#include "analysis/connections/connection_sheet.h"

#include <QTableWidget>

namespace headmark {

class PartsTable : public QTableWidget {
    Q_OBJECT

  public:
    explicit PartsTable(QWidget* parent = nullptr);

    void show(const ConnectionSheet& sheet);
    void select(int part);
    [[nodiscard]] QString text() const; // with tabs, for the clipboard

    [[nodiscard]] QSize sizeHint() const override;

  signals:
    void partChosen(int part);

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void fit();
    bool filling_ = false;
};

} // namespace headmark
