#include "analysis/duty/zone_demand.h"

#include <cmath>
#include <limits>

namespace headmark {

namespace {

constexpr int kSteps = 256;
constexpr double kNever = std::numeric_limits<double>::infinity();

} // namespace

ZoneDemand::ZoneDemand(std::vector<TreeEdge> branch, const TreeOutflow& outflow, double greatest_m)
    : branch_(std::move(branch)), outflow_(outflow) {
    const Needed still = neededFor(0.0);
    begin_m_ = still.reachable ? still.level_m : kNever;
    if (!still.reachable || begin_m_ >= greatest_m) {
        end_m_ = begin_m_;
        return;
    }
    // The greatest flow: at the cap of the outlets, where a regulator takes hold, or at the greatest level.
    double high = outflow_.law.cap_m3_s();
    if (std::isinf(high)) {
        high = outflow_.law.guess_m3_s();
        while (neededFor(high).reachable && neededFor(high).level_m < greatest_m)
            high *= 2.0;
    }
    const auto within = [&](double q) {
        return neededFor(q).reachable && neededFor(q).level_m <= greatest_m;
    };
    if (!within(high)) {
        double low = 0.0;
        for (int k = 0; k < 200 && high - low > 1e-14 * high; ++k) {
            const double middle = 0.5 * (low + high);
            (within(middle) ? low : high) = middle;
        }
        high = low;
    }
    endFlow_m3_s_ = high;
    end_m_ = neededFor(high).level_m;
    const double step = std::sqrt(end_m_ - begin_m_) / kSteps;
    std::vector<double> flows{0.0}, slopes{0.0};
    for (int i = 1; i <= kSteps; ++i) {
        const double s = step * i;
        const double q = i == kSteps ? high : flowAt(begin_m_ + s * s, flows.back());
        flows.push_back(q);
        slopes.push_back(2.0 * s / neededFor(q).slope_s_m2);
    }
    slopes.front() = flows[1] / step; // the root law; laminar flow begins flatter over less than a step
    flow_ = SmoothTable(0.0, step, std::move(flows), std::move(slopes));
}

ZoneDemand::Needed ZoneDemand::needed(double flow_m3_s, double headAboveZone_m, double slope_s_m2) const {
    Needed n{outflow_.level_m + headAboveZone_m, slope_s_m2, true};
    for (std::size_t i = branch_.size(); i-- > 0;) {
        const TreeEdge& edge = branch_[i];
        if (edge.regulator) {
            if (n.level_m > edge.regulator->setLevel_m) n.reachable = false;
            n.level_m += edge.regulator->leastLoss_m;
        }
        const LossAt loss = edge.chain.at(flow_m3_s);
        n.level_m += loss.loss_m;
        n.slope_s_m2 += loss.slope_s_m2;
    }
    return n;
}

ZoneDemand::Needed ZoneDemand::neededFor(double flow_m3_s) const {
    const LossAt law = outflow_.law.at(flow_m3_s);
    return needed(flow_m3_s, law.loss_m, law.slope_s_m2);
}

// Newton from a flow that is too small, held between ends that enclose the answer.
double ZoneDemand::flowAt(double level_m, double guess_m3_s) const {
    double low = guess_m3_s, high = endFlow_m3_s_, q = guess_m3_s;
    for (int k = 0; k < 100 && high - low > 1e-13 * high; ++k) {
        const Needed n = neededFor(q);
        (n.level_m < level_m ? low : high) = q;
        const double next = n.slope_s_m2 > 0.0 ? q + (level_m - n.level_m) / n.slope_s_m2 : -1.0;
        const double before = q;
        q = next > low && next < high ? next : 0.5 * (low + high);
        if (std::abs(q - before) < 1e-12 * endFlow_m3_s_) break;
    }
    return q;
}

SmoothTable::At ZoneDemand::at(double level_m) const {
    if (level_m <= begin_m_) return {};
    if (level_m >= end_m_) return {endFlow_m3_s_, 0.0};
    const double s = std::sqrt(level_m - begin_m_);
    const SmoothTable::At q = flow_.at(s);
    return {q.value, q.slope / (2.0 * s)};
}

double ZoneDemand::levelFor(double headAboveZone_m) const {
    const double flow = outflow_.law.flowAtHead_m3_s(headAboveZone_m);
    const Needed n = needed(flow, headAboveZone_m, 0.0);
    return n.reachable ? n.level_m : kNever;
}

} // namespace headmark
