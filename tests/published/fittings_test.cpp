// Fittings against Crane TP-410, Darby's 3-K method and the definition of Kv.

#include "analysis/pipework/catalogue.h"
#include "analysis/pipework/element.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

namespace headmark {
namespace {

constexpr double kGravity_m_s2 = 9.80665;

ElementContext waterOf(double viscosity_m2_s) {
    return {Density::fromKilogramsPerCubicMetre(1000.0),
            KinematicViscosity::fromSquareMetresPerSecond(viscosity_m2_s), FrictionMethod::darcy};
}

FittingItem fitting(const std::string& code, const std::string& size) {
    FittingItem item;
    item.code = code;
    item.size = size;
    return item;
}

Element made(const FittingItem& item) {
    const auto elements = elementsOf({item}, waterOf(1e-6));
    EXPECT_TRUE(elements.ok()) << item.code;
    return elements->front();
}

// The loss coefficient at a Reynolds number, on the velocity in the element's bore, less the crack head.
double kOf(const Element& element, double reynolds) {
    const double velocity_m_s = reynolds * 1e-6 / element.bore_m;
    const double flow_m3_s = velocity_m_s * std::numbers::pi * element.bore_m * element.bore_m / 4.0;
    const double loss_m = element.quadratic_s2_m5 * flow_m3_s * flow_m3_s + element.linear_s_m2 * flow_m3_s;
    return loss_m / (velocity_m_s * velocity_m_s / (2.0 * kGravity_m_s2));
}

struct CraneLine {
    const char* code;
    const char* size;
    double exact, printed, printedTolerance;
};

// K-01 to K-08. Crane TP-410 fittings appendix, K = (L/D) fT; the printed table has two digits.
TEST(PublishedFittings, CraneLengthMultiples) {
    constexpr std::array kLines = {
        CraneLine{"elbow_90_standard", "1", 0.690, 0.69, 0.005},
        CraneLine{"elbow_90_standard", "2", 0.570, 0.57, 0.005},
        CraneLine{"tee_branch", "3", 1.080, 1.08, 0.005},
        CraneLine{"tee_through", "3", 0.360, 0.36, 0.005},
        CraneLine{"gate_valve", "2", 0.152, 0.15, 0.005},
        CraneLine{"globe_valve", "2", 6.460, 6.5, 0.05},
        CraneLine{"ball_valve_full_bore", "2", 0.057, 0.06, 0.005},
        CraneLine{"elbow_45", "4", 0.272, 0.27, 0.005},
    };
    for (const CraneLine& line : kLines) {
        const double k = kOf(made(fitting(line.code, line.size)), 1e5);
        EXPECT_NEAR(k, line.exact, 1e-9) << line.code << " " << line.size;
        EXPECT_NEAR(k, line.printed, line.printedTolerance) << line.code << " " << line.size;
    }
}

// Crane TP-410: fully turbulent friction factors by nominal size.
TEST(PublishedFittings, CraneTurbulentFrictionFactors) {
    constexpr std::array<std::pair<const char*, double>, 10> kFactors = {{{"1/2", 0.027},
                                                                          {"3/4", 0.025},
                                                                          {"1", 0.023},
                                                                          {"1-1/4", 0.022},
                                                                          {"1-1/2", 0.021},
                                                                          {"2", 0.019},
                                                                          {"2-1/2", 0.018},
                                                                          {"3", 0.018},
                                                                          {"4", 0.017},
                                                                          {"6", 0.015}}};
    for (const auto& [size, factor] : kFactors) {
        EXPECT_EQ(turbulentFrictionFactor(size), factor) << size;
    }
}

struct DarbyLine {
    const char* code;
    double k;
};

// K-12 to K-16. Silverberg and Darby, Chem. Eng. 106(7) 1999; 2 in at Re 1e5, computed from the printed
// constants.
TEST(PublishedFittings, DarbyThreeK) {
    constexpr std::array kLines = {DarbyLine{"elbow_90_standard_3k", 0.6029},
                                   DarbyLine{"tee_branch_3k", 1.1692}, DarbyLine{"gate_valve_3k", 0.1572},
                                   DarbyLine{"globe_valve_3k", 6.6860}, DarbyLine{"check_swing_3k", 1.9695}};
    for (const DarbyLine& line : kLines) {
        EXPECT_NEAR(kOf(made(fitting(line.code, "2")), 1e5), line.k, 1e-4) << line.code;
    }
}

// Silverberg and Darby 1999 and 2001, constants as reprinted in a public fluid-mechanics library.
TEST(PublishedFittings, DarbyConstants) {
    struct Constants {
        const char* code;
        double k1, ki, kd;
    };
    constexpr std::array kTable = {
        Constants{"elbow_90_standard_3k", 800, 0.14, 4.0},
        Constants{"elbow_90_long_3k", 800, 0.071, 4.2},
        Constants{"elbow_45_3k", 500, 0.071, 4.2},
        Constants{"tee_branch_3k", 500, 0.274, 4.0},
        Constants{"tee_through_3k", 200, 0.091, 4.0},
        Constants{"gate_valve_3k", 300, 0.037, 3.9},
        Constants{"ball_valve_3k", 300, 0.017, 3.5},
        Constants{"globe_valve_3k", 1500, 1.7, 3.6},
        Constants{"diaphragm_valve_weir_3k", 1000, 0.69, 4.9},
        Constants{"check_swing_3k", 1500, 0.46, 4.0},
        Constants{"check_lift_3k", 2000, 2.85, 3.8},
    };
    for (const Constants& line : kTable) {
        const FittingRow* row = findFitting(line.code);
        ASSERT_NE(row, nullptr) << line.code;
        EXPECT_EQ(row->k1, line.k1) << line.code;
        EXPECT_EQ(row->ki, line.ki) << line.code;
        EXPECT_EQ(row->kd, line.kd) << line.code;
    }
}

FittingItem valveOf(double kv_m3_h, double bore_mm) {
    FittingItem item;
    item.kv_m3_h = kv_m3_h;
    item.bore = Length::fromMillimetres(bore_mm);
    return item;
}

// K-17. IEC 60534: K = 1.598876e9 D^4/Kv^2 (D in m), from exact unit factors; handbooks round to 1.6e9.
TEST(PublishedFittings, KvAsLossCoefficient) {
    const double k = kOf(made(valveOf(10.0, 25.0)), 1e5);
    const double quotient = std::pow(0.025, 4) / 100.0;
    EXPECT_NEAR(k / quotient, 1.598876e9, 1.598876e9 * 4e-7); // printed to seven digits
    EXPECT_NEAR(k / quotient, 1.6e9, 1.6e9 * 7.1e-4);
}

// K-17. Cv = 1.1560992 Kv: US gallons per minute at 1 psi. A valve of Kv 8.649777 passes 10 US gpm at 1 psi.
TEST(PublishedFittings, KvAgainstCv) {
    const double flow_m3_s = Flow::fromUsGallonsPerMinute(10.0).inCubicMetresPerSecond();
    const double loss_Pa = made(valveOf(8.649777, 50.0)).quadratic_s2_m5 * flow_m3_s * flow_m3_s * 9806.65;
    EXPECT_NEAR(Pressure::fromPascals(loss_Pa).inPsi(), 1.0, 2e-7);
}

// K-18. Crane TP-410M Example 7-2: Kv 500 in 154 mm: K 3.6 printed, 3.5971 exactly; L/D 240 with fT 0.015.
TEST(PublishedFittings, CraneExample72) {
    const double k = kOf(made(valveOf(500.0, 154.0)), 1e6);
    EXPECT_NEAR(k, 3.5971, 5e-5);
    EXPECT_NEAR(k, 3.6, 0.05);
    EXPECT_NEAR(k / turbulentFrictionFactor("6"), 240.0, 0.5);
}

// K-20. Definition of Kv: 25 at 20 m3/h takes 0.64 bar of water of 1000 kg/m3.
TEST(PublishedFittings, LossFromKv) {
    const double flow_m3_s = Flow::fromCubicMetresPerHour(20.0).inCubicMetresPerSecond();
    const double loss_Pa = made(valveOf(25.0, 50.0)).quadratic_s2_m5 * flow_m3_s * flow_m3_s * 9806.65;
    EXPECT_NEAR(Pressure::fromPascals(loss_Pa).inBars(), 0.64, 1e-12);
}

// Crane TP-410 (2009) appendix: entrances and exit.
TEST(PublishedFittings, CraneEntrancesAndExit) {
    EXPECT_NEAR(kOf(made(fitting("entrance_protruding", "2")), 1e5), 0.78, 1e-9);
    EXPECT_NEAR(kOf(made(fitting("entrance_flush_sharp", "2")), 1e5), 0.5, 1e-9);
    EXPECT_NEAR(kOf(made(fitting("entrance_bell", "2")), 1e5), 0.04, 1e-9);
    EXPECT_NEAR(kOf(made(fitting("exit", "2")), 1e5), 1.0, 1e-9);
}

} // namespace
} // namespace headmark
