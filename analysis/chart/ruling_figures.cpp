#include "analysis/chart/ruling_figures.h"

#include "analysis/chart/line_tracing.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace headmark {

namespace {

constexpr std::size_t kFewest = 4;
constexpr double kNearShare = 0.2, kNear_px = 4.0, kNearOfChart = 0.012;
constexpr double kLeastStep_px = 7.0;
constexpr double kMostOff = 0.1; // of the rulings
// Places of a ruling that enter the mapping, each the mean of some stations; more say nothing new.
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
    for (std::size_t k = 0; k < kPlaces; ++k) {
        const std::size_t from = k * seen.size() / kPlaces, to = (k + 1) * seen.size() / kPlaces;
        if (to == from) continue;
        PagePoint sum;
        for (std::size_t i = from; i < to; ++i)
            sum = sum + seen[i];
        places.push_back(pixelPointOf((1.0 / static_cast<double>(to - from)) * sum, page));
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

// The figure of the pins that stand on the ruling, where they say the same.
std::optional<double> pinnedFigure(const Ruling& ruling, const Reading& reading, ValueAxis axis,
                                   const Page& page) {
    constexpr double kOn_px = 3.5;
    std::optional<double> figure;
    for (const Pin& pin : reading.pins) {
        const std::optional<double> said = ruling.upright     ? pin.flow
                                           : pin.axis == axis ? pin.value
                                                              : std::nullopt;
        if (!said) continue;
        const PagePoint at = pagePointOf(pin.at, page);
        double nearest = 1e9;
        for (std::size_t k = 1; k < ruling.places.size(); ++k) {
            const PagePoint step = ruling.places[k] - ruling.places[k - 1], to = at - ruling.places[k - 1];
            const double share = dot(to, step) / dot(step, step);
            // A pin at a corner stands half a station beyond the last.
            if (share < -0.8 || share > 1.8) continue;
            nearest = std::min(nearest, std::abs(to.x * step.y - to.y * step.x) / length(step));
        }
        if (nearest > kOn_px * page.scale) continue;
        if (figure && *figure != *said) return std::nullopt;
        figure = said;
    }
    return figure;
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
            if (const auto figure = pinnedFigure(*f.ruling, reading, axis, page))
                known.push_back({upright, *figure, placesOf(*f.ruling, page)});
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
            if (wanted && !pinned && std::isfinite(figures[k]))
                known.push_back({upright, figures[k], placesOf(*found[k].ruling, page)});
        }
    }
    return known;
}

} // namespace headmark
