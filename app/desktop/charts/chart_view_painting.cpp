// What the chart view draws over the page.
#include "app/desktop/charts/chart_view.h"

#include "app/desktop/frame/theme.h"

#include <QPainterPath>

#include <algorithm>

namespace headmark {

namespace {

constexpr double kInsetZoom = 6.0; // screen pixels per pixel of the page held
constexpr double kInset_px = 190.0, kInsetMargin_px = 14.0;

} // namespace

std::optional<PixelPoint> ChartView::insetPlace() const {
    if (form_->isVisible() || choice_->isVisible()) return std::nullopt;
    if (drag_) return drag_->number != 0 ? session_.placeOf(drag_->part) : std::nullopt;
    if (isPlacing()) return pointer_ && isOnPage(*pointer_) ? pointer_ : std::nullopt;
    return nudging_ ? session_.placeOf(session_.chosen()) : std::nullopt;
}

void ChartView::paintOver(QPainter& painter) {
    if (!page()) return;
    const Sight now = sight();
    paintLines(painter, session_, shapes_, now, true);
    paintPins(painter, session_, now, true);
    if (snap_.crossing()) paintSnap(painter, now, *snap_.crossing());
    if (isPlacing() && pointer_) paintCrossHair(painter, now, *pointer_);
    if (const auto place = insetPlace()) paintInset(painter, *place);
    if (hasFocus()) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(theme().accent, 2.0));
        painter.drawRect(QRectF(viewport()->rect()).adjusted(1, 1, -1, -1));
    }
}

void ChartView::paintInset(QPainter& painter, PixelPoint at) {
    const QFontMetricsF metrics(smallFont());
    const QString figures = figuresAt(session_, at);
    const double bar = figures.isEmpty() ? 0.0 : metrics.height() + 8.0;
    const double width = std::max(kInset_px, metrics.horizontalAdvance(figures) + 16.0);
    QRectF box(0.0, 0.0, width, kInset_px + bar);
    // In the corner at the top right; at the left while the pointer is near it.
    const QPointF pointer = viewFromPixel(at);
    box.moveTopRight(QPointF(viewport()->width() - kInsetMargin_px, kInsetMargin_px));
    if (box.adjusted(-60, -60, 60, 60).contains(pointer))
        box.moveTopLeft(QPointF(kInsetMargin_px, kInsetMargin_px));
    const QRectF glass(box.topLeft(), QSizeF(width, kInset_px));
    painter.save();
    QPainterPath frame;
    frame.addRoundedRect(box, 5, 5);
    painter.setClipPath(frame);
    painter.fillRect(box, theme().sunken);
    const double zoomHere = kInsetZoom * page()->scale; // of a pixel of the reading
    const QPointF corner = glass.center() - QPointF(at.x_px + 0.5, at.y_px + 0.5) * zoomHere;
    picture().draw(painter, glass, corner, kInsetZoom);
    const Sight large{corner, zoomHere};
    painter.save();
    painter.setClipRect(glass, Qt::IntersectClip);
    if (drag_ || nudging_) paintLines(painter, session_, shapes_, large, false);
    paintPins(painter, session_, large, false);
    if (snap_.crossing()) paintSnap(painter, large, *snap_.crossing());
    const QColor hair = onPaper(theme().pin);
    painter.setPen(QPen(hair, 1.2));
    const QPointF c = glass.center();
    constexpr double kOpen_px = 7.0;
    painter.drawLine(QPointF(glass.left(), c.y()), c - QPointF(kOpen_px, 0));
    painter.drawLine(c + QPointF(kOpen_px, 0), QPointF(glass.right(), c.y()));
    painter.drawLine(QPointF(c.x(), glass.top()), c - QPointF(0, kOpen_px));
    painter.drawLine(c + QPointF(0, kOpen_px), QPointF(c.x(), glass.bottom()));
    painter.restore();
    if (bar > 0.0) {
        const QRectF foot(box.left(), glass.bottom(), width, bar);
        painter.fillRect(foot, theme().strip);
        painter.setFont(smallFont());
        painter.setPen(theme().stripText);
        painter.drawText(foot, Qt::AlignCenter, figures);
    }
    painter.restore();
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(theme().accent, 2.0));
    painter.drawRoundedRect(box, 5, 5);
}

} // namespace headmark
