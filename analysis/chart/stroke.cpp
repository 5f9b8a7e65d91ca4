#include "analysis/chart/stroke.h"

#include "analysis/chart/median.h"
#include "analysis/chart/rulings.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace headmark {

double length(PagePoint p) { return std::hypot(p.x, p.y); }

double Profile::offsetOf(std::size_t i) const { return -reach_px + kProfileStep_px * static_cast<double>(i); }

Profile profileAcross(const InkField& field, PagePoint at, PagePoint along, double reach_px,
                      double average_px, const StrokeLook* look) {
    const PagePoint normal{-along.y, along.x};
    const auto half = static_cast<int>(std::ceil(reach_px / kProfileStep_px));
    Profile p;
    p.reach_px = half * kProfileStep_px;
    p.ink.reserve(static_cast<std::size_t>(2 * half + 1));
    constexpr std::array<double, 3> kAlong{-1.0, 0.0, 1.0};
    const bool byColour = look && look->byColour && field.hasColour();
    for (int i = -half; i <= half; ++i) {
        const PagePoint across = at + (i * kProfileStep_px) * normal;
        double sum = 0.0;
        for (const double a : kAlong) {
            const PagePoint q = across + (a * average_px) * along;
            double ink = field.at(q.x, q.y);
            if (byColour && ink > 0.05) ink *= likeness(field.densityAt(q.x, q.y), look->colour);
            sum += ink;
        }
        p.ink.push_back(sum / static_cast<double>(kAlong.size()));
    }
    return p;
}

namespace {

// Where the profile crosses `level` going out from `peak` in direction `step`; the end if it does not.
double halfWay(const Profile& p, std::size_t peak, int step, double level) {
    std::size_t i = peak;
    while (true) {
        if ((step < 0 && i == 0) || (step > 0 && i + 1 == p.ink.size())) return p.offsetOf(i);
        const std::size_t next = step < 0 ? i - 1 : i + 1;
        if (p.ink[next] <= level) {
            const double share = (p.ink[i] - level) / std::max(p.ink[i] - p.ink[next], 1e-12);
            return p.offsetOf(i) + step * kProfileStep_px * share;
        }
        i = next;
    }
}

// The lowest ink on one side of a peak, before the profile rises to a higher peak.
double valley(const Profile& p, std::size_t peak, int step) {
    double lowest = p.ink[peak];
    for (std::size_t i = peak; !((step < 0 && i == 0) || (step > 0 && i + 1 == p.ink.size()));) {
        i = step < 0 ? i - 1 : i + 1;
        if (p.ink[i] > p.ink[peak]) break;
        lowest = std::min(lowest, p.ink[i]);
    }
    return lowest;
}

StrokeSight sightOf(const Profile& p, std::size_t peak, double base) {
    StrokeSight s;
    s.base = base;
    s.darkness = p.ink[peak] - base;
    const double level = base + 0.5 * s.darkness;
    const double left = halfWay(p, peak, -1, level), right = halfWay(p, peak, 1, level);
    s.width_px = right - left;
    // Centroid of what stands above a quarter, one half width beyond the half-way points: uses the flanks,
    // where the place of a stroke is, and leaves far neighbours out.
    const double floor = base + 0.15 * s.darkness;
    const double from = left - 0.6 * s.width_px - 0.5, to = right + 0.6 * s.width_px + 0.5;
    double sum = 0.0, moment = 0.0;
    for (int step : {-1, 1}) {
        for (std::size_t i = peak;;) {
            const double offset = p.offsetOf(i);
            if (offset < from || offset > to || p.ink[i] < floor) break;
            const double weight = (p.ink[i] - floor) * (i == peak ? 0.5 : 1.0);
            sum += weight;
            moment += weight * offset;
            if ((step < 0 && i == 0) || (step > 0 && i + 1 == p.ink.size())) break;
            i = step < 0 ? i - 1 : i + 1;
        }
    }
    s.offset_px = sum > 0.0 ? moment / sum : 0.5 * (left + right);
    return s;
}

} // namespace

std::vector<StrokeSight> strokesIn(const Profile& p, double least) {
    std::vector<StrokeSight> found;
    const std::size_t n = p.ink.size();
    for (std::size_t i = 0; i < n; ++i) {
        const double here = p.ink[i];
        if (i > 0 && p.ink[i - 1] >= here) continue;
        // A flat top counts once, at its first sample.
        std::size_t last = i;
        while (last + 1 < n && p.ink[last + 1] == here)
            ++last;
        if (last + 1 < n && p.ink[last + 1] > here) continue;
        const std::size_t peak = (i + last) / 2;
        const double left = valley(p, peak, -1), right = valley(p, peak, 1);
        if (here - std::max(left, right) < least) continue;
        found.push_back(sightOf(p, peak, std::max(left, right)));
    }
    return found;
}

