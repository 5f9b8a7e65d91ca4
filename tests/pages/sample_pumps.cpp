#include "sample_pumps.h"

namespace headmark::pages {

namespace {

double polynomial(const std::array<double, 4>& by, double flow) {
    return by[0] + flow * (by[1] + flow * (by[2] + flow * by[3]));
}

} // namespace

double SamplePump::head_m(double flow_m3_h) const { return polynomial(headBy, flow_m3_h); }

double SamplePump::efficiency_share(double flow_m3_h) const {
    return flow_m3_h * polynomial(efficiencyBy, flow_m3_h);
}

double SamplePump::npsh_m(double flow_m3_h) const { return polynomial(npshBy, flow_m3_h); }

double SamplePump::power_kW(double flow_m3_h) const {
    // rho g in kW per (m3/h m): 9.80665 kN/m3 / 3600 s/h.
    return 9.80665 / 3600.0 * head_m(flow_m3_h) / polynomial(efficiencyBy, flow_m3_h);
}

const std::array<SamplePump, 3>& samplePumps() {
    static const std::array<SamplePump, 3> pumps = {{
        {"a",
         12.0,
         {48.829, -0.13175, -0.047709, -0.00635},
         {0.17287, -0.014961, 0.0005057, -0.0000137},
         {1.4, 0.0375, 0.00625, 0.00078125}},
        {"b",
         11.0,
         {38.489, -0.13929, -0.148046, 0.0001136},
         {0.17288, -0.013591, 0.00014483, 0.0},
         {1.5, 0.0, 0.017984, 0.00024334}},
        {"c",
         24.0,
         {66.006, -0.024439, -0.022324, -0.00112536},
         {0.091473, -0.0044214, 0.00011614, -0.000001941},
         {1.898, 0.0, 0.0026253, 0.0001444}},
    }};
    return pumps;
}

} // namespace headmark::pages
