#include "analysis/chart/ink_row.h"

#include <cmath>

namespace headmark {

double sigmaOfPlace(const StrokeLook& look, double ahead_px) {
    return 0.4 + 0.1 * look.width_px + 0.015 * ahead_px;
}

double InkRow::cost(const StrokeLook& look) const {
    const auto n = static_cast<double>(ahead.size());
    double s1 = 0.0, t1 = 0.0;
    for (std::size_t i = 0; i < ahead.size(); ++i) {
        s1 += ahead[i];
        t1 += offset[i];
    }
    const double middle = s1 / n, place = t1 / n;
    double ss = 0.0, st = 0.0;
    for (std::size_t i = 0; i < ahead.size(); ++i) {
        ss += (ahead[i] - middle) * (ahead[i] - middle);
        st += (ahead[i] - middle) * (offset[i] - place);
    }
    const double slope = ss > 0.0 ? st / ss : 0.0;
    // The centres of a row are good to a few tenths of a pixel.
    const double sigmaSlope = 0.03 + 0.0006 * middle + (ss > 0.0 ? 0.35 / std::sqrt(ss) : 1.0);
    const double sigmaPlace = wide ? 0.5 + 0.15 * width() : sigmaOfPlace(look, middle);
    return std::pow(place / sigmaPlace, 2) + std::pow(slope / sigmaSlope, 2);
}

} // namespace headmark
