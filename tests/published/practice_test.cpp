// Surge, heating, pressure vessels and motor currents against published figures. Where a book rounds on its
// way, the figure computed again from its inputs is compared closely and the printed one to its own digits.

#include "analysis/practice/heating.h"
#include "analysis/practice/motor_current.h"
#include "analysis/practice/submergence.h"
#include "analysis/practice/surge.h"
#include "analysis/practice/vessel.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

constexpr double kGravity_m_s2 = 9.80665;
constexpr double kAgain = 1e-4; // relative, computed again from the printed inputs

Velocity metresPerSecond(double v) { return Velocity::fromMetresPerSecond(v); }
Density kilograms(double v) { return Density::fromKilogramsPerCubicMetre(v); }
Velocity soundOf(double bulk_Pa, double density) { return metresPerSecond(std::sqrt(bulk_Pa / density)); }
double wave_m_s(double bulk_Pa, double density, double bore_m, double wall_m, double elasticity_Pa) {
    const PipeWall wall{Length::fromMetres(bore_m), Length::fromMetres(wall_m), elasticity_Pa, {}};
    return waveSpeed(soundOf(bulk_Pa, density), kilograms(density), wall).inMetresPerSecond();
}

constexpr double kUnyielding_Pa = 1e24;

// Subramanya, Fluid Mechanics and Hydraulic Machines, Example 14.11: rigid pipe, K 2.22 GPa.
TEST(PublishedSurge, WaveSpeedInRigidPipe) {
    EXPECT_NEAR(wave_m_s(2.22e9, 998.0, 1.0, 0.1, kUnyielding_Pa), 1491.46, 1491.46 * kAgain);
}

// Same, Example 14.20: rigid, 3500 m, 0.8 m/s, shut within 4.0 s: 1.185 MPa, in full over the last 530.6 m,
// where the wave is not yet back: L (1 - T/Tc).
TEST(PublishedSurge, RapidClosingReachesOnlyPartOfALongPipe) {
    const Velocity wave = metresPerSecond(wave_m_s(2.2e9, 998.0, 1.0, 0.1, kUnyielding_Pa));
    const SurgePipe pipe{Length::fromMetres(3500.0), wave, metresPerSecond(0.8)};
    const Surge surge = surgeIn({&pipe, 1}, Duration::fromSeconds(4.0));
    EXPECT_NEAR(surge.jump.inMetres() * 998.0 * kGravity_m_s2 / 1e6, 1.18540, 1.18540 * kAgain);
    EXPECT_NEAR(3500.0 * (1.0 - 4.0 / surge.critical.inSeconds()), 530.55, 0.1);
}

// Daugherty and Franzini, Fluid Mechanics with Engineering Applications, Example 13.4: 30 ft3/s in 4 ft pipe,
// wave 3200 ft/s, 1.94 slug/ft3: stopped 102.9 psi, brought to 10 ft3/s 68.6 psi.
TEST(PublishedSurge, PartialClosing) {
    constexpr double kSlugPerCubicFoot = 515.3788183931961, kPsi = 6894.757293168361;
    const auto pressure_psi = [&](double change_ft3_s) {
        const double change_ft_s = change_ft3_s / (3.14159265358979 / 4.0 * 16.0);
        return suddenSurge(metresPerSecond(3200.0 * 0.3048), metresPerSecond(change_ft_s * 0.3048))
                   .inMetres() *
               1.94 * kSlugPerCubicFoot * kGravity_m_s2 / kPsi;
    };
    EXPECT_NEAR(pressure_psi(30.0), 102.920, 102.920 * kAgain);
    EXPECT_NEAR(pressure_psi(20.0), 68.613, 68.613 * kAgain);
}

// Computed apart from the formulas, thin wall (c = 1), water of 20 C (K 2.18 GPa, 998.2 kg/m3), 1.5 m/s, 400
// m: polyethylene, PVC-U and steel of about 100 mm.
TEST(PublishedSurge, PipesOfThreeMaterials) {
    struct Row {
        double elasticity_Pa, bore_m, wall_m, wave_m_s, jump_m, critical_s;
    };
    for (const Row& r :
         {Row{1.1e9, 0.0968, 0.0066, 269.5, 41.22, 2.968}, Row{3.0e9, 0.0994, 0.0053, 386.4, 59.10, 2.070},
          Row{210e9, 0.1053, 0.0045, 1325.6, 202.75, 0.604}}) {
        const Velocity a = metresPerSecond(wave_m_s(2.18e9, 998.2, r.bore_m, r.wall_m, r.elasticity_Pa));
        EXPECT_NEAR(a.inMetresPerSecond(), r.wave_m_s, 0.05);
        EXPECT_NEAR(suddenSurge(a, metresPerSecond(1.5)).inMetres(), r.jump_m, 0.005);
        EXPECT_NEAR(criticalTime(Length::fromMetres(400.0), a).inSeconds(), r.critical_s, 0.0005);
    }
}

