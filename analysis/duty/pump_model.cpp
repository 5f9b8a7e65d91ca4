#include "analysis/duty/pump_model.h"

#include <algorithm>
#include <cmath>

namespace headmark {

PumpModel PumpModel::atSpeed(double speedShare) const {
    const double r = runRatio * speedShare;
    PumpModel m = *this;
    m.head = head.scaled(r, r * r);
    if (efficiency) m.efficiency = efficiency->scaled(r, 1.0);
    if (power) m.power = power->scaled(r, r * r * r);
    if (npshRequired) m.npshRequired = npshRequired->scaled(r, r * r);
    if (chartSpeed) m.chartSpeed = *chartSpeed * r;
    m.runRatio = 1.0;
    return m;
}

std::optional<double> PumpModel::efficiencyAt(double flow_m3_s, double head_m, Density density) const {
    if (efficiency) {
        if (!efficiency->contains(flow_m3_s)) return std::nullopt;
        return std::max(0.0, efficiency->at(flow_m3_s));
    }
    if (!power || !power->contains(flow_m3_s)) return std::nullopt;
    double shaft_W = power->at(flow_m3_s);
    if (powerAtMotorInput) {
        if (!motor || !motor->efficiency) return std::nullopt;
        shaft_W *= motor->efficiency->inShare();
    }
    if (shaft_W <= 0.0) return std::nullopt;
    return efficiencyFromPower(flow_m3_s, head_m, shaft_W, density.inKilogramsPerCubicMetre());
}

std::optional<double> PumpModel::shaftAt_W(double flow_m3_s, double head_m, Density density) const {
    if (power && power->contains(flow_m3_s)) {
        if (!powerAtMotorInput) return power->at(flow_m3_s);
        if (motor && motor->efficiency) return power->at(flow_m3_s) * motor->efficiency->inShare();
    }
    if (!efficiency || !efficiency->contains(flow_m3_s)) return std::nullopt;
    return powerFromEfficiency(flow_m3_s, head_m, efficiency->at(flow_m3_s),
                               density.inKilogramsPerCubicMetre());
}

std::optional<double> PumpModel::inputAt_W(double flow_m3_s, double head_m, Density density) const {
    if (power && powerAtMotorInput && power->contains(flow_m3_s)) return power->at(flow_m3_s);
    if (!motor || !motor->efficiency) return std::nullopt;
    const auto shaft_W = shaftAt_W(flow_m3_s, head_m, density);
    if (!shaft_W) return std::nullopt;
    return *shaft_W / motor->efficiency->inShare();
}

std::optional<PumpModel::BestPoint> PumpModel::bestPoint(Density density) const {
    if (efficiency) {
        const double flow = efficiency->flowOfMaximum();
        const double span = efficiency->greatest_m3_s() - efficiency->least_m3_s();
        return BestPoint{flow, efficiency->at(flow), flow > efficiency->greatest_m3_s() - 1e-9 * span};
    }
    if (!power) return std::nullopt;
    const double low = std::max(power->least_m3_s(), head.least_m3_s());
    const double high = std::min(power->greatest_m3_s(), head.greatest_m3_s());
    if (!(high > low)) return std::nullopt;
    const auto at = [&](double q) { return efficiencyAt(q, head.at(q), density).value_or(0.0); };
    // Efficiency from power is smooth with one top: a coarse look, then golden section.
    constexpr int kLooks = 60;
    int top = 0;
    for (int i = 1; i <= kLooks; ++i) {
        if (at(low + (high - low) * i / kLooks) > at(low + (high - low) * top / kLooks)) top = i;
    }
    double a = low + (high - low) * std::max(0, top - 1) / kLooks;
    double b = low + (high - low) * std::min(kLooks, top + 1) / kLooks;
    const double golden = (std::sqrt(5.0) - 1.0) / 2.0;
    while (b - a > 1e-9 * high) {
        const double c = b - golden * (b - a), d = a + golden * (b - a);
        (at(c) > at(d) ? b : a) = at(c) > at(d) ? d : c;
    }
    const double best = 0.5 * (a + b);
    if (at(best) <= 0.0) return std::nullopt;
    return BestPoint{best, at(best), best > high - 1e-6 * (high - low)};
}

std::optional<double> PumpModel::suctionSpecificSpeed(Density density) const {
    if (!chartSpeed || !npshRequired) return std::nullopt;
    const auto best = bestPoint(density);
    if (!best || best->atEndOfRange || best->flow_m3_s <= 0.0 || !npshRequired->contains(best->flow_m3_s))
        return std::nullopt;
    const double required_m = npshRequired->at(best->flow_m3_s);
    if (required_m <= 0.0) return std::nullopt;
    return specificSpeedMetric(chartSpeed->inRevolutionsPerMinute(), best->flow_m3_s, required_m);
}

double deliveredShareFor(std::optional<Power> rated) {
    if (!rated || rated->inKilowatts() < 10.0) return 0.08;
    return rated->inKilowatts() <= 100.0 ? 0.07 : 0.05;
}

BandLimits bandLimits(const PumpModel& pump, const PumpModel::BestPoint& best) {
    BandLimits limits;
    if (pump.chartSpeed && pump.head.contains(best.flow_m3_s) && best.flow_m3_s > 0.0) {
        const double head_m = pump.head.at(best.flow_m3_s);
        constexpr double kHighSpecificSpeedUs = 4500.0; // ANSI/HI 9.6.3, as summarised in a trade journal
        if (head_m > 0.0 && specificSpeedUs(pump.chartSpeed->inRevolutionsPerMinute(), best.flow_m3_s,
                                            head_m) > kHighSpecificSpeedUs) {
            limits.preferredLow = 0.80;
            limits.preferredHigh = 1.15;
        }
    }
    if (pump.allowableShare) {
        limits.allowableLow = pump.allowableShare->first;
        limits.allowableHigh = pump.allowableShare->second;
        // Nothing the maker does not allow is preferred.
        limits.preferredLow = std::max(limits.preferredLow, limits.allowableLow);
        limits.preferredHigh = std::min(limits.preferredHigh, limits.allowableHigh);
    }
    return limits;
}

Band bandOf(double shareOfBestFlow, const BandLimits& limits) {
    if (shareOfBestFlow >= limits.preferredLow && shareOfBestFlow <= limits.preferredHigh)
        return Band::preferred;
    if (shareOfBestFlow >= limits.allowableLow && shareOfBestFlow <= limits.allowableHigh)
        return Band::allowable;
    return Band::outside;
}

FallingHead::FallingHead(const PumpCurve& curve, double factor, double from_m3_s, double to_m3_s)
    : curve_(curve), factor_(factor), from_(from_m3_s), to_(to_m3_s), headFrom_(factor * curve.at(from_m3_s)),
      headTo_(factor * curve.at(to_m3_s)) {
    // At least as steep as the mean of the piece, so that the continued line falls in any case.
    const double mean = to_ > from_ ? (headTo_ - headFrom_) / (to_ - from_) : 0.0;
    slopeTo_ = std::min({factor * curve.slopeAt(to_m3_s), mean, -1e-6});
}

LossAt FallingHead::at(double flow_m3_s) const {
    if (flow_m3_s < from_) return {headFrom_, 0.0};
    if (flow_m3_s > to_) return {headTo_ + slopeTo_ * (flow_m3_s - to_), slopeTo_};
    return {factor_ * curve_.at(flow_m3_s), std::min(0.0, factor_ * curve_.slopeAt(flow_m3_s))};
}

} // namespace headmark
