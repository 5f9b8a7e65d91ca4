#pragma once
// A sign (tick, triangle, octagon, ring) as a small widget beside text.

#include "app/desktop/frame/rail.h"

#include <QWidget>

namespace headmark {

class SignMark : public QWidget {
    Q_OBJECT

  public:
    explicit SignMark(Sign sign = Sign::empty, QWidget* parent = nullptr);
    void setSign(Sign sign);
    [[nodiscard]] Sign sign() const { return sign_; }
    [[nodiscard]] QSize sizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    Sign sign_;
};

} // namespace headmark
