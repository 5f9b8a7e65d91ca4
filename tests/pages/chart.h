#pragma once
// One chart of a brochure page as data, its drawing by QPainter, and its truth.
// Lengths are points (1/72 inch) from the page's top-left corner, x right, y down; at `dpi` a place p lies at
// pixel p dpi/72 - 0.5, whatever program draws it.

#include "ageing.h"
#include "made_page.h"

#include <QColor>
#include <QPainter>
#include <QPolygonF>
#include <QRectF>
#include <QString>

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace headmark::pages {

struct ChartAxis {
    double from = 0.0, to = 1.0, step = 0.2; // of the numbers and the main grid; a log axis has its decades
    int finer = 1;                           // parts of a step in the finer grid
    QString title;
    AxisScale scale = AxisScale::linear;

    [[nodiscard]] double share(double figure) const; // 0 at `from`, 1 at `to`
    [[nodiscard]] std::vector<double> marks() const;
    [[nodiscard]] std::vector<double> finerMarks() const;
};

// From zero, with four to eight whole steps of 1, 2, 2.5 or 5 times a power of ten.
ChartAxis axisTo(double greatest, int finer, const QString& title);
// The same number of steps as another axis has, so that both share one grid; one that would pass `limit` gets
// steps of its own.
ChartAxis axisLike(const ChartAxis& other, double greatest, double limit, const QString& title);

struct ChartCurve {
    std::string name;
    QString label;     // what is printed beside it
    QString alsoLabel; // written on the line a second time, with LabelPlace::boxed
    LineQuantity quantity = LineQuantity::head;
    ValueAxis axis = ValueAxis::left;
    std::function<double(double)> truth;
    double flowFrom = 0.0, flowTo = 0.0;
    QColor ink = Qt::black;
    std::vector<double> dash_pt; // on, off, ...; empty: solid
    double line_pt = 0.0;        // 0: the look's
    // Drawn thicker between two flows: the operating range.
    std::optional<std::pair<double, double>> thickBetween;
    // Of a line that is no function of the flow (equal efficiency): its places, flow and value.
    std::vector<std::pair<double, double>> places;
};

// `over`: written across the line; `gap`: written into a gap of the line; `boxed`: in a white box on the
// line; `leader`: in a column clear of the lines, an arrow from each word to its line, arrows crossing.
enum class LabelPlace { end, beside, legend, over, gap, boxed, leader };

struct ChartLook {
    QString font = "DejaVu Sans";
    QColor text = Qt::black, grid = QColor(200, 200, 200), finerGrid = QColor(225, 225, 225),
           frame = Qt::black;
    QColor ground = Qt::white; // inside the frame
    double grid_pt = 0.3, finerGrid_pt = 0.2, frame_pt = 0.6, line_pt = 0.9, letters_pt = 7.0;
    std::vector<double> gridDash_pt; // on, off, of both grids; empty: solid
    double thicker = 2.2;            // a thick stretch against its line
    bool boxFrame = false;           // around words in boxes
    bool fullFrame = true;           // else only the axes' own sides
    bool ticks = false;
    bool roundEnds = false;
    bool arrows = false; // from a word to its line, the tip on it
    bool smooth = true;  // antialiased
    // gnuplot keeps the lengths of dashes too; else it has two patterns of its own, and libgd none.
    bool exactDashes = false;
    LabelPlace labels = LabelPlace::beside;
};

// The area under curve `upper`, down to curve `lower` or to the axis.
struct ChartFill {
    std::size_t upper = 0;
    std::optional<std::size_t> lower;
    QColor colour;
};

struct Chart {
    QRectF frame; // points
    ChartAxis flow, left;
    std::optional<ChartAxis> right;
    PrintedUnits units;
    std::vector<ChartCurve> curves;
    std::vector<ChartFill> fills;
    ChartLook look;

    [[nodiscard]] QPointF place(double flow, double value, ValueAxis axis) const; // points
};

// The painter's unit is the point.
void drawChart(QPainter& painter, const Chart& chart);

// A point of the page to its pixel, ageing included.
using PixelFromPaper = std::function<PixelPoint(QPointF)>;

PixelFromPaper nominalPixels(double dpi);
// All of a MadePage that the chart says; the picture is the caller's.
void tellTruth(const Chart& chart, double dpi, const PixelFromPaper& pixels, MadePage& page);

// Steps of a curve fine enough for drawing, points of the page.
QPolygonF polylineOf(const Chart& chart, const ChartCurve& curve);
// What lies under the lines, and what is written over them (chart_extras.cpp).
void drawFills(QPainter& painter, const Chart& chart, const std::vector<QPolygonF>& lines);
void drawThickStretch(QPainter& painter, const Chart& chart, const ChartCurve& curve);
void drawOverLabels(QPainter& painter, const Chart& chart, const std::vector<QPolygonF>& lines);
void drawBoxedLabels(QPainter& painter, const Chart& chart, const std::vector<QPolygonF>& lines);
void drawArrows(QPainter& painter, const Chart& chart, const std::vector<QPolygonF>& lines);
void drawLeaders(QPainter& painter, const Chart& chart, const std::vector<QPolygonF>& lines);
// Where the word of curve `index` stands, as shares of the frame from its left upper corner, and where on the
// curve its leader's tip stands, as a share of its flows.
struct Leader {
    QPointF word;
    double tip = 0.0;
};
Leader leaderOf(const Chart& chart, std::size_t index);

QFont letters(const QString& family, double size_pt, bool bold = false, bool italic = false);
QString figure(double value);

} // namespace headmark::pages
