#include "chart.h"

#include <QFontMetricsF>
#include <QPainterPath>
#include <QPolygonF>

#include <algorithm>
#include <cmath>

namespace headmark::pages {

namespace {

QPen dashedPen(QPen pen, const std::vector<double>& dash_pt) {
    if (dash_pt.empty()) return pen;
    QList<qreal> pattern; // in widths of the pen
    for (const double part : dash_pt)
        pattern << part / pen.widthF();
    pen.setDashPattern(pattern);
    pen.setCapStyle(Qt::FlatCap);
    return pen;
}

void drawGrid(QPainter& painter, const Chart& chart) {
    const QRectF& frame = chart.frame;
    const auto upright = [&](const std::vector<double>& marks) {
        for (const double mark : marks) {
            const double x = frame.left() + chart.flow.share(mark) * frame.width();
            painter.drawLine(QPointF(x, frame.top()), QPointF(x, frame.bottom()));
        }
    };
    const auto level = [&](const std::vector<double>& marks) {
        for (const double mark : marks) {
            const double y = frame.bottom() - chart.left.share(mark) * frame.height();
            painter.drawLine(QPointF(frame.left(), y), QPointF(frame.right(), y));
        }
    };
    const auto gridPen = [&](const QColor& ink, double width_pt) {
        return dashedPen(QPen(ink, width_pt), chart.look.gridDash_pt);
    };
    painter.setPen(gridPen(chart.look.finerGrid, chart.look.finerGrid_pt));
    if (chart.flow.finer > 1 || chart.flow.scale == AxisScale::log10) upright(chart.flow.finerMarks());
    if (chart.left.finer > 1 || chart.left.scale == AxisScale::log10) level(chart.left.finerMarks());
    painter.setPen(gridPen(chart.look.grid, chart.look.grid_pt));
    upright(chart.flow.marks());
    level(chart.left.marks());
    painter.setPen(QPen(chart.look.frame, chart.look.frame_pt));
    painter.setBrush(Qt::NoBrush);
    if (chart.look.fullFrame) {
        painter.drawRect(frame);
        return;
    }
    painter.drawLine(frame.bottomLeft(), frame.bottomRight());
    painter.drawLine(frame.topLeft(), frame.bottomLeft());
    if (chart.right) painter.drawLine(frame.topRight(), frame.bottomRight());
}

void drawTicks(QPainter& painter, const Chart& chart) {
    constexpr double kTick_pt = 3.0;
    painter.setPen(QPen(chart.look.frame, chart.look.frame_pt));
    for (const double mark : chart.flow.marks()) {
        const double x = chart.frame.left() + chart.flow.share(mark) * chart.frame.width();
        painter.drawLine(QPointF(x, chart.frame.bottom()), QPointF(x, chart.frame.bottom() + kTick_pt));
    }
    for (const double mark : chart.left.marks()) {
        const double y = chart.frame.bottom() - chart.left.share(mark) * chart.frame.height();
        painter.drawLine(QPointF(chart.frame.left() - kTick_pt, y), QPointF(chart.frame.left(), y));
    }
    if (!chart.right) return;
    for (const double mark : chart.right->marks()) {
        const double y = chart.frame.bottom() - chart.right->share(mark) * chart.frame.height();
        painter.drawLine(QPointF(chart.frame.right(), y), QPointF(chart.frame.right() + kTick_pt, y));
    }
}

void drawTurned(QPainter& painter, QPointF middle, const QString& text) {
    painter.save();
    painter.translate(middle);
    painter.rotate(-90.0);
    painter.drawText(QRectF(-150, -10, 300, 20), Qt::AlignCenter, text);
    painter.restore();
}

void drawFigures(QPainter& painter, const Chart& chart) {
    const QRectF& frame = chart.frame;
    painter.setPen(chart.look.text);
    painter.setFont(letters(chart.look.font, chart.look.letters_pt));
    for (const double mark : chart.flow.marks()) {
        const double x = frame.left() + chart.flow.share(mark) * frame.width();
        painter.drawText(QRectF(x - 20, frame.bottom() + 3, 40, 10), Qt::AlignCenter, figure(mark));
    }
    for (const double mark : chart.left.marks()) {
        const double y = frame.bottom() - chart.left.share(mark) * frame.height();
        painter.drawText(QRectF(frame.left() - 35, y - 5, 30, 10), Qt::AlignRight | Qt::AlignVCenter,
                         figure(mark));
    }
    if (chart.right) {
        for (const double mark : chart.right->marks()) {
            const double y = frame.bottom() - chart.right->share(mark) * frame.height();
            painter.drawText(QRectF(frame.right() + 5, y - 5, 30, 10), Qt::AlignLeft | Qt::AlignVCenter,
                             figure(mark));
        }
    }
    painter.setFont(letters(chart.look.font, chart.look.letters_pt, true));
    painter.drawText(QRectF(frame.left(), frame.bottom() + 13, frame.width(), 12), Qt::AlignCenter,
                     chart.flow.title);
    drawTurned(painter, {frame.left() - 33, frame.center().y()}, chart.left.title);
    if (chart.right) drawTurned(painter, {frame.right() + 33, frame.center().y()}, chart.right->title);
}

void drawCurve(QPainter& painter, const QPolygonF& line, const ChartCurve& curve, const ChartLook& look) {
    QPainterPath path;
    path.addPolygon(line);
    painter.setBrush(Qt::NoBrush);
    const double width = curve.line_pt > 0.0 ? curve.line_pt : look.line_pt;
    const QPen pen(curve.ink, width, Qt::SolidLine, look.roundEnds ? Qt::RoundCap : Qt::FlatCap,
                   Qt::RoundJoin);
    painter.setPen(dashedPen(pen, curve.dash_pt));
    painter.drawPath(path);
}

class LabelPlacer {
  public:
    LabelPlacer(const Chart& chart, std::vector<QPolygonF> lines) : chart_(chart), lines_(std::move(lines)) {}