double unlikeness(const StrokeLook& look, const StrokeSight& s) {
    // A clean page's lines keep their width and darkness; a fax's do not.
    double sigmaNarrower = 0.25 * look.width_px + 0.35;
    if (look.widthSpread_px)
        sigmaNarrower = std::min(sigmaNarrower, 0.12 * look.width_px + 0.20 + 4.0 * *look.widthSpread_px);
    // Wider is a line alike beside it: the middle of both is the middle of neither, and a shallow crossing
    // would turn the way by it.
    const double sigmaWider = 0.12 * look.width_px + 0.25;
    double sigmaDark = 0.25 * look.darkness + 0.02;
    if (look.darknessSpread)
        sigmaDark = std::min(sigmaDark, 0.15 * look.darkness + 0.02 + 4.0 * *look.darknessSpread);
    const double wider = s.width_px - look.width_px;
    const double width = wider / (wider > 0.0 ? sigmaWider : sigmaNarrower);
    // Darker may be other ink underneath; lighter may not be the line at all.
    const double dark = (s.darkness - look.darkness) / sigmaDark;
    return width * width + dark * dark;
}

namespace {

constexpr double kStartLength_px = 14.0; // half of the strip that is laid along the stroke
constexpr double kStripEnds[] = {-kStartLength_px, 0.0, kStartLength_px};

// How much a strip through `at` in direction `along` is inked all along: the mean, and the worst tenth counts
// as much as the mean, so that a strip across many strokes does not pass for one.
double stripScore(const InkField& field, PagePoint at, PagePoint along, double half_px,
                  const std::optional<InkDensity>& wanted) {
    std::array<double, 15> ink{};
    for (std::size_t i = 0; i < ink.size(); ++i) {
        const double s = (static_cast<double>(i) / 7.0 - 1.0) * half_px;
        const PagePoint q = at + s * along;
        ink[i] = field.at(q.x, q.y);
        if (wanted && ink[i] > 0.05) ink[i] *= likeness(field.densityAt(q.x, q.y), *wanted);
    }
    double sum = 0.0;
    for (const double v : ink)
        sum += v;
    std::nth_element(ink.begin(), ink.begin() + 2, ink.end());
    return 0.5 * (sum / static_cast<double>(ink.size()) + ink[2]);
}

struct Strip {
    double score = 0.0;
    PagePoint at, along;
};

// A strip that lies along a ruling from end to end.
bool alongRuling(const Rulings& rulings, PagePoint at, PagePoint along) {
    constexpr double kOff_px = 1.3;
    return std::all_of(std::begin(kStripEnds), std::end(kStripEnds), [&](double s) {
        const auto beside = rulings.beside(at + s * along, along, kOff_px);
        return !beside.empty();
    });
}

// Of strips beside rulings and along them, one beside is meant unless it is far fainter.
Strip bestStrip(const InkField& field, PagePoint click, double reach_px,
                const std::optional<InkDensity>& wanted, const Rulings& rulings) {
    constexpr int kDirections = 60;
    // A pixel farther from the click must be so much darker: of two strokes alike the nearer one is meant.
    constexpr double kPerPixel = 0.02;
    constexpr double kFarFainter = 0.45;
    Strip best, bestOnRuling;
    std::array<Strip, kDirections> byDirection;
    for (int d = 0; d < kDirections; ++d) {
        const double angle = std::numbers::pi * (static_cast<double>(d) / kDirections - 0.5);
        const PagePoint along{std::cos(angle), std::sin(angle)}, normal{-along.y, along.x};
        for (double off = -reach_px; off <= reach_px; off += 0.5) {
            const PagePoint at = click + off * normal;
            const double score =
                stripScore(field, at, along, kStartLength_px, wanted) - kPerPixel * std::abs(off);
            Strip& here = byDirection[static_cast<std::size_t>(d)];
            if (score <= here.score) continue;
            if (!rulings.empty() && alongRuling(rulings, at, along)) {
                if (score > bestOnRuling.score) bestOnRuling = {score, at, along};
                continue;
            }
            here = {score, at, along};
        }
        if (byDirection[static_cast<std::size_t>(d)].score > best.score)
            best = byDirection[static_cast<std::size_t>(d)];
    }
    return best.score >= kFarFainter * bestOnRuling.score ? best : bestOnRuling;
}

// Whether a strip in another direction through nearly the same place is inked nearly as well. Long against
// the stroke's width: a short one would lie inside a thick stroke any way it is turned.
bool isRivalled(const InkField& field, const StrokeStart& start, const std::optional<InkDensity>& wanted) {
    constexpr int kDirections = 60;
    constexpr double kNearlyAsDark = 0.8;
    constexpr double kOtherDirection = 0.3; // sine of 17 degrees
    // Rulings of a photograph stand aslant by some degrees, and a strip is dark a few degrees off them.
    constexpr double kNearRuling = 0.2;
    const double half = std::max(kStartLength_px, 3.5 * start.look.width_px);
    // Of a dashed line, as if its gaps were inked.
    constexpr double kOfDashed = 0.65;
    const double own =
        std::max(stripScore(field, start.at, start.along, half, wanted), kOfDashed * start.look.darkness);
    for (int d = 0; d < kDirections; ++d) {
        const double angle = std::numbers::pi * (static_cast<double>(d) / kDirections - 0.5);
        const PagePoint along{std::cos(angle), std::sin(angle)}, normal{-along.y, along.x};
        const double sine = std::abs(along.x * start.along.y - along.y * start.along.x);
        if (sine < kOtherDirection || std::min(std::abs(along.x), std::abs(along.y)) < kNearRuling) continue;
        for (double off = -2.0; off <= 2.0; off += 1.0)
            if (stripScore(field, start.at + off * normal, along, half, wanted) > kNearlyAsDark * own)
                return true;
    }
    return false;
}

} // namespace

