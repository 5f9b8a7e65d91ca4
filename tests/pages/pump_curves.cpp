#include "pump_curves.h"

#include <cmath>

namespace headmark::pages {

namespace {

// eta / Q of the full impeller; finite at no flow.
double efficiencyByFlow(const PumpLaw& law, double flow_m3_h) {
    const double m = law.efficiencyPower;
    const double best = std::pow(1.0 / (1.0 + m), 1.0 / m);
    const double factor = law.bestEfficiency_share / (best * (1.0 - std::pow(best, m)));
    return factor * (1.0 - std::pow(flow_m3_h / law.zeroFlow_m3_h, m)) / law.zeroFlow_m3_h;
}

double fullHead_m(const PumpLaw& law, double flow_m3_h) {
    const double q = flow_m3_h / law.endFlow_m3_h;
    return law.shutOff_m + law.droop_m * q -
           (law.shutOff_m + law.droop_m - law.endHead_m) * std::pow(q, law.headPower);
}

} // namespace

double PumpLaw::head_m(double flow_m3_h) const {
    return diameterRatio * diameterRatio * fullHead_m(*this, flow_m3_h / diameterRatio);
}

double PumpLaw::efficiency_share(double flow_m3_h) const {
    const double full_m3_h = flow_m3_h / diameterRatio;
    return full_m3_h * efficiencyByFlow(*this, full_m3_h);
}

double PumpLaw::power_kW(double flow_m3_h) const {
    const double full_m3_h = flow_m3_h / diameterRatio;
    // rho g in kW per (m3/h m): 9.80665 kN/m3 / 3600 s/h.
    const double full_kW =
        9.80665 / 3600.0 * fullHead_m(*this, full_m3_h) / efficiencyByFlow(*this, full_m3_h);
    return std::pow(diameterRatio, 3) * full_kW;
}

double PumpLaw::npsh_m(double flow_m3_h) const {
    return npshLeast_m + (npshEnd_m - npshLeast_m) * std::pow(flow_m3_h / lastFlow_m3_h(), npshPower);
}

PumpLaw PumpLaw::trimmed(double ratio) const {
    PumpLaw other = *this;
    other.diameterRatio = diameterRatio * ratio;
    return other;
}

PumpLaw drawPump(Dice& dice, double endFlow_m3_h, bool drooping) {
    PumpLaw law;
    law.endFlow_m3_h = endFlow_m3_h;
    law.shutOff_m = dice.between(22.0, 78.0);
    law.endHead_m = law.shutOff_m * dice.between(0.38, 0.62);
    law.headPower = dice.between(1.6, 2.5);
    if (drooping) {
        law.droop_m = law.shutOff_m * dice.between(0.14, 0.24);
        law.headPower = dice.between(1.8, 2.3);
    }
    law.bestEfficiency_share = dice.between(0.48, 0.78);
    law.zeroFlow_m3_h = endFlow_m3_h * dice.between(1.16, 1.4);
    law.efficiencyPower = dice.between(0.9, 1.6);
    law.npshLeast_m = dice.between(1.0, 2.0);
    law.npshEnd_m = dice.between(3.2, 6.0);
    law.npshPower = dice.between(1.9, 2.8);
    return law;
}

} // namespace headmark::pages
