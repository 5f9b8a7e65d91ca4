#pragma once
// Where the words of a plot go: each label takes the spot that covers no other label, little of the curves,
// and is early in its list. No legend is needed then.

#include <QLineF>
#include <QPolygonF>
#include <QRectF>

#include <optional>
#include <vector>

namespace headmark {

inline constexpr int kSpotsAbreast = 6;

class LabelPlaces {
  public:
    // Labels keep clear of anything covered already; lines may be crossed where there is no better spot.
    void cover(const QRectF& box) { covered_.push_back(box); }
    void addLine(const QPolygonF& line) { lines_.push_back(line); }

    // The box taken, inside `area`; empty where every spot lies over another label or leaves the area.
    // `spots` are the top left corners to try, best first; kSpotsAbreast of them are as good as each other.
    std::optional<QRectF> place(const QSizeF& size, const QRectF& area, const std::vector<QPointF>& spots);

  private:
    [[nodiscard]] double inkUnder(const QRectF& box) const; // length of lines
    std::vector<QRectF> covered_;
    std::vector<QPolygonF> lines_;
};

// Spots along a line, above and below it, from its end to its beginning (or the other way).
[[nodiscard]] std::vector<QPointF> spotsAlong(const QPolygonF& line, const QSizeF& size, bool fromEnd);

// Spots around a point, nearest first.
[[nodiscard]] std::vector<QPointF> spotsAround(const QPointF& point, const QSizeF& size, double away);

} // namespace headmark