// Subramanya, Fluid Mechanics and Hydraulic Machines, Example 14.12: 2.5 m steel pipe, 20 mm wall.
TEST(PublishedSurge, WaveSpeedInSteelPipe) {
    EXPECT_NEAR(wave_m_s(1.43e9, 0.8 * 998.0, 2.5, 0.020, 207e9), 980.370, 980.370 * kAgain);
    EXPECT_NEAR(wave_m_s(1.43e9, 0.8 * 998.0, 2.5, 0.020, 207e9), 980.4, 0.05);
}

// Same, Example 14.14: 0.9 m pipe, 2.60 m/s stopped; printed 240.2 m with g = 9.81.
TEST(PublishedSurge, SuddenStopOfAGivenVelocity) {
    const double a = wave_m_s(2.0e9, 998.0, 0.9, 0.0125, 100e9);
    const double head_m = suddenSurge(metresPerSecond(a), metresPerSecond(2.60)).inMetres();
    EXPECT_NEAR(a, 906.264, 906.264 * kAgain);
    EXPECT_NEAR(head_m * kGravity_m_s2 / 9.81, 240.192, 240.192 * kAgain);
    EXPECT_NEAR(head_m * kGravity_m_s2 / 9.81, 240.2, 0.05);
}

// Same, Example 14.13 and 14.15: pressures of a sudden stop in rigid and in steel pipe.
TEST(PublishedSurge, PressureOfASuddenStop) {
    const auto pressure_MPa = [](double a, double density, double change) {
        return suddenSurge(metresPerSecond(a), metresPerSecond(change)).inMetres() * density * kGravity_m_s2 /
               1e6;
    };
    EXPECT_NEAR(pressure_MPa(soundOf(2.2e9, 998.0).inMetresPerSecond(), 998.0, 3.0), 4.44527,
                4.44527 * kAgain);
    EXPECT_NEAR(pressure_MPa(wave_m_s(2.1e9, 998.0, 0.60, 0.012, 210e9), 998.0, 2.1), 2.48227,
                2.48227 * kAgain);
}

// Same, Example 14.16: 1000 m of 0.8 m pipe, 80 mm wall, kerosene: critical closing time 1.544 s.
TEST(PublishedSurge, CriticalClosingTime) {
    const double a = wave_m_s(1.43e9, 0.8 * 998.0, 0.8, 0.080, 210e9);
    EXPECT_NEAR(criticalTime(Length::fromMetres(1000.0), metresPerSecond(a)).inSeconds(), 1.54446,
                1.54446 * kAgain);
}

// Same, Example 14.18: 800 m, 3 m/s; sudden 3.235 MPa, closed in 2.0 s 2.394 MPa (Tc rounded to 1.48 s
// there).
TEST(PublishedSurge, SlowClosingLowersTheJumpInProportion) {
    const double density = 998.0;
    const double a = wave_m_s(2.11e9, density, 0.60, 0.015, 104.1e9);
    const SurgePipe pipe{Length::fromMetres(800.0), metresPerSecond(a), metresPerSecond(3.0)};
    const auto pressure_MPa = [&](double closing_s) {
        return surgeIn({&pipe, 1}, Duration::fromSeconds(closing_s)).jump.inMetres() * density *
               kGravity_m_s2 / 1e6;
    };
    EXPECT_NEAR(pressure_MPa(0.0), 3.23517, 3.23517 * kAgain);
    EXPECT_NEAR(pressure_MPa(1.0), 3.23517, 3.23517 * kAgain); // still within 2 L/a
    EXPECT_NEAR(pressure_MPa(2.0), 2.3952, 2.3952 * kAgain);
    EXPECT_NEAR(pressure_MPa(2.0), 2.394, 0.0015);
}

// Chadwick, Morfett and Borthwick, Hydraulics in Civil and Environmental Engineering, PVC main: inputs of the
// problem, answers computed apart: a = 400.385 m/s, 102.035 m with g = 9.81.
TEST(PublishedSurge, PlasticMain) {
    const PipeWall wall{Length::fromMillimetres(300.0), Length::fromMillimetres(20.0), 2.6e9, {}};
    const double density = 2.1e9 / (1450.0 * 1450.0);
    const double a = waveSpeed(metresPerSecond(1450.0), kilograms(density), wall).inMetresPerSecond();
    EXPECT_NEAR(a, 400.385, 400.385 * kAgain);
    const double head_m = suddenSurge(metresPerSecond(a), metresPerSecond(2.5)).inMetres();
    EXPECT_NEAR(head_m * kGravity_m_s2 / 9.81, 102.035, 102.035 * kAgain);
}

