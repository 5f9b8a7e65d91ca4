// Affinity laws, specific speed, shaft power, pump curves and arrangements against published examples.
// US units by exact factors: US gallon 231 cubic inches, foot 0.3048 m (NIST Handbook 44).

#include "analysis/curve/fit_points.h"
#include "analysis/curve/pump_curve.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace headmark {
namespace {

constexpr double kGpm_m3_s = 3.785411784e-3 / 60.0;
constexpr double kFootOf_m = 0.3048;
constexpr double kM3_h = 1.0 / 3600.0;
constexpr double kGravity_m_s2 = 9.80665;
// Printed with four to six figures.
constexpr double kPrinted = 1e-4;

#define EXPECT_RELATIVE(computed, expected, share) EXPECT_NEAR(computed, expected, (share)*std::abs(expected))

// The curve through points given in the trade's unit of flow.
PumpCurve curveThrough(std::vector<CurveSample> points, double flowUnit_m3_s) {
    for (CurveSample& point : points)
        point.flow_m3_s *= flowUnit_m3_s;
    return PumpCurve(fitPoints(std::move(points), CurveSense::oneMaximum).value().curve);
}

// Three points of head = shutOff - factor q^2, worked out here, q in m3/h.
PumpCurve parabolicPump(double shutOff_m, double factor, double greatest_m3_h) {
    const auto head_m = [&](double q) { return shutOff_m - factor * q * q; };
    return curveThrough({{0.0, head_m(0.0)},
                         {0.5 * greatest_m3_h, head_m(0.5 * greatest_m3_h)},
                         {greatest_m3_h, head_m(greatest_m3_h)}},
                        kM3_h);
}

// Crane TP-410, Example 7-33: 400 gpm, 126 ft, 17.5 hp at 3500 rpm, run at 1700 rpm.
TEST(Affinity, CarriesFlowHeadAndPowerToAnotherSpeedAsInCrane) {
    const double r = 1700.0 / 3500.0;
    // Any curve through the printed point will do; the neighbours are invented.
    const PumpCurve head =
        curveThrough({{0.0, 140.0}, {400.0, 126.0}, {600.0, 90.0}}, kGpm_m3_s).scaled(r, r * r);
    const PumpCurve power =
        curveThrough({{0.0, 9.0}, {400.0, 17.5}, {600.0, 20.0}}, kGpm_m3_s).scaled(r, r * r * r);
    const double flow_m3_s = 194.286 * kGpm_m3_s;
    EXPECT_RELATIVE(head.at(flow_m3_s), 29.7257, kPrinted);
    EXPECT_RELATIVE(power.at(flow_m3_s), 2.00531, kPrinted);
}

// Fox and McDonald, Introduction to Fluid Mechanics, Example 10.7: 1170 to 1750 rpm; 300 gpm at 21.9 ft,
// shut-off 25 ft.
TEST(Affinity, RaisesBestPointAndShutOffAsInFoxAndMcDonald) {
    const double r = 1750.0 / 1170.0;
    const PumpCurve head =
        curveThrough({{0.0, 25.0}, {300.0, 21.9}, {400.0, 18.0}}, kGpm_m3_s).scaled(r, r * r);
    EXPECT_RELATIVE(head.at(448.718 * kGpm_m3_s), 48.9946, kPrinted);
    EXPECT_RELATIVE(head.at(0.0), 55.9299, kPrinted);
    EXPECT_RELATIVE(head.greatest_m3_s() / kGpm_m3_s, 400.0 * 448.718 / 300.0, kPrinted);
}

// Cengel and Cimbala, Fluid Mechanics, Example 14-10: double speed asks eight times the power.
TEST(Affinity, MakesEightfoldPowerOfDoubleSpeed) {
    const PumpCurve power = curveThrough({{0.0, 1.0}, {10.0, 2.5}, {20.0, 3.0}}, kM3_h);
    const PumpCurve fast = power.scaled(2.0, 2.0 * 2.0 * 2.0);
    EXPECT_RELATIVE(fast.at(20.0 * kM3_h), 8.0 * 2.5, 1e-12);
}

// Efficiency is unchanged along affine points, by P = rho g Q H/eta with flow r, head r^2, power r^3.
TEST(Affinity, LeavesTheEfficiencyOfTheCranePumpUnchanged) {
    const double horsepower_W = 745.69987158227; // 550 ft lbf/s
    const double before =
        efficiencyFromPower(400.0 * kGpm_m3_s, 126.0 * kFootOf_m, 17.5 * horsepower_W, 999.0);
    const double after =
        efficiencyFromPower(194.286 * kGpm_m3_s, 29.7257 * kFootOf_m, 2.00531 * horsepower_W, 999.0);
    EXPECT_NEAR(after, before, 1e-5);
}

struct SpecificSpeedCase {
    const char* source;
    double rpm, flow_gpm, head_ft, expected;
};

TEST(SpecificSpeed, AgreesWithPrintedExamplesInUsUnits) {
    const SpecificSpeedCase cases[] = {
        {"Cengel and Cimbala, Example 14-9", 1170.0, 320.0, 23.5, 1960.92},
        {"Fox and McDonald, Example 10.6 (printed 2000)", 1170.0, 300.0, 21.9, 2001.77},
        {"Daugherty and Franzini, Example 17.2", 600.0, 2000.0, 150.0, 626.03},
        {"Irfan Khan, Fluid Mechanics, Example 12.4 (printed 1096)", 1800.0, 500.0, 122.1, 1095.77},
    };
    for (const SpecificSpeedCase& c : cases) {
        const double computed = specificSpeedUs(c.rpm, c.flow_gpm * kGpm_m3_s, c.head_ft * kFootOf_m);
        EXPECT_RELATIVE(computed, c.expected, kPrinted) << c.source;
        // Dividing by 2733.016 gives the dimensionless number, by 51.64524 the metric one; both factors
        // from the exact units.
        EXPECT_RELATIVE(specificSpeedMetric(c.rpm, c.flow_gpm * kGpm_m3_s, c.head_ft * kFootOf_m),
                        c.expected / 51.64524, kPrinted)
            << c.source;
    }
    // The dimensionless numbers as printed: 0.717 and 0.73.
    EXPECT_NEAR(specificSpeedUs(1170.0, 320.0 * kGpm_m3_s, 23.5 * kFootOf_m) / 2733.016, 0.717, 0.0005);
    EXPECT_NEAR(specificSpeedUs(1170.0, 300.0 * kGpm_m3_s, 21.9 * kFootOf_m) / 2733.016, 0.73, 0.005);
}

// Arasu, Turbomachines, Example 8.13: 2875 rpm, 57.2 m3/h, 42.1 m, efficiency 0.76 (g 9.81).
TEST(SpecificSpeed, AgreesWithArasuInMetricUnits) {
    EXPECT_RELATIVE(specificSpeedMetric(2875.0, 57.2 * kM3_h, 42.1), 21.927, kPrinted);
    const auto power_W = powerFromEfficiency(57.2 * kM3_h, 42.1, 0.76, 1000.0);
    ASSERT_TRUE(power_W.has_value());
    EXPECT_RELATIVE(*power_W * 9.81 / kGravity_m_s2, 8634.4, kPrinted);
}

// Arasu, Example 8.17: three stages at 1000 rpm and 0.150 m3/s, nq 20 each, lift 156 m together: 52.002 m a
// stage.
TEST(SpecificSpeed, DividesTheHeadOverStagesAsInArasu) {
    EXPECT_RELATIVE(specificSpeedMetric(1000.0, 0.150, 52.002), 20.0, kPrinted);
    const PumpCurve stage = curveThrough({{0.0, 60.0}, {0.150, 52.002}, {0.2, 45.0}}, 1.0);
    EXPECT_RELATIVE(inSeries(stage, 3).at(0.150), 156.0, kPrinted);
}

// Cengel and Cimbala, Example 14-2: water 998 kg/m3, g 9.81, 0.0233 m3/s; 7.3 m at 0.70, 21.9 m at 0.765.
TEST(ShaftPower, AgreesWithTwoImpellersOfCengelAndCimbala) {
    const double bookGravity = 9.81 / kGravity_m_s2;
    EXPECT_NEAR(powerFromEfficiency(0.0233, 7.3, 0.70, 998.0).value() * bookGravity, 2378.92, 0.01);
    EXPECT_NEAR(powerFromEfficiency(0.0233, 21.9, 0.765, 998.0).value() * bookGravity, 6530.38, 0.01);
}

// Crane TP-410, Example 7-34: 700 gpm, 428 ft, 62.364 lb/ft3, efficiency 0.707: 107.056 hp.
TEST(ShaftPower, AgreesWithBrakePowerOfCrane) {
    const double density_kg_m3 = 62.364 * 0.45359237 / (kFootOf_m * kFootOf_m * kFootOf_m);
    const auto power_W = powerFromEfficiency(700.0 * kGpm_m3_s, 428.0 * kFootOf_m, 0.707, density_kg_m3);
    ASSERT_TRUE(power_W.has_value());
    EXPECT_RELATIVE(*power_W / 745.69987158227, 107.056, kPrinted);
}

// Cengel and Cimbala, Example 5-12: 50 L/s from 100 to 300 kPa, motor input 15 kW at 0.90: 74.1 %.
TEST(PumpEfficiency, AgreesWithCengelAndCimbala) {
    const double head_m = 200e3 / (1000.0 * kGravity_m_s2);
    EXPECT_NEAR(efficiencyFromPower(0.050, head_m, 15e3 * 0.90, 1000.0), 0.74074, 1e-5);
}

// Irfan Khan, Example 12.1: 0.8 of water, 0.25 m3/s, 25 m, 350 N m at 1800 rpm, 9810 N/m3: 74 %.
TEST(PumpEfficiency, FollowsFromTorqueAsInIrfanKhan) {
    const double shaft_W = 350.0 * 1800.0 * 2.0 * std::numbers::pi / 60.0;
    const double density_kg_m3 = 0.8 * 9810.0 / kGravity_m_s2; // the book's weight at standard gravity
    EXPECT_NEAR(efficiencyFromPower(0.25, 25.0, shaft_W, density_kg_m3), 0.74348, 1e-5);
}

// Arasu, Example 8.6: 19.1905 m, 0.1 m3/s, 22 kW, g 9.81: 85.6 %.
TEST(PumpEfficiency, AgreesWithArasuFromGauges) {
    EXPECT_NEAR(efficiencyFromPower(0.1, 19.1905, 22e3, 1000.0 * 9.81 / kGravity_m_s2), 0.85572, 1e-5);
}

// Arasu, Example 8.8: 0.025 m3/s, 45.304 m, efficiency 0.70, g 9.81: 15.87 kW.
TEST(ShaftPower, AgreesWithArasuForAPumpedSystem) {
    const auto power_W = powerFromEfficiency(0.025, 45.304, 0.70, 1000.0);
    ASSERT_TRUE(power_W.has_value());
    EXPECT_RELATIVE(*power_W * 9.81 / kGravity_m_s2, 15873.0, kPrinted);
}

// Schaschke, Fluid Mechanics: Worked Examples for Engineers, Example 9.2: H = 12 - 70 Q - 4300 Q^2 at 2 m/s
// in a bore of 0.1 m: 9.83946 m.
TEST(PumpCurve, GivesTheHeadOfSchaschkesParabola) {
    // Worked out from the printed equation: 12, 12 - 0.7 - 0.43, 12 - 2.1 - 3.87.
    const PumpCurve pump = curveThrough({{0.0, 12.0}, {0.01, 10.87}, {0.03, 6.03}}, 1.0);
    const double flow_m3_s = std::numbers::pi / 4.0 * 0.1 * 0.1 * 2.0;
    EXPECT_NEAR(pump.at(flow_m3_s), 9.83946, 5e-6);
    const Eigen::VectorXd powers = pump.base().monomial(1.0);
    EXPECT_NEAR(powers[1], -70.0, 1e-9);
    EXPECT_NEAR(powers[2], -4300.0, 1e-7);
}

// Schaschke, Example 9.10: a table of six points; its crossing with H = 10 + 5.42032e5 Q^2, read from a
// graph, is 0.0066 m3/s and 33.8 to 34 m.
TEST(PumpCurve, CrossesTheSystemOfSchaschkesTableWhereTheGraphDoes) {
    const PumpCurve pump = curveThrough(
        {{0.0, 40.0}, {0.002, 39.5}, {0.004, 38.0}, {0.006, 35.0}, {0.008, 30.0}, {0.010, 20.0}}, 1.0);
    const auto surplus_m = [&](double q) { return pump.at(q) - (10.0 + 5.42032e5 * q * q); };
    double low = 0.0, high = 0.010;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (surplus_m(middle) > 0.0 ? low : high) = middle;
    }
    EXPECT_RELATIVE(low, 0.00662, 0.01);
    EXPECT_RELATIVE(pump.at(low), 33.75, 0.02);
}

