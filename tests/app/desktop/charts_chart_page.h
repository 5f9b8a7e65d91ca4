#pragma once
// A chart drawn by the test, so that every place on it is known: flow 0 to 14 m3/h from x 100 to 800, head 0
// to 50 m from y 600 up to 100; a head line H = 40 - 0.2 Q^2 from 0 to 12 m3/h, and a lower one
// H = 28 - 0.15 Q^2 from 0 to 11. Pixels: the centre of the top-left pixel is (0, 0).

#include "analysis/chart/reading.h"

#include <QImage>
#include <QPainter>
#include <QPainterPath>

namespace headmark::chart_page {

inline PixelPoint at(double flow_m3_h, double head_m) {
    return {100.0 + 50.0 * flow_m3_h, 600.0 - 10.0 * head_m};
}
inline double upperHead(double flow_m3_h) { return 40.0 - 0.2 * flow_m3_h * flow_m3_h; }
inline double lowerHead(double flow_m3_h) { return 28.0 - 0.15 * flow_m3_h * flow_m3_h; }

inline QImage drawn() {
    QImage image(900, 700, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(0.5, 0.5); // Qt counts from the corner of the first pixel
    painter.setPen(QPen(QColor(150, 150, 150), 1.4));
    for (int i = 0; i <= 14; i += 2) {
        const double x = at(i, 0).x_px;
        painter.drawLine(QPointF(x, 100), QPointF(x, 600));
    }
    for (int head = 0; head <= 50; head += 10) {
        const double y = at(0, head).y_px;
        painter.drawLine(QPointF(100, y), QPointF(800, y));
    }
    const auto line = [&](auto head, double end) {
        QPainterPath path;
        for (int i = 0; i <= 400; ++i) {
            const double flow = end * i / 400.0;
            const PixelPoint p = at(flow, head(flow));
            i == 0 ? path.moveTo(p.x_px, p.y_px) : path.lineTo(p.x_px, p.y_px);
        }
        painter.setPen(QPen(Qt::black, 3.0));
        painter.drawPath(path);
    };
    line(upperHead, 12.0);
    line(lowerHead, 11.0);
    return image;
}

} // namespace headmark::chart_page
