#pragma once
// A whole brochure page as data: its size, its charts, and what is drawn around them.

#include "chart.h"

#include <QImage>
#include <QSizeF>

#include <functional>
#include <string>
#include <vector>

namespace headmark::pages {

struct Sheet {
    QSizeF size_pt;
    std::vector<Chart> charts;
    std::function<void(QPainter&)> furniture; // drawn before the charts
    std::string plotScript;                   // of gnuplot, instead of all drawing by QPainter
    bool colour = false;                      // printed and scanned in colour
};

constexpr double kA4Width_pt = 595.0, kA4Height_pt = 842.0, kA5Width_pt = 420.0, kA5Height_pt = 595.0;

// The house styles drawn by QPainter: "plain", "family", "stacked", "coloured".
Sheet drawSheet(const std::string& style, Dice& dice);

// "plotted" and "logarithmic": drawn by gnuplot into a PDF page, turned to pixels by poppler.
Sheet plottedSheet(const std::string& style, Dice& dice);
QImage renderPlotScript(const Sheet& sheet, double dpi);

QImage renderSheet(const Sheet& sheet, double dpi);
Page pageOf(const QImage& image, bool colour);

} // namespace headmark::pages
