#pragma once
// The same charts drawn by other programs, so that what the reader meets is not one painter's ink:
//   "pdf"    QPainter's PDF, turned to pixels by PDFium
//   "cairo"  gnuplot's picture by cairo
//   "gd"     gnuplot's picture by libgd: places and widths in whole pixels
//   "svg"    gnuplot's SVG, drawn by QtSvg
// Furniture is QPainter's and left out of what gnuplot draws.

#include "sheet.h"

#include <string>

namespace headmark::pages {

QImage renderThrough(const std::string& program, const Sheet& sheet, double dpi);

} // namespace headmark::pages
