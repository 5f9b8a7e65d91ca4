#pragma once
// The charts of a sheet as a script for gnuplot, on one of its terminals, every place where QPainter has it.
// Dashes keep their lengths where the look asks for it (exactDashes), else they are two patterns of gnuplot's
// own; a terminal without dashes then gets the pieces themselves.

#include "sheet.h"

#include <QByteArray>
#include <QSize>
#include <QTextStream>

namespace headmark::pages {

struct PlotTerminal {
    const char* name;
    QString opening; // after "set terminal"
    QString output;
    // screen = (pixel place + shift)/(size + grow), pixel places from the picture's left or lower edge
    double shift_px, grow_px;
    double pixelsPerWidth; // of "lw 1"
    double dashUnit_px;    // length of "dt (1,...)" at a width of one pixel; 0: it draws no dashes
};

class PlotScript {
  public:
    PlotScript(const Sheet& sheet, double dpi, const PlotTerminal& terminal, QSize size);
    [[nodiscard]] QByteArray text() const { return text_.toUtf8(); }

  private:
    [[nodiscard]] double px(double length_pt) const { return length_pt * dpi_ / 72.0; }
    [[nodiscard]] QString x(double at_pt) const {
        return QString::number((px(at_pt) + terminal_.shift_px) / (size_.width() + terminal_.grow_px), 'g',
                               12);
    }
    [[nodiscard]] QString y(double at_pt) const {
        const double up = size_.height() - px(at_pt);
        return QString::number((up + terminal_.shift_px) / (size_.height() + terminal_.grow_px), 'g', 12);
    }
    [[nodiscard]] double width(double pen_pt) const { return px(pen_pt) / terminal_.pixelsPerWidth; }

    void axis(const char* name, const ChartAxis& axis);
    [[nodiscard]] QString dashType(const Chart& chart, const std::vector<double>& dash_pt,
                                   double line_pt) const;
    [[nodiscard]] bool inPieces(const Chart& chart, const std::vector<double>& dash_pt) const {
        return chart.look.exactDashes && terminal_.dashUnit_px == 0.0 && !dash_pt.empty();
    }
    [[nodiscard]] bool hasKey(const Chart& chart) const;
    void data(const Chart& chart, const ChartCurve& curve, const std::string& name);
    void grid(const Chart& chart);
    void gridInPieces(const Chart& chart);
    void boxedWords(const ChartCurve& curve, std::size_t index);
    void leader(const Chart& chart, std::size_t index);
    void words(const Chart& chart);
    void curves(const Chart& chart);
    void plot(const Chart& chart);

    const Sheet& sheet_;
    double dpi_;
    const PlotTerminal& terminal_;
    QSize size_;
    QString text_;
    QTextStream out_;
};

} // namespace headmark::pages
