#include "analysis/chart/line_tracing.h"

#include "analysis/chart/ink_centres.h"
#include "analysis/chart/local_parabola.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace headmark {

namespace {

// Enough for a polynomial of degree 6 many times over, few enough to keep the fit quick.
constexpr std::size_t kMostSamples = 400;
// A click may miss the ink by three of its sigmas, and by a little more on thin lines.
constexpr double kLeastReach_px = 4.0;
// Shorter than this is a letter or a tick, not a curve.
constexpr double kLeastLine_px = 60.0;
// The stretch under the click, which is there before anything is followed.
constexpr double kSeeds_px = 24.0;
// Bridging more than this over other ink (a shallow crossing, a label) leaves a doubt, unless what was taken
// up beyond it goes on just as foretold and it is no longer than a word.
constexpr double kDoubtfulBridge_px = 60.0;
constexpr double kAsForetold = 1.0; // squared sigmas
constexpr double kWordShare = 0.10; // of the page's shorter side
// A pump's line is longer than this: what is shorter was left, or is something else.
constexpr double kLeastLineShare = 0.15; // of the chart's width
// The centre of a stroke is not known better than this: the shape of the pen, the raster.
constexpr double kLeastSigma_px = 0.05;

Error clickError(const char* code, const std::string& place, PixelPoint click) {
    return {code, "", place, {{"x_px", click.x_px}, {"y_px", click.y_px}}};
}

Result<void> checkOnPage(PixelPoint click, const Page& page, const std::string& place) {
    const PagePoint p = pagePointOf(click, page);
    if (p.x >= -0.5 && p.y >= -0.5 && p.x <= page.width - 0.5 && p.y <= page.height - 0.5) return {};
    Error e = clickError("click-off-page", place, click);
    e.facts.push_back({"width_px", page.width / page.scale});
    e.facts.push_back({"height_px", page.height / page.scale});
    return e;
}

// How far a point lies from a path, and where along it.
struct Nearest {
    double distance_px = 1e9;
    std::size_t index = 0;
};

Nearest nearestOn(const InkPath& path, PagePoint p) {
    Nearest n;
    for (std::size_t i = 0; i < path.points.size(); ++i) {
        const double d = length(path.points[i].at - p);
        if (d < n.distance_px) n = {d, i};
    }
    return n;
}

// Spread of the measured centres about the smooth path, robustly.
double centreSigma(const InkPath& path) {
    std::vector<double> offs;
    constexpr std::size_t kHalf = 12;
    for (std::size_t i = 0; i < path.points.size(); ++i) {
        const std::size_t first = i > kHalf ? i - kHalf : 0;
        const std::size_t last = std::min(i + kHalf + 1, path.points.size());
        const LocalParabola smooth(std::span(path.points).subspan(first, last - first), path.points[i].at,
                                   path.points[i].along);
        offs.push_back(std::abs(smooth.offsetOf(path.points[i].at)));
    }
    if (offs.empty()) return kLeastSigma_px;
    std::nth_element(offs.begin(), offs.begin() + static_cast<std::ptrdiff_t>(offs.size() / 2), offs.end());
    constexpr double kMedianToSigma = 1.4826; // of a normal distribution
    return std::max(kMedianToSigma * offs[offs.size() / 2], kLeastSigma_px);
}

class LineTracer {
  public:
    LineTracer(const ChartLine& line, const InkField& field, const Page& page, const PixelSigmas& sigmas,
               std::string place, const Rulings& rulings)
        : line_(line), field_(field), page_(page), sigmas_(sigmas), place_(std::move(place)),
          rulings_(rulings) {}

    Result<TracedLine> run();

  private:
    [[nodiscard]] Result<InkPath> follow(PixelPoint click, const std::string& place);
    [[nodiscard]] bool liesOnRuling(const StrokeStart& start) const;
    [[nodiscard]] std::optional<StrokeStart> besideGap(PagePoint click, double reach_px,
                                                       const std::optional<InkDensity>& wanted) const;
    [[nodiscard]] Result<void> followAll();
    void takeUp(const InkPath& path);
    void addSpots();
    void note(const InkPath& path);
    [[nodiscard]] Caution cautionAt(const char* code, Severity severity, PagePoint at) const;
    void doubt(Caution caution);