// Pipe association table of surge for a change of 1 ft/s: PVC (E 400 000 psi) and HDPE (115 000 psi) by
// dimension ratio; bulk modulus 300 000 psi, 4660 ft/s in rigid pipe. psi, half a printed unit.
TEST(PublishedSurge, PlasticPipesByDimensionRatio) {
    constexpr double kPsi = 6894.757293168361, kFoot = 0.3048;
    struct Row {
        double ratio, elasticity_psi, printed_psi;
    };
    const Row rows[] = {{14, 400e3, 19.8},   {18, 400e3, 17.4},   {21, 400e3, 16.0},  {25, 400e3, 14.7},
                        {32.5, 400e3, 12.8}, {41, 400e3, 11.4},   {7.3, 115e3, 16.3}, {9, 115e3, 14.3},
                        {11, 115e3, 12.7},   {13.5, 115e3, 11.3}, {17, 115e3, 9.9},   {21, 115e3, 8.8}};
    const double sound = 4660.0 * kFoot;
    const double density = 300e3 * kPsi / (sound * sound);
    for (const Row& r : rows) {
        const PipeWall wall{
            Length::fromMetres(r.ratio - 2.0), Length::fromMetres(1.0), r.elasticity_psi * kPsi, {}};
        const Velocity a = waveSpeed(metresPerSecond(sound), kilograms(density), wall);
        // As the table counts: 2.31 ft of water a psi, g = 32.2 ft/s2.
        const double psi = a.inMetresPerSecond() / kFoot / (2.31 * 32.2);
        EXPECT_NEAR(psi, r.printed_psi, 0.06) << "DR " << r.ratio;
    }
}

// Public centrifugal pump reference page: 5000 ft at efficiency 0.80 warm the water by 1.6 degF
// (5000/(778 c) (1/0.8 - 1) = 1.607 degF, c = 1 Btu/(lb degF) = 4186.8 J/(kg K)).
TEST(PublishedHeating, RiseThroughAPump) {
    const double rise_F = temperatureRise_K(Head::fromFeet(5000.0), Efficiency::fromShare(0.80)) * 1.8;
    EXPECT_NEAR(rise_F, 1.6067, 0.002);
    EXPECT_NEAR(rise_F, 1.6, 0.05);
}

// Same page, from power: 20 bhp at 0.70 into 50 000 lb/h, 2545 (bhp - whp)/(Q c) = 0.31 degF. The head that
// belongs to it: 14 hp of water power, 14 550 3600/50 000 = 554.4 ft.
TEST(PublishedHeating, RiseFromThePowerLost) {
    const double rise_F = temperatureRise_K(Head::fromFeet(554.4), Efficiency::fromShare(0.70)) * 1.8;
    EXPECT_NEAR(rise_F, 0.3054, 0.0004); // c = 1 Btu/(lb degF) is 0.07 % more than 4184 J/(kg K)
}

// Public engineering reference page, P (1 - eta)/(rho Q cp), cp 4.2: 0.11 kW, 0.28, 0.0017 m3/s: 0.011 K;
// 0.095 kW, 0.15, 0.00056 m3/s: 0.035 K printed, 0.03433 computed again. Head: eta P/(rho g Q).
TEST(PublishedHeating, RiseInSiUnits) {
    const auto rise_K = [](double power_W, double efficiency, double flow_m3_s) {
        const Head head = Head::fromMetres(efficiency * power_W / (1000.0 * kGravity_m_s2 * flow_m3_s));
        return temperatureRise_K(head, Efficiency::fromShare(efficiency)) * 4184.0 / 4200.0;
    };
    EXPECT_NEAR(rise_K(110.0, 0.28, 0.0017), 0.01109, 0.01109 * 5e-4);
    EXPECT_NEAR(rise_K(95.0, 0.15, 0.00056), 0.03433, 0.03433 * 5e-4);
}

// Hand calculation from g H/cp (1/eta - 1), cp 4184: 50 m at 0.10 and 0.50.
TEST(PublishedHeating, PoorEfficiencyWarmsMore) {
    const Head head = Head::fromMetres(50.0);
    EXPECT_NEAR(temperatureRise_K(head, Efficiency::fromShare(0.10)), 1.05473, 1e-4);
    EXPECT_NEAR(temperatureRise_K(head, Efficiency::fromShare(0.50)), 0.11719, 1e-4);
}

// Hand calculation: 1.1 kW into 4 kg: 1100 W 60 s/(4 kg 4184 J/(kg K)) = 3.9436 K a minute.
TEST(PublishedHeating, ShutInPumpWarmsByTheMinute) {
    EXPECT_NEAR(shutInHeating_K_min(Power::fromKilowatts(1.1), 4.0), 3.9436, 1e-3);
}

