#include "analysis/chart/iso_efficiency.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <set>

namespace headmark {

namespace {

// Slope of the line's ink about sample i, m per m3/s: over some samples, since neighbours scatter.
double slopeAbout(const std::vector<LineSample>& samples, std::size_t i) {
    constexpr std::size_t kReach = 4;
    const LineSample &a = samples[i > kReach ? i - kReach : 0],
                     &b = samples[std::min(i + kReach, samples.size() - 1)];
    const double run = b.flow_m3_s - a.flow_m3_s, rise = b.value - a.value;
    constexpr double kUpright = 1e-9;
    return rise / (std::abs(run) > kUpright ? run : std::copysign(kUpright, run));
}

// Where the line, carried straight on beyond its end from a few samples inside, meets the head curve within
// reach; `end` is its first or last sample.
std::optional<IsoCrossing> crossingBeyondEnd(const PolynomialCurve& head, const ReadLine& line,
                                             std::size_t end) {
    constexpr std::size_t kInside = 8;
    const std::vector<LineSample>& samples = line.samples;
    if (samples.size() <= kInside) return std::nullopt;
    const LineSample &last = samples[end], &inside = samples[end == 0 ? kInside : end - kInside];
    const double width_m3_s = head.greatest_m3_s() - head.least_m3_s();
    const double top_m = head.at(head.flowOfMaximum());
    const double run = last.flow_m3_s - inside.flow_m3_s, rise = last.value - inside.value;
    const double step = std::hypot(run / width_m3_s, rise / top_m); // shares of the curve's extent
    if (!(step > 0.0)) return std::nullopt;
    const auto flowAt = [&](double way) { return last.flow_m3_s + way / step * run; };
    const auto offAt = [&](double way) { return last.value + way / step * rise - head.at(flowAt(way)); };
    if (!head.contains(last.flow_m3_s) || !head.contains(flowAt(kIsoEndReach))) return std::nullopt;
    double before = 0.0, after = kIsoEndReach;
    if ((offAt(before) > 0.0) == (offAt(after) > 0.0)) return std::nullopt;
    for (int k = 0; k < 40; ++k) {
        const double middle = 0.5 * (before + after);
        ((offAt(middle) > 0.0) == (offAt(before) > 0.0) ? before : after) = middle;
    }
    constexpr double kAstray = 0.1; // of the way, by the line's bend and the few samples' scatter
    const double flow = flowAt(before), sigma = std::hypot(last.sigma, head.sigmaAt(flow));
    const double parting = std::abs(slopeAbout(samples, end) - head.slopeAt(flow));
    return IsoCrossing{flow, *line.levelShare,
                       std::hypot(sigma / std::max(parting, 1e-9), kAstray * before * width_m3_s)};
}

} // namespace

std::vector<IsoCrossing> isoCrossings(const PolynomialCurve& head, const ReadLine& line) {
    HEADMARK_ASSERT(line.levelShare.has_value(), "a line of equal efficiency has a level");
    const std::vector<LineSample>& samples = line.samples;
    const auto off = [&](const LineSample& s) { return s.value - head.at(s.flow_m3_s); };
    std::vector<IsoCrossing> found;
    for (std::size_t i = 1; i < samples.size(); ++i) {
        const LineSample &a = samples[i - 1], &b = samples[i];
        if (!head.contains(a.flow_m3_s) || !head.contains(b.flow_m3_s)) continue;
        const double before = off(a), after = off(b);
        if ((before > 0.0) == (after > 0.0)) continue;
        const double share = before / (before - after);
        const double flow = a.flow_m3_s + share * (b.flow_m3_s - a.flow_m3_s);
        const double parting = std::abs(slopeAbout(samples, i) - head.slopeAt(flow));
        const double sigma = std::hypot(0.5 * (a.sigma + b.sigma), head.sigmaAt(flow));
        found.push_back({flow, *line.levelShare, sigma / std::max(parting, 1e-9)});
    }
    if (!samples.empty()) {
        for (const std::size_t end : {std::size_t{0}, samples.size() - 1})
            if (const auto crossing = crossingBeyondEnd(head, line, end)) found.push_back(*crossing);
    }
    std::sort(found.begin(), found.end(),
              [](const IsoCrossing& a, const IsoCrossing& b) { return a.flow_m3_s < b.flow_m3_s; });
    constexpr double kSamePlace = 0.02;
    const double apart = kSamePlace * (head.greatest_m3_s() - head.least_m3_s());
    std::vector<IsoCrossing> kept;
    for (const IsoCrossing& crossing : found) {
        if (!kept.empty() && crossing.flow_m3_s - kept.back().flow_m3_s < apart) {
            kept.back().flow_m3_s = 0.5 * (kept.back().flow_m3_s + crossing.flow_m3_s);
            kept.back().sigmaFlow_m3_s = std::max(kept.back().sigmaFlow_m3_s, crossing.sigmaFlow_m3_s);
        } else {
            kept.push_back(crossing);
        }
    }
    return kept;
}

Result<SampleFit> efficiencyFrom(const std::vector<IsoCrossing>& crossings) {
    constexpr std::size_t kFewest = 4;
    std::set<double> levels;
    for (const IsoCrossing& crossing : crossings)
        levels.insert(crossing.level_share);
    if (crossings.size() < kFewest || levels.size() < 2)
        return Error{
            "too-few-crossings", "", "", {{"crossings", static_cast<std::int64_t>(crossings.size())}}};
    // A line's printed level is exact to what its rounding hides.
    constexpr double kLevelSigma = 0.001;
    std::vector<MeasuredSample> samples;
    double greatest = 0.0;
    for (const IsoCrossing& crossing : crossings) {
        samples.push_back({crossing.flow_m3_s, crossing.level_share, std::pow(crossing.sigmaFlow_m3_s, 2),
                           kLevelSigma * kLevelSigma, 0.0});
        greatest = std::max(greatest, crossing.flow_m3_s);
    }
    samples.push_back({0.0, 0.0, 0.0, kLevelSigma * kLevelSigma, 0.0});
    SampleFitOptions options;
    options.sense = CurveSense::oneMaximum;
    options.highestDegree = 3;
    options.robust = false;
    options.range_m3_s = std::pair(0.0, greatest);
    return fitSamples(samples, options);
}

} // namespace headmark
