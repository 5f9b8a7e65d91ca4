#pragma once
// The three invented pumps of the sample job as smooth curves, Q in m3/h:
//   head        H = h0 + h1 Q + h2 Q^2 + h3 Q^3             m
//   efficiency  eta = Q (e0 + e1 Q + e2 Q^2 + e3 Q^3)       share
//   NPSH        N = n0 + n1 Q + n2 Q^2 + n3 Q^3             m
//   power       P = rho g Q H / eta, at Q = 0 its limit     kW (1000 kg/m3, 9.80665 m/s2)
// valid from no flow to lastFlow_m3_h.

#include <array>

namespace headmark::pages {

struct SamplePump {
    const char* letter;
    double lastFlow_m3_h;
    std::array<double, 4> headBy, efficiencyBy, npshBy;

    [[nodiscard]] double head_m(double flow_m3_h) const;
    [[nodiscard]] double efficiency_share(double flow_m3_h) const;
    [[nodiscard]] double npsh_m(double flow_m3_h) const;
    [[nodiscard]] double power_kW(double flow_m3_h) const;
};

const std::array<SamplePump, 3>& samplePumps();

} // namespace headmark::pages
