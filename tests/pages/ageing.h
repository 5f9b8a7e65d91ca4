#pragma once
// What paper, years and a scanner do to a page, with the place of every point known exactly.
// The warp, nominal pixel p to aged pixel: F(p) = c + R(turn) S(stretch) (p - c) + shift, c the page's
// middle. Each aged pixel is the mean of the page over its own area, taken through the inverse of F from a
// drawing `oversample` times finer: turning adds no blur worth naming (0.1 px) to the one asked for. Then, in
// this order: blur, fading (ink contrast), paper tint, uneven light, noise, JPEG.

#include "analysis/chart/reading.h"
#include "dice.h"

#include <QByteArray>
#include <QImage>

namespace headmark::pages {

struct PageWarp {
    double turn_rad = 0.0;
    double stretchX = 1.0, stretchY = 1.0;
    PixelPoint centre, shift;

    [[nodiscard]] PixelPoint forward(PixelPoint nominal) const;
    [[nodiscard]] PixelPoint inverse(PixelPoint aged) const;
};

struct Ageing {
    PageWarp warp;
    double blur_px = 0.0;    // sigma
    double contrast = 1.0;   // of the ink, 0.5 to 1
    double noise_grey = 0.0; // sigma, grey levels
    double lightDrop = 0.0;  // the darkest corner lacks this share of light
    double lightTowards_rad = 0.0;
    double paper[3] = {250.0, 250.0, 250.0}; // of unprinted paper: red, green, blue
    int jpegQuality = 100;
    bool colour = false;
    std::uint64_t seed = 1; // of the noise
};

// An ordinary scan: turn to 1.5 degrees, stretch within 0.25 % each way, blur 0.5 to 1.2 px, noise 3 to 12,
// light drop to 25 %, contrast 0.5 to 1, JPEG quality 60 to 90.
Ageing drawAgeing(Dice& dice, int width, int height, bool colour);

// `fine` is the page drawn `oversample` times finer than width x height.
QByteArray ageToJpeg(const QImage& fine, int oversample, int width, int height, const Ageing& ageing);
QImage age(const QImage& fine, int oversample, int width, int height, const Ageing& ageing);

} // namespace headmark::pages
