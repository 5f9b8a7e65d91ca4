#pragma once
// Places texts in a drawing so that none covers another: each tries its wanted spot, then others near it.

#include <QFont>
#include <QRectF>
#include <QString>

#include <vector>

namespace headmark {

struct PlacedLabel {
    QString text;
    QRectF where;
    bool faint = false, strong = false;
    int tone = 0; // the caller's own
};

class LabelLayout {
  public:
    explicit LabelLayout(const QRectF& area) : area_(area) {}

    // What a text may not cover.
    void block(const QRectF& rect) { blocked_.push_back(rect); }
    // A strong one is drawn, and measured, in the heavier weight. Centred at x, its top at one of the
    // heights, the first that is free. Without one it is left out.
    bool place(PlacedLabel label, const QFont& font, double x, const std::vector<double>& tops,
               double widest = 1e9);
    [[nodiscard]] const std::vector<PlacedLabel>& labels() const { return labels_; }

  private:
    [[nodiscard]] bool isFree(const QRectF& rect) const;
    QRectF area_;
    std::vector<QRectF> blocked_;
    std::vector<PlacedLabel> labels_;
};

} // namespace headmark