double leastInkAbout(const InkField& field, PagePoint click) {
    constexpr double kTrace = 0.03, kMost = 0.10, kSigmas = 2.0, kReach_px = 30.0;
    std::vector<double> steps; // from pixel to pixel, of which a stroke has few
    for (double y = -kReach_px; y <= kReach_px; y += 3.0)
        for (double x = -kReach_px; x <= kReach_px; x += 3.0)
            steps.push_back(field.at(click.x + x + 1.0, click.y + y) - field.at(click.x + x, click.y + y));
    return std::clamp(kSigmas / std::numbers::sqrt2 * normalSpreadOf(std::move(steps)), kTrace, kMost);
}

std::optional<StrokeStart> strokeUnder(const InkField& field, PagePoint click, double reach_px,
                                       const std::optional<InkDensity>& wanted, const Rulings& rulings) {
    const Strip strip = bestStrip(field, click, reach_px, wanted, rulings);
    if (strip.score < leastInkAbout(field, click)) return std::nullopt;
    StrokeStart start;
    start.at = strip.at;
    start.along = strip.along;
    StrokeLook& look = start.look;
    if (field.hasColour()) {
        look.colour = wanted.value_or(field.densityAt(strip.at.x, strip.at.y));
        look.byColour = isColoured(look.colour);
    }
    // Centre and width from profiles along the strip; the median is not moved by what crosses it.
    std::vector<double> offsets, widths, darks;
    for (double s = -kStartLength_px; s <= kStartLength_px; s += 2.0) {
        const Profile p = profileAcross(field, strip.at + s * strip.along, strip.along, 12.0, 1.0, &look);
        const auto strokes = strokesIn(p, 0.05);
        const StrokeSight* nearest = nullptr;
        for (const StrokeSight& k : strokes) {
            if (std::abs(k.offset_px) > 4.0) continue;
            if (!nearest || std::abs(k.offset_px) < std::abs(nearest->offset_px)) nearest = &k;
        }
        if (!nearest) continue;
        offsets.push_back(nearest->offset_px);
        widths.push_back(nearest->width_px);
        darks.push_back(nearest->darkness);
    }
    constexpr std::size_t kLeastSights = 5;
    if (offsets.size() < kLeastSights) return std::nullopt;
    const auto median = [](std::vector<double> v) {
        std::nth_element(v.begin(), v.begin() + static_cast<std::ptrdiff_t>(v.size() / 2), v.end());
        return v[v.size() / 2];
    };
    const PagePoint normal{-strip.along.y, strip.along.x};
    start.at = strip.at + median(offsets) * normal;
    look.width_px = median(widths);
    look.darkness = median(darks);
    double deviation = 0.0;
    for (const double width : widths)
        deviation += std::abs(width - look.width_px) / static_cast<double>(widths.size());
    look.widthSpread_px = deviation;
    start.atCrossing = isRivalled(field, start, wanted);
    return start;
}

std::optional<StrokeStart> strokeUnder(const InkField& field, PagePoint click, double reach_px,
                                       const std::optional<InkDensity>& wanted) {
    return strokeUnder(field, click, reach_px, wanted, Rulings{});
}

} // namespace headmark
