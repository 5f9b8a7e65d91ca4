#include "analysis/chart/run_together.h"

#include "analysis/chart/ink_centres.h"
#include "analysis/chart/path_marcher.h"
#include "analysis/chart/path_tail.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace headmark {

namespace {

// The way is foretold from so much of it, inked for the most part.
constexpr double kLookBack_px = 100.0;
// A band is no wider than three lines side by side, and is seen over most of its way.
constexpr double kMostWidths = 3.2, kSpare_px = 2.0, kLeastInked = 0.4;
constexpr double kLeast_px = 25.0;
constexpr double kInked = 0.35; // of the line's darkness
// How far a band may lie off the way foretold (and with each width of the line), a ruling's ink beyond its
// edges, and the least that the line may lie off: px.
constexpr double kOff_px = 1.0, kOffPerWidth = 0.3, kEdge_px = 1.0, kLeastSpare_px = 0.3;
constexpr std::size_t kMost = 4000;

struct Band {
    double left_px = 0.0, right_px = 0.0;
    [[nodiscard]] double width() const { return right_px - left_px; }
    [[nodiscard]] double distance() const { return std::max({left_px, -right_px, 0.0}); }
};

// The band nearest to the foretold way.
std::optional<Band> bandAcross(const Profile& profile, double least) {
    std::optional<Band> nearest;
    const std::size_t n = profile.ink.size();
    for (std::size_t i = 0; i < n; ++i) {
        if (profile.ink[i] < least) continue;
        const std::size_t first = i;
        while (i + 1 < n && profile.ink[i + 1] >= least)
            ++i;
        const Band band{profile.offsetOf(first) - 0.5 * kProfileStep_px,
                        profile.offsetOf(i) + 0.5 * kProfileStep_px};
        if (!nearest || band.distance() < nearest->distance()) nearest = band;
    }
    return nearest;
}

// The way with the band beyond it; without one, the way.
std::vector<PathPoint> withBand(const InkField& field, const Rulings& rulings, const StrokeLook& look,
                                std::vector<PathPoint> way, double longestPaper_px) {
    const std::size_t own = way.size();
    const double step = stepFor(look);
    double ahead = 0.0, inked = 0.0, known = 0.0;
    for (std::size_t k = 0; k < kMost; ++k) {
        const LocalParabola foretold = foretell(way, kLookBack_px, step);
        ahead += step;
        const PagePoint at = foretold.at(ahead), along = foretold.directionAt(ahead);
        if (!field.contains(at.x, at.y) || !rulings.enclose(at) || ahead > longestPaper_px) break;
        const Profile profile = profileAcross(field, at, along, kProfileReach_px, step, &look);
        const auto band = bandAcross(profile, kInked * look.darkness);
        if (!band || band->distance() > kOff_px + kOffPerWidth * look.width_px) continue;
        const auto beside = rulings.beside(at, along, kProfileReach_px);
        if (band->width() > kMostWidths * look.width_px + kSpare_px) continue; // a crossing, a word
        const bool asRuling = std::any_of(beside.begin(), beside.end(), [&](const RulingBeside& r) {
            return band->left_px > r.offset_px - 0.5 * r.width_px - kEdge_px &&
                   band->right_px < r.offset_px + 0.5 * r.width_px + kEdge_px;
        });
        if (asRuling) continue;
        const double spare = 0.5 * std::max(band->width() - look.width_px, 0.0);
        const double middle = 0.5 * (band->left_px + band->right_px);
        const double off = std::clamp(0.0, middle - spare, middle + spare);
        PathPoint p{at + off * PagePoint{-along.y, along.x}, along, way.back().arc_px, band->width()};
        p.arc_px += length(p.at - way.back().at);
        p.spare_px = std::max(spare, kLeastSpare_px);
        inked += std::min(ahead, 2.0 * step);
        known += length(p.at - way.back().at);
        way.push_back(p);
        ahead = 0.0;
    }
    if (known < kLeast_px || inked < kLeastInked * known) way.resize(own);
    return way;
}

} // namespace

std::vector<PathPoint> followTogether(const InkField& field, const Rulings& rulings, const StrokeLook& look,
                                      const std::vector<PathPoint>& path, double longestPaper_px,
                                      double lookBack_px) {
    constexpr double kLeastKnown_px = 60.0, kLeastGain_px = 40.0;
    const double end = path.back().arc_px;
    if (end - path.front().arc_px < kLeastKnown_px || path.back().at.x > path.front().at.x) return {};
    std::vector<PathPoint> longest;
    // Just before the line is lost among others its sights may be drawn aside by them.
    for (const double back_px : {0.0, 0.4 * lookBack_px, lookBack_px}) {
        std::vector<PathPoint> way = path;
        takeBack(way, end - back_px);
        way = withBand(field, rulings, look, std::move(way), longestPaper_px);
        if (way.back().arc_px < end + kLeastGain_px) continue;
        if (longest.empty() || way.back().arc_px > longest.back().arc_px) longest = std::move(way);
    }
    return longest;
}

} // namespace headmark
