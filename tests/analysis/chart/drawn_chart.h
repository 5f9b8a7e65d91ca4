#pragma once
// A chart drawn for one test: flow 0 to 16 m3/h from x = 100 to 900, head 0 to 50 m from y = 600 to 100.

#include "analysis/chart/read_chart.h"
#include "drawn_page.h"

namespace headmark::testing {

inline double xOf(double flow) { return 100.0 + 50.0 * flow; }
inline double yOf(double head) { return 600.0 - 10.0 * head; }
inline double flowAt(double x) { return (x - 100.0) / 50.0; }

// 43 m at shut-off, 24.2 m at 14 m3/h: 43 - 0.2 Q - 0.0816.. Q^2
inline double headOf(double flow) { return 43.0 - 0.2 * flow - 0.08 * flow * flow; }
inline double lineY(double x) { return yOf(headOf(flowAt(x))); }

inline DrawnPage chartPaper() {
    DrawnPage drawn(1000, 700);
    for (int flow = 2; flow <= 16; flow += 2)
        drawn.straight({xOf(flow), yOf(0)}, {xOf(flow), yOf(50)}, {1.0, 0.6, 0.25});
    for (int head = 10; head <= 50; head += 10)
        drawn.straight({xOf(0), yOf(head)}, {xOf(16), yOf(head)}, {1.0, 0.6, 0.25});
    drawn.straight({xOf(0), yOf(0)}, {xOf(0), yOf(50)}, {2.0, 0.6, 0.9});
    drawn.straight({xOf(0), yOf(0)}, {xOf(16), yOf(0)}, {2.0, 0.6, 0.9});
    return drawn;
}

inline PixelPoint onLine(double flow) { return {xOf(flow), yOf(headOf(flow))}; }

inline Reading chartReading() {
    Reading r;
    r.chart.path = "chart";
    r.printedUnits.flow = "m3/h";
    for (const double flow : {0.0, 16.0}) {
        for (const double head : {0.0, 50.0}) {
            Pin pin;
            pin.at = {xOf(flow), yOf(head)};
            pin.flow = flow;
            pin.value = head;
            r.pins.push_back(pin);
        }
    }
    r.lines.push_back({});
    r.lines[0].name = "upper";
    return r;
}

inline Reading followingFrom(std::vector<PixelPoint> clicks) {
    Reading r = chartReading();
    r.lines[0].followFrom = std::move(clicks);
    return r;
}

inline Result<ChartLines> readDrawn(const Reading& reading, Page page) {
    OneDrawnPage source(std::move(page));
    return readChart(reading, source);
}

inline bool hasCaution(const ReadLine& line, const std::string& code) {
    return std::any_of(line.cautions.begin(), line.cautions.end(),
                       [&](const Caution& c) { return c.code == code; });
}

// Greatest distance of the fitted curve from the truth, m, from one flow to another (m3/h).
inline double greatestOff(const ReadLine& line, double from, double to, double (*truth)(double) = headOf) {
    double most = 0.0;
    for (int i = 0; i <= 50; ++i) {
        const double flow = from + (to - from) * i / 50;
        most = std::max(most, std::abs(line.fit->curve.at(flow / 3600.0) - truth(flow)));
    }
    return most;
}

} // namespace headmark::testing
