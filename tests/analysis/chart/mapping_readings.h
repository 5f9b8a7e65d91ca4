#pragma once
// Readings of invented charts whose truth is known: flow 0 to 16, value 0 to 50, a plot of 1600 x 1200 px
// about (1000, 900).

#include "analysis/chart/mapping.h"

#include <cmath>
#include <functional>
#include <numbers>
#include <optional>
#include <utility>

namespace headmark::testing {

using PageOf = std::function<PixelPoint(double flow, double value)>;

inline PageOf turnedPage(double degrees) {
    const double angle = degrees * std::numbers::pi / 180.0;
    return [c = std::cos(angle), s = std::sin(angle)](double flow, double value) {
        const double x = (flow / 16.0 - 0.5) * 1600.0, y = (0.5 - value / 50.0) * 1200.0;
        return PixelPoint{1000.0 + c * x - s * y, 900.0 + s * x + c * y};
    };
}

// Seen from somewhat below and beside: the far corner is a few percent smaller.
inline PixelPoint slantedPage(double flow, double value) {
    const double x = flow / 8.0 - 1.0, y = 1.0 - value / 25.0;
    const double w = 1.0 + 0.03 * x - 0.05 * y;
    return {1000.0 + (800.0 * x + 20.0 * y) / w, 900.0 + (-15.0 * x + 600.0 * y) / w};
}

inline Pin pinAt(PixelPoint at, std::optional<double> flow, std::optional<double> value,
                 ValueAxis axis = ValueAxis::left) {
    Pin pin;
    pin.at = at;
    pin.flow = flow;
    pin.value = value;
    pin.axis = axis;
    return pin;
}

inline Reading cornersOf(const PageOf& page) {
    Reading reading;
    for (const auto& [flow, value] :
         {std::pair(0.0, 0.0), std::pair(16.0, 0.0), std::pair(0.0, 50.0), std::pair(16.0, 50.0)})
        reading.pins.push_back(pinAt(page(flow, value), flow, value));
    return reading;
}

inline Reading nineOf(const PageOf& page) {
    Reading reading;
    for (const double flow : {0.0, 8.0, 16.0})
        for (const double value : {0.0, 25.0, 50.0})
            reading.pins.push_back(pinAt(page(flow, value), flow, value));
    return reading;
}

} // namespace headmark::testing
