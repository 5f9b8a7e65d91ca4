#pragma once
// How well are hard pages read? Pages of hard_pages.h, every line read once or more with pins 0.7 px and
// clicks 1 px off, judged per class:
//   close   rms of the curve within 1 % of the axis' span and at least 90 % of the line covered
//   fine    within 0.25 %, at least 95 % covered, at most 2 % of its length read past the ends
//   ratio   rms over the floor of perfect tracing through the same pins
// Lines of equal efficiency stand on the pages but are not judged: they have no fit.

#include "tests/pages/redraws.h"

#include <cstddef>
#include <ostream>
#include <string>
#include <vector>

namespace headmark::pages {

struct HardDraw {
    std::string page, pageClass, line, style;
    PixelPoint click;
    Comparison read;

    [[nodiscard]] bool isClose() const;
    [[nodiscard]] bool isFine() const;
    [[nodiscard]] bool isSure() const;
};

struct HardSummary {
    std::size_t draws = 0, found = 0, sure = 0, close = 0, fine = 0, sureButWrong = 0, doubtfulButRight = 0;
    std::size_t sureButShort = 0;              // of those that are not wrong, covered too little to be close
    double medianRatio = 0.0, highRatio = 0.0; // median and 90 % quantile, of what was found
    double heldShare = 0.0;                    // places whose truth lies in the 95 % interval, of close draws
    double sigmaToError = 0.0;                 // median sigma over rms error, of close draws

    [[nodiscard]] double share(std::size_t of) const;
};

std::vector<HardDraw> redrawHardPage(const std::string& name, int draws);
HardSummary summaryOf(const std::vector<HardDraw>& draws, const std::string& pageClass); // "": all

// How honest the errors are, over many draws, of close ones:
//   samplesWithin  share of samples within two of their sigmas
//   placesHeld     share of places (41 on each line) whose 95 % band, 1.96 sigma, holds the truth
//   whollyHeld     share of readings whose truth lies wholly in the band made to hold a whole line
//                  (whole_band.h)
//   sigmaToError   median sigma over the rms error, both over all places of all lines and draws: what one
//                  sigma says against what the errors are
//   ofLines        the same line by line, its median. The page's own error is the same in all draws of a
//   line,
//                  so that this is above one where sigma is right: 1.48 where such an error only shifts a
//                  line (one over the median of |z| of a normal z), 1.20 where it shifts and turns it
//                  (chi-square of two degrees)
struct Honesty {
    std::size_t lines = 0;
    double samplesWithin = 0.0, placesHeld = 0.0, whollyHeld = 0.0, sigmaToError = 0.0, ofLines = 0.0;
};
Honesty honestyOf(const std::vector<HardDraw>& draws, const std::string& pageClass); // "": all
void printHonesty(const std::vector<HardDraw>& draws, std::ostream& out);

// The style of a draw's page, the first part of its name, and the draws of one style.
std::string pageStyleOf(const HardDraw& draw);
std::vector<HardDraw> ofPageStyle(const std::vector<HardDraw>& draws, const std::string& style);

// By class and by style.
void printHardTable(const std::vector<HardDraw>& draws, std::ostream& out);
// Every draw that is not fine, and what went wrong.
void printFailures(const std::vector<HardDraw>& draws, std::ostream& out);

} // namespace headmark::pages
