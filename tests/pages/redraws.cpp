#include "tests/pages/redraws.h"

#include "analysis/units/unit_table.h"
#include "tests/pages/whole_band.h"

#include <algorithm>
#include <cmath>

namespace headmark::pages {

namespace {

double factorOf(Dimension dimension, const std::string& symbol) { return findUnit(dimension, symbol)->inSi; }

double valueFactor(const PrintedUnits& u, LineQuantity q) {
    switch (q) {
    case LineQuantity::head:
    case LineQuantity::isoEfficiency:
        return factorOf(Dimension::head, u.head);
    case LineQuantity::efficiency:
        return factorOf(Dimension::efficiency, u.efficiency);
    case LineQuantity::power:
        return factorOf(Dimension::power, u.power);
    case LineQuantity::npshRequired:
        break;
    }
    return factorOf(Dimension::head, u.npshRequired);
}

double spanOf(const MadePage& page, ValueAxis axis) {
    double least = 1e300, greatest = -1e300;
    for (const MadePin& p : page.pins) {
        if (p.axis != axis) continue;
        least = std::min(least, p.value);
        greatest = std::max(greatest, p.value);
    }
    return greatest - least;
}

double pathLength(const std::vector<PixelPoint>& path, double fromX, double toX) {
    double sum = 0.0;
    for (std::size_t i = 1; i < path.size(); ++i) {
        const double x = 0.5 * (path[i].x_px + path[i - 1].x_px);
        if (x >= fromX && x <= toX)
            sum += std::hypot(path[i].x_px - path[i - 1].x_px, path[i].y_px - path[i - 1].y_px);
    }
    return sum;
}

double distanceTo(const std::vector<PixelPoint>& path, PixelPoint p) {
    double least = 1e18; // squared: a root for each of a thousand points would be most of the work
    for (const PixelPoint& q : path) {
        const double dx = q.x_px - p.x_px, dy = q.y_px - p.y_px;
        least = std::min(least, dx * dx + dy * dy);
    }
    return std::sqrt(least);
}

bool nearOtherLine(const MadePage& page, const MadeLine& line, PixelPoint at) {
    constexpr double kClear_px = 15.0;
    return std::any_of(page.lines.begin(), page.lines.end(), [&](const MadeLine& other) {
        return other.name != line.name && distanceTo(other.path, at) < kClear_px;
    });
}

// Nobody clicks where two lines cross or run into each other: the nearest place to the right that is clear of
// the others, else the nearest to the left, else this one.
std::size_t clearOfOthers(const MadePage& page, const MadeLine& line, std::size_t at) {
    for (std::size_t right = at; right < line.path.size(); ++right)
        if (!nearOtherLine(page, line, line.path[right])) return right;
    for (std::size_t left = at; left > 0; --left)
        if (!nearOtherLine(page, line, line.path[left - 1])) return left - 1;
    return at;
}

} // namespace

Reading readingOf(const MadePage& page, const MadeLine& line, const RedrawOptions& options,
                  std::mt19937& random) {
    std::normal_distribution<double> unit(0.0, 1.0);
    std::uniform_real_distribution<double> spread(-options.clickSpread, options.clickSpread);
    const auto off = [&](PixelPoint p, double sigma) {
        return PixelPoint{p.x_px + sigma * unit(random), p.y_px + sigma * unit(random)};
    };
    Reading r;
    r.chart.path = page.name;
    r.printedUnits = page.units;
    r.flowScale = page.flowScale;
    r.valueScale = page.valueScale;
    r.sigmas = {options.pin_px, options.click_px};
    for (const MadePin& p : page.pins) {
        Pin pin;
        pin.at = off(p.at, options.pin_px);
        pin.flow = p.flow;
        pin.value = p.value;
        pin.axis = p.axis;
        r.pins.push_back(pin);
    }
    ChartLine c;
    c.name = line.name;
    c.quantity = line.quantity;
    c.axis = line.axis;
    const auto n = static_cast<double>(line.path.size());
    const auto at = clearOfOthers(
        page, line, static_cast<std::size_t>(std::clamp((0.5 + spread(random)) * n, 0.0, n - 1.0)));
    c.followFrom.push_back(off(line.path[at], options.click_px));
    r.lines.push_back(c);
    return r;
}

Comparison compare(const MadePage& page, const MadeLine& line, const Reading& reading) {
    Comparison c;
    c.page = page.name;
    c.line = line.name;
    OnePage source(page.page);
    const auto read = readChart(reading, source);
    if (!read) {
        c.refusal = read.error().code;
        return c;
    }
    const ReadLine& got = read->lines.front();
    if (!got.fit) {
        c.refusal = "no fit";
        return c;
    }
    c.read = true;
    c.trust = got.trust;
    c.fit = got.fit;
    const double flowUnit = factorOf(Dimension::flow, page.units.flow);
    const double valueUnit = valueFactor(page.units, line.quantity);
    const double span = spanOf(page, line.axis);
    const PolynomialCurve& curve = got.fit->curve;
    c.degree = curve.degree();
    // The line in pixels: how much of it lies between the ends that were read.
    double left = 1e9, right = -1e9, leftSample = 1e9, rightSample = -1e9;
    for (const PixelPoint& p : line.path) {
        left = std::min(left, p.x_px);
        right = std::max(right, p.x_px);
    }
    for (const LineSample& s : got.samples) {
        leftSample = std::min(leftSample, s.at.x_px);
        rightSample = std::max(rightSample, s.at.x_px);
    }
    const double whole = pathLength(line.path, left, right);
    c.covered = pathLength(line.path, leftSample, rightSample) / whole;
    // Samples that are not on the line cover nothing.
    std::size_t astray = 0;
    for (const LineSample& s : got.samples) {
        if (distanceTo(line.path, s.at) <= 3.0 + line.thickness_px) continue;
        ++astray;
        if (!c.astray) c.astray = s.at;
    }
    c.covered *= 1.0 - static_cast<double>(astray) / static_cast<double>(got.samples.size());
    for (const LineSample& s : got.samples) {
        const double flow = s.flow_m3_s / flowUnit;
        if (flow < line.flowFrom || flow > line.flowTo) continue;
        c.sampleOffs.push_back((s.value / valueUnit - line.truth(flow)) / (s.sigma / valueUnit));
    }
    for (const Caution& caution : got.cautions)
        c.cautions.push_back(caution.code);
    c.pastEnds = (std::max(left - leftSample, 0.0) + std::max(rightSample - right, 0.0)) / whole;
    // The fitted curve against the truth, over the range both have.
    const double from = std::max(curve.least_m3_s() / flowUnit, line.flowFrom);
    const double to = std::min(curve.greatest_m3_s() / flowUnit, line.flowTo);
    constexpr int kLooks = 41;
    const double wholeBand = wholeBandSigmas(curve);
    c.whollyHeld = true;
    double sum = 0.0;
    for (int i = 0; i < kLooks; ++i) {
        const double flow = from + (to - from) * i / (kLooks - 1);
        const double error = (curve.at(flow * flowUnit) / valueUnit - line.truth(flow)) / span;
        const double sigma = curve.sigmaAt(flow * flowUnit) / valueUnit / span;
        sum += error * error;
        c.greatest = std::max(c.greatest, std::abs(error));
        c.errors.push_back(error);
        c.sigmas.push_back(sigma);
        c.held.push_back(std::abs(error) <= 1.96 * sigma);
        c.whollyHeld = c.whollyHeld && std::abs(error) <= wholeBand * sigma;
    }
    c.rms = std::sqrt(sum / kLooks);
    // Perfect tracing through the same pins.
    const auto pinsAlone = solveMapping(reading);
    double floorSum = 0.0;
    std::size_t count = 0;
    for (std::size_t i = 0; i < line.path.size(); i += 5) {
        const AxisPoint a = pinsAlone->axisFromPixel(line.path[i], line.axis);
        const double flow = std::clamp(a.flow, line.flowFrom, line.flowTo);
        floorSum += std::pow((a.value - line.truth(flow)) / span, 2);
        ++count;
    }
    c.floor = std::sqrt(floorSum / static_cast<double>(count));
    return c;
}

} // namespace headmark::pages
