#include "analysis/chart/dash_pattern.h"

#include "analysis/chart/median.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr double kTwoLines = 2.1; // in widths of one

} // namespace

double DashPattern::usualGap_px() const { return medianOf(gaps_); }

double DashPattern::usualWidth_px() const {
    std::vector<double> widths;
    for (const Dash& dash : dashes_)
        widths.push_back(dash.width_px);
    return medianOf(std::move(widths));
}

bool DashPattern::isThickStretch(double width_px) const { return width_px > kTwoLines * usualWidth_px(); }

double DashPattern::longestDash_px(double width_px) const {
    std::vector<double> dashes;
    const double thick = kTwoLines * usualWidth_px();
    for (const Dash& dash : dashes_)
        if (dash.width_px <= thick) dashes.push_back(dash.length_px);
    std::sort(dashes.begin(), dashes.end());
    // One of many may have been joined to the next by other ink.
    constexpr std::size_t kMany = 6;
    const double longest = dashes[dashes.size() - (dashes.size() >= kMany ? 2 : 1)];
    return 3.2 * longest + 2.0 * usualGap_px() + 2.0 * width_px;
}

} // namespace headmark
