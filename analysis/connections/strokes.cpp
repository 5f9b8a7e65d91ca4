#include "analysis/connections/strokes.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace headmark {

namespace {

constexpr double kLetterWidth = 0.75; // of the height of a capital letter

DrawPoint turned(DrawPoint p, int quarterTurns) {
    for (int i = 0; i < quarterTurns; ++i)
        p = {-p.y, p.x};
    return p;
}

double crossing(DrawPoint a, DrawPoint b, DrawPoint c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

std::vector<DrawPoint> arcPoints(const Stroke& arc) {
    constexpr int kSteps = 12;
    std::vector<DrawPoint> points;
    for (int i = 0; i <= kSteps; ++i) {
        const double angle = (arc.from_deg + arc.sweep_deg * i / kSteps) * std::numbers::pi / 180.0;
        points.push_back(
            {arc.points[0].x + arc.radius * std::cos(angle), arc.points[0].y + arc.radius * std::sin(angle)});
    }
    return points;
}

bool segmentsCross(DrawPoint a, DrawPoint b, DrawPoint c, DrawPoint d) {
    const double abc = crossing(a, b, c), abd = crossing(a, b, d);
    const double cda = crossing(c, d, a), cdb = crossing(c, d, b);
    return ((abc > 0.0) != (abd > 0.0)) && ((cda > 0.0) != (cdb > 0.0));
}

} // namespace

bool DrawBox::overlaps(const DrawBox& other) const {
    return left < other.right() && other.left < right() && top < other.bottom() && other.top < bottom();
}

bool DrawBox::contains(const DrawBox& other) const {
    return other.left >= left && other.right() <= right() && other.top >= top && other.bottom() <= bottom();
}

DrawBox DrawBox::grown(double by) const { return {left - by, top - by, width + 2.0 * by, height + 2.0 * by}; }

bool DrawBox::crossedBy(DrawPoint from, DrawPoint to) const {
    const auto inside = [&](DrawPoint p) {
        return p.x > left && p.x < right() && p.y > top && p.y < bottom();
    };
    if (inside(from) || inside(to)) return true;
    const DrawPoint corners[] = {{left, top}, {right(), top}, {right(), bottom()}, {left, bottom()}};
    for (int i = 0; i < 4; ++i) {
        if (segmentsCross(from, to, corners[i], corners[(i + 1) % 4])) return true;
    }
    return false;
}

Stroke lineStroke(std::vector<DrawPoint> points, bool dashed, bool heavy) {
    Stroke stroke;
    stroke.points = std::move(points);
    stroke.dashed = dashed;
    stroke.heavy = heavy;
    return stroke;
}

Stroke polygonStroke(std::vector<DrawPoint> points, bool filled) {
    Stroke stroke;
    stroke.kind = StrokeKind::polygon;
    stroke.points = std::move(points);
    stroke.filled = filled;
    return stroke;
}

Stroke circleStroke(DrawPoint centre, double radius, bool filled) {
    Stroke stroke;
    stroke.kind = StrokeKind::circle;
    stroke.points = {centre};
    stroke.radius = radius;
    stroke.filled = filled;
    return stroke;
}

Stroke arcStroke(DrawPoint centre, double radius, double from_deg, double sweep_deg) {
    Stroke stroke = circleStroke(centre, radius);
    stroke.kind = StrokeKind::arc;
    stroke.from_deg = from_deg;
    stroke.sweep_deg = sweep_deg;
    return stroke;
}

Stroke textStroke(DrawPoint centre, std::string text, double height, bool word) {
    Stroke stroke;
    stroke.kind = StrokeKind::text;
    stroke.points = {centre};
    stroke.text = std::move(text);
    stroke.textHeight = height;
    stroke.word = word;
    return stroke;
}

Stroke boxStroke(const DrawBox& box, bool filled) {
    return polygonStroke(
        {{box.left, box.top}, {box.right(), box.top}, {box.right(), box.bottom()}, {box.left, box.bottom()}},
        filled);
}

Stroke placedStroke(Stroke stroke, int quarterTurns, DrawPoint to) {
    const int turns = ((quarterTurns % 4) + 4) % 4;
    for (DrawPoint& point : stroke.points) {
        point = turned(point, turns);
        point = {point.x + to.x, point.y + to.y};
    }
    if (stroke.kind == StrokeKind::arc) stroke.from_deg += 90.0 * turns;
    return stroke;
}

DrawBox extentOf(const std::vector<Stroke>& strokes) {
    constexpr double kFar = std::numeric_limits<double>::max();
    double left = kFar, top = kFar, right = -kFar, bottom = -kFar;
    for (const Stroke& stroke : strokes) {
        if (stroke.kind == StrokeKind::arc) {
            for (const DrawPoint& p : arcPoints(stroke)) {
                left = std::min(left, p.x);
                right = std::max(right, p.x);
                top = std::min(top, p.y);
                bottom = std::max(bottom, p.y);
            }
            continue;
        }
        double halfWidth = stroke.radius, halfHeight = stroke.radius;
        if (stroke.kind == StrokeKind::text) {
            halfWidth = kLetterWidth * stroke.textHeight * static_cast<double>(stroke.text.size()) / 2.0;
            halfHeight = stroke.textHeight / 2.0;
        }
        for (const DrawPoint& p : stroke.points) {
            left = std::min(left, p.x - halfWidth);
            right = std::max(right, p.x + halfWidth);
            top = std::min(top, p.y - halfHeight);
            bottom = std::max(bottom, p.y + halfHeight);
        }
    }
    if (left > right) return {};
    return {left, top, right - left, bottom - top};
}

} // namespace headmark
