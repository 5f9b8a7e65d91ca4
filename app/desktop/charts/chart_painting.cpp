#include "app/desktop/charts/chart_painting.h"

#include "analysis/chart/line_samples.h"
#include "app/desktop/charts/chart_words.h"
#include "app/desktop/frame/theme.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr int kSteps = 160;                     // of a curve: short enough to look round
constexpr double kNormal95 = 1.959963984540054; // two-sided 95 % of the normal distribution
constexpr double kHueStep = 47.0 / 360.0;
constexpr double kPinArm_px = 9.0, kPinGap_px = 3.0;

bool isFinite(PixelPoint p) { return std::isfinite(p.x_px) && std::isfinite(p.y_px); }

LineShape curveShape(const Reading& reading, std::size_t line, const ReadLine& read,
                     const ChartMapping& mapping) {
    LineShape shape{line, {}, {}, {}, read.trust == Trust::doubtful};
    const PrintedFactors factors = printedFactors(reading, read.quantity);
    const PolynomialCurve& curve = read.fit->curve;
    for (int i = 0; i <= kSteps; ++i) {
        const double share = static_cast<double>(i) / kSteps;
        const double flow = curve.least_m3_s() + share * (curve.greatest_m3_s() - curve.least_m3_s());
        const double value = curve.at(flow), half = kNormal95 * curve.sigmaAt(flow);
        const auto pixel = [&](double of) {
            return mapping.pixelFromAxis({flow / factors.flow, of / factors.value}, read.axis);
        };
        const PixelPoint middle = pixel(value), above = pixel(value + half), below = pixel(value - half);
        if (!isFinite(middle)) continue;
        shape.middle.push_back(middle);
        if (!isFinite(above) || !isFinite(below)) continue;
        shape.above.push_back(above);
        shape.below.push_back(below);
    }
    return shape;
}

// Beside a place, above it at its right; turned inward where the view ends there.
QRectF tagBox(const QFontMetricsF& metrics, const QString& text, const QPointF& beside, QSizeF away,
              bool below, const QRectF& room) {
    QRectF box = metrics.boundingRect(text).adjusted(-5, -2, 5, 2);
    const bool left = !room.isEmpty() && beside.x() + away.width() + box.width() > room.right();
    bool under = below;
    if (!room.isEmpty() && !below && beside.y() - away.height() - box.height() < room.top()) under = true;
    if (!room.isEmpty() && below && beside.y() + away.height() + box.height() > room.bottom()) under = false;
    box.moveTopLeft({left ? beside.x() - away.width() - box.width() : beside.x() + away.width(),
                     under ? beside.y() + away.height() : beside.y() - away.height() - box.height()});
    return box;
}

void paintTag(QPainter& painter, const QPointF& beside, QSizeF away, bool below, const QString& text,
              const QColor& colour, bool chosen, const QRectF& room) {
    if (!room.isEmpty() && !room.contains(beside)) return;
    painter.setFont(smallFont());
    const QRectF box = tagBox(QFontMetricsF(painter.font()), text, beside, away, below, room);
    painter.setPen(QPen(colour, chosen ? 1.8 : 1.0));
    QColor paper(Qt::white);
    paper.setAlpha(225);
    painter.setBrush(chosen ? colour : paper);
    painter.drawRoundedRect(box, 3, 3);
    painter.setPen(chosen ? QColor(Qt::white) : colour);
    painter.drawText(box, Qt::AlignCenter, text);
}

// A cross with an open middle, over a pale one, so that it is seen on ink as well.
void paintOpenCross(QPainter& painter, QPointF at, const QColor& colour, double width, bool slanted) {
    painter.save();
    painter.translate(at);
    if (slanted) painter.rotate(45.0);
    for (const bool halo : {true, false}) {
        QColor pale(Qt::white);
        pale.setAlpha(190);
        painter.setPen(QPen(halo ? pale : colour, halo ? width + 2.0 : width, Qt::SolidLine, Qt::FlatCap));
        for (int turn = 0; turn < 4; ++turn) {
            painter.drawLine(QPointF(kPinGap_px, 0), QPointF(kPinArm_px, 0));
            painter.rotate(90.0);
        }
    }
    painter.restore();
}

