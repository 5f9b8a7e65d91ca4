#include "analysis/chart/pen_change.h"

#include "analysis/chart/ink_centres.h"
#include "analysis/chart/median.h"
#include "analysis/chart/ruling_strokes.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kLooked_px = 30.0, kMostUnseen = 0.4;
// In ink, width times darkness: the blur of a lens takes from a thin line's darkness, not from its ink.
constexpr double kThicker = 1.3, kMostTimes = 10.0, kThinner = 0.75;
constexpr double kFainter = 0.6, kBlurred_px = 1.5;
constexpr double kSameWay = 0.025; // sine to a ruling's direction

struct Pen {
    double width_px = 0.0, darkness = 0.0, spread_px = 0.0;
};

// What goes on past the change itself.
std::optional<Pen> penAhead(const InkField& field, const Rulings& rulings, const StrokeLook& look,
                            const LocalParabola& way, double start_px, double step_px) {
    std::vector<double> widths, darks;
    double unseen_px = 0.0;
    for (double ahead = start_px; ahead < start_px + kLooked_px; ahead += step_px) {
        const PagePoint at = way.at(ahead), along = way.directionAt(ahead);
        const auto beside = rulings.beside(at, along, kProfileReach_px);
        const Profile profile = profileAcross(field, at, along, 2.0 * kProfileReach_px, step_px, &look);
        const std::size_t before = widths.size();
        for (const StrokeSight& s : strokesIn(profile, kLeastOfLine * look.darkness)) {
            if (std::abs(s.offset_px) > 1.5 + 0.2 * s.width_px || isRuling(s, beside)) continue;
            widths.push_back(s.width_px);
            darks.push_back(s.darkness);
        }
        if (widths.size() == before) unseen_px += step_px;
        if (unseen_px > kMostUnseen * kLooked_px) return std::nullopt;
    }
    if (widths.empty()) return std::nullopt;
    std::sort(widths.begin(), widths.end());
    return Pen{medianOf(widths), medianOf(darks),
               widths[9 * widths.size() / 10] - widths[widths.size() / 10]};
}

} // namespace

std::optional<PenChange> findPenChange(const InkField& field, const Rulings& rulings, const StrokeLook& look,
                                       const LocalParabola& foretold, double known_px, double step_px) {
    const double start = 2.0 * look.width_px + 2.0 * step_px;
    const auto pen = penAhead(field, rulings, look, foretold, start, step_px);
    if (!pen || pen->spread_px > 0.25 * pen->width_px + 0.6) return std::nullopt;
    const double times = pen->width_px * pen->darkness / (look.width_px * look.darkness);
    if (times > kMostTimes || (times > kThinner && times < kThicker)) return std::nullopt;
    const bool fainter =
        times < 1.0 && pen->darkness < kFainter * look.darkness && pen->width_px > kBlurred_px;
    if (fainter && rulings.runsLikeOne(foretold.at(start), foretold.directionAt(start), kSameWay))
        return std::nullopt;
    WayAsked asked{look, foretold};
    asked.look.width_px = pen->width_px;
    asked.look.darkness = pen->darkness;
    asked.known_px = known_px;
    asked.confirm_px = std::max(25.0, 3.0 * pen->width_px);
    asked.reach_px = start + 2.0 * asked.confirm_px;
    asked.longestPaper_px = start;
    asked.step_px = step_px;
    const auto sought = findWayAhead(field, rulings, asked);
    constexpr double kAtOnce_px = 8.0;
    if (!sought.way || sought.way->gap_px > start + kAtOnce_px) return std::nullopt;
    return PenChange{*sought.way, pen->darkness};
}

} // namespace headmark
