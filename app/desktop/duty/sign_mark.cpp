#include "app/desktop/duty/sign_mark.h"

#include <QPainter>

namespace headmark {

SignMark::SignMark(Sign sign, QWidget* parent) : QWidget(parent), sign_(sign) {
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    setAttribute(Qt::WA_TransparentForMouseEvents);
}

void SignMark::setSign(Sign sign) {
    if (sign == sign_) return;
    sign_ = sign;
    update();
}

QSize SignMark::sizeHint() const {
    const int side = fontMetrics().height();
    return {side, side};
}

void SignMark::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const double side = std::min(width(), height()) - 2.0;
    paintSign(painter, QRectF((width() - side) / 2.0, (height() - side) / 2.0, side, side), sign_);
}

} // namespace headmark
