#include "app/desktop/charts/line_choice.h"

#include "app/desktop/charts/chart_words.h"
#include "app/desktop/frame/card.h"

#include <QKeyEvent>

#include <algorithm>

namespace headmark {

namespace {

constexpr int kDistance_px = 12;
constexpr LineQuantity kOffered[] = {LineQuantity::head, LineQuantity::efficiency, LineQuantity::power,
                                     LineQuantity::npshRequired};

} // namespace

LineChoice::LineChoice(QWidget* parent) : QFrame(parent), layout_(new QVBoxLayout(this)) {
    setObjectName(QStringLiteral("card"));
    setAccessibleName(tr("What this line shows"));
    setAutoFillBackground(true);
    layout_->setContentsMargins(6, 6, 6, 6);
    layout_->setSpacing(2);
    layout_->addWidget(new QLabel(tr("This line shows"), this));
    hide();
}

void LineChoice::ask(PixelPoint at, LineQuantity first, QPoint beside) {
    at_ = at;
    for (QPushButton* button : buttons_) {
        button->hide();
        button->deleteLater();
    }
    buttons_.clear();
    std::vector<LineQuantity> quantities(std::begin(kOffered), std::end(kOffered));
    std::stable_partition(quantities.begin(), quantities.end(),
                          [first](LineQuantity q) { return q == first; });
    for (const LineQuantity quantity : quantities) {
        auto* button = quietButton(quantityWords(quantity), this);
        layout_->addWidget(button);
        buttons_.push_back(button);
        button->show();
        connect(button, &QPushButton::clicked, this, [this, quantity] {
            hide();
            emit chosen(at_, quantity);
        });
    }
    layout_->activate();
    adjustSize();
    const QRect room = parentWidget()->rect();
    QPoint to = beside + QPoint(kDistance_px, kDistance_px);
    if (to.x() + width() > room.right()) to.setX(beside.x() - kDistance_px - width());
    if (to.y() + height() > room.bottom()) to.setY(beside.y() - kDistance_px - height());
    move(std::max(0, to.x()), std::max(0, to.y()));
    show();
    raise();
    buttons_.front()->setFocus(Qt::TabFocusReason);
}

void LineChoice::keyPressEvent(QKeyEvent* event) {
    const auto has =
        std::find_if(buttons_.begin(), buttons_.end(), [](QPushButton* b) { return b->hasFocus(); });
    const auto at = static_cast<std::size_t>(has - buttons_.begin());
    switch (event->key()) {
    case Qt::Key_Down:
        if (at + 1 < buttons_.size()) buttons_[at + 1]->setFocus(Qt::TabFocusReason);
        return;
    case Qt::Key_Up:
        if (at > 0 && at < buttons_.size()) buttons_[at - 1]->setFocus(Qt::BacktabFocusReason);
        return;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (at < buttons_.size()) buttons_[at]->click();
        return;
    case Qt::Key_Escape:
        hide();
        emit left();
        return;
    default:
        QFrame::keyPressEvent(event);
    }
}

} // namespace headmark
