#include "analysis/chart/ruling_figures.h"

#include "analysis/chart/line_tracing.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

namespace headmark {

namespace {

constexpr std::size_t kFewest = 4;
constexpr double kNearShare = 0.2, kNear_px = 4.0, kNearOfChart = 0.012;
constexpr double kLeastStep_px = 7.0;
constexpr double kMostOff = 0.1; // of the rulings
// Places of a ruling that enter the mapping, each the middle of some stations; more say nothing new.
constexpr std::size_t kPlaces = 8;
constexpr std::size_t kMostRulings = 24; // in each direction, evenly chosen

struct Found {
    const Ruling* ruling = nullptr;
    double roughly = 0.0; // figure by the pins' mapping
};

std::vector<PixelPoint> placesOf(const Ruling& ruling, const Page& page) {
    std::vector<PagePoint> seen;
    for (std::size_t i = 0; i < ruling.places.size(); ++i)
        if (ruling.seen[i]) seen.push_back(ruling.places[i]);
    std::vector<PixelPoint> places;
    if (seen.size() < 2) return places;
    const PagePoint chord = seen.back() - seen.front();
    const PagePoint along = (1.0 / length(chord)) * chord, normal{-along.y, along.x};
    for (std::size_t k = 0; k < kPlaces; ++k) {
        const std::size_t from = k * seen.size() / kPlaces, to = (k + 1) * seen.size() / kPlaces;
        if (to == from) continue;
        // The middle half across: where a curve or a letter touches the ruling its centre is off.
        std::vector<double> across;
        double sum = 0.0;
        for (std::size_t i = from; i < to; ++i) {
            across.push_back(dot(seen[i] - seen.front(), normal));
            sum += dot(seen[i] - seen.front(), along);
        }
        std::sort(across.begin(), across.end());
        const std::size_t cut = across.size() / 4;
        const double middle = std::accumulate(across.begin() + static_cast<std::ptrdiff_t>(cut),
                                              across.end() - static_cast<std::ptrdiff_t>(cut), 0.0) /
                              static_cast<double>(across.size() - 2 * cut);
        places.push_back(pixelPointOf(
            seen.front() + (sum / static_cast<double>(to - from)) * along + middle * normal, page));
    }
    return places;
}

// The figure of a log axis nearest to this one, and the distance to the next, as logarithms.
std::pair<double, double> onLogAxis(double figure) {
    const double decade = std::pow(10.0, std::floor(std::log10(figure) + 1e-9));
    double best = decade, next = 1.0;
    for (int k = 1; k <= 10; ++k)
        if (std::abs(std::log10(k * decade / figure)) < std::abs(std::log10(best / figure)))
            best = k * decade;
    const double leading = std::round(best / decade);
    next = std::log10((leading + 1.0) / leading);
    return {best, next};
}

// Pixels per figure (per logarithm on a log axis) about the middle of the rulings.
double pixelsPer(const std::vector<Found>& found, AxisScale scale) {
    const Found &a = found.front(), &b = found.back();
    const std::size_t middle = a.ruling->places.size() / 2;
    const double apart =
        length(a.ruling->places[middle] - b.ruling->places[std::min(middle, b.ruling->places.size() - 1)]);
    const double figures =
        scale == AxisScale::log10 ? std::log10(b.roughly / a.roughly) : b.roughly - a.roughly;
    return apart / std::max(std::abs(figures), 1e-300);
}

// How far a place lies from a ruling; far where it lies past its ends.
double distanceTo(const Ruling& ruling, PagePoint at) {
    double nearest = 1e9;
    for (std::size_t k = 1; k < ruling.places.size(); ++k) {
        const PagePoint step = ruling.places[k] - ruling.places[k - 1], to = at - ruling.places[k - 1];
        const double share = dot(to, step) / dot(step, step);
        // A pin at a corner stands half a station beyond the last.
        if (share < -0.8 || share > 1.8) continue;
        nearest = std::min(nearest, std::abs(to.x * step.y - to.y * step.x) / length(step));
    }
    return nearest;
}

// The figure of the pins that stand on the ruling, where they say the same.
std::optional<double> pinnedFigure(const Ruling& ruling, const Reading& reading, ValueAxis axis,
                                   const Page& page) {
    constexpr double kOn_px = 3.5;
    std::optional<double> figure;
    for (const Pin& pin : reading.pins) {
        const std::optional<double> said = ruling.upright     ? pin.flow
                                           : pin.axis == axis ? pin.value
                                                              : std::nullopt;
        if (!said || distanceTo(ruling, pagePointOf(pin.at, page)) > kOn_px * page.scale) continue;
        if (figure && *figure != *said) return std::nullopt;
        figure = said;
    }
    return figure;
}

// Right pins that all stand on level rulings, nearer than chance would have it, are where the rulings are.
void tieRightAxis(std::vector<KnownRuling>& known, const std::vector<const Ruling*>& levels,
                  const std::vector<std::size_t>& of, const Reading& reading, const Page& page) {
    constexpr double kSigmas = 2.5, kMostChance = 0.03;
    double chance = 1.0;
    std::vector<std::pair<std::size_t, double>> tied;
    for (const Pin& pin : reading.pins) {
        if (pin.axis != ValueAxis::right || !pin.value) continue;
        const PagePoint at = pagePointOf(pin.at, page);
        const double near = kSigmas * pin.sigma_px.value_or(reading.sigmas.pin_px) * page.scale;
        std::size_t best = levels.size();
        double nearest = near, next = 1e9;
        for (std::size_t k = 0; k < levels.size(); ++k) {
            const double distance = distanceTo(*levels[k], at);
            if (distance < nearest) {
                nearest = distance;
                best = k;
            } else if (distance > near) {
                next = std::min(next, distance);
            }
        }
        if (best == levels.size()) return;
        chance *= std::min(2.0 * near / next, 1.0);
        tied.emplace_back(of[best], *pin.value);
    }
    if (tied.size() < 2 || chance > kMostChance) return;
    for (const auto& [ruling, value] : tied)
        known[ruling].right = value;
}

// The figure of each, NaN where it stands at none.
std::vector<double> linearFigures(const std::vector<Found>& found, double perFigure, double chart_px) {
    const double range = found.back().roughly - found.front().roughly;
    for (int power = static_cast<int>(std::floor(std::log10(range))); power > -12; --power) {
        for (const double leading : {5.0, 4.0, 2.5, 2.0, 1.0}) {
            const double step = leading * std::pow(10.0, power);
            if (step * perFigure < kLeastStep_px) return {};
            if (2.0 * step > range) continue;
            const double near_px =
                std::min(kNearShare * step * perFigure, kNear_px + kNearOfChart * chart_px);
            std::vector<double> figures;
            std::size_t off = 0;
            for (const Found& f : found) {
                const double figure = std::round(f.roughly / step) * step;
                const bool stands = std::abs(f.roughly - figure) * perFigure <= near_px;
                off += stands ? 0 : 1;
                figures.push_back(stands ? figure : std::nan(""));
            }
            if (static_cast<double>(off) <= kMostOff * static_cast<double>(found.size())) return figures;
        }
    }
    return {};
}

std::vector<double> logFigures(const std::vector<Found>& found, double perLogarithm, double chart_px) {
    std::vector<double> figures;
    std::size_t off = 0;
    for (const Found& f : found) {
        const auto [figure, next] = onLogAxis(f.roughly);
        const double near_px = std::min(kNearShare * next * perLogarithm, kNear_px + kNearOfChart * chart_px);
        const bool stands = std::abs(std::log10(f.roughly / figure)) * perLogarithm <= near_px;
        off += stands ? 0 : 1;
        figures.push_back(stands ? figure : std::nan(""));
    }
    if (static_cast<double>(off) > 2.0 * kMostOff * static_cast<double>(found.size())) return {};
    return figures;
}

} // namespace

std::vector<KnownRuling> figuresOf(const Rulings& rulings, const ChartMapping& mapping,
                                   const Reading& reading, const Page& page) {
    const ValueAxis axis = mapping.hasAxis(ValueAxis::left) ? ValueAxis::left : ValueAxis::right;
    std::vector<KnownRuling> known;
    std::vector<const Ruling*> levels; // those known, and where in `known`
    std::vector<std::size_t> of;
    const auto add = [&](const Ruling& ruling, double figure) {
        if (!ruling.upright) {
            levels.push_back(&ruling);
            of.push_back(known.size());
        }
        known.push_back({ruling.upright, figure, placesOf(ruling, page), {}});
    };
    for (const bool upright : {false, true}) {
        const AxisScale scale = upright ? reading.flowScale : reading.valueScale;
        std::vector<Found> found;
        for (const Ruling& ruling : rulings.all()) {
            if (ruling.upright != upright) continue;
            const PagePoint middle = ruling.places[ruling.places.size() / 2];
            const AxisPoint at = mapping.axisFromPixel(pixelPointOf(middle, page), axis);
            const double figure = upright ? at.flow : at.value;
            if (std::isfinite(figure) && (scale == AxisScale::linear || figure > 0.0))
                found.push_back({&ruling, figure});
        }
        std::sort(found.begin(), found.end(),
                  [](const Found& a, const Found& b) { return a.roughly < b.roughly; });
        if (found.empty()) continue;
        for (const Found& f : found)
            if (const auto figure = pinnedFigure(*f.ruling, reading, axis, page)) add(*f.ruling, *figure);
        if (found.size() < kFewest || !(found.back().roughly > found.front().roughly)) continue;
        const double per = pixelsPer(found, scale);
        const double chart_px = length(found.front().ruling->places[0] - found.back().ruling->places[0]);
        const std::vector<double> figures = scale == AxisScale::linear ? linearFigures(found, per, chart_px)
                                                                       : logFigures(found, per, chart_px);
        if (figures.empty()) continue;
        const std::size_t stride = (found.size() + kMostRulings - 1) / kMostRulings;
        for (std::size_t k = 0; k < found.size(); ++k) {
            const bool wanted = k % stride == 0 || k + 1 == found.size();
            const bool pinned = pinnedFigure(*found[k].ruling, reading, axis, page).has_value();
            if (wanted && !pinned && std::isfinite(figures[k])) add(*found[k].ruling, figures[k]);
        }
    }
    if (axis == ValueAxis::left && mapping.hasAxis(ValueAxis::right))
        tieRightAxis(known, levels, of, reading, page);
    // Neighbours side by side.
    std::sort(known.begin(), known.end(), [](const KnownRuling& a, const KnownRuling& b) {
        return std::pair(a.upright, a.figure) < std::pair(b.upright, b.figure);
    });
    return known;
}

} // namespace headmark
