#pragma once
// The small form beside a pin: what is printed there. Flow, value, or both, in the chart's own units.
// A new pin is offered the likeliest figures: the first one the origin, later ones those of the pins they
// stand in line with, as the corners of the grid do. What is offered stands marked and is typed over.

#include "analysis/chart/reading.h"
#include "app/desktop/frame/number_entry.h"

#include <QComboBox>
#include <QFrame>
#include <QLabel>
#include <QPushButton>

#include <functional>
#include <optional>

namespace headmark {

// A new pin with the figures it is offered.
[[nodiscard]] Pin withOffer(const Pin& pin, const Reading& reading);

class PinForm : public QFrame {
    Q_OBJECT

  public:
    explicit PinForm(QWidget* parent);
    // Shown near `beside` (in the parent), inside the parent.
    void ask(const Pin& pin, std::optional<std::size_t> index, const Reading& reading, QPoint beside);
    [[nodiscard]] std::optional<std::size_t> index() const { return index_; } // none: a new pin

  signals:
    void entered(const Pin& pin, std::optional<std::size_t> index);
    void left();

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void finish();
    void drop();
    void explain(const QString& why);

    Pin pin_;
    std::optional<std::size_t> index_;
    NumberEntry* flow_;
    NumberEntry* value_;
    QComboBox* axis_;
    QLabel* flowUnit_;
    QLabel* valueUnit_;
    QLabel* why_;
    QPushButton* place_;
    std::function<QString(ValueAxis)> unitOf_;
};

} // namespace headmark
