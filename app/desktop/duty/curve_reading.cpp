#include "app/desktop/duty/curve_reading.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr double kSigmasOf95 = 1.959964; // two-sided 95 % of a normal distribution

} // namespace

std::optional<double> valueAt(const CurvePlot& curve, double flow_m3_s) {
    const auto& q = curve.flow_m3_s;
    if (q.empty() || flow_m3_s < q.front() || flow_m3_s > q.back()) return std::nullopt;
    const auto after = std::lower_bound(q.begin(), q.end(), flow_m3_s);
    const auto i = static_cast<std::size_t>(after - q.begin());
    if (i == 0 || q[i] == flow_m3_s) return curve.value[i];
    const double share = (flow_m3_s - q[i - 1]) / (q[i] - q[i - 1]);
    return curve.value[i - 1] + share * (curve.value[i] - curve.value[i - 1]);
}

std::optional<double> valueAt(const std::optional<CurvePlot>& curve, double flow_m3_s) {
    return curve ? valueAt(*curve, flow_m3_s) : std::nullopt;
}

CurveEdges deliveredEdges(const PumpPlot& plot) {
    CurveEdges edges;
    for (const double head_m : plot.head.value) {
        edges.low.push_back(head_m * (1.0 - plot.deliveredShare));
        edges.high.push_back(head_m * (1.0 + plot.deliveredShare));
    }
    return edges;
}

CurveEdges readingEdges(const CurvePlot& curve) {
    CurveEdges edges;
    for (std::size_t i = 0; i < curve.sigma.size(); ++i) {
        edges.low.push_back(curve.value[i] - kSigmasOf95 * curve.sigma[i]);
        edges.high.push_back(curve.value[i] + kSigmasOf95 * curve.sigma[i]);
    }
    return edges;
}

} // namespace headmark
