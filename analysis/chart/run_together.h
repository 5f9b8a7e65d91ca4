#pragma once
// Lines that draw together and run as one to their end, as the efficiencies of a family of impellers do
// towards zero flow: dashes fall over each other's, and no stroke is as wide as the line was. What is seen is
// a band of ink about the way foretold; the line lies in it, as near to the way as the band allows.

#include "analysis/chart/ink_path.h"

namespace headmark {

// The places along the band from the last one of `points` on, each with how far the line may lie off it
// (spare_px). Empty where there is no such band, or where it widens or parts again.
[[nodiscard]] std::vector<PathPoint> followTogether(const InkField& field, const Rulings& rulings,
                                                    const StrokeLook& look,
                                                    const std::vector<PathPoint>& points,
                                                    double longestPaper_px);

} // namespace headmark
