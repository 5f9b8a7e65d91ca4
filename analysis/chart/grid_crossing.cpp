#include "analysis/chart/grid_crossing.h"

#include "analysis/chart/line_tracing.h"
#include "analysis/chart/stroke.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace headmark {

namespace {

constexpr double kSteepest = 0.105; // slope of a ruling: scans are turned by less than 6 degrees
constexpr double kStationStep_px = 3.0;
constexpr double kAverage_px = 1.0;     // along the ruling
constexpr double kLeastDarkness = 0.06; // faint grids of scans stand out by a little more
constexpr double kInRow_px = 0.9;       // off the ruling's line at most
constexpr int kLongestGap = 3;          // stations: where the other ruling crosses nothing is seen
constexpr double kLeastRun = 1.2;       // length of a ruling over the radius of the search
constexpr int kFewestInRow = 6;

// One ruling in its own frame: across = offset + slope along, seen from `from` to `to`.
struct StraightRuling {
    double offset = 0.0, slope = 0.0, from = 0.0, to = 0.0;
    int seen = 0;
};

struct Seen {
    int station = 0;
    double along = 0.0, across = 0.0;
};

class RulingSearch {
  public:
    RulingSearch(const InkField& field, PagePoint centre, PagePoint along, double radius_px, double reach_px)
        : radius_px_(radius_px) {
        const int half = static_cast<int>(reach_px / kStationStep_px);
        for (int s = -half; s <= half; ++s) {
            const double at = s * kStationStep_px;
            const Profile profile = profileAcross(field, centre + at * along, along,
                                                  radius_px + kSteepest * reach_px, kAverage_px);
            for (const StrokeSight& stroke : strokesIn(profile, kLeastDarkness)) {
                // Wide bumps are letters, filled areas or the shade beside a fold.
                if (stroke.width_px < 0.5 * radius_px_ + 4.0)
                    seen_.push_back({s + half, at, stroke.offset_px});
            }
        }
    }

    // The same ruling without what the ruling across it does to its places near their meeting.
    [[nodiscard]] StraightRuling clearOf(const StraightRuling& r, double meeting) const {
        constexpr double kDisturbed_px = 5.0;
        RulingSearch clear = *this;
        std::erase_if(clear.seen_,
                      [&](const Seen& s) { return std::abs(s.along - meeting) < kDisturbed_px; });
        const StraightRuling again = clear.refined(r);
        return again.seen > 0 ? again : r;
    }

    [[nodiscard]] std::vector<StraightRuling> rulings() const {
        std::vector<StraightRuling> found;
        for (std::size_t i = 0; i < seen_.size(); ++i) {
            for (std::size_t j = i + 1; j < seen_.size(); ++j) {
                const double apart = seen_[j].along - seen_[i].along;
                if (apart < 0.6 * radius_px_) continue;
                if (apart > 2.5 * radius_px_) break; // ordered by station
                const double slope = (seen_[j].across - seen_[i].across) / apart;
                if (std::abs(slope) > kSteepest) continue;
                keep(found, refined({seen_[i].across - slope * seen_[i].along, slope, 0.0, 0.0, 0}));
            }
        }
        return found;
    }

  private:
    [[nodiscard]] std::vector<Seen> row(const StraightRuling& r) const {
        std::vector<Seen> best, run;
        for (const Seen& s : seen_) {
            if (std::abs(s.across - r.offset - r.slope * s.along) > kInRow_px) continue;
            if (!run.empty() && s.station - run.back().station > kLongestGap) {
                if (run.size() > best.size()) best = run;
                run.clear();
            }
            run.push_back(s);
        }
        return run.size() > best.size() ? run : best;
    }

    // Least squares over the stations in a row, twice; `seen` 0 where too few stand in one.
    [[nodiscard]] StraightRuling refined(StraightRuling r) const {
        for (int pass = 0; pass < 2; ++pass) {
            const std::vector<Seen> in = row(r);
            r.seen = 0;
            const double span = in.empty() ? 0.0 : in.back().along - in.front().along;
            if (static_cast<int>(in.size()) < kFewestInRow || span < kLeastRun * radius_px_) return r;
            double n = 0.0, s1 = 0.0, s2 = 0.0, t1 = 0.0, st = 0.0;
            for (const Seen& s : in) {
                n += 1.0;
                s1 += s.along;
                s2 += s.along * s.along;
                t1 += s.across;
                st += s.along * s.across;
            }
            r.slope = (n * st - s1 * t1) / (n * s2 - s1 * s1);
            r.offset = (t1 - r.slope * s1) / n;
            r.from = in.front().along;
            r.to = in.back().along;
            r.seen = static_cast<int>(in.size());
        }
        return r;
    }

    // Of rulings that are one, the better seen.
    static void keep(std::vector<StraightRuling>& found, const StraightRuling& r) {
        if (r.seen == 0) return;
        for (StraightRuling& f : found) {
            const double middle = 0.5 * (r.from + r.to);
            if (std::abs(f.offset + f.slope * middle - r.offset - r.slope * middle) > 2.0) continue;
            if (r.seen > f.seen) f = r;
            return;
        }
        found.push_back(r);
    }

    double radius_px_;
    std::vector<Seen> seen_;
};

// y = lo + ls x and -x = uo + us y.
PagePoint meeting(const StraightRuling& level, const StraightRuling& upright) {
    const double y = (level.offset - level.slope * upright.offset) / (1.0 + level.slope * upright.slope);
    return {-(upright.offset + upright.slope * y), y};
}

bool reaches(const StraightRuling& r, double along) {
    constexpr double kShort_px = kStationStep_px * (kLongestGap + 1);
    return along > r.from - kShort_px && along < r.to + kShort_px;
}

} // namespace

std::optional<PixelPoint> gridCrossingNear(const Page& page, PixelPoint near_px, double radius_px) {
    const PagePoint centre = pagePointOf(near_px, page);
    const double radius = radius_px * page.scale;
    const double reach = std::max(24.0, 2.2 * radius);
    const int margin = static_cast<int>(std::ceil(reach + radius)) + 4;
    const cv::Rect region(static_cast<int>(centre.x) - margin, static_cast<int>(centre.y) - margin,
                          2 * margin, 2 * margin);
    if ((region & cv::Rect(0, 0, page.width, page.height)).empty()) return std::nullopt;
    const InkField field(page, region);
    // A level ruling: along x, across y. An upright one: along y, across -x (the normal of (0, 1)).
    const RulingSearch levels(field, centre, {1.0, 0.0}, radius, reach);
    const RulingSearch uprights(field, centre, {0.0, 1.0}, radius, reach);
    const auto upright = uprights.rulings();
    std::optional<PagePoint> best;
    double nearest = radius;
    for (const StraightRuling& l : levels.rulings()) {
        for (const StraightRuling& u : upright) {
            const PagePoint rough = meeting(l, u);
            if (!reaches(l, rough.x) || !reaches(u, rough.y)) continue;
            const PagePoint fine = meeting(levels.clearOf(l, rough.x), uprights.clearOf(u, rough.y));
            if (length(fine) > nearest) continue;
            nearest = length(fine);
            best = centre + fine;
        }
    }
    if (!best) return std::nullopt;
    return pixelPointOf(*best, page);
}

} // namespace headmark
