#pragma once
// What lies over the page: pins, the lines as read with their 95 % band, spots, the cross hair and the inset.
// Shapes are in pixels of the reading; a Sight says where those lie on the screen.

#include "app/desktop/charts/chart_session.h"

#include <QPainter>
#include <QPolygonF>

#include <vector>

namespace headmark {

struct Sight {
    QPointF corner; // of the page on the screen
    double zoom = 1.0;
    QRectF room = {}; // of the view: labels keep inside it, what lies out of it has none; empty: no bounds
    [[nodiscard]] QPointF from(PixelPoint pixel) const {
        return corner + QPointF(pixel.x_px + 0.5, pixel.y_px + 0.5) * zoom;
    }
    [[nodiscard]] QPolygonF from(const std::vector<PixelPoint>& pixels) const;
};

struct LineShape {
    std::size_t line = 0;                         // of the reading
    std::vector<PixelPoint> middle, above, below; // the curve and the edges of its band
    bool doubtful = false;
};

// Of every line that was read.
[[nodiscard]] std::vector<LineShape> shapesOf(const ChartSession& session);

// A line's own colour: its quantity's, turned further for each line of the same quantity before it.
[[nodiscard]] QColor lineColour(const Reading& reading, std::size_t line, bool isOnPaper = true);
// Pages are light in the dark theme too.
[[nodiscard]] QColor onPaper(const QColor& colour);

void paintLines(QPainter& painter, const ChartSession& session, const std::vector<LineShape>& shapes,
                const Sight& sight, bool withLabels);
void paintPins(QPainter& painter, const ChartSession& session, const Sight& sight, bool withLabels);
// The crossing a pin would take.
void paintSnap(QPainter& painter, const Sight& sight, PixelPoint at);
void paintCrossHair(QPainter& painter, const Sight& sight, PixelPoint at);

// "7.9 m³/h · 37.6 m" at a pixel, by the chart's mapping and in its units; empty without one.
[[nodiscard]] QString figuresAt(const ChartSession& session, PixelPoint at);

} // namespace headmark
