#include "chart.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace headmark::pages {

namespace {

constexpr double kPathStep_px = 0.5;
constexpr double kMiddleClear_px = 15.0; // from the middle of other lines

std::vector<PixelPoint> pathOf(const ChartCurve& curve, int steps,
                               const std::function<PixelPoint(double, double, ValueAxis)>& pixels) {
    std::vector<PixelPoint> path;
    path.reserve(static_cast<std::size_t>(steps) + 1);
    const auto knots = static_cast<double>(curve.places.size());
    for (int k = 0; k <= steps && !curve.places.empty(); ++k) { // chord by chord, as it is drawn
        const double at = (knots - 1.0) * k / steps;
        const auto first = std::min(static_cast<std::size_t>(at), curve.places.size() - 2);
        const double share = at - static_cast<double>(first);
        const auto& [flow, value] = curve.places[first];
        const auto& [nextFlow, nextValue] = curve.places[first + 1];
        path.push_back(
            pixels(flow + share * (nextFlow - flow), value + share * (nextValue - value), curve.axis));
    }
    if (!path.empty()) return path;
    for (int k = 0; k <= steps; ++k) {
        const double flow = curve.flowFrom + (curve.flowTo - curve.flowFrom) * k / steps;
        path.push_back(pixels(flow, curve.truth(flow), curve.axis));
    }
    return path;
}

double distance_px(PixelPoint a, PixelPoint b) { return std::hypot(a.x_px - b.x_px, a.y_px - b.y_px); }

double longestStep_px(const std::vector<PixelPoint>& path) {
    double longest = 0.0;
    for (std::size_t k = 1; k < path.size(); ++k)
        longest = std::max(longest, distance_px(path[k - 1], path[k]));
    return longest;
}

std::size_t halfWayAlong(const std::vector<PixelPoint>& path) {
    std::vector<double> walked = {0.0};
    for (std::size_t k = 1; k < path.size(); ++k)
        walked.push_back(walked.back() + distance_px(path[k - 1], path[k]));
    return static_cast<std::size_t>(std::lower_bound(walked.begin(), walked.end(), 0.5 * walked.back()) -
                                    walked.begin());
}

bool clearOfOthers(PixelPoint at, std::size_t own, const std::vector<MadeLine>& lines) {
    for (std::size_t k = 0; k < lines.size(); ++k)
        for (const PixelPoint other : lines[k].path)
            if (k != own && distance_px(at, other) < kMiddleClear_px) return false;
    return true;
}

// The place nearest to half way that is clear of other lines.
PixelPoint middleOf(std::size_t own, const std::vector<MadeLine>& lines) {
    const std::vector<PixelPoint>& path = lines[own].path;
    const std::size_t half = halfWayAlong(path);
    for (std::size_t away = 0; away < half; away += 4)
        for (const std::size_t at : {half + away, half - away})
            if (at < path.size() && clearOfOthers(path[at], own, lines)) return path[at];
    return path[half];
}

std::string styleOf(const ChartCurve& curve, double width_pt) {
    constexpr double kDot = 1.6; // widths; a longer one is a dash
    if (curve.dash_pt.empty()) return "solid";
    if (curve.dash_pt.size() > 2) return curve.dash_pt.size() > 4 ? "dash-dot-dot" : "dash-dot";
    return curve.dash_pt[0] <= kDot * width_pt ? "dotted" : "dashed";
}

MadeLine lineOf(const Chart& chart, const ChartCurve& curve, double dpi, const MadePage& page) {
    MadeLine line;
    line.name = curve.name;
    line.quantity = curve.quantity;
    line.axis = curve.axis;
    line.truth = curve.truth;
    line.flowFrom = curve.flowFrom;
    line.flowTo = curve.flowTo;
    const double width_pt = curve.line_pt > 0.0 ? curve.line_pt : chart.look.line_pt;
    line.style = styleOf(curve, width_pt);
    line.thickness_px = width_pt * dpi / 72.0;
    line.ink = {static_cast<std::uint8_t>(curve.ink.red()), static_cast<std::uint8_t>(curve.ink.green()),
                static_cast<std::uint8_t>(curve.ink.blue())};
    int steps = 1000;
    line.path = pathOf(curve, steps, page.pixelFromAxis);
    while (longestStep_px(line.path) > kPathStep_px)
        line.path = pathOf(curve, steps = steps * 3 / 2, page.pixelFromAxis);
    return line;
}

} // namespace

double ChartAxis::share(double figure) const {
    if (scale == AxisScale::log10) return std::log10(figure / from) / std::log10(to / from);
    return (figure - from) / (to - from);
}

