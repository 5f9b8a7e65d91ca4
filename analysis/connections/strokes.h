#pragma once
// Primitive strokes of a drawing, so that a painter needs to know nothing of what it draws. Millimetres on
// paper, x right, y down. Angles in degrees, 0 to the right, growing clockwise (y is down).

#include <string>
#include <vector>

namespace headmark {

struct DrawPoint {
    double x = 0.0, y = 0.0;
    bool operator==(const DrawPoint&) const = default;
};

struct DrawBox {
    double left = 0.0, top = 0.0, width = 0.0, height = 0.0;

    [[nodiscard]] double right() const { return left + width; }
    [[nodiscard]] double bottom() const { return top + height; }
    [[nodiscard]] DrawPoint centre() const { return {left + width / 2.0, top + height / 2.0}; }
    [[nodiscard]] bool overlaps(const DrawBox& other) const;
    [[nodiscard]] bool contains(const DrawBox& other) const;
    [[nodiscard]] DrawBox grown(double by) const;
    [[nodiscard]] bool crossedBy(DrawPoint from, DrawPoint to) const;
};

// How wide strokes are drawn, and dashes and gaps of the dashed ones.
inline constexpr double kThinStroke_mm = 0.25, kHeavyStroke_mm = 0.5;
inline constexpr double kDash_mm = 2.0, kDashGap_mm = 1.2;

enum class StrokeKind { line, polygon, circle, arc, text };

struct Stroke {
    StrokeKind kind = StrokeKind::line;
    std::vector<DrawPoint> points;          // line: a polyline; circle, arc, text: the centre
    double radius = 0.0;                    // circle, arc
    double from_deg = 0.0, sweep_deg = 0.0; // arc
    bool filled = false;
    bool dashed = false;
    bool heavy = false;      // drawn wider
    std::string text;        // text
    bool word = false;       // text is a code, worded in app/words/part_words
    double textHeight = 0.0; // of a capital letter
};

[[nodiscard]] Stroke lineStroke(std::vector<DrawPoint> points, bool dashed = false, bool heavy = false);
[[nodiscard]] Stroke polygonStroke(std::vector<DrawPoint> points, bool filled = false);
[[nodiscard]] Stroke circleStroke(DrawPoint centre, double radius, bool filled = false);
[[nodiscard]] Stroke arcStroke(DrawPoint centre, double radius, double from_deg, double sweep_deg);
[[nodiscard]] Stroke textStroke(DrawPoint centre, std::string text, double height, bool word = false);
[[nodiscard]] Stroke boxStroke(const DrawBox& box, bool filled = false);

// Quarter turns clockwise about the origin, then moved. Text stays upright.
[[nodiscard]] Stroke placedStroke(Stroke stroke, int quarterTurns, DrawPoint to);

// What the strokes cover; text by its height and a width of 0.75 heights a letter.
[[nodiscard]] DrawBox extentOf(const std::vector<Stroke>& strokes);

} // namespace headmark