void paintPlaces(QPainter& painter, const ChartSession& session, std::size_t line, const QColor& colour,
                 const Sight& sight) {
    const auto reading = session.reading();
    const ChartLine& of = reading->lines[line];
    const auto paint = [&](const std::vector<PixelPoint>& places, PartKind kind) {
        for (std::size_t i = 0; i < places.size(); ++i) {
            const bool chosen = session.chosen() == ChartPart{kind, line, i};
            painter.setPen(QPen(chosen ? onPaper(theme().pin) : colour, chosen ? 2.4 : 1.6));
            QColor paper(Qt::white);
            paper.setAlpha(210);
            painter.setBrush(paper);
            const QPointF at = sight.from(places[i]);
            const double r = chosen ? 6.0 : 4.5;
            if (kind == PartKind::spot) {
                painter.drawEllipse(at, r, r);
                painter.drawPoint(at);
            } else { // where the follower starts
                painter.drawPolygon(QPolygonF(
                    {at + QPointF(0, -r), at + QPointF(r, 0), at + QPointF(0, r), at + QPointF(-r, 0)}));
            }
        }
    };
    paint(of.followFrom, PartKind::click);
    paint(of.spots, PartKind::spot);
}

} // namespace

QPolygonF Sight::from(const std::vector<PixelPoint>& pixels) const {
    QPolygonF polygon;
    polygon.reserve(static_cast<qsizetype>(pixels.size()));
    for (const PixelPoint& p : pixels)
        polygon << from(p);
    return polygon;
}

std::vector<LineShape> shapesOf(const ChartSession& session) {
    std::vector<LineShape> shapes;
    const auto reading = session.reading();
    const ChartMapping* mapping = session.mapping();
    if (!reading || !mapping) return shapes;
    for (std::size_t i = 0; i < reading->lines.size(); ++i) {
        const ReadLine* read = session.readLine(i);
        if (!read || !mapping->hasAxis(read->axis)) continue;
        if (read->fit) {
            // Units and pins of the answer's own edit, where the work has moved on since.
            const auto latest = session.desk.answers.latest();
            const int sheet = chartIndex(latest->workspace, session.path());
            if (sheet < 0) continue;
            shapes.push_back(curveShape(*latest->workspace.charts[static_cast<std::size_t>(sheet)].reading, i,
                                        *read, *mapping));
            continue;
        }
        LineShape shape{i, {}, {}, {}, read->trust == Trust::doubtful};
        for (const LineSample& sample : read->samples)
            shape.middle.push_back(sample.at);
        shapes.push_back(std::move(shape));
    }
    return shapes;
}

QColor onPaper(const QColor& colour) {
    constexpr int kDarker = 160; // per cent: as dark as the light theme's
    return theme().dark ? colour.darker(kDarker) : colour;
}

QColor lineColour(const Reading& reading, std::size_t line, bool isOnPaper) {
    const LineQuantity quantity = reading.lines[line].quantity;
    int before = 0;
    for (std::size_t i = 0; i < line; ++i)
        before += reading.lines[i].quantity == quantity ? 1 : 0;
    const QColor own = quantityColour(quantity);
    const QColor first = isOnPaper ? onPaper(own) : own;
    if (before == 0) return first;
    const double hue = std::fmod(first.hslHueF() + before * kHueStep, 1.0);
    return QColor::fromHslF(static_cast<float>(hue), first.hslSaturationF(), first.lightnessF());
}