    const ChartLine& line_;
    const InkField& field_;
    const Page& page_;
    const PixelSigmas& sigmas_;
    std::string place_;
    const Rulings& rulings_;
    std::vector<InkPath> paths_;
    TracedLine traced_;
};

Result<InkPath> LineTracer::follow(PixelPoint click, const std::string& place) {
    if (auto on = checkOnPage(click, page_, place); !on) return on.error();
    const double reach = std::max(kLeastReach_px, 3.0 * sigmas_.spot_px * page_.scale);
    const auto wanted = line_.ink ? std::optional(densityOf(*line_.ink)) : std::nullopt;
    auto start = strokeUnder(field_, pagePointOf(click, page_), reach, wanted, rulings_);
    if (!start) start = besideGap(pagePointOf(click, page_), reach, wanted);
    if (!start) return clickError("click-on-paper", place, click);
    InkPath path = followInk(field_, *start, rulings_);
    const bool onRuling = liesOnRuling(*start);
    if (onRuling && path.length_px() < kLeastLine_px + kSeeds_px)
        return clickError("click-on-ruling", place, click);
    if (path.length_px() < kLeastLine_px) {
        Error e = clickError("line-too-short", place, click);
        e.facts.push_back({"length_px", path.length_px() / page_.scale});
        return e;
    }
    std::vector<PagePoint> way;
    for (const PathPoint& p : path.points)
        way.push_back(p.at);
    const bool asRuling = rulings_.runsAsRuling(way);
    // What was found from there may be the line that was meant, or one that crosses the ruling.
    if ((start->atCrossing || onRuling || asRuling) && line_.followFrom.size() == 1)
        doubt(cautionAt("line-ambiguous", Severity::warning, start->at));
    refineCentres(field_, path, kMostSamples);
    return path;
}

// A click in the gap of a dashed line: two dashes alike that lie in one line with the click between them. One
// of them; none where the paper is bare to one side.
std::optional<StrokeStart> LineTracer::besideGap(PagePoint click, double reach_px,
                                                 const std::optional<InkDensity>& wanted) const {
    constexpr int kDirections = 48;
    constexpr double kNearest_px = 8.0, kFarthest_px = 34.0, kStep_px = 3.0, kLeastInk = 0.1;
    constexpr double kSameWay = 0.25; // sine
    const auto dashAt = [&](PagePoint at, PagePoint way) -> std::optional<StrokeStart> {
        double ink = 0.0; // a stroke is dark along itself
        for (const double s : {-1.5, 0.0, 1.5})
            for (const double off : {-2.0, -1.0, 0.0, 1.0, 2.0})
                ink =
                    std::max(ink, field_.at(at.x + s * way.x - off * way.y, at.y + s * way.y + off * way.x));
        if (ink < kLeastInk) return std::nullopt;
        auto found = strokeUnder(field_, at, reach_px, wanted, rulings_);
        if (!found || liesOnRuling(*found) || found->atCrossing) return std::nullopt;
        const double sine = found->along.x * way.y - found->along.y * way.x;
        const PagePoint from = click - found->at;
        const double aside = std::abs(from.x * found->along.y - from.y * found->along.x);
        if (std::abs(sine) > kSameWay || aside > reach_px + 2.0) return std::nullopt;
        return found;
    };
    // Well inside a dash rather than at its end.
    const auto inked = [&](const StrokeStart& dash) {
        constexpr double kHalf_px = 8.0;
        double sum = 0.0;
        for (double s = -kHalf_px; s <= kHalf_px; s += 1.0)
            sum += field_.at(dash.at.x + s * dash.along.x, dash.at.y + s * dash.along.y);
        return sum;
    };
    const auto bestAlong = [&](PagePoint way) {
        std::optional<StrokeStart> best;
        for (double r = kNearest_px; r <= kFarthest_px; r += kStep_px) {
            const auto dash = dashAt(click + r * way, way);
            if (dash && (!best || inked(*dash) > inked(*best))) best = dash;
        }
        return best;
    };
    // To the other side of the click: a dash or a dot as wide.
    const auto marked = [&](const StrokeStart& dash) {
        const double to = dot(click - dash.at, dash.along) > 0.0 ? 1.0 : -1.0;
        const PagePoint on = dash.at + dot(click - dash.at, dash.along) * dash.along;
        for (double s = kNearest_px; s <= kFarthest_px; s += 1.0) {
            const Profile across = profileAcross(field_, on + to * s * dash.along, dash.along,
                                                 kProfileReach_px, 1.0, &dash.look);
            for (const StrokeSight& stroke : strokesIn(across, 0.5 * dash.look.darkness))
                if (std::abs(stroke.offset_px) < 3.0 && stroke.width_px < 1.5 * dash.look.width_px + 0.5 &&
                    stroke.width_px > 0.5 * dash.look.width_px)
                    return true;
        }
        return false;
    };
    std::optional<StrokeStart> best;
    for (int d = 0; d < kDirections; ++d) {
        const double angle = 2.0 * std::numbers::pi * static_cast<double>(d) / kDirections;
        const PagePoint way{std::cos(angle), std::sin(angle)};
        const auto ahead = bestAlong(way);
        if (!ahead) continue;
        if (!marked(*ahead) || (best && inked(*best) >= inked(*ahead))) continue;
        best = ahead;
    }
    return best;
}

// Along the whole strip under the click there is a ruling of the same look.
bool LineTracer::liesOnRuling(const StrokeStart& start) const {
    constexpr double kHalf_px = 12.0;
    for (const double s : {-kHalf_px, 0.0, kHalf_px}) {
        const auto beside = rulings_.beside(start.at + s * start.along, start.along, kHalf_px);
        if (!isRuling({0.0, start.look.width_px, start.look.darkness, 0.0}, beside)) return false;
    }
    return true;
}

Result<void> LineTracer::followAll() {
    for (std::size_t k = 0; k < line_.followFrom.size(); ++k) {
        const PixelPoint click = line_.followFrom[k];
        const std::string place = place_ + ".follow_from[" + std::to_string(k) + "]";
        if (auto on = checkOnPage(click, page_, place); !on) return on.error();
        const PagePoint p = pagePointOf(click, page_);
        // A click on what was followed already adds nothing.
        const bool known = std::any_of(paths_.begin(), paths_.end(), [&](const InkPath& path) {
            const double reach = std::max(kLeastReach_px, 3.0 * sigmas_.spot_px * page_.scale);
            return nearestOn(path, p).distance_px <= reach + 2.0 + path.look.width_px;
        });
        if (known) continue;
        auto path = follow(click, place);
        if (!path) return path.error();
        for (const InkPath& other : paths_) {
            // Two ways over the same stretch of the page, beside each other: not one line.
            const double left = std::max(path->points.front().at.x, other.points.front().at.x);
            const double right = std::min(path->points.back().at.x, other.points.back().at.x);
            if (right - left > 0.25 * path->length_px()) return clickError("click-off-line", place, click);
        }
        paths_.push_back(std::move(*path));
    }
    return {};
}

void LineTracer::doubt(Caution caution) {
    traced_.doubtful = true;
    traced_.cautions.push_back(std::move(caution));
}

Caution LineTracer::cautionAt(const char* code, Severity severity, PagePoint at) const {
    const PixelPoint p = pixelPointOf(at, page_);
    Caution c;
    c.code = code;
    c.severity = severity;
    c.place = place_;
    c.values = {{"x_px", p.x_px}, {"y_px", p.y_px}};
    return c;
}

void LineTracer::note(const InkPath& path) {
    for (const PathGap& gap : path.gaps) {
        const bool asForetold =
            gap.misfit < kAsForetold && gap.length_px < kWordShare * std::min(page_.width, page_.height);
        const bool doubtful = gap.length_px > kDoubtfulBridge_px && !asForetold;
        Caution c = cautionAt("line-bridged", doubtful ? Severity::warning : Severity::note, gap.from);
        c.values.push_back({"length_px", gap.length_px / page_.scale});
        if (doubtful) doubt(std::move(c));
    }
    if (path.startsAt == PathEnd::lost)
        doubt(cautionAt("line-lost", Severity::warning, path.points.front().at));
    const bool isLong = path.length_px() >= kLeastLineShare * rulings_.width_px();
    if (path.endsAt == PathEnd::lost || (!isLong && path.startsAt != PathEnd::lost))
        doubt(cautionAt("line-lost", Severity::warning, path.points.back().at));
}

void LineTracer::takeUp(const InkPath& path) {
    const double sigma = centreSigma(path);
    for (const PathPoint& p : path.points)
        traced_.points.push_back({p.at, p.along, sigma, false});
    traced_.look = path.look;
    note(path);
}

// The line passes through its spots: where the ink that was followed says otherwise, the spot is right and
// the stretch about it is dropped.
void LineTracer::addSpots() {
    const double sigma = sigmas_.spot_px * page_.scale;
    for (const PixelPoint& spot : line_.spots) {
        const PagePoint p = pagePointOf(spot, page_);
        double nearest = 1e9;
        for (const TracedPoint& t : traced_.points)
            if (!t.clicked) nearest = std::min(nearest, length(t.at - p));
        const double off = std::max(4.0 * sigma, 2.0);
        constexpr double kReach_px = 60.0;
        if (nearest > off) {
            std::erase_if(traced_.points, [&](const TracedPoint& t) {
                return !t.clicked && std::abs(t.at.x - p.x) < kReach_px;
            });
        }
        traced_.points.push_back({p, {1.0, 0.0}, sigma, true});
    }
}

Result<TracedLine> LineTracer::run() {
    for (std::size_t k = 0; k < line_.spots.size(); ++k) {
        const std::string place = place_ + ".spots[" + std::to_string(k) + "]";
        if (auto on = checkOnPage(line_.spots[k], page_, place); !on) return on.error();
    }
    if (auto followed = followAll(); !followed) return followed.error();
    std::sort(paths_.begin(), paths_.end(), [](const InkPath& a, const InkPath& b) {
        return a.points.front().at.x < b.points.front().at.x;
    });
    for (const InkPath& path : paths_)
        takeUp(path);
    addSpots();
    return std::move(traced_);
}

} // namespace

PagePoint pagePointOf(PixelPoint p, const Page& page) {
    return {(p.x_px + 0.5) * page.scale - 0.5, (p.y_px + 0.5) * page.scale - 0.5};
}

PixelPoint pixelPointOf(PagePoint p, const Page& page) {
    return {(p.x + 0.5) / page.scale - 0.5, (p.y + 0.5) / page.scale - 0.5};
}

Result<TracedLine> traceLine(const ChartLine& line, const InkField& field, const Page& page,
                             const PixelSigmas& sigmas, const std::string& place, const Rulings& rulings) {
    return LineTracer(line, field, page, sigmas, place, rulings).run();
}

} // namespace headmark
