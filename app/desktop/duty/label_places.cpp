#include "app/desktop/duty/label_places.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kClear_px = 3.0; // between labels
constexpr double kStep_px = 24.0; // between spots along a line
constexpr double kOff_px = 5.0;   // between a line and its label
// Ink that may be covered rather than go one spot further: a line's width of text is not worth crossing a
// curve while there is a clear spot within some hundred pixels.
constexpr double kInkPerSpot_px = 3.0;

// The part of a segment inside a box (Liang and Barsky's clipping).
double lengthInside(const QPointF& a, const QPointF& b, const QRectF& box) {
    double from = 0.0, to = 1.0;
    const QPointF d = b - a;
    const double delta[] = {-d.x(), d.x(), -d.y(), d.y()};
    const double room[] = {a.x() - box.left(), box.right() - a.x(), a.y() - box.top(), box.bottom() - a.y()};
    for (int side = 0; side < 4; ++side) {
        if (delta[side] == 0.0) {
            if (room[side] < 0.0) return 0.0;
            continue;
        }
        const double at = room[side] / delta[side];
        if (delta[side] < 0.0)
            from = std::max(from, at);
        else
            to = std::min(to, at);
    }
    return to > from ? (to - from) * std::hypot(d.x(), d.y()) : 0.0;
}

} // namespace

double LabelPlaces::inkUnder(const QRectF& box) const {
    double ink = 0.0;
    for (const QPolygonF& line : lines_) {
        for (qsizetype i = 1; i < line.size(); ++i)
            ink += lengthInside(line[i - 1], line[i], box);
    }
    return ink;
}

std::optional<QRectF> LabelPlaces::place(const QSizeF& size, const QRectF& area,
                                         const std::vector<QPointF>& spots) {
    std::optional<QRectF> best;
    double leastCost = 0.0;
    for (std::size_t i = 0; i < spots.size(); ++i) {
        const double further = kInkPerSpot_px * static_cast<double>(i / kSpotsAbreast);
        if (best && further >= leastCost) break;
        const QRectF box(spots[i], size);
        if (!area.contains(box)) continue;
        const QRectF clear = box.adjusted(-kClear_px, -kClear_px, kClear_px, kClear_px);
        const bool taken = std::any_of(covered_.begin(), covered_.end(),
                                       [&](const QRectF& other) { return other.intersects(clear); });
        if (taken) continue;
        const double cost = further + inkUnder(box);
        if (best && cost >= leastCost) continue;
        best = box;
        leastCost = cost;
    }
    if (best) cover(*best);
    return best;
}

std::vector<QPointF> spotsAlong(const QPolygonF& line, const QSizeF& size, bool fromEnd) {
    std::vector<QPointF> along;
    double walked = kStep_px;
    for (qsizetype i = 0; i < line.size(); ++i) {
        if (i > 0) walked += QLineF(line[i - 1], line[i]).length();
        if (walked < kStep_px) continue;
        along.push_back(line[i]);
        walked = 0.0;
    }
    if (!line.isEmpty()) along.push_back(line.last());
    if (fromEnd) std::reverse(along.begin(), along.end());
    std::vector<QPointF> spots;
    const double w = size.width(), h = size.height();
    for (const QPointF& p : along) {
        for (const QPointF& off : {QPointF(-w / 2, -h - kOff_px), QPointF(kOff_px, -h - kOff_px),
                                   QPointF(-w - kOff_px, -h - kOff_px), QPointF(kOff_px, kOff_px),
                                   QPointF(-w - kOff_px, kOff_px), QPointF(-w / 2, kOff_px)})
            spots.push_back(p + off);
    }
    return spots;
}

std::vector<QPointF> spotsAround(const QPointF& p, const QSizeF& size, double away) {
    std::vector<QPointF> spots;
    const double w = size.width(), h = size.height();
    for (const double d : {away, 2.0 * away, 4.0 * away}) {
        for (const QPointF& off : {QPointF(d, -h - d), QPointF(d, d), QPointF(-w - d, -h - d),
                                   QPointF(-w - d, d), QPointF(d, -h / 2), QPointF(-w - d, -h / 2)})
            spots.push_back(p + off);
    }
    return spots;
}

} // namespace headmark
