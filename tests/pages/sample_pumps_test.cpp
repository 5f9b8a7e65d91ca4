// The sample pumps' curves keep to the tables of figures the sample job was first written with.

#include "pages/sample_pumps.h"

#include <gtest/gtest.h>

#include <utility>
#include <vector>

using namespace headmark::pages;

namespace {

using Table = std::vector<std::pair<double, double>>; // m3/h; m or share
constexpr double kTableShare = 0.01;                  // figures in the tables have two to three digits

template <typename Curve>
void expectNear(const Table& table, const Curve& curve) {
    for (const auto& [flow, figure] : table)
        EXPECT_NEAR(curve(flow), figure, kTableShare * figure) << flow;
}

void expectTables(const SamplePump& pump, const Table& head, const Table& efficiency, const Table& npsh) {
    expectNear(head, [&](double flow) { return pump.head_m(flow); });
    expectNear(efficiency, [&](double flow) { return pump.efficiency_share(flow); });
    expectNear(npsh, [&](double flow) { return pump.npsh_m(flow); });
}

} // namespace

TEST(SamplePumps, KeepToTheTableOfPumpA) {
    expectTables(samplePumps()[0],
                 {{0, 48.8}, {2, 48.4}, {4, 47.1}, {6, 44.9}, {8, 41.5}, {10, 36.4}, {12, 29.4}},
                 {{0, 0.0}, {2, 0.29}, {4, 0.48}, {6, 0.59}, {8, 0.63}, {10, 0.60}, {12, 0.51}},
                 {{0, 1.4}, {4, 1.7}, {8, 2.5}, {12, 4.1}});
}

TEST(SamplePumps, KeepToTheTableOfPumpB) {
    expectTables(samplePumps()[1], {{0, 38.5}, {3, 36.7}, {6, 32.4}, {9, 25.3}, {11, 19.2}},
                 {{0, 0.0}, {3, 0.40}, {6, 0.58}, {9, 0.56}, {11, 0.45}}, {{0, 1.5}, {6, 2.2}, {11, 4.0}});
}

TEST(SamplePumps, KeepToTheTableOfPumpC) {
    expectTables(samplePumps()[2], {{0, 66.0}, {5, 65.2}, {10, 62.4}, {15, 56.8}, {20, 47.6}, {24, 37.0}},
                 {{0, 0.0}, {5, 0.36}, {10, 0.57}, {15, 0.67}, {20, 0.68}, {24, 0.61}},
                 {{0, 1.9}, {10, 2.3}, {18, 3.6}, {24, 5.4}});
}

// By hand for pump A at 8 m3/h: 1000 kg/m3 x 9.80665 m/s2 x (8/3600) m3/s x 41.5 m / 0.63 = 1435.5 W.
TEST(SamplePumps, DrawThePowerThatHeadFlowAndEfficiencyAskFor) {
    EXPECT_NEAR(samplePumps()[0].power_kW(8.0), 1.4355, 0.02 * 1.4355);
}
