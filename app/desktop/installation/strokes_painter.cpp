#include "app/desktop/installation/strokes_painter.h"

#include "app/words/part_words.h"

#include <QFontMetricsF>
#include <QPainterPath>

namespace headmark {

namespace {

QPolygonF polygonOf(const std::vector<DrawPoint>& points) {
    QPolygonF polygon;
    for (const DrawPoint& p : points)
        polygon << QPointF(p.x, p.y);
    return polygon;
}

// Letters as outlines, sized by their capitals: a font of a few millimetres has no whole point size.
void paintText(QPainter& painter, const Stroke& s, const QColor& ink, const Phrasing& phrasing) {
    const QString text = s.word ? captionWords(s.text, phrasing) : QString::fromStdString(s.text);
    QFont font = painter.font();
    constexpr double kSetIn_px = 100.0;
    font.setPixelSize(static_cast<int>(kSetIn_px));
    const QFontMetricsF metrics(font);
    const double capital = metrics.capHeight() > 0.0 ? metrics.capHeight() : 0.72 * kSetIn_px;
    const double scale = s.textHeight / capital;
    QPainterPath path;
    path.addText(QPointF(-0.5 * metrics.horizontalAdvance(text), 0.5 * capital), font, text);
    painter.save();
    painter.translate(s.points.front().x, s.points.front().y);
    painter.scale(scale, scale);
    painter.fillPath(path, ink);
    painter.restore();
}

} // namespace

void paintStrokes(QPainter& painter, const std::vector<Stroke>& strokes, const QColor& ink,
                  const Phrasing& phrasing) {
    constexpr double kDegree = 16.0; // of QPainter's angles, which grow the other way round
    for (const Stroke& s : strokes) {
        if (s.kind == StrokeKind::text) {
            paintText(painter, s, ink, phrasing);
            continue;
        }
        QPen pen(ink, s.heavy ? kHeavyStroke_mm : kThinStroke_mm, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
        if (s.dashed) pen.setDashPattern({kDash_mm / pen.widthF(), kDashGap_mm / pen.widthF()});
        painter.setPen(pen);
        painter.setBrush(s.filled ? QBrush(ink) : QBrush(Qt::NoBrush));
        switch (s.kind) {
        case StrokeKind::line:
            painter.drawPolyline(polygonOf(s.points));
            break;
        case StrokeKind::polygon:
            painter.drawPolygon(polygonOf(s.points));
            break;
        case StrokeKind::circle:
            painter.drawEllipse(QPointF(s.points.front().x, s.points.front().y), s.radius, s.radius);
            break;
        case StrokeKind::arc:
            painter.drawArc(QRectF(s.points.front().x - s.radius, s.points.front().y - s.radius,
                                   2.0 * s.radius, 2.0 * s.radius),
                            static_cast<int>(-s.from_deg * kDegree),
                            static_cast<int>(-s.sweep_deg * kDegree));
            break;
        case StrokeKind::text:
            break;
        }
    }
}

} // namespace headmark
