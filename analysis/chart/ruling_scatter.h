#pragma once
// How far do rulings lie off the mapping that was laid through them, and which part of it do they share?
//   off = own of the ruling + shared with the neighbours at the same place + own of the place
//   apart_px    the ruling's own: print and raster put it off as a whole
//   within_px   the place's own: noise of the page
//   shared_px   what neighbouring rulings have alike at the same place along them, their whole shifts left
//               out: paper, lens or feed bend the page in a way the mapping does not follow
// Variance components by moments, each with the degrees of freedom that the mapping took; few rulings tell
// little of their own shifts, so these are mixed with what is usual of print (inverse chi-square prior).

#include <cstddef>
#include <vector>

namespace headmark {

// One place of a ruling with a known figure, and how far it lies off it.
struct RulingPlace {
    std::size_t ruling = 0; // rulings of one sense follow each other by their figures
    bool upright = false;
    double u = 0.0, v = 0.0; // where the mapping puts it
    double off = 0.0;        // from its figure, scaled like u and v
    double perOff_px = 0.0;  // pixels of one such unit, there
    double pixels = 0.0;     // off in pixels
};

struct RulingScatter {
    std::size_t rulings = 0;
    double apart_px = 0.0, within_px = 0.0, shared_px = 0.0;

    // Of a place that stands for one of `places` of its ruling.
    [[nodiscard]] double ofPlace(std::size_t places) const;
};

// Of the level rulings or of the upright ones; `taken`: parameters of the mapping that shifts of these
// rulings as a whole decide.
[[nodiscard]] RulingScatter scatterOf(const std::vector<RulingPlace>& places, bool upright, double taken);

} // namespace headmark
