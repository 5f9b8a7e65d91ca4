#include "app/desktop/charts/page_view.h"

#include "app/desktop/frame/theme.h"

#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kMargin_px = 48.0; // bare frame around the page, room for labels
constexpr double kFitMargin_px = 10.0;
constexpr double kGreatestZoom = 32.0, kSmallestZoom = 0.02;
constexpr double kZoomStep = 1.25;
constexpr int kArrowStep_px = 40;

} // namespace

PageView::PageView(QWidget* parent) : QAbstractScrollArea(parent), picture_(this) {
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::StrongFocus);
    viewport()->setMouseTracking(true);
    viewport()->setAutoFillBackground(false);
    connect(&picture_, &PagePicture::refined, viewport(), qOverload<>(&QWidget::update));
}

void PageView::setPage(const std::shared_ptr<const Page>& page, bool keepPlace) {
    if (page == picture_.page()) return;
    picture_.setPage(page);
    if (keepPlace) {
        layOut();
    } else {
        fit();
    }
    viewport()->update();
}

QSizeF PageView::pageSize() const {
    if (!page()) return {};
    return QSizeF(page()->width, page()->height) * (zoom_ / page()->scale);
}

QPointF PageView::corner() const {
    const QSizeF size = pageSize();
    const auto along = [](double page_px, int view_px, const QScrollBar* bar) {
        if (bar->maximum() == 0) return std::round(0.5 * (view_px - page_px));
        return kMargin_px - bar->value();
    };
    return {along(size.width(), viewport()->width(), horizontalScrollBar()),
            along(size.height(), viewport()->height(), verticalScrollBar())};
}

QPointF PageView::viewFromPixel(PixelPoint pixel) const {
    return corner() + QPointF(pixel.x_px + 0.5, pixel.y_px + 0.5) * zoom_;
}

PixelPoint PageView::pixelFromView(QPointF at) const {
    const QPointF from = (at - corner()) / zoom_;
    return {from.x() - 0.5, from.y() - 0.5};
}

bool PageView::isOnPage(PixelPoint pixel) const {
    return page() && pixel.x_px >= -0.5 && pixel.y_px >= -0.5 &&
           pixel.x_px <= page()->width / page()->scale - 0.5 &&
           pixel.y_px <= page()->height / page()->scale - 0.5;
}

void PageView::layOut() {
    const QSizeF size = pageSize();
    const auto range = [](QScrollBar* bar, double page_px, int view_px) {
        const bool all = page_px <= view_px;
        bar->setRange(0, all ? 0 : static_cast<int>(std::ceil(page_px + 2.0 * kMargin_px)) - view_px);
        bar->setPageStep(view_px);
        bar->setSingleStep(kArrowStep_px);
    };
    range(horizontalScrollBar(), size.width(), viewport()->width());
    range(verticalScrollBar(), size.height(), viewport()->height());
}

double PageView::fittingZoom() const {
    if (!page()) return 1.0;
    const QSize room = maximumViewportSize();
    const double width = (room.width() - 2.0 * kFitMargin_px) / page()->width;
    const double height = (room.height() - 2.0 * kFitMargin_px) / page()->height;
    return std::clamp(std::min(width, height) * page()->scale, kSmallestZoom, kGreatestZoom);
}

void PageView::fit() {
    fitted_ = true;
    zoom_ = fittingZoom();
    layOut();
    viewport()->update();
    emit zoomChanged(zoom_);
}

void PageView::showPixels() { setZoom(page() ? page()->scale : 1.0, viewport()->rect().center()); }

void PageView::zoomBy(double factor) { setZoom(zoom_ * factor, viewport()->rect().center()); }

void PageView::setZoom(double zoom, QPointF keep) {
    const PixelPoint pixel = pixelFromView(keep);
    fitted_ = false;
    zoom_ = std::clamp(zoom, kSmallestZoom, kGreatestZoom);
    layOut();
    const QPointF now = viewFromPixel(pixel);
    scrollBy((now - keep).toPoint());
    viewport()->update();
    emit zoomChanged(zoom_);
}

void PageView::scrollBy(QPoint by) {
    horizontalScrollBar()->setValue(horizontalScrollBar()->value() + by.x());
    verticalScrollBar()->setValue(verticalScrollBar()->value() + by.y());
}

void PageView::ensureSeen(PixelPoint pixel) {
    const QPointF at = viewFromPixel(pixel);
    const QRectF room = QRectF(viewport()->rect()).adjusted(20, 20, -20, -20);
    if (room.contains(at)) return;
    scrollBy((at - QPointF(viewport()->rect().center())).toPoint());
}

void PageView::paintEvent(QPaintEvent*) {
    QPainter painter(viewport());
    painter.fillRect(viewport()->rect(), theme().sunken);
    if (page()) {
        painter.setPen(theme().border);
        painter.drawRect(QRectF(corner(), pageSize()).adjusted(-1, -1, 0, 0));
        picture_.draw(painter, viewport()->rect(), corner(), zoom_ / page()->scale);
    }
    painter.setRenderHint(QPainter::Antialiasing);
    paintOver(painter);
}

void PageView::resizeEvent(QResizeEvent* event) {
    QAbstractScrollArea::resizeEvent(event);
    if (fitted_) {
        fit();
    } else {
        layOut();
    }
}

void PageView::scrollContentsBy(int, int) { viewport()->update(); }

void PageView::wheelEvent(QWheelEvent* event) {
    if (event->modifiers() & Qt::ShiftModifier) {
        scrollBy(QPoint(-event->angleDelta().y() - event->angleDelta().x(), 0));
        return;
    }
    constexpr double kNotch = 120.0; // eighths of a degree, as Qt counts
    setZoom(zoom_ * std::pow(kZoomStep, event->angleDelta().y() / kNotch), event->position());
    event->accept();
}

bool PageView::panPressed(QMouseEvent* event) {
    const bool withSpace = spaceHeld_ && event->button() == Qt::LeftButton;
    if (event->button() != Qt::MiddleButton && !withSpace) return false;
    panning_ = true;
    panFrom_ = event->pos();
    viewport()->setCursor(Qt::ClosedHandCursor);
    return true;
}

bool PageView::panMoved(QMouseEvent* event) {
    if (!panning_) return false;
    scrollBy(panFrom_ - event->pos());
    panFrom_ = event->pos();
    return true;
}

bool PageView::panReleased(QMouseEvent*) {
    if (!panning_) return false;
    panning_ = false;
    viewport()->setCursor(spaceHeld_ ? Qt::OpenHandCursor : Qt::CrossCursor);
    return true;
}

bool PageView::lookKeyPressed(QKeyEvent* event) {
    if (event->modifiers() & Qt::ControlModifier) {
        switch (event->key()) {
        case Qt::Key_Plus:
        case Qt::Key_Equal:
            zoomBy(kZoomStep);
            return true;
        case Qt::Key_Minus:
            zoomBy(1.0 / kZoomStep);
            return true;
        case Qt::Key_0:
            fit();
            return true;
        case Qt::Key_1:
            showPixels();
            return true;
        default:
            return false;
        }
    }
    if (event->key() == Qt::Key_Space) {
        spaceHeld_ = true;
        if (!panning_) viewport()->setCursor(Qt::OpenHandCursor);
        return true;
    }
    return false;
}

bool PageView::lookKeyReleased(QKeyEvent* event) {
    if (event->key() != Qt::Key_Space || event->isAutoRepeat()) return false;
    spaceHeld_ = false;
    if (!panning_) viewport()->unsetCursor();
    return true;
}

} // namespace headmark
