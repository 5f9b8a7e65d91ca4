#pragma once
// Harder ageing than a scan's, with the place of every point known exactly.
//   fax    204 x 98 or 204 x 196 dots per inch, a little turned, one bit per pixel: thin strokes break,
//   specks
//          stand on the paper
//   photo  seen from a slant (a homography), from paper that is curled (a smooth warp of a few waves over the
//          page), blurred, lit unevenly with a shade across it, noisy, JPEG
// The warp is stated as its inverse, aged pixel to nominal pixel; forward by fixed point (the curl's slope is
// a few hundredths).

#include "analysis/chart/reading.h"
#include "dice.h"

#include <QImage>

#include <functional>

namespace headmark::pages {

struct KnownWarp {
    std::function<PixelPoint(PixelPoint)> forward, inverse; // nominal to aged pixel, and back
};

struct HardPage {
    QImage image;
    KnownWarp warp;
};

// `fine` is the page drawn at `dpi` dots per inch; nominal pixels are those of `nominalDpi`.
HardPage faxed(const QImage& fine, double dpi, double nominalDpi, Dice& dice);
HardPage photographed(const QImage& fine, double dpi, double nominalDpi, bool colour, Dice& dice);

} // namespace headmark::pages