    // The middle of a box of this size beside curve `index`, touching nothing.
    std::optional<QPointF> find(std::size_t index, QSizeF size) {
        const QPolygonF& own = lines_[index];
        if (chart_.look.labels == LabelPlace::end) {
            const QPointF beyond = own.back() + QPointF(3.0 + size.width() / 2, 0.0);
            if (free(box(beyond, size))) return take(beyond, size);
        }
        for (const double share : {0.42, 0.3, 0.55, 0.66, 0.2, 0.78, 0.9, 0.1}) {
            const QPointF at = own[static_cast<qsizetype>(share * static_cast<double>(own.size() - 1))];
            for (double away = size.height() / 2 + 1.5; away < 26.0; away += 1.0)
                for (const double side : {-1.0, 1.0})
                    if (free(box(at + QPointF(0.0, side * away), size)))
                        return take(at + QPointF(0.0, side * away), size);
        }
        return std::nullopt;
    }

    std::optional<QPointF> corner(QSizeF size) {
        const QRectF inner = chart_.frame.adjusted(5, 5, -5, -5);
        const double dx = size.width() / 2, dy = size.height() / 2;
        for (const QPointF& middle :
             {inner.topRight() + QPointF(-dx, dy), inner.bottomLeft() + QPointF(dx, -dy),
              inner.topLeft() + QPointF(dx, dy), inner.bottomRight() - QPointF(dx, dy)})
            if (free(box(middle, size))) return take(middle, size);
        return std::nullopt;
    }

  private:
    static QRectF box(QPointF middle, QSizeF size) {
        return {middle.x() - size.width() / 2, middle.y() - size.height() / 2, size.width(), size.height()};
    }
    bool free(const QRectF& wanted) const {
        if (!chart_.frame.adjusted(1, 1, -1, -1).contains(wanted)) return false;
        const QRectF kept = wanted.adjusted(-1.5, -1.5, 1.5, 1.5);
        for (const QPolygonF& line : lines_)
            if (std::any_of(line.begin(), line.end(), [&](QPointF at) { return kept.contains(at); }))
                return false;
        return std::none_of(taken_.begin(), taken_.end(),
                            [&](const QRectF& t) { return t.intersects(kept); });
    }
    QPointF take(QPointF middle, QSizeF size) {
        taken_.push_back(box(middle, size));
        return middle;
    }