void paintLines(QPainter& painter, const ChartSession& session, const std::vector<LineShape>& shapes,
                const Sight& sight, bool withLabels) {
    const auto reading = session.reading();
    if (!reading) return;
    for (const LineShape& shape : shapes) {
        if (shape.line >= reading->lines.size() || shape.middle.size() < 2) continue;
        const bool chosen = session.chosen().isOfLine() && session.chosen().index == shape.line;
        const QColor colour = lineColour(*reading, shape.line);
        QPolygonF band = sight.from(shape.above);
        const QPolygonF below = sight.from(shape.below);
        for (qsizetype i = below.size(); i-- > 0;)
            band << below[i];
        QColor fill = colour;
        fill.setAlpha(60);
        painter.setPen(Qt::NoPen);
        painter.setBrush(fill);
        painter.drawPolygon(band);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(colour, chosen ? 3.0 : 1.8, shape.doubtful ? Qt::DashLine : Qt::SolidLine,
                            Qt::RoundCap, Qt::RoundJoin));
        painter.drawPolyline(sight.from(shape.middle));
    }
    for (std::size_t line = 0; line < reading->lines.size(); ++line) {
        const bool chosen = session.chosen().isOfLine() && session.chosen().index == line;
        const bool read = std::any_of(shapes.begin(), shapes.end(),
                                      [&](const LineShape& shape) { return shape.line == line; });
        if (chosen || !read) paintPlaces(painter, session, line, lineColour(*reading, line), sight);
    }
    if (!withLabels) return;
    for (const LineShape& shape : shapes) {
        if (shape.line >= reading->lines.size() || shape.middle.size() < 2) continue;
        const bool chosen = session.chosen().isOfLine() && session.chosen().index == shape.line;
        // One behind the other along the lines, so that labels of a family do not lie on each other.
        const double share = 0.18 + 0.14 * static_cast<double>(shape.line % 5);
        const auto first = static_cast<std::ptrdiff_t>(share * static_cast<double>(shape.middle.size() - 1));
        const auto seen = [&](const PixelPoint& p) {
            return sight.room.isEmpty() || sight.room.contains(sight.from(p));
        };
        const auto at = std::find_if(shape.middle.begin() + first, shape.middle.end(), seen);
        if (at == shape.middle.end()) continue;
        paintTag(painter, sight.from(*at), {4, 8}, false,
                 QString::fromStdString(reading->lines[shape.line].name), lineColour(*reading, shape.line),
                 chosen, sight.room);
    }
}

void paintPins(QPainter& painter, const ChartSession& session, const Sight& sight, bool withLabels) {
    const auto reading = session.reading();
    if (!reading) return;
    const QColor colour = onPaper(theme().pin);
    for (std::size_t i = 0; i < reading->pins.size(); ++i) {
        const bool chosen = session.chosen() == ChartPart{PartKind::pin, i, 0};
        const QPointF at = sight.from(reading->pins[i].at);
        paintOpenCross(painter, at, colour, chosen ? 2.6 : 1.8, false);
        if (!withLabels) continue;
        // Pins of the two axes often stand on one place: one label above, the other below.
        const bool below = reading->pins[i].axis == ValueAxis::right && reading->pins[i].value;
        paintTag(painter, at, {8, 8}, below, pinWords(reading->pins[i], *reading), colour, chosen,
                 sight.room);
    }
}

void paintSnap(QPainter& painter, const Sight& sight, PixelPoint at) {
    const QColor colour = onPaper(theme().accent);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(QColor(255, 255, 255, 200), 4.0));
    painter.drawEllipse(sight.from(at), 11.0, 11.0);
    painter.setPen(QPen(colour, 2.0, Qt::DotLine));
    painter.drawEllipse(sight.from(at), 11.0, 11.0);
    paintOpenCross(painter, sight.from(at), colour, 1.4, true);
}

void paintCrossHair(QPainter& painter, const Sight& sight, PixelPoint at) {
    paintOpenCross(painter, sight.from(at), onPaper(theme().accent), 1.8, false);
}

QString figuresAt(const ChartSession& session, PixelPoint at) {
    const auto reading = session.reading();
    const ChartMapping* mapping = session.mapping();
    if (!reading || !mapping) return {};
    QStringList parts;
    for (const ValueAxis axis : {ValueAxis::left, ValueAxis::right}) {
        if (!mapping->hasAxis(axis)) continue;
        const AxisPoint figures = mapping->axisFromPixel(at, axis);
        if (parts.isEmpty())
            parts << figureText(figures.flow) + QLatin1Char(' ') + symbolWords(reading->printedUnits.flow);
        parts << (figureText(figures.value) + QLatin1Char(' ') + axisUnit(*reading, axis)).trimmed();
    }
    return parts.join(QStringLiteral(" · "));
}

} // namespace headmark
