// Of long_section_view.h: the painting.

#include "app/desktop/frame/theme.h"
#include "app/desktop/site/long_section_view.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

enum Tone { kPlain, kGrade, kLoss };

QColor mixed(const QColor& a, const QColor& b, double share) {
    return QColor::fromRgbF(static_cast<float>(a.redF() * (1 - share) + b.redF() * share),
                            static_cast<float>(a.greenF() * (1 - share) + b.greenF() * share),
                            static_cast<float>(a.blueF() * (1 - share) + b.blueF() * share));
}

QColor earth() { return theme().dark ? QColor(0x3a, 0x35, 0x2a) : QColor(0xe9, 0xe1, 0xcd); }
QColor earthEdge() { return theme().dark ? QColor(0x8a, 0x76, 0x52) : QColor(0xb0, 0x92, 0x5c); }
QColor water() { return mixed(theme().surface, theme().pumpCurve, 0.28); }

} // namespace

QPolygonF LongSectionView::mainLine() const {
    const SectionDrawing& d = content_.drawing;
    std::vector<std::pair<double, double>> points{{d.pumpAt, d.pump_m}};
    for (const SectionItem& item : d.delivery) {
        points.emplace_back(item.from, item.levelFrom_m);
        points.emplace_back(item.to, item.levelTo_m);
    }
    for (const SectionZone& zone : d.zones)
        points.emplace_back(zone.at, zone.main_m);
    if (d.outlet_m) points.emplace_back(1.0, *d.outlet_m);
    std::stable_sort(points.begin(), points.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    QPolygonF line;
    for (const auto& [share, level] : points)
        line << at(share, level);
    return line;
}

// The ground follows the pipe a little below it; the water's place is a hollow in it, or a tank upon it.
void LongSectionView::paintGround(QPainter& painter) const {
    const SectionDrawing& d = content_.drawing;
    const double below = symbol() * 0.45;
    QPolygonF line;
    const double bank = d.waterAbovePump ? y(std::min(d.low_m, d.pump_m)) + symbol() * 0.6
                                         : y(std::max(d.pump_m, d.high_m)) + below;
    const double floor = y(std::min(d.low_m, d.shown_m)) + symbol() * 0.8;
    line << QPointF(plot_.left(), bank) << QPointF(x(d.sourceFrom), bank);
    line << QPointF(x(d.sourceFrom), std::max(bank, floor)) << QPointF(x(d.sourceTo), std::max(bank, floor));
    const double edge = std::min(x(d.sourceTo) + symbol() * 0.5, x(d.pumpAt) - symbol());
    line << QPointF(std::max(x(d.sourceTo), edge),
                    d.waterAbovePump ? bank : std::max(bank, y(d.pump_m) + below));
    std::vector<QPointF> rest;
    for (const QPointF& point : mainLine())
        rest.push_back(point + QPointF(0, below));
    for (const SectionZone& zone : d.zones) {
        for (QPointF& point : rest) {
            if (std::abs(point.x() - x(zone.at)) < 0.5)
                point.setY(std::max(point.y(), y(zone.level_m) + below));
        }
    }
    for (const QPointF& point : rest)
        line << point;
    line << QPointF(plot_.right(), line.last().y());
    QPolygonF area = line;
    area << plot_.bottomRight() << plot_.bottomLeft();
    painter.setPen(Qt::NoPen);
    painter.setBrush(earth());
    painter.drawPolygon(area);
    painter.setPen(QPen(earthEdge(), 1.2));
    painter.drawPolyline(line);
}

void LongSectionView::paintWater(QPainter& painter) const {
    const SectionDrawing& d = content_.drawing;
    const double floor = y(std::min(d.low_m, d.shown_m)) + symbol() * 0.8;
    const QRectF body(QPointF(x(d.sourceFrom), y(d.shown_m)), QPointF(x(d.sourceTo), floor));
    painter.setPen(Qt::NoPen);
    painter.setBrush(water());
    painter.drawRect(body);
    const auto level = [&](double height_m, Qt::PenStyle style, double width) {
        painter.setPen(QPen(theme().pumpCurve, width, style));
        painter.drawLine(at(d.sourceFrom, height_m), at(d.sourceTo, height_m));
    };
    if (d.low_m < d.usual_m) level(d.low_m, Qt::DotLine, 1.0);
    if (d.high_m > d.usual_m) level(d.high_m, Qt::DashLine, 1.0);
    if (d.usual_m != d.shown_m) level(d.usual_m, Qt::DashDotLine, 1.0);
    level(d.shown_m, Qt::SolidLine, 1.6);
    if (d.waterAbovePump) {
        painter.setPen(QPen(theme().text, 1.5));
        const double top = y(d.high_m) - symbol() * 0.5;
        painter.drawPolyline(QPolygonF{
            {QPointF(body.left(), top), body.bottomLeft(), body.bottomRight(), QPointF(body.right(), top)}});
    }
}

void LongSectionView::paintPipes(QPainter& painter) const {
    const SectionDrawing& d = content_.drawing;
    const QPen pipe(theme().text, 3.0, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(pipe);
    QPolygonF suction;
    const double inlet = x(d.sourceFrom) + (x(d.sourceTo) - x(d.sourceFrom)) * 0.55;
    const double depth =
        std::min(y(d.low_m) + symbol() * 0.4, y(std::min(d.low_m, d.shown_m)) + symbol() * 0.6);
    suction << QPointF(inlet, depth) << QPointF(x(d.sourceTo), depth);
    for (const SectionItem& item : d.suction) {
        const QPointF end = at(item.to, item.levelTo_m);
        suction << QPointF(end.x(), std::min(end.y(), depth));
    }
    suction << at(d.pumpAt, d.pump_m);
    painter.drawPolyline(suction);
    painter.drawPolyline(mainLine());
    const QRectF strainer(inlet - symbol() * 0.35, depth - symbol() * 0.25, symbol() * 0.7, symbol() * 0.5);
    painter.setPen(QPen(theme().surface, 1.0));
    painter.setBrush(theme().systemCurve);
    painter.drawEllipse(strainer);
    if (!d.hasReturn) return;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(theme().faint, 1.4, Qt::DashLine));
    const double over = std::min(y(d.pump_m), y(d.high_m)) - symbol() * 1.3;
    const double back = x(d.sourceFrom) + (x(d.sourceTo) - x(d.sourceFrom)) * 0.25;
    painter.drawPolyline(QPolygonF{{at(d.pumpAt, d.pump_m), QPointF(x(d.pumpAt), over), QPointF(back, over),
                                    QPointF(back, y(d.shown_m))}});
}

void LongSectionView::paintItems(QPainter& painter) const {
    const SectionDrawing& d = content_.drawing;
    const double side = symbol();
    for (const auto* run : {&d.suction, &d.delivery}) {
        for (const SectionItem& item : *run) {
            const QPointF middle = at(item.middle(), (item.levelFrom_m + item.levelTo_m) / 2.0);
            painter.setPen(QPen(theme().text, 1.5));
            painter.setBrush(theme().surface);
            if (item.symbol == SectionItem::Symbol::filter) {
                painter.drawRoundedRect(
                    QRectF(middle.x() - side * 0.9, middle.y() - side * 0.45, side * 1.8, side * 0.9), 3, 3);
                for (const double offset : {-0.3, 0.0, 0.3})
                    painter.drawLine(middle + QPointF(side * offset, -side * 0.25),
                                     middle + QPointF(side * offset, side * 0.25));
            } else if (item.symbol == SectionItem::Symbol::regulator) {
                painter.drawPolygon(QPolygonF{{middle + QPointF(0, -5), middle + QPointF(5, 0),
                                               middle + QPointF(0, 5), middle + QPointF(-5, 0)}});
            } else if (item.symbol == SectionItem::Symbol::takeoff) {
                painter.setBrush(theme().text);
                painter.drawEllipse(middle, 3.5, 3.5);
            } else if (item.symbol == SectionItem::Symbol::fitting) {
                painter.drawLine(middle + QPointF(0, -4.5), middle + QPointF(0, 4.5));
            }
        }
    }
    const QPointF pump = at(d.pumpAt, d.pump_m);
    painter.setPen(QPen(theme().surface, 1.5));
    painter.setBrush(theme().text);
    painter.drawEllipse(pump, side * 0.8, side * 0.8);
    painter.setPen(Qt::NoPen);
    painter.setBrush(theme().surface);
    painter.drawPolygon(QPolygonF{{pump + QPointF(-side * 0.3, -side * 0.4), pump + QPointF(side * 0.5, 0),
                                   pump + QPointF(-side * 0.3, side * 0.4)}});
    if (!d.outlet_m) return;
    const QPointF end = at(1.0, *d.outlet_m);
    painter.setPen(QPen(theme().text, 1.5));
    painter.setBrush(water());
    painter.drawRect(QRectF(end.x() - side * 1.6, end.y() - 1, side * 1.6, side * 0.9));
}

void LongSectionView::paintZone(QPainter& painter, const SectionZone& zone) const {
    const double side = symbol();
    const QPointF foot = at(zone.at, zone.main_m);
    const double level = y(zone.level_m);
    const double top = zoneTop(zone);
    const QPointF head(foot.x(), top < foot.y() ? top : level);
    painter.save();
    if (!zone.open) painter.setOpacity(0.38);
    painter.setPen(QPen(theme().text, 2.0));
    painter.drawLine(foot, head);
    painter.drawLine(head - QPointF(side, 0), head + QPointF(side, 0));
    painter.setPen(Qt::NoPen);
    painter.setBrush(zone.open ? theme().pumpCurve : theme().faint);
    for (const double offset : {-0.8, 0.0, 0.8}) {
        const QPointF drop = head + QPointF(side * offset, side * 0.32);
        painter.drawEllipse(drop, side * 0.11, side * 0.18);
    }
    const QPointF valve = (foot + head) / 2.0;
    const double half = side * 0.32;
    painter.setBrush(zone.open ? theme().efficiency : theme().faint);
    painter.drawPolygon(QPolygonF{{valve, valve + QPointF(-half, -half), valve + QPointF(-half, half)}});
    painter.drawPolygon(QPolygonF{{valve, valve + QPointF(half, -half), valve + QPointF(half, half)}});
    painter.restore();
}

void LongSectionView::paintGradeLine(QPainter& painter) const {
    const SectionDrawing& d = content_.drawing;
    if (!d.pumpAfter_m || !d.pumpBefore_m) return;
    QPolygonF line;
    line << at((d.sourceFrom + d.sourceTo) / 2.0, d.shown_m) << at(d.sourceTo, d.shown_m);
    for (const SectionItem& item : d.suction) {
        if (item.energyAfter_m) line << at(item.to, *item.energyAfter_m);
    }
    line << at(d.pumpAt, *d.pumpBefore_m) << at(d.pumpAt, *d.pumpAfter_m);
    double last_m = *d.pumpAfter_m;
    for (const SectionItem& item : d.delivery) {
        if (!item.energyAfter_m) break;
        line << at(item.from, item.energyBefore_m.value_or(last_m)) << at(item.to, *item.energyAfter_m);
        last_m = *item.energyAfter_m;
    }
    for (const SectionZone& zone : d.zones) {
        if (zone.open && x(zone.at) > line.last().x()) line << at(zone.at, last_m);
    }
    if (d.outlet_m) line << at(1.0, last_m);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(theme().pumpCurve, 2.2, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
    painter.drawPolyline(line);
    painter.setPen(QPen(theme().pumpCurve, 1.2, Qt::DashLine));
    for (const SectionZone& zone : d.zones) {
        if (!zone.open || !zone.energyAtEnd_m || !zone.energyAtMain_m) continue;
        painter.drawLine(at(zone.at, *zone.energyAtMain_m), at(zone.at, *zone.energyAtEnd_m));
        const QPointF end = at(zone.at, *zone.energyAtEnd_m);
        painter.drawLine(end - QPointF(symbol() * 0.5, 0), end + QPointF(symbol() * 0.5, 0));
    }
}

void LongSectionView::paintLabels(QPainter& painter) const {
    for (const PlacedLabel& label : labels_) {
        QFont font = smallFont();
        if (label.strong) font.setWeight(QFont::DemiBold);
        painter.setFont(font);
        painter.setPen(label.tone == kGrade  ? theme().pumpCurve
                       : label.tone == kLoss ? theme().systemCurve
                       : label.faint         ? theme().faint
                                             : theme().text);
        painter.drawText(label.where, Qt::AlignCenter, label.text);
    }
}

void LongSectionView::paintSelection(QPainter& painter) const {
    const QRectF where = selected_ ? rectOf(*selected_) : QRectF();
    if (where.isEmpty()) return;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(theme().accent, hasFocus() ? 2.0 : 1.2, hasFocus() ? Qt::SolidLine : Qt::DashLine));
    painter.drawRoundedRect(where.adjusted(-3, -3, 3, 3), 4, 4);
}

void LongSectionView::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    if (content_.drawing.drawable) {
        paintGrid(painter);
        paintGround(painter);
        paintWater(painter);
        paintPipes(painter);
        for (const SectionZone& zone : content_.drawing.zones)
            paintZone(painter, zone);
        paintItems(painter);
        paintGradeLine(painter);
        paintSelection(painter);
    }
    paintLabels(painter);
    if (hasFocus() && (!selected_ || rectOf(*selected_).isEmpty())) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(theme().accent, 2.0));
        painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 4, 4);
    }
}

} // namespace headmark
