#include "app/desktop/shifts/shift_painting.h"

#include "app/desktop/duty/plot_pens.h"
#include "app/desktop/frame/rail.h"
#include "app/desktop/frame/theme.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr double kRound_px = 3.0;
constexpr double kSign_px = 14.0;

void paintGround(QPainter& painter, const ShiftLayout& l) {
    const Theme& t = theme();
    painter.setPen(Qt::NoPen);
    if (l.window) {
        for (const QRectF& area : {l.plan, l.level}) {
            if (area.isEmpty()) continue;
            painter.fillRect(QRectF(l.window->left(), area.top(), l.window->width(), area.height()),
                             t.preferred);
        }
    }
    const QPen grid(faded(t.border, 0.7), 1.0);
    painter.setPen(grid);
    for (const QRectF& row : l.rows)
        painter.drawLine(QLineF(0.0, row.bottom(), row.right(), row.bottom()));
    for (const double x : l.ticks) {
        painter.drawLine(QLineF(x, l.plan.top(), x, l.plan.bottom()));
        if (!l.level.isEmpty()) painter.drawLine(QLineF(x, l.level.top(), x, l.level.bottom()));
    }
    painter.drawLine(QLineF(0.0, l.plan.top(), l.plan.right(), l.plan.top()));
    if (!l.window) return;
    painter.setPen(penOf(t.good, 1.2));
    for (const double x : {l.window->left(), l.window->right()}) {
        painter.drawLine(QLineF(x, l.plan.top(), x, l.plan.bottom()));
        if (!l.level.isEmpty()) painter.drawLine(QLineF(x, l.level.top(), x, l.level.bottom()));
    }
}

void paintBars(QPainter& painter, const ShiftPainting& what) {
    const Theme& t = theme();
    const ShiftLayout& l = what.layout;
    painter.setPen(Qt::NoPen);
    for (const QRectF& delay : l.delays)
        painter.fillRect(QRectF(delay.left(), delay.top(), std::max(1.0, delay.width()), delay.height()),
                         faded(t.faint, 0.35));
    for (const ShiftBar& bar : l.bars) {
        painter.setBrush(t.accent);
        painter.drawRoundedRect(bar.box, kRound_px, kRound_px);
        // What lies beyond the window, hatched: the colour is not the only sign.
        if (l.window && bar.box.right() > l.window->right() + 0.5) {
            const QRectF beyond =
                bar.box.intersected(QRectF(QPointF(l.window->right(), bar.box.top()), bar.box.bottomRight()));
            painter.setBrush(t.warning);
            painter.drawRect(beyond);
            painter.setBrush(QBrush(faded(t.surface, 0.35), Qt::BDiagPattern));
            painter.drawRect(beyond);
        }
        if (what.selected != bar.shift) continue;
        painter.setPen(QPen(t.text, 2.0));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(bar.box.adjusted(-2, -2, 2, 2), kRound_px + 2, kRound_px + 2);
        painter.setPen(Qt::NoPen);
    }
}

void paintLevel(QPainter& painter, const ShiftLayout& l) {
    if (l.level.isEmpty() || l.water.isEmpty()) return;
    const Theme& t = theme();
    QPolygonF filled = l.water;
    const double bottom = l.stopLine ? std::max(l.stopLine->y1(), l.water.back().y()) : l.level.bottom();
    filled << QPointF(l.water.back().x(), bottom) << QPointF(l.water.front().x(), bottom);
    painter.setPen(Qt::NoPen);
    painter.setBrush(t.delivered);
    painter.drawPolygon(filled);
    if (l.highLine) {
        painter.setPen(penOf(t.pumpCurve, 1.0, Qt::DashLine));
        painter.drawLine(*l.highLine);
    }
    if (l.stopLine) {
        painter.setPen(penOf(t.danger, 1.2, Qt::DashDotLine));
        painter.drawLine(*l.stopLine);
    }
    painter.setPen(penOf(t.pumpCurve, 2.2));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(l.water);
    if (!l.dry) return;
    painter.setPen(penOf(t.danger, 1.6));
    painter.drawLine(*l.dry);
    const double y = l.stopLine ? l.stopLine->y1() : l.level.bottom();
    paintSign(painter, QRectF(l.dry->x1() - kSign_px / 2.0, y - kSign_px / 2.0, kSign_px, kSign_px),
              Sign::danger);
}

QColor colourOf(ChartText::Role role) {
    const Theme& t = theme();
    switch (role) {
    case ChartText::Role::bar:
        return t.accentText;
    case ChartText::Role::station:
    case ChartText::Role::shift:
    case ChartText::Role::besideBar:
        return t.text;
    case ChartText::Role::window:
        return t.good;
    case ChartText::Role::dry:
        return t.danger;
    case ChartText::Role::caption:
        return t.pumpCurve;
    case ChartText::Role::axis:
    case ChartText::Role::idle:
    case ChartText::Role::flow:
    case ChartText::Role::level:
        break;
    }
    return t.faint;
}

} // namespace

void paintShifts(QPainter& painter, const ShiftPainting& what) {
    painter.setRenderHint(QPainter::Antialiasing);
    paintGround(painter, what.layout);
    paintBars(painter, what);
    paintLevel(painter, what.layout);
    QFont bold = what.font;
    bold.setWeight(QFont::DemiBold);
    for (const ChartText& text : what.layout.texts) {
        const bool strong = text.role == ChartText::Role::shift || text.role == ChartText::Role::dry;
        painter.setFont(strong ? bold : what.font);
        painter.setPen(colourOf(text.role));
        painter.drawText(text.box, static_cast<int>(text.align) | Qt::TextDontClip | Qt::TextSingleLine,
                         text.text);
    }
}

} // namespace headmark