    const Chart& chart_;
    std::vector<QPolygonF> lines_;
    std::vector<QRectF> taken_;
};

void drawLegend(QPainter& painter, const Chart& chart, LabelPlacer& placer) {
    const double row_pt = chart.look.letters_pt + 4.0;
    const QFontMetricsF metrics(painter.font());
    double widest = 0.0;
    for (const ChartCurve& curve : chart.curves)
        widest = std::max(widest, metrics.horizontalAdvance(curve.label));
    const QSizeF size(widest + 34.0, row_pt * static_cast<double>(chart.curves.size()) + 6.0);
    const QPointF middle = placer.corner(size).value_or(
        QPointF(chart.frame.center().x(), chart.frame.top() - size.height() / 2 - 3));
    const QRectF box(middle.x() - size.width() / 2, middle.y() - size.height() / 2, size.width(),
                     size.height());
    painter.setPen(QPen(chart.look.frame, 0.3));
    painter.setBrush(Qt::white);
    painter.drawRect(box);
    double y = box.top() + 3.0 + row_pt / 2;
    for (const ChartCurve& curve : chart.curves) {
        drawCurve(painter, QPolygonF{QPointF(box.left() + 5, y), QPointF(box.left() + 23, y)}, curve,
                  chart.look);
        painter.setPen(chart.look.text);
        painter.drawText(QRectF(box.left() + 28, y - row_pt / 2, widest + 4, row_pt),
                         Qt::AlignLeft | Qt::AlignVCenter, curve.label);
        y += row_pt;
    }
}

void drawLabels(QPainter& painter, const Chart& chart, std::vector<QPolygonF> lines) {
    LabelPlacer placer(chart, std::move(lines));
    painter.setFont(letters(chart.look.font, chart.look.letters_pt));
    if (chart.look.labels == LabelPlace::legend) {
        drawLegend(painter, chart, placer);
        return;
    }
    const QFontMetricsF metrics(painter.font());
    for (std::size_t k = 0; k < chart.curves.size(); ++k) {
        const QString& label = chart.curves[k].label;
        const QSizeF size(metrics.horizontalAdvance(label) + 1.0, metrics.height() * 0.85);
        const std::optional<QPointF> middle = placer.find(k, size);
        if (!middle) continue;
        const QRectF box(middle->x() - size.width() / 2, middle->y() - size.height() / 2, size.width(),
                         size.height());
        painter.fillRect(box, chart.look.ground);
        painter.setPen(chart.curves[k].ink);
        painter.drawText(box.adjusted(-5, -5, 5, 5), Qt::AlignCenter, label);
    }
}

} // namespace

// Fine enough that the chords lie within 0.01 px of any curve drawn here.
QPolygonF polylineOf(const Chart& chart, const ChartCurve& curve) {
    QPolygonF line;
    for (const auto& [flow, value] : curve.places)
        line << chart.place(flow, value, curve.axis);
    if (!line.isEmpty()) return line;
    constexpr int kSteps = 400;
    for (int k = 0; k <= kSteps; ++k) {
        const double flow = curve.flowFrom + (curve.flowTo - curve.flowFrom) * k / kSteps;
        line << chart.place(flow, curve.truth(flow), curve.axis);
    }
    return line;
}

QFont letters(const QString& family, double size_pt, bool bold, bool italic) {
    // The painter's unit is the point, so a font's "pixels" are points; sizes between whole ones by
    // stretching would change the letters' shape, so whole ones it is.
    QFont font(family);
    font.setPixelSize(static_cast<int>(std::lround(size_pt)));
    font.setBold(bold);
    font.setItalic(italic);
    font.setHintingPreference(QFont::PreferNoHinting);
    return font;
}

QString figure(double value) { return QString::number(value, 'g', 6); }

void drawChart(QPainter& painter, const Chart& chart) {
    painter.setRenderHint(QPainter::Antialiasing, chart.look.smooth);
    std::vector<QPolygonF> lines;
    for (const ChartCurve& curve : chart.curves)
        lines.push_back(polylineOf(chart, curve));
    painter.fillRect(chart.frame, chart.look.ground);
    drawFills(painter, chart, lines);
    drawGrid(painter, chart);
    if (chart.look.ticks) drawTicks(painter, chart);
    drawFigures(painter, chart);
    const LabelPlace labels = chart.look.labels;
    const bool across = labels == LabelPlace::over || labels == LabelPlace::gap;
    if (labels <= LabelPlace::legend) drawLabels(painter, chart, lines);
    for (std::size_t k = 0; k < lines.size(); ++k) {
        drawCurve(painter, lines[k], chart.curves[k], chart.look);
        if (chart.curves[k].thickBetween) drawThickStretch(painter, chart, chart.curves[k]);
    }
    if (across) drawOverLabels(painter, chart, lines);
    if (labels == LabelPlace::boxed) drawBoxedLabels(painter, chart, lines);
    if (labels == LabelPlace::leader) drawLeaders(painter, chart, lines);
    if (chart.look.arrows) drawArrows(painter, chart, lines);
}

} // namespace headmark::pages
