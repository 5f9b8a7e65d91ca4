#pragma once
// Pens of the duty plot.

#include <QColor>
#include <QPen>

namespace headmark {

inline constexpr double kCurve_px = 2.2, kThin_px = 1.0;

[[nodiscard]] inline QColor faded(QColor color, double share) {
    color.setAlphaF(static_cast<float>(color.alphaF() * share));
    return color;
}

// Flat ends and bevelled joins: round ones cost most of the time of drawing, and nobody sees them on a curve.
[[nodiscard]] inline QPen penOf(const QColor& color, double width, Qt::PenStyle style = Qt::SolidLine) {
    return QPen(color, width, style, Qt::FlatCap, Qt::BevelJoin);
}

} // namespace headmark
