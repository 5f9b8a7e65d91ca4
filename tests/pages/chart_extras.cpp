// What makes a chart hard to read: areas under the lines, thick stretches, words and arrows over the ink.

#include "chart.h"

#include <QFontMetricsF>
#include <QPainterPath>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace headmark::pages {

namespace {

// A place on the line at a share of its steps.
QPointF placeAt(const QPolygonF& line, double share) {
    return line[static_cast<qsizetype>(share * static_cast<double>(line.size() - 1))];
}

// An arrow's line and its filled head.
void drawPointer(QPainter& painter, const QColor& ink, QPointF from, QPointF tip) {
    painter.setPen(QPen(ink, 0.5));
    painter.drawLine(from, tip);
    const double angle = std::atan2(from.y() - tip.y(), from.x() - tip.x());
    QPolygonF head{tip};
    for (const double turn : {-0.3, 0.3})
        head << tip + 4.5 * QPointF(std::cos(angle + turn), std::sin(angle + turn));
    painter.setBrush(ink);
    painter.drawPolygon(head);
    painter.setBrush(Qt::NoBrush);
}

} // namespace

void drawFills(QPainter& painter, const Chart& chart, const std::vector<QPolygonF>& lines) {
    painter.setPen(Qt::NoPen);
    for (const ChartFill& fill : chart.fills) {
        QPolygonF area = lines[fill.upper];
        if (fill.lower) {
            for (auto at = lines[*fill.lower].rbegin(); at != lines[*fill.lower].rend(); ++at)
                area << *at;
        } else {
            const QPointF first = area.front(), last = area.back();
            area << QPointF(last.x(), chart.frame.bottom()) << QPointF(first.x(), chart.frame.bottom());
        }
        painter.setBrush(fill.colour);
        painter.drawPolygon(area);
    }
    painter.setBrush(Qt::NoBrush);
}

void drawThickStretch(QPainter& painter, const Chart& chart, const ChartCurve& curve) {
    ChartCurve stretch = curve;
    std::tie(stretch.flowFrom, stretch.flowTo) = *curve.thickBetween;
    QPainterPath path;
    path.addPolygon(polylineOf(chart, stretch));
    const double width = curve.line_pt > 0.0 ? curve.line_pt : chart.look.line_pt;
    painter.setPen(QPen(curve.ink, chart.look.thicker * width, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
    painter.drawPath(path);
}

void drawOverLabels(QPainter& painter, const Chart& chart, const std::vector<QPolygonF>& lines) {
    painter.setFont(letters(chart.look.font, chart.look.letters_pt));
    const QFontMetricsF metrics(painter.font());
    for (std::size_t k = 0; k < lines.size(); ++k) {
        const QString& label = chart.curves[k].label;
        if (label.isEmpty()) continue;
        const QSizeF size(metrics.horizontalAdvance(label) + 2.0, metrics.height() * 0.85);
        const QPointF middle = placeAt(lines[k], 0.72 + 0.05 * static_cast<double>(k % 3));
        const QRectF box(middle.x() - size.width() / 2, middle.y() - size.height() / 2, size.width(),
                         size.height());
        if (chart.look.labels == LabelPlace::gap) painter.fillRect(box, chart.look.ground);
        painter.setPen(chart.curves[k].ink);
        painter.drawText(box.adjusted(-5, -5, 5, 5), Qt::AlignCenter, label);
    }
}

void drawArrows(QPainter& painter, const Chart& chart, const std::vector<QPolygonF>& lines) {
    painter.setFont(letters(chart.look.font, chart.look.letters_pt));
    for (std::size_t k = 0; k < lines.size(); ++k) {
        const QPointF tip = placeAt(lines[k], 0.28 + 0.03 * static_cast<double>(k));
        const QPointF from = tip + QPointF(14.0, k % 2 ? 16.0 : -16.0);
        if (!chart.frame.contains(from)) continue;
        drawPointer(painter, chart.look.text, from, tip);
        painter.drawText(from + QPointF(1.0, k % 2 ? 6.0 : -1.0),
                         QString(QChar(static_cast<ushort>('1' + k))));
    }
}

void drawBoxedLabels(QPainter& painter, const Chart& chart, const std::vector<QPolygonF>& lines) {
    painter.setFont(letters(chart.look.font, chart.look.letters_pt));
    const QFontMetricsF metrics(painter.font());
    for (std::size_t k = 0; k < lines.size(); ++k) {
        const ChartCurve& curve = chart.curves[k];
        for (const auto& [word, share] : {std::pair(curve.label, 0.24 + 0.03 * static_cast<double>(k)),
                                          std::pair(curve.alsoLabel, 0.8 - 0.02 * static_cast<double>(k))}) {
            if (word.isEmpty()) continue;
            const QPointF middle = placeAt(lines[k], share);
            const QSizeF size(metrics.horizontalAdvance(word) + 4.0, metrics.height() * 0.95);
            const QRectF box(middle.x() - size.width() / 2, middle.y() - size.height() / 2, size.width(),
                             size.height());
            painter.setPen(chart.look.boxFrame ? QPen(curve.ink, 0.3) : QPen(Qt::NoPen));
            painter.setBrush(Qt::white);
            painter.drawRect(box);
            painter.setBrush(Qt::NoBrush);
            painter.setPen(chart.look.text);
            painter.drawText(box.adjusted(-5, -5, 5, 5), Qt::AlignCenter, word);
        }
    }
}

// The column stands at the top right, where head curves that fall leave room; the nearest curve has the word
// that is farthest off, and tips stand now left, now right, so that the leaders cross.
Leader leaderOf(const Chart& chart, std::size_t index) {
    constexpr double kTips[] = {0.66, 0.44, 0.60, 0.32, 0.52};
    const double row = static_cast<double>(chart.curves.size() - 1 - index);
    return {{0.76, 0.05 + 0.055 * row}, kTips[index % std::size(kTips)]};
}

void drawLeaders(QPainter& painter, const Chart& chart, const std::vector<QPolygonF>& lines) {
    painter.setFont(letters(chart.look.font, chart.look.letters_pt));
    const QFontMetricsF metrics(painter.font());
    for (std::size_t k = 0; k < lines.size(); ++k) {
        const Leader leader = leaderOf(chart, k);
        const QPointF at(chart.frame.left() + leader.word.x() * chart.frame.width(),
                         chart.frame.top() + leader.word.y() * chart.frame.height());
        drawPointer(painter, chart.look.text, at - QPointF(2.0, 0.0), placeAt(lines[k], leader.tip));
        const QSizeF size(metrics.horizontalAdvance(chart.curves[k].label) + 2.0, metrics.height() * 0.85);
        const QRectF box(at - QPointF(0.0, size.height() / 2), size);
        painter.fillRect(box, chart.look.ground);
        painter.drawText(box.adjusted(-5, -5, 5, 5), Qt::AlignCenter, chart.curves[k].label);
    }
}

} // namespace headmark::pages