std::vector<double> ChartAxis::marks() const {
    std::vector<double> all;
    if (scale == AxisScale::log10) {
        for (const double mark : finerMarks()) {
            const double leading = mark / std::pow(10.0, std::floor(std::log10(mark) + 1e-9));
            if (std::abs(leading - 1) < 0.01 || std::abs(leading - 2) < 0.01 || std::abs(leading - 5) < 0.01)
                all.push_back(mark);
        }
        return all;
    }
    const int count = static_cast<int>(std::lround((to - from) / step));
    for (int k = 0; k <= count; ++k)
        all.push_back(from + k * step);
    return all;
}

std::vector<double> ChartAxis::finerMarks() const {
    std::vector<double> all;
    if (scale == AxisScale::log10) {
        for (double decade = std::pow(10.0, std::floor(std::log10(from) + 1e-9)); decade <= to;
             decade *= 10.0)
            for (int k = 1; k <= 9; ++k)
                if (k * decade >= from * (1 - 1e-9) && k * decade <= to * (1 + 1e-9))
                    all.push_back(k * decade);
        return all;
    }
    const int count = static_cast<int>(std::lround((to - from) / step)) * finer;
    for (int k = 0; k <= count; ++k)
        all.push_back(from + k * step / finer);
    return all;
}

ChartAxis axisTo(double greatest, int finer, const QString& title) {
    ChartAxis axis;
    axis.title = title;
    axis.finer = finer;
    double size = std::pow(10.0, std::floor(std::log10(greatest)) - 1.0);
    for (;; size *= 10.0) {
        for (const double leading : {1.0, 2.0, 2.5, 5.0}) {
            axis.step = leading * size;
            const double count = std::ceil(greatest / axis.step - 1e-9);
            if (count <= 8.0) {
                axis.to = count * axis.step;
                return axis;
            }
        }
    }
}

ChartAxis axisLike(const ChartAxis& other, double greatest, double limit, const QString& title) {
    ChartAxis axis = other;
    axis.title = title;
    axis.scale = AxisScale::linear;
    axis.from = 0.0;
    const double count = std::round((other.to - other.from) / other.step);
    double size = std::pow(10.0, std::floor(std::log10(greatest)) - 1.0);
    for (;; size *= 10.0) {
        for (const double leading : {1.0, 2.0, 2.5, 5.0}) {
            axis.step = leading * size;
            axis.to = count * axis.step;
            if (axis.to > limit) return axisTo(greatest, 1, title);
            if (axis.to >= greatest) return axis;
        }
    }
}

QPointF Chart::place(double flowFigure, double value, ValueAxis axis) const {
    const ChartAxis& upright = axis == ValueAxis::right && right ? *right : left;
    return {frame.left() + flow.share(flowFigure) * frame.width(),
            frame.bottom() - upright.share(value) * frame.height()};
}

PixelFromPaper nominalPixels(double dpi) {
    return [dpi](QPointF at) { return PixelPoint{at.x() * dpi / 72.0 - 0.5, at.y() * dpi / 72.0 - 0.5}; };
}

void tellTruth(const Chart& chart, double dpi, const PixelFromPaper& pixels, MadePage& page) {
    page.dpi = dpi;
    page.units = chart.units;
    page.flowScale = chart.flow.scale;
    page.valueScale = chart.left.scale;
    page.pixelFromAxis = [chart, pixels](double flow, double value, ValueAxis axis) {
        return pixels(chart.place(flow, value, axis));
    };
    const std::vector<double> flows = chart.flow.marks(), values = chart.left.marks();
    for (const auto& [flow, value] :
         std::array<std::pair<double, double>, 4>{{{flows.front(), values.front()},
                                                   {flows.back(), values.front()},
                                                   {flows.front(), values.back()},
                                                   {flows.back(), values.back()}}})
        page.pins.push_back({flow, value, ValueAxis::left, page.pixelFromAxis(flow, value, ValueAxis::left)});
    if (chart.right)
        for (const double value : {chart.right->from, chart.right->to})
            page.pins.push_back({flows.back(), value, ValueAxis::right,
                                 page.pixelFromAxis(flows.back(), value, ValueAxis::right)});
    for (const ChartCurve& curve : chart.curves)
        page.lines.push_back(lineOf(chart, curve, dpi, page));
    for (std::size_t k = 0; k < page.lines.size(); ++k)
        page.lines[k].middle = middleOf(k, page.lines);
}

} // namespace headmark::pages
