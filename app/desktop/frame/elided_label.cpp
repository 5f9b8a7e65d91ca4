#include "app/desktop/frame/elided_label.h"

#include <QPainter>

namespace headmark {

namespace {

constexpr int kLeastLetters = 6; // below that dots tell nothing

} // namespace

ElidedLabel::ElidedLabel(const QString& text, QWidget* parent) : QLabel(parent) {
    setTextFormat(Qt::PlainText);
    setText(text);
}

void ElidedLabel::setElision(Qt::TextElideMode mode) {
    mode_ = mode;
    update();
}

void ElidedLabel::setText(const QString& text) {
    QLabel::setText(text);
    setToolTip(text);
}

QSize ElidedLabel::minimumSizeHint() const {
    const QSize whole = QLabel::minimumSizeHint();
    return {std::min(whole.width(), fontMetrics().averageCharWidth() * kLeastLetters), whole.height()};
}

void ElidedLabel::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setPen(palette().color(foregroundRole()));
    painter.drawText(contentsRect(), static_cast<int>(alignment()),
                     fontMetrics().elidedText(text(), mode_, contentsRect().width()));
}

} // namespace headmark
