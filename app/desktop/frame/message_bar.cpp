#include "app/desktop/frame/message_bar.h"

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/rail.h"
#include "app/desktop/frame/theme.h"

#include <QHBoxLayout>
#include <QPainter>

namespace headmark {

MessageBar::MessageBar(QWidget* parent) : QWidget(parent), label_(wrappedLabel({})) {
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(38, 6, 10, 6);
    layout->addWidget(label_, 1);
    auto* close = quietButton(tr("Close"));
    layout->addWidget(close);
    connect(close, &QPushButton::clicked, this, &QWidget::hide);
    hide();
}

void MessageBar::say(const QString& sentence, bool isError) {
    label_->setText(sentence);
    isError_ = isError;
    setVisible(!sentence.isEmpty());
    update();
}

void MessageBar::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), theme().surface);
    painter.setPen(QPen(isError_ ? theme().danger : theme().accent, 2));
    painter.drawLine(rect().bottomLeft(), rect().bottomRight());
    paintSign(painter, QRectF(12, 0.5 * height() - 8, 16, 16), isError_ ? Sign::danger : Sign::note);
}

} // namespace headmark
