#pragma once
// Lines that draw together and run as one to their end, as the efficiencies of a family of impellers do
// towards zero flow: dashes fall over each other's, and no stroke is as wide as the line was. What is seen is
// a band of ink about the way foretold; the line lies in it, as near to the way as the band allows.

#include "analysis/chart/ink_path.h"

namespace headmark {

// `path` made longer along the band, towards lower flows (the page's left): each of its places there says how
// far the line may lie off it (spare_px). Empty where it is not longer, or where little is known of the line.
// Bare paper goes on no farther than `longestPaper_px`; `lookBack_px` is what the path is foretold from.
[[nodiscard]] std::vector<PathPoint> followTogether(const InkField& field, const Rulings& rulings,
                                                    const StrokeLook& look,
                                                    const std::vector<PathPoint>& path,
                                                    double longestPaper_px, double lookBack_px);

} // namespace headmark
