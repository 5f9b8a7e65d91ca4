#pragma once
// What is keyed into the controller: station, zone, start, minutes, with flow and energy; shift by shift.

#include "app/desktop/shifts/shift_night.h"

#include <QTableWidget>

#include <optional>

namespace headmark {

class ShiftTable : public QTableWidget {
    Q_OBJECT

  public:
    explicit ShiftTable(QWidget* parent = nullptr);

    void show(const ShiftNight& night);
    void select(std::optional<std::size_t> shift);
    // Cells by tabs and lines, as spreadsheets take them.
    [[nodiscard]] QString text() const;

  signals:
    void shiftChosen(int shift);

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    void fitHeight();
    std::vector<std::size_t> shifts_; // by row
    bool filling_ = false;
};

} // namespace headmark
