#pragma once
// Where everything of the day chart lies: rows of bars over clock time, and under them on the same axis the
// level of the source. Plain rectangles and words, so that it can be checked without a picture. To scale: a
// minute is as wide everywhere. No two words overlap; what finds no room is left out (the table has it all).

#include "app/desktop/shifts/shift_night.h"

#include <QFont>
#include <QLineF>
#include <QPolygonF>
#include <QRectF>

#include <optional>
#include <vector>

namespace headmark {

struct ShiftBar {
    std::size_t shift = 0, zone = 0;
    QRectF box;
};

struct ChartText {
    enum class Role { axis, station, idle, bar, besideBar, shift, flow, window, level, caption, dry };
    Role role = Role::axis;
    QRectF box;
    QString text;
    Qt::Alignment align = Qt::AlignCenter;
};

struct ShiftLayout {
    QSizeF size;
    QRectF plan;  // rows of bars
    QRectF level; // the source over the night; empty where its volume is not known
    double from_min = 0.0, to_min = 1.0;
    std::optional<QRectF> window; // allowed for watering, within the plan and down to the axis
    std::vector<QRectF> rows;     // one a zone
    std::vector<ShiftBar> bars;
    std::vector<QRectF> delays; // between shifts
    std::vector<double> ticks;  // x
    QPolygonF water;            // level over time
    std::optional<QLineF> highLine, stopLine, dry;
    std::vector<ChartText> texts;

    [[nodiscard]] double xOf(double minute) const {
        return plan.left() + plan.width() * (minute - from_min) / (to_min - from_min);
    }
    [[nodiscard]] std::optional<std::size_t> barAt(const QPointF& at) const;
};

[[nodiscard]] ShiftLayout layOut(const ShiftNight& night, const QSizeF& size, const QFont& font);
// What the chart needs at least, at that text size.
[[nodiscard]] QSizeF leastSize(const ShiftNight& night, const QFont& font);

} // namespace headmark
