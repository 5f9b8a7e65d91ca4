#pragma once
// A pump's curve at another speed, or of identical pumps together, as a scaled polynomial:
//   y(Q) = valueFactor * y0(Q / flowFactor)
// Affinity laws (speed ratio r = n/n0): flow r, head and NPSH r^2, power r^3, efficiency unchanged.
// n identical pumps in parallel: flowFactor n; in series: head n. Source: ISO 9906 / Crane TP-410 eq. for
// speed.

#include "analysis/curve/polynomial_curve.h"

#include <optional>

namespace headmark {

class PumpCurve {
  public:
    PumpCurve() = default;
    explicit PumpCurve(PolynomialCurve base) : base_(std::move(base)) {}

    [[nodiscard]] PumpCurve scaled(double flowFactor, double valueFactor) const;

    [[nodiscard]] double least_m3_s() const { return base_.least_m3_s() * flowFactor_; }
    [[nodiscard]] double greatest_m3_s() const { return base_.greatest_m3_s() * flowFactor_; }
    [[nodiscard]] bool contains(double flow_m3_s) const { return base_.contains(flow_m3_s / flowFactor_); }
    [[nodiscard]] double at(double flow_m3_s) const {
        return valueFactor_ * base_.at(flow_m3_s / flowFactor_);
    }
    [[nodiscard]] double slopeAt(double flow_m3_s) const {
        return valueFactor_ / flowFactor_ * base_.slopeAt(flow_m3_s / flowFactor_);
    }
    [[nodiscard]] double sigmaAt(double flow_m3_s) const {
        return valueFactor_ * base_.sigmaAt(flow_m3_s / flowFactor_);
    }
    [[nodiscard]] const PolynomialCurve& base() const { return base_; }
    [[nodiscard]] double flowFactor() const { return flowFactor_; }
    [[nodiscard]] double valueFactor() const { return valueFactor_; }
    [[nodiscard]] std::vector<double> turningPoints() const;
    [[nodiscard]] double flowOfMaximum() const { return base_.flowOfMaximum() * flowFactor_; }

  private:
    PolynomialCurve base_;
    double flowFactor_ = 1.0, valueFactor_ = 1.0;
};

[[nodiscard]] inline PumpCurve inParallel(const PumpCurve& curve, int pumps) {
    return curve.scaled(pumps, 1.0);
}
[[nodiscard]] inline PumpCurve inSeries(const PumpCurve& curve, int pumps) {
    return curve.scaled(1.0, pumps);
}

// Efficiency from shaft power and back, P = rho g Q H / eta. Zero flow gives zero efficiency; power at zero
// flow cannot follow from efficiency (empty).
[[nodiscard]] double efficiencyFromPower(double flow_m3_s, double head_m, double shaft_W,
                                         double density_kg_m3);
[[nodiscard]] std::optional<double> powerFromEfficiency(double flow_m3_s, double head_m, double efficiency,
                                                        double density_kg_m3);

// Specific speed n sqrt(Q)/H^0.75 in the metric form (rpm, m3/s, m) and the US form (rpm, US gal/min, ft).
[[nodiscard]] double specificSpeedMetric(double rpm, double flow_m3_s, double head_m);
[[nodiscard]] double specificSpeedUs(double rpm, double flow_m3_s, double head_m);

} // namespace headmark
