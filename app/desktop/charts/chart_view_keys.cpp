// The keyboard of the chart view.
#include "app/desktop/charts/chart_view.h"

#include <QKeyEvent>
#include <QScrollBar>

namespace headmark {

namespace {

constexpr double kFine_px = 0.1, kStep_px = 1.0, kFar_px = 10.0, kFarther_px = 100.0;

double stepOf(Qt::KeyboardModifiers modifiers) {
    if (modifiers & Qt::AltModifier) return kFine_px;
    if (modifiers & Qt::ControlModifier) return kFarther_px;
    return modifiers & Qt::ShiftModifier ? kFar_px : kStep_px;
}

QPointF directionOf(int key) {
    switch (key) {
    case Qt::Key_Left:
        return {-1.0, 0.0};
    case Qt::Key_Right:
        return {1.0, 0.0};
    case Qt::Key_Up:
        return {0.0, -1.0};
    case Qt::Key_Down:
        return {0.0, 1.0};
    default:
        return {};
    }
}

} // namespace

void ChartView::nudge(QPointF by) {
    const auto place = session_.placeOf(session_.chosen());
    if (!place) return;
    const PixelPoint to{place->x_px + by.x(), place->y_px + by.y()};
    if (!isOnPage(to)) return;
    session_.move(session_.chosen(), to, 0);
    ensureSeen(to);
    nudging_ = true;
    viewport()->update();
}

bool ChartView::arrowPressed(QKeyEvent* event) {
    const QPointF direction = directionOf(event->key());
    if (direction.isNull() || !page()) return false;
    const QPointF by = stepOf(event->modifiers()) * direction;
    if (isPlacing()) {
        // The cross hair starts in the middle of what is seen.
        const PixelPoint from = pointer_.value_or(pixelFromView(QRectF(viewport()->rect()).center()));
        const PixelPoint to{from.x_px + by.x(), from.y_px + by.y()};
        if (!isOnPage(to)) return true;
        ensureSeen(to);
        point(to, false);
        return true;
    }
    if (session_.placeOf(session_.chosen())) {
        nudge(by);
        return true;
    }
    constexpr int kScroll_px = 40;
    scrollBy((kScroll_px * direction).toPoint());
    return true;
}

bool ChartView::letterPressed(QKeyEvent* event) {
    if (event->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier)) return false;
    const auto turnOn = [this](ChartMode mode) {
        session_.setMode(session_.mode() == mode ? ChartMode::choose : mode);
    };
    switch (event->key()) {
    case Qt::Key_P:
        turnOn(ChartMode::placePin);
        return true;
    case Qt::Key_L:
        turnOn(ChartMode::readLine);
        return true;
    case Qt::Key_S:
        if (session_.chosen().isOfLine()) turnOn(ChartMode::addSpot);
        return true;
    default:
        return false;
    }
}

void ChartView::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Control && snap_.crossing()) {
        // Held: the place is taken as it is, and the suggestion goes.
        snap_.clear();
        return;
    }
    if (lookKeyPressed(event) || arrowPressed(event) || letterPressed(event)) return;
    const bool free = event->modifiers() & Qt::ControlModifier;
    switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (isPlacing()) {
            if (!pointer_ && page()) pointer_ = pixelFromView(QRectF(viewport()->rect()).center());
            act(free);
        } else if (session_.chosen().kind == PartKind::pin) {
            editPin(session_.chosen().index);
        }
        return;
    case Qt::Key_Escape:
        if (isPlacing()) {
            session_.setMode(ChartMode::choose);
        } else {
            session_.choose({});
        }
        return;
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        session_.remove(session_.chosen());
        return;
    default:
        PageView::keyPressEvent(event);
    }
}

void ChartView::keyReleaseEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Control && pointer_) return point(*pointer_, false);
    if (!lookKeyReleased(event)) PageView::keyReleaseEvent(event);
}

// Tab walks through what is on the page before it leaves it.
bool ChartView::focusNextPrevChild(bool next) {
    if (form_->isVisible() || choice_->isVisible()) return PageView::focusNextPrevChild(next);
    if (!isPlacing() && session_.chooseNext(next ? 1 : -1)) return true;
    return PageView::focusNextPrevChild(next);
}

void ChartView::focusInEvent(QFocusEvent* event) {
    PageView::focusInEvent(event);
    if (event->reason() == Qt::TabFocusReason && session_.chosen().kind == PartKind::none)
        session_.chooseNext(1);
    viewport()->update();
}

void ChartView::focusOutEvent(QFocusEvent* event) {
    PageView::focusOutEvent(event);
    nudging_ = false;
    viewport()->update();
}

} // namespace headmark