// Hand calculation: 1.1 kW carried off at 10 K: 1100/(1000 4184 10) m3/s = 0.09465 m3/h.
TEST(PublishedHeating, ReturnThatCarriesTheHeatAway) {
    const Flow flow = returnFlowForRise(Power::fromKilowatts(1.1), kilograms(1000.0), 10.0);
    EXPECT_NEAR(flow.inCubicMetresPerHour(), 0.094646, 1e-5);
}

AbsolutePressure absolutePsi(double gauge_psi, double air_psi) {
    return AbsolutePressure::fromPascals((gauge_psi + air_psi) * 6894.757293168361);
}

// Pelikan, National Driller (2006): 85 US gal vessel, 28/30/50 psi, at sea level and at 6000 ft.
TEST(PublishedVessel, DrawdownOfAColumnOfTheTrade) {
    const auto gallons = [](double air_psi) {
        return vesselDrawdown(Volume::fromCubicMetres(85.0 * 3.785411784e-3), absolutePsi(28, air_psi),
                              absolutePsi(30, air_psi), absolutePsi(50, air_psi))
                   .inCubicMetres() /
               3.785411784e-3;
    };
    EXPECT_NEAR(gallons(14.7), 25.1, 0.05);
    EXPECT_NEAR(gallons(14.7), 25.0995, 0.001);
    EXPECT_NEAR(gallons(11.8), 26.1, 0.1); // printed from rounded terms
}

// Boyle's law by hand: 100 l, 1.8/2.0/3.5 bar, air at 1.01325 bar.
TEST(PublishedVessel, DrawdownInMetricUnits) {
    const auto bar = [](double gauge) { return AbsolutePressure::fromPascals((gauge + 1.01325) * 1e5); };
    EXPECT_NEAR(vesselDrawdown(Volume::fromLitres(100.0), bar(1.8), bar(2.0), bar(3.5)).inLitres(), 31.0295,
                1e-3);
    EXPECT_NEAR(vesselForDrawdown(Volume::fromLitres(75.0), bar(1.8), bar(2.0), bar(3.5)).inLitres(), 241.705,
                1e-2);
}

// MIL-HDBK-1005/9A, 2.5.3.6, and US Army EI 11C201: V = Q T/4; 75 l with 100 l/min: 4, 3, 4 minutes.
TEST(PublishedVessel, CycleIsShortestAtHalfTheFlow) {
    EXPECT_NEAR(usefulVolumeFor(Flow::fromCubicMetresPerHour(6.0), 20.0).inLitres(), 75.0, 1e-9);
    const auto minutes = [](double draw_l_min) {
        return 60.0 / startsPerHour(Volume::fromLitres(75.0), Flow::fromLitresPerMinute(100.0),
                                    Flow::fromLitresPerMinute(draw_l_min));
    };
    EXPECT_NEAR(minutes(25.0), 4.0, 1e-9);
    EXPECT_NEAR(minutes(50.0), 3.0, 1e-9);
    EXPECT_NEAR(minutes(75.0), 4.0, 1e-9);
    EXPECT_NEAR(60.0 / mostStartsPerHour(Volume::fromLitres(75.0), Flow::fromLitresPerMinute(100.0)), 3.0,
                1e-9);
}

// US Army EI 11C201: wet well, 45 l/s, 10 minutes: 6.75 m3.
TEST(PublishedVessel, WetWellOfAnEngineeringInstruction) {
    EXPECT_NEAR(usefulVolumeFor(Flow::fromLitresPerSecond(45.0), 6.0).inCubicMetres(), 6.75, 1e-9);
}

// ANSI/HI 9.8 as tabled by entrance velocity (0.61, 0.91, 1.22, 1.52 m/s for 0.3, 0.46, 0.61, 0.79 m): a rule
// of about half a metre a metre per second; the formula is compared by hand: D 0.1 m, v 1 m/s:
// 0.1 (1 + 2.3/sqrt(0.980665)) = 0.33226 m.
TEST(PublishedSubmergence, FroudeRule) {
    EXPECT_NEAR(leastSubmergence(Length::fromMillimetres(100.0), metresPerSecond(1.0)).inMetres(), 0.33226,
                1e-4);
}

// Electricians' references, I = P/(V cos phi eta): 1.5 kW, 230 V, 0.95, 0.75; 4 kW, 400 V, 0.83, 0.866.
TEST(PublishedMotor, CurrentOfOneAndThreePhases) {
    EXPECT_NEAR(motorCurrent_A(Power::fromKilowatts(1.5 / 0.75), 1, 230.0, 0.95), 9.1533, 1e-4);
    EXPECT_NEAR(motorCurrent_A(Power::fromKilowatts(4.0 / 0.866), 3, 400.0, 0.83), 8.0324, 1e-3);
}

} // namespace
} // namespace headmark
