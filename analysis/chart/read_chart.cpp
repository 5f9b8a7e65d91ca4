#include "analysis/chart/read_chart.h"

#include "analysis/chart/line_samples.h"
#include "analysis/chart/line_tracing.h"

#include <opencv2/core.hpp>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

// The part of the page looked at: where the pins and clicks lie, and a third of that around it, since pins
// need not stand at the chart's corners.
cv::Rect regionOf(const Reading& reading, const Page& page) {
    constexpr double kAround = 0.33;
    double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
    const auto include = [&](PixelPoint at) {
        const PagePoint p = pagePointOf(at, page);
        left = std::min(left, p.x);
        right = std::max(right, p.x);
        top = std::min(top, p.y);
        bottom = std::max(bottom, p.y);
    };
    for (const Pin& pin : reading.pins)
        include(pin.at);
    for (const ChartLine& line : reading.lines) {
        std::for_each(line.followFrom.begin(), line.followFrom.end(), include);
        std::for_each(line.spots.begin(), line.spots.end(), include);
    }
    const double dx = kAround * (right - left), dy = kAround * (bottom - top);
    const auto within = [](double v, int most) { return std::clamp(v, 0.0, static_cast<double>(most)); };
    const cv::Point first(static_cast<int>(within(left - dx, page.width)),
                          static_cast<int>(within(top - dy, page.height)));
    const cv::Point last(static_cast<int>(std::ceil(within(right + dx + 1.0, page.width))),
                         static_cast<int>(std::ceil(within(bottom + dy + 1.0, page.height))));
    const cv::Rect region = cv::Rect(first, last) & cv::Rect(0, 0, page.width, page.height);
    return region.empty() ? cv::Rect(0, 0, page.width, page.height) : region;
}

Result<ReadLine> readLine(const Reading& reading, std::size_t index, const ChartMapping& mapping,
                          const Page& page, const InkField& field) {
    const std::string place = "lines[" + std::to_string(index) + "]";
    const auto traced = traceLine(reading.lines[index], field, page, reading.sigmas, place);
    if (!traced) return traced.error();
    return lineFromTrace(reading, index, mapping, page, *traced);
}

// What the reading says of a line that could not be read.
ReadLine unreadLine(const ChartLine& line) {
    ReadLine unread;
    unread.name = line.name;
    unread.quantity = line.quantity;
    unread.axis = line.axis;
    unread.trust = Trust::doubtful;
    return unread;
}

Cautions cautionsOf(const ChartMapping& mapping, const Reading& reading) {
    if (!mapping.pinsDisagree()) return {};
    const auto& residuals = mapping.pinResiduals_px();
    const auto worst = static_cast<std::size_t>(
        std::distance(residuals.begin(), std::max_element(residuals.begin(), residuals.end())));
    Caution c;
    c.code = "pins-disagree";
    c.severity = Severity::warning;
    c.place = "pins[" + std::to_string(worst) + "]";
    c.values = {{"residual_px", residuals[worst]},
                {"sigma_px", reading.pins[worst].sigma_px.value_or(reading.sigmas.pin_px)}};
    return {c};
}

} // namespace

Result<ChartLines> readChart(const Reading& reading, PageSource& pages) {
    auto read = readEachLine(reading, pages);
    if (read && !read->unread.empty()) return read->unread.begin()->second;
    return read;
}

Result<ChartLines> readEachLine(const Reading& reading, PageSource& pages) {
    auto mapping = solveMapping(reading);
    if (!mapping) return mapping.error();
    const auto opened = pages.open(reading.chart);
    if (!opened) return opened.error();
    const Page& page = **opened;
    const InkField field(page, regionOf(reading, page));
    ChartLines read;
    read.mappingCautions = cautionsOf(*mapping, reading);
    for (std::size_t i = 0; i < reading.lines.size(); ++i) {
        auto line = readLine(reading, i, *mapping, page, field);
        if (!line) read.unread.emplace(i, line.error());
        read.lines.push_back(line ? std::move(*line) : unreadLine(reading.lines[i]));
    }
    read.mapping = std::move(*mapping);
    return read;
}

} // namespace headmark
