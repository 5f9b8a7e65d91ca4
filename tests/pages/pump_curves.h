#pragma once
// The laws the invented pumps follow, in m3/h, m, share and kW.
//   head        H = H0 - (H0 - He) (Q/Qe)^n             n 1.6 to 2.5
//   drooping    H = H0 + d q - (H0 + d - He) q^n        q = Q/Qe: rises first, then falls
//   efficiency  eta = c q (1 - q^m),  q = Q/Qm          best value at q = (1/(1+m))^(1/m)
//   power       P = rho g Q H / eta, its limit at Q = 0 by eta/Q = c (1 - q^m)/Qm
//   NPSH        N = N0 + (Ne - N0) (Q/Qe)^k
// Another impeller of diameter ratio r: H = r^2 H(Q/r), P = r^3 P(Q/r), eta = eta(Q/r).
// Water of 1000 kg/m3, g = 9.80665 m/s2.

#include "analysis/chart/reading.h"

#include "dice.h"

namespace headmark::pages {

struct PumpLaw {
    double shutOff_m = 40.0, endHead_m = 20.0, endFlow_m3_h = 12.0, headPower = 2.0;
    double droop_m = 0.0; // d: 0 of a curve that only falls
    double bestEfficiency_share = 0.6, zeroFlow_m3_h = 15.0, efficiencyPower = 2.0;
    double npshLeast_m = 1.5, npshEnd_m = 4.0, npshPower = 2.3;
    double diameterRatio = 1.0;

    [[nodiscard]] double head_m(double flow_m3_h) const;
    [[nodiscard]] double efficiency_share(double flow_m3_h) const;
    [[nodiscard]] double power_kW(double flow_m3_h) const;
    [[nodiscard]] double npsh_m(double flow_m3_h) const;
    [[nodiscard]] double lastFlow_m3_h() const { return endFlow_m3_h * diameterRatio; }
    [[nodiscard]] PumpLaw trimmed(double ratio) const;
};

// What a chart shows of a pump at a flow: percent, kW or m. Any type with the four laws above.
template <class Pump>
double shownFigure(const Pump& pump, LineQuantity quantity, double flow_m3_h) {
    switch (quantity) {
    case LineQuantity::efficiency:
        return 100.0 * pump.efficiency_share(flow_m3_h);
    case LineQuantity::power:
        return pump.power_kW(flow_m3_h);
    case LineQuantity::npshRequired:
        return pump.npsh_m(flow_m3_h);
    default:
        return pump.head_m(flow_m3_h);
    }
}

PumpLaw drawPump(Dice& dice, double endFlow_m3_h, bool drooping);

} // namespace headmark::pages
