// Water and air against the tables printed with the equations.

#include "analysis/water/iapws.h"
#include "analysis/water/water.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace headmark {
namespace {

// W-01. IAPWS SR6-08(2011), Table 8: all printed digits.
TEST(PublishedWater, DensityOfIapwsSr608Table8) {
    EXPECT_NEAR(iapws::liquidDensity_kg_m3(260.0), 997.068360, 1e-6);
    EXPECT_NEAR(iapws::liquidDensity_kg_m3(298.15), 997.047013, 1e-6);
    EXPECT_NEAR(iapws::liquidDensity_kg_m3(375.0), 957.009710, 1e-6);
    EXPECT_NEAR(waterAt(Temperature::fromKelvin(298.15)).density.inKilogramsPerCubicMetre(), 997.047013,
                1e-6);
}

// W-02. IAPWS SR6-08(2011), Table 8; in 1e-6 Pa s.
TEST(PublishedWater, ViscosityOfIapwsSr608Table8) {
    EXPECT_NEAR(iapws::liquidViscosity_Pa_s(260.0) * 1e6, 3058.36075, 1e-5);
    EXPECT_NEAR(iapws::liquidViscosity_Pa_s(298.15) * 1e6, 889.996774, 1e-6);
    EXPECT_NEAR(iapws::liquidViscosity_Pa_s(375.0) * 1e6, 276.207245, 1e-6);
}

// W-03. IAPWS SR6-08(2011), Table 8.
TEST(PublishedWater, SoundSpeedOfIapwsSr608Table8) {
    EXPECT_NEAR(iapws::liquidSoundSpeed_m_s(260.0), 1324.87258, 1e-5);
    EXPECT_NEAR(iapws::liquidSoundSpeed_m_s(298.15), 1496.69922, 1e-5);
    EXPECT_NEAR(iapws::liquidSoundSpeed_m_s(375.0), 1541.46611, 1e-5);
    EXPECT_NEAR(waterAt(Temperature::fromKelvin(298.15)).soundSpeed.inMetresPerSecond(), 1496.69922, 1e-5);
}

// W-04. Derived from SR6-08 at 20 C: rho 998.2065, w 1482.3443, adiabatic rho w^2 = 2.1934 GPa. The
// isothermal modulus of that item is not offered.
TEST(PublishedWater, AdiabaticBulkModulusAtTwentyDegrees) {
    const WaterProperties water = waterAt(Temperature::fromCelsius(20.0));
    const double density_kg_m3 = water.density.inKilogramsPerCubicMetre();
    const double speed_m_s = water.soundSpeed.inMetresPerSecond();
    EXPECT_NEAR(density_kg_m3, 998.2065, 5e-5);
    EXPECT_NEAR(speed_m_s, 1482.3443, 1e-4);
    EXPECT_NEAR(density_kg_m3 * speed_m_s * speed_m_s * 1e-9, 2.1934, 0.0005);
}

// W-16. IAPWS R7-97(2012), Table 35; half a unit of the ninth digit.
TEST(PublishedWater, SaturationPressureOfIf97Table35) {
    const auto expectNear = [](double temperature_K, double printed_MPa) {
        EXPECT_NEAR(iapws::saturationPressure_Pa(temperature_K) * 1e-6, printed_MPa, 5e-9 * printed_MPa);
    };
    expectNear(300.0, 0.00353658941);
    expectNear(500.0, 2.63889776);
    expectNear(600.0, 12.3443146);
    EXPECT_NEAR(waterAt(Temperature::fromKelvin(300.0)).vapourPressure.inKilopascals(), 3.53658941, 2e-8);
}

// W-20. Against the Wagner-Pruss saturation equation (IAPWS SR1-86(1992)), an independent formula: the two
// differ by at most 9.93e-5 from 0 to 60 C.
TEST(PublishedWater, SaturationPressureAgreesWithWagnerAndPruss) {
    constexpr std::array kFactor = {-7.85951783, 1.84408259,  -11.7866497,
                                    22.6807411,  -15.9618719, 1.80122502};
    constexpr std::array kExponent = {1.0, 1.5, 3.0, 3.5, 4.0, 7.5};
    for (int t_C = 0; t_C <= 60; ++t_C) {
        const double temperature_K = t_C + 273.15;
        double sum = 0.0;
        for (std::size_t i = 0; i < kFactor.size(); ++i) {
            sum += kFactor[i] * std::pow(1.0 - temperature_K / 647.096, kExponent[i]);
        }
        const double wagner_Pa = 22.064e6 * std::exp(647.096 / temperature_K * sum);
        EXPECT_NEAR(iapws::saturationPressure_Pa(temperature_K), wagner_Pa, 1.1e-4 * wagner_Pa) << t_C;
    }
}

struct WaterLine {
    double t_C, density_kg_m3, viscosity_mm2_s, vapour_kPa;
};

// W-21. Table of SR6-08 density, kinematic viscosity and IF97 vapour pressure computed independently with a
// public steam-table package; half a unit of the last digit.
TEST(PublishedWater, TableFromZeroToSixtyDegrees) {
    constexpr std::array kLines = {
        WaterLine{0, 999.8424, 1.79206, 0.611213},   WaterLine{5, 999.9660, 1.51825, 0.872575},
        WaterLine{10, 999.7019, 1.30629, 1.228184},  WaterLine{15, 999.1020, 1.13857, 1.705745},
        WaterLine{20, 998.2065, 1.00337, 2.339215},  WaterLine{25, 997.0470, 0.89263, 3.169747},
        WaterLine{30, 995.6488, 0.80069, 4.246688},  WaterLine{35, 994.0327, 0.72344, 5.628620},
        WaterLine{40, 992.2158, 0.65785, 7.384427},  WaterLine{45, 990.2123, 0.60167, 9.594389},
        WaterLine{50, 988.0345, 0.55315, 12.351270}, WaterLine{55, 985.6925, 0.51094, 15.761414},
        WaterLine{60, 983.1953, 0.47400, 19.945802},
    };
    for (const WaterLine& line : kLines) {
        const WaterProperties water = waterAt(Temperature::fromCelsius(line.t_C));
        EXPECT_NEAR(water.density.inKilogramsPerCubicMetre(), line.density_kg_m3, 5.1e-5) << line.t_C;
        EXPECT_NEAR(water.viscosity.inSquareMillimetresPerSecond(), line.viscosity_mm2_s, 5.1e-6) << line.t_C;
        EXPECT_NEAR(water.vapourPressure.inKilopascals(), line.vapour_kPa, 5.1e-7) << line.t_C;
    }
}

// W-23. Kell's density formula, J. Chem. Eng. Data 20 (1975) 97, lies within 0.0036 kg/m3 from 0 to 60 C.
TEST(PublishedWater, DensityAgreesWithKell) {
    for (double t = 0.0; t <= 60.0; t += 0.5) {
        const double kell =
            (999.83952 + 16.945176 * t - 7.9870401e-3 * t * t - 46.170461e-6 * std::pow(t, 3) +
             105.56302e-9 * std::pow(t, 4) - 280.54253e-12 * std::pow(t, 5)) /
            (1.0 + 16.879850e-3 * t);
        EXPECT_NEAR(waterAt(Temperature::fromCelsius(t)).density.inKilogramsPerCubicMetre(), kell, 0.0037)
            << t;
    }
}

struct AirLine {
    double altitude_m, pressure_Pa;
};

// ISO 2533:1975 with the altitude taken as geometric, computed independently; 0.1 Pa. The same
// heights stand in COESA 1976 tables as 101.3, 95.46, 89.88, 79.50, 74.69 and 70.12 kPa.
TEST(PublishedAir, PressureOfTheStandardAtmosphere) {
    constexpr std::array kLines = {AirLine{-500, 107478.0}, AirLine{0, 101325.0},   AirLine{500, 95461.3},
                                   AirLine{1000, 89876.3},  AirLine{1500, 84559.7}, AirLine{2000, 79501.4},
                                   AirLine{2500, 74691.7},  AirLine{3000, 70121.1}};
    for (const AirLine& line : kLines) {
        EXPECT_NEAR(airPressureAt(Length::fromMetres(line.altitude_m)).inPascals(), line.pressure_Pa, 0.1)
            << line.altitude_m;
    }
}

// Short form printed in handbooks, p = 101.325 (1 - 2.25577e-5 H)^5.25588 with H geopotential: 10 Pa cover
// the difference between geopotential and geometric altitude up to 2500 m.
TEST(PublishedAir, PressureAgreesWithTheHandbookForm) {
    for (double z_m = -500.0; z_m <= 2500.0; z_m += 100.0) {
        EXPECT_NEAR(airPressureAt(Length::fromMetres(z_m)).inPascals(),
                    101325.0 * std::pow(1.0 - 2.25577e-5 * z_m, 5.25588), 10.0)
            << z_m;
    }
}

// 3rd CGPM (1901): exact.
TEST(PublishedAir, StandardGravity) { EXPECT_EQ(factor::kStandardGravity_m_s2, 9.80665); }

} // namespace
} // namespace headmark