// A closed set by hand: pump 50 - 0.008 q^2, system 20 + 0.004 q^2 (m, m3/h). One pump: 30 = 0.012 q^2.
// Two in parallel: 30 = (0.002 + 0.004) q^2. Two in series: 80 = (0.016 + 0.004) q^2.
TEST(Arrangement, MeetsTheSystemWhereHandCalculationSays) {
    const PumpCurve pump = parabolicPump(50.0, 0.008, 75.0);
    EXPECT_NEAR(pump.at(50.0 * kM3_h), 30.0, 1e-12);
    EXPECT_NEAR(inParallel(pump, 2).at(std::sqrt(5000.0) * kM3_h), 40.0, 1e-12);
    EXPECT_NEAR(inSeries(pump, 2).at(std::sqrt(4000.0) * kM3_h), 36.0, 1e-12);
    // Slopes, m per m3/h: -0.016 q, for two in parallel -0.004 q, in series -0.032 q.
    EXPECT_NEAR(pump.slopeAt(50.0 * kM3_h) * kM3_h, -0.8, 1e-12);
    EXPECT_NEAR(inParallel(pump, 2).slopeAt(70.0 * kM3_h) * kM3_h, -0.28, 1e-12);
    EXPECT_NEAR(inSeries(pump, 2).slopeAt(60.0 * kM3_h) * kM3_h, -1.92, 1e-12);
}

} // namespace
} // namespace headmark
