#include "analysis/chart/line_tracing.h"

#include "analysis/chart/dash_start.h"
#include "analysis/chart/ink_centres.h"
#include "analysis/chart/local_parabola.h"
#include "analysis/chart/median.h"
#include "analysis/chart/ruling_strokes.h"

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
constexpr double kLeastAlongFlow = 0.12;
// Ink beside the line, of its own: more of it all along is no line but a pattern or noise.
constexpr double kMostBeside = 0.55;
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
        offs.push_back(smooth.offsetOf(path.points[i].at));
    }
    if (offs.empty()) return kLeastSigma_px;
    return std::max(normalSpreadOf(std::move(offs)), kLeastSigma_px);
}

class LineTracer {
  public:
    LineTracer(const ChartLine& line, const InkField& field, const Page& page, const PixelSigmas& sigmas,
               std::string place, const Rulings& rulings)
        : line_(line), field_(field), page_(page), sigmas_(sigmas), place_(std::move(place)),
          rulings_(rulings) {}

    Result<TracedLine> run();

  private:
    struct Found {
        std::optional<InkPath> path; // empty: bare paper
        bool onRuling = false, ambiguous = false;
    };
    [[nodiscard]] Found findUnder(PagePoint at) const;
    [[nodiscard]] Result<InkPath> follow(PixelPoint click, const std::string& place);
    [[nodiscard]] bool liesOnRuling(const StrokeStart& start) const;
    [[nodiscard]] bool runsAsRuling(const InkPath& path) const;
    [[nodiscard]] bool standsInInk(const InkPath& path) const;
    [[nodiscard]] bool hopsAlongGrid(const InkPath& path) const;
    [[nodiscard]] Result<void> followAll();
    void takeUp(const InkPath& path);
    void addSpots();
    void note(const InkPath& path);
    void noteTogether(const InkPath& path);
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

// The line under the click; where that is a ruling or none, dashes.
LineTracer::Found LineTracer::findUnder(PagePoint at) const {
    const double reach = std::max(kLeastReach_px, 3.0 * sigmas_.spot_px * page_.scale);
    const auto wanted = line_.ink ? std::optional(densityOf(*line_.ink)) : std::nullopt;
    LineManner manner;
    manner.bends = line_.quantity == LineQuantity::isoEfficiency;
    manner.together = line_.quantity == LineQuantity::efficiency;
    Found found;
    if (const auto start = strokeUnder(field_, at, reach, wanted, rulings_)) {
        found.path = followInk(field_, *start, rulings_, manner);
        found.onRuling = liesOnRuling(*start);
        const bool asRuling = runsAsRuling(*found.path);
        found.ambiguous = start->atCrossing || found.onRuling || asRuling;
        if (!found.onRuling && !asRuling && found.path->length_px() >= kLeastLine_px) return found;
    }
    const auto dashes = dashesUnder(field_, at, reach, wanted, rulings_);
    if (!dashes) return found;
    manner.dashed = true;
    InkPath path = followDashes(field_, dashes->look, dashes->seen, rulings_, manner);
    constexpr double kLeast_px = 2.0 * kLeastLine_px;
    if (path.length_px() < kLeast_px || runsAsRuling(path) || hopsAlongGrid(path)) return found;
    return {std::move(path), false, false};
}

Result<InkPath> LineTracer::follow(PixelPoint click, const std::string& place) {
    if (auto on = checkOnPage(click, page_, place); !on) return on.error();
    const PagePoint at = pagePointOf(click, page_);
    auto [path, onRuling, ambiguous] = findUnder(at);
    if (!path) return clickError("click-on-paper", place, click);
    if (onRuling && path->length_px() < kLeastLine_px + kSeeds_px)
        return clickError("click-on-ruling", place, click);
    if (path->length_px() < kLeastLine_px) {
        Error e = clickError("line-too-short", place, click);
        e.facts.push_back({"length_px", path->length_px() / page_.scale});
        return e;
    }
    // What was found from there may be the line that was meant, or one that crosses the ruling.
    if (ambiguous && line_.followFrom.size() == 1) doubt(cautionAt("line-ambiguous", Severity::warning, at));
    if (standsInInk(*path)) doubt(cautionAt("line-amid-ink", Severity::warning, at));
    refineCentres(field_, *path, kMostSamples);
    return *std::move(path);
}

bool LineTracer::runsAsRuling(const InkPath& path) const {
    std::vector<PagePoint> way;
    for (const PathPoint& p : path.points)
        way.push_back(p.at);
    return rulings_.runsAsRuling(way);
}

// A pattern, a picture, noise: as much ink beside the way as a line would have to stand clear of.
bool LineTracer::standsInInk(const InkPath& path) const {
    double beside = 0.0;
    const double off = path.look.width_px + 1.5;
    for (const PathPoint& p : path.points)
        for (const double side : {-off, off})
            beside += 0.5 * field_.at(p.at.x - side * p.along.y, p.at.y + side * p.along.x);
    return beside > kMostBeside * path.look.darkness * static_cast<double>(path.points.size());
}

// From crossing to crossing of a fine grid.
bool LineTracer::hopsAlongGrid(const InkPath& path) const {
    const auto covered = std::count_if(path.points.begin(), path.points.end(),
                                       [&](const PathPoint& p) { return rulings_.covers(p.at); });
    constexpr double kMostCovered = 0.6;
    return static_cast<double>(covered) > kMostCovered * static_cast<double>(path.points.size());
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
    const PagePoint across = path.points.back().at - path.points.front().at;
    // A curve runs along the flow; one of equal efficiency need not.
    const bool alongFlow = line_.quantity == LineQuantity::isoEfficiency ||
                           std::abs(across.x) >= kLeastAlongFlow * rulings_.width_px() ||
                           std::abs(across.x) >= 0.5 * path.length_px();
    const bool isLong = alongFlow && path.length_px() >= kLeastLineShare * rulings_.width_px();
    if (path.endsAt == PathEnd::lost || (!isLong && path.startsAt != PathEnd::lost))
        doubt(cautionAt("line-lost", Severity::warning, path.points.back().at));
}

// Over most of its length a line is not told from those it runs together with.
void LineTracer::noteTogether(const InkPath& path) {
    constexpr double kDoubtful = 0.5;
    const auto amid = [](const PathPoint& p) { return p.spare_px > 0.0; };
    // Lines run together towards the first place.
    const auto last = std::find_if(path.points.rbegin(), path.points.rend(), amid);
    if (last == path.points.rend()) return;
    double length_px = 0.0;
    for (auto p = path.points.begin() + 1; p < path.points.end(); ++p)
        if (amid(*p)) length_px += p->arc_px - (p - 1)->arc_px;
    const double share = length_px / path.length_px();
    Caution c =
        cautionAt("line-runs-together", share > kDoubtful ? Severity::warning : Severity::note, last->at);
    c.values.push_back({"together_share", share});
    if (share > kDoubtful) traced_.doubtful = true;
    traced_.cautions.push_back(std::move(c));
}

void LineTracer::takeUp(const InkPath& path) {
    const double sigma = centreSigma(path);
    for (const PathPoint& p : path.points)
        traced_.points.push_back({p.at, p.along, std::hypot(sigma, p.spare_px), false});
    traced_.look = path.look;
    note(path);
    noteTogether(path);
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
