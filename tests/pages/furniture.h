#pragma once
// What stands around the charts of a brochure page: bands, tables, sketches, paragraphs. The painter's unit
// is the point. All names and sentences are invented.

#include "dice.h"

#include <QColor>
#include <QPainter>
#include <QRectF>
#include <QString>
#include <QStringList>

#include <vector>

namespace headmark::pages {

// Lines of running text filling the box, in words of our own.
void drawParagraph(QPainter& painter, const QRectF& box, const QString& family, double size_pt,
                   const QColor& ink, Dice& dice);

// First row and first column are headings.
void drawTable(QPainter& painter, const QRectF& box, const std::vector<QStringList>& rows,
               const QString& family, double size_pt, const QColor& headGround);

// A table of made-up dimensions for these models.
std::vector<QStringList> sizeRows(const QStringList& models, Dice& dice);

// Pump and motor from the side with dimension arrows.
void drawSketch(QPainter& painter, const QRectF& box, const QString& family, const QColor& ink);

// "Model K 32-160" and its like.
QString modelName(Dice& dice);

} // namespace headmark::pages
