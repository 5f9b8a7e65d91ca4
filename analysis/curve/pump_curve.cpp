#include "analysis/curve/pump_curve.h"

#include "analysis/core/assertion.h"
#include "analysis/units/unit_factors.h"

#include <cmath>

namespace headmark {

PumpCurve PumpCurve::scaled(double flowFactor, double valueFactor) const {
    HEADMARK_ASSERT(flowFactor > 0.0 && valueFactor > 0.0, "a pump curve is scaled by positive factors");
    PumpCurve result = *this;
    result.flowFactor_ *= flowFactor;
    result.valueFactor_ *= valueFactor;
    return result;
}

std::vector<double> PumpCurve::turningPoints() const {
    std::vector<double> flows_m3_s = base_.turningPoints();
    for (double& flow_m3_s : flows_m3_s)
        flow_m3_s *= flowFactor_;
    return flows_m3_s;
}

double efficiencyFromPower(double flow_m3_s, double head_m, double shaft_W, double density_kg_m3) {
    if (flow_m3_s == 0.0) return 0.0;
    HEADMARK_ASSERT(shaft_W > 0.0, "water that moves needs power at the shaft");
    return density_kg_m3 * factor::kStandardGravity_m_s2 * flow_m3_s * head_m / shaft_W;
}

std::optional<double> powerFromEfficiency(double flow_m3_s, double head_m, double efficiency,
                                          double density_kg_m3) {
    if (!(flow_m3_s > 0.0) || !(efficiency > 0.0)) return std::nullopt;
    return density_kg_m3 * factor::kStandardGravity_m_s2 * flow_m3_s * head_m / efficiency;
}

double specificSpeedMetric(double rpm, double flow_m3_s, double head_m) {
    HEADMARK_ASSERT(flow_m3_s >= 0.0 && head_m > 0.0, "specific speed needs a flow and a positive head");
    return rpm * std::sqrt(flow_m3_s) / std::pow(head_m, 0.75);
}

double specificSpeedUs(double rpm, double flow_m3_s, double head_m) {
    return specificSpeedMetric(rpm, flow_m3_s / factor::kUsGallonPerMinute_m3_s, head_m / factor::kFoot_m);
}

} // namespace headmark
