#pragma once
// Draws the strokes of a connection drawing with any painter: on the screen, into a PDF, into a picture.

#include "analysis/connections/strokes.h"
#include "app/words/phrasing.h"

#include <QColor>
#include <QPainter>

namespace headmark {

// The painter's unit is a millimetre of the drawing.
void paintStrokes(QPainter& painter, const std::vector<Stroke>& strokes, const QColor& ink,
                  const Phrasing& phrasing);

} // namespace headmark
