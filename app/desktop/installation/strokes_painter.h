#pragma once
// Draws the strokes of a connection drawing with any painter: on the screen, into a PDF, into a picture.

#include "analysis/connections/strokes.h"
#include "app/words/phrasing.h"

#include <QColor>
#include <QPainter>

namespace headmark {

struct StrokePens {
    QColor ink;
    double thin_mm = 0.25, heavy_mm = 0.5;
};

// The painter's unit is a millimetre of the drawing.
void paintStrokes(QPainter& painter, const std::vector<Stroke>& strokes, const StrokePens& pens,
                  const Phrasing& phrasing);

} // namespace headmark
