#include "analysis/chart/dash_start.h"

#include "analysis/chart/median.h"
#include "analysis/chart/ruling_strokes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace headmark {

namespace {

// Half of a strip, along and across: some dashes of a coarse pattern, little of a curve's bend.
constexpr int kHalf_px = 36, kFlank_px = 12, kMargin_px = 4;
constexpr int kDirections = 120;
constexpr double kTrace = 0.05; // of ink: below, neither colour nor ruling is asked for
// Of the least ink told from paper: a dash beside bare paper, a strip, a stroke across it.
constexpr double kMark = 2.5, kStrip = 0.8, kStroke = 1.2;

// The page about the click, once; rulings' ink left open.
class Patch {
  public:
    Patch(const InkField& field, PagePoint click, const std::optional<InkDensity>& wanted,
          const Rulings& rulings)
        : click_(click), ink_(static_cast<std::size_t>(kSide * kSide), 0.0F) {
        for (int y = 0; y < kSide; ++y) {
            for (int x = 0; x < kSide; ++x) {
                const PagePoint at = click + PagePoint{1.0 * (x - kReach), 1.0 * (y - kReach)};
                double ink = field.at(at.x, at.y);
                if (wanted && ink > kTrace) ink *= likeness(field.densityAt(at.x, at.y), *wanted);
                const bool open = ink > kTrace && rulings.covers(at);
                ink_[index(x, y)] = open ? kOpen : static_cast<float>(ink);
            }
        }
    }

    // Below 0: a ruling's.
    [[nodiscard]] double at(PagePoint p) const {
        const int x = static_cast<int>(std::lround(p.x - click_.x)) + kReach;
        const int y = static_cast<int>(std::lround(p.y - click_.y)) + kReach;
        if (x < 0 || y < 0 || x >= kSide || y >= kSide) return 0.0;
        return static_cast<double>(ink_[index(x, y)]);
    }

  private:
    static constexpr int kReach = kHalf_px + kFlank_px + kMargin_px, kSide = 2 * kReach + 1;
    static constexpr float kOpen = -1.0F;
    static std::size_t index(int x, int y) { return static_cast<std::size_t>(y * kSide + x); }
    PagePoint click_;
    std::vector<float> ink_;
};

struct Strip {
    double score = 0.0;
    PagePoint at, along;
};

// How much more ink lies on the strip than beside it, and on both of its halves.
double scoreOf(const Patch& patch, PagePoint at, PagePoint along, double flank, double least) {
    const PagePoint normal{-along.y, along.x};
    double sums[2] = {0.0, 0.0};
    int counted = 0, marks = 0;
    bool inked = false;
    for (int s = -kHalf_px; s <= kHalf_px; ++s) {
        const PagePoint on = at + (1.0 * s) * along;
        const double ink = patch.at(on);
        if (ink < 0.0) continue;
        ++counted;
        const double beside =
            std::max({patch.at(on + flank * normal), patch.at(on + (-flank) * normal), 0.0});
        const double clear = ink - beside;
        sums[s < 0 ? 0 : 1] += clear;
        const bool now = clear > kMark * least;
        marks += now && !inked ? 1 : 0;
        inked = now;
    }
    constexpr int kFewest = 2;
    if (counted < kHalf_px || marks < kFewest) return 0.0;
    // Dashes go on to both sides of the click.
    return (std::min(sums[0], sums[1]) * 1.5 + 0.25 * std::max(sums[0], sums[1])) / counted;
}

Strip bestStrip(const Patch& patch, PagePoint click, double reach_px, double least) {
    const double perPixel = 0.1 * least;
    Strip best;
    for (const double flank : {4.0, 7.0, 11.0}) {
        for (int d = 0; d < kDirections; ++d) {
            const double angle = std::numbers::pi * (static_cast<double>(d) / kDirections - 0.5);
            const PagePoint along{std::cos(angle), std::sin(angle)}, normal{-along.y, along.x};
            for (double off = -reach_px; off <= reach_px; off += 1.0) {
                const PagePoint at = click + off * normal;
                const double score = scoreOf(patch, at, along, flank, least) - perPixel * std::abs(off);
                if (score > best.score) best = {score, at, along};
            }
        }
    }
    return best;
}

// A stroke on the strip.
struct Mark {
    PathPoint point;
    double darkness = 0.0;
};

// At every pixel along the strip, where one stands there that is no ruling's.
std::vector<Mark> marksAlong(const InkField& field, const Strip& strip, const Rulings& rulings,
                             double least) {
    constexpr double kOff_px = 3.0;
    std::vector<Mark> marks;
    const PagePoint normal{-strip.along.y, strip.along.x};
    for (int s = -kHalf_px; s <= kHalf_px; ++s) {
        const PagePoint on = strip.at + (1.0 * s) * strip.along;
        const auto beside = rulings.beside(on, strip.along, kFlank_px);
        std::optional<StrokeSight> nearest;
        for (const StrokeSight& k :
             strokesIn(profileAcross(field, on, strip.along, kFlank_px, 0.5), kStroke * least)) {
            if (std::abs(k.offset_px) > kOff_px || isRuling(k, beside) ||
                rulings.covers(on + k.offset_px * normal))
                continue;
            if (!nearest || std::abs(k.offset_px) < std::abs(nearest->offset_px)) nearest = k;
        }
        if (nearest)
            marks.push_back(
                {{on + nearest->offset_px * normal, strip.along, 0.0, nearest->width_px}, nearest->darkness});
    }
    return marks;
}

std::optional<DashStart> dashesAbove(const InkField& field, const Patch& patch, PagePoint click,
                                     double reach_px, const std::optional<InkDensity>& wanted,
                                     const Rulings& rulings, double least) {
    const Strip strip = bestStrip(patch, click, reach_px, least);
    if (strip.score < kStrip * least) return std::nullopt;
    std::vector<Mark> marks = marksAlong(field, strip, rulings, least);
    std::vector<double> widths, darks;
    for (const Mark& m : marks) {
        widths.push_back(m.point.width_px);
        darks.push_back(m.darkness);
    }
    DashStart start;
    start.look.width_px = medianOf(widths);
    start.look.darkness = medianOf(darks);
    std::erase_if(marks, [&](const Mark& m) {
        return std::abs(m.point.width_px - start.look.width_px) > 0.4 * start.look.width_px + 0.7 ||
               m.darkness < 0.5 * start.look.darkness;
    });
    constexpr std::size_t kFewest = 6;
    if (marks.size() < kFewest) return std::nullopt;
    if (field.hasColour()) {
        const PagePoint at = marks[marks.size() / 2].point.at;
        start.look.colour = wanted.value_or(field.densityAt(at.x, at.y));
        start.look.byColour = isColoured(start.look.colour);
    }
    for (Mark& m : marks) {
        if (!start.seen.empty())
            m.point.arc_px = start.seen.back().arc_px + length(m.point.at - start.seen.back().at);
        start.seen.push_back(m.point);
    }
    return start;
}

} // namespace

std::optional<DashStart> dashesUnder(const InkField& field, PagePoint click, double reach_px,
                                     const std::optional<InkDensity>& wanted, const Rulings& rulings) {
    // Faint ones only where there are no others.
    constexpr double kPlain = 0.10;
    const Patch patch(field, click, wanted, rulings);
    auto found = dashesAbove(field, patch, click, reach_px, wanted, rulings, kPlain);
    const double faintest = leastInkAbout(field, click);
    if (!found && faintest < kPlain)
        found = dashesAbove(field, patch, click, reach_px, wanted, rulings, faintest);
    return found;
}

} // namespace headmark
