#pragma once
// How much ink lies at a place of the page: 0 bare paper, 1 as dark as can be.
//   ink = (paper - pixel)/paper, paper being the light around (uneven light and tinted paper divide out);
//   on a coloured page the densest of the three channels counts, so that a yellow line is ink as well.
// A lens looks for one colour of ink: the share of the densities that points along the colour's own.
// Pixels of the page (Page, not of the reading); between pixels bilinear, outside the page no ink.

#include "analysis/chart/page.h"

#include <opencv2/core.hpp>

#include <array>
#include <optional>

namespace headmark {

// Densities of red, green and blue, 0 to 1.
using InkDensity = std::array<double, 3>;

class InkField {
  public:
    // Only `region` (clipped to the page) is looked at. The page must outlive the field.
    InkField(const Page& page, cv::Rect region);

    [[nodiscard]] double at(double x, double y) const;
    // Of a grey page all three are equal.
    [[nodiscard]] InkDensity densityAt(double x, double y) const;
    [[nodiscard]] bool hasColour() const { return !page_.colour.empty(); }
    [[nodiscard]] const cv::Rect& region() const { return region_; }
    [[nodiscard]] bool contains(double x, double y) const;

  private:
    [[nodiscard]] double pixel(int x, int y) const;
    [[nodiscard]] InkDensity pixelDensity(int x, int y) const;

    const Page& page_;
    cv::Rect region_;
    std::array<cv::Mat1f, 3>
        paper_; // coarse, one cell every kPaperCell pixels; only the first of a grey page
};

// The density of a printed colour ("ink": "#rrggbb") on white.
[[nodiscard]] InkDensity densityOf(const InkColour& colour);

// 1 where `seen` is the same ink (thin or thick), falling to 0 as its colour turns away.
[[nodiscard]] double likeness(const InkDensity& seen, const InkDensity& wanted);

// Whether a colour is far enough from grey to be told by.
[[nodiscard]] bool isColoured(const InkDensity& density);

} // namespace headmark
