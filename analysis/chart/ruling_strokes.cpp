#include "analysis/chart/ruling_strokes.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace headmark {

namespace {

// Of two strokes drawn over each other along the way.
std::optional<StrokeSight> halfHidden(const StrokeSight& both, const StrokeLook& look,
                                      const RulingBeside& r) {
    constexpr double kLeastOut = 0.35, kLeastOut_px = 0.6, kSpare_px = 0.6;
    if (both.width_px < look.width_px + kLeastOut_px) return std::nullopt;
    if (both.width_px > look.width_px + r.width_px + kSpare_px) return std::nullopt;
    const double left = both.offset_px - 0.5 * both.width_px, right = both.offset_px + 0.5 * both.width_px;
    const double outLeft = r.offset_px - 0.5 * r.width_px - left,
                 outRight = right - r.offset_px - 0.5 * r.width_px;
    const double out = std::max(outLeft, outRight);
    if (out < std::max(kLeastOut * look.width_px, kLeastOut_px) || std::min(outLeft, outRight) > kSpare_px)
        return std::nullopt;
    StrokeSight line = both;
    line.width_px = look.width_px;
    line.offset_px = outLeft > outRight ? left + 0.5 * look.width_px : right - 0.5 * look.width_px;
    return line;
}

} // namespace

std::vector<StrokeSight> strokesBesideRulings(const Profile& profile, const StrokeLook& look,
                                              const std::vector<RulingBeside>& beside, bool dashed) {
    std::vector<StrokeSight> seen;
    for (const StrokeSight& s : strokesIn(profile, kLeastOfLine * look.darkness)) {
        if (isRuling(s, beside)) continue;
        seen.push_back(s);
        if (dashed) continue;
        for (const RulingBeside& r : beside)
            if (const auto line = halfHidden(s, look, r)) seen.push_back(*line);
    }
    return seen;
}

bool isRuling(const StrokeSight& s, const std::vector<RulingBeside>& beside) {
    return std::any_of(beside.begin(), beside.end(), [&](const RulingBeside& b) {
        return std::abs(s.offset_px - b.offset_px) <= 0.3 * b.width_px + 0.7 &&
               s.width_px <= 1.35 * b.width_px + 0.8 &&
               s.darkness <= std::max(1.35 * b.darkness, b.inkedMost) + 0.05;
    });
}

} // namespace headmark
