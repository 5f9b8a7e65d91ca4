// NPSH available, suction lift and suction specific speed against published examples. Heads in feet count as
// pressures of water of 1000 kg/m3; where a book takes g as 9.81 or 32.2 the density carries the difference,
// so that rho g is the book's.

#include "analysis/duty/case_solver.h"
#include "analysis/duty/npsh.h"

#include "support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace headmark {
namespace {

using namespace testing;

constexpr double kFoot_m = 0.3048;
constexpr double kGravity_m_s2 = 9.80665;
constexpr double kPsi_Pa = 6894.757293168361;
constexpr double kPoundPerCubicFoot = 16.01846337396014; // kg/m3

double feet(Head head) { return head.inFeet(); }
Head ft(double value) { return Head::fromFeet(value); }

// Pressures given as heads of water.
SuctionState headsInFeet(double air, double vapour, double surfaceAbovePump, double loss) {
    const auto pressure = [](double value) {
        return AbsolutePressure::fromPascals(value * kFoot_m * 1000.0 * kGravity_m_s2);
    };
    return {pressure(air), pressure(vapour), Density::fromKilogramsPerCubicMetre(1000.0),
            ft(surfaceAbovePump), ft(loss)};
}

// Pressures in psi, specific weight in lbf/ft3.
SuctionState psi(double onSurface, double vapour, double lb_ft3, double surfaceAbovePump, double loss) {
    return {AbsolutePressure::fromPascals(onSurface * kPsi_Pa),
            AbsolutePressure::fromPascals(vapour * kPsi_Pa),
            Density::fromKilogramsPerCubicMetre(lb_ft3 * kPoundPerCubicFoot), ft(surfaceAbovePump), ft(loss)};
}

// Bachus and Custodio, Know and Understand Centrifugal Pumps, chapter 2: an open tank below the pump at 7000
// ft, and one above it; friction and the inlet's allowance are losses.
TEST(PublishedNpsh, OpenTanksBelowAndAboveThePump) {
    EXPECT_NEAR(feet(npshAvailable(headsInFeet(26.2, 0.411, -8.0, 1.0 + 2.0))), 14.789, 0.001);
    EXPECT_NEAR(feet(npshAvailable(headsInFeet(33.9, 0.839, 6.0, 2.0 + 2.0))), 35.061, 0.001);
}

// Handbook of Water and Wastewater Operations, example 10.11: a reservoir 20 ft below the pump, a tank 15 ft
// above.
TEST(PublishedNpsh, ReservoirBelowAndTankAbove) {
    EXPECT_NEAR(feet(npshAvailable(headsInFeet(34.0, 0.6, -20.0, 0.4 + 2.0))), 11.0, 1e-6);
    EXPECT_NEAR(feet(npshAvailable(headsInFeet(34.0, 0.6, 15.0, 0.4 + 2.0))), 46.0, 1e-6);
}

// Public training sheet on NPSH (best practice no. 25), Example 4: from a gauge of 2.4 psi 1 ft above the
// centre line, 10 ft/s there; 2.31 ft a psi, 2g = 64.34 ft/s2. Printed 41.27 ft.
TEST(PublishedNpsh, FromAGaugeAtTheInlet) {
    const double velocityHead = 10.0 * 10.0 / 64.34;
    const SuctionState gauge = headsInFeet((14.7 + 2.4) * 2.31, 0.339 * 2.31, 1.0 + velocityHead, 0.0);
    EXPECT_NEAR(feet(npshAvailable(gauge)), 41.272, 0.001);
}

// Same sheet, Example 5A: 1000 ft above the sea, 85 degF, NPSH required 16 ft, friction 5 ft.
TEST(PublishedNpsh, GreatestLiftAtAltitude) {
    EXPECT_NEAR(feet(greatestLiftFor(headsInFeet(32.8, 1.38, 0.0, 5.0), ft(16.0))), 10.42, 0.01);
}

// Crane TP-410, Example 7-32: 5 psig in the tank, 25 ft of lift, 6 ft of loss, 60 degF: 13.8873 ft, less than
// the 20 ft required.
TEST(PublishedNpsh, PressurisedTankBelowThePump) {
    const double available = feet(npshAvailable(psi(5.0 + 14.6959, 0.256, 62.364, -25.0, 6.0)));
    EXPECT_NEAR(available, 13.8873, 0.001);
    EXPECT_LT(available, 20.0);
}

// Munson, Young and Okiishi, Fundamentals of Fluid Mechanics, Example 12.3: 0.5 ft3/s through 4 in, losses of
// 20 velocity heads, NPSH required 15 ft, 80 degF: 7.65 ft.
TEST(PublishedNpsh, GreatestHeightOfAPumpAboveItsTank) {
    const double v = 0.5 / (std::numbers::pi / 4.0 / 9.0);
    EXPECT_NEAR(feet(greatestLiftFor(psi(14.7, 0.5069, 62.22, 0.0, 20.0 * v * v / 64.4), ft(15.0))), 7.65,
                0.01);
}

// Fox and McDonald, Introduction to Fluid Mechanics, Example 10.8: 1000 gpm through 5 in, flooded by 3.5 ft;
// entrance 0.5, elbow and valve 38 diameters, 6 ft of pipe, f 0.0237; vapour 1.17 ft.
TEST(PublishedNpsh, LineOfFiveInches) {
    const double bore = 5.047 / 12.0, v = 1000.0 / 7.48 / 60.0 / (std::numbers::pi / 4.0 * bore * bore);
    const double loss = (0.5 + 0.0237 * (30.0 + 8.0) + 0.0237 * 6.0 / bore) * v * v / 64.4;
    const double weight = 1.93 * 32.2; // lbf/ft3
    const double vapour_psi = 1.17 * weight / 144.0;
    EXPECT_NEAR(feet(npshAvailable(psi(14.7, vapour_psi, weight, 3.5, loss))), 29.447, 0.01);
}

// A state in SI with the book's g of 9.81.
SuctionState si(double onSurface_Pa, double vapour_Pa, double density, double loss_m) {
    return {AbsolutePressure::fromPascals(onSurface_Pa), AbsolutePressure::fromPascals(vapour_Pa),
            Density::fromKilogramsPerCubicMetre(density * 9.81 / kGravity_m_s2), Head{},
            Head::fromMetres(loss_m)};
}

// Schaschke, Fluid Mechanics: Worked Examples for Engineers, Example 9.6: a tank of 3 m bore is emptied by a
// pump 3 m above its floor, from 2.5 m at 5 m3/h, down to where NPSH of 5 m is left: 14.95 m3 in 2.99 h.
TEST(PublishedNpsh, LevelToWhichATankMayBeDrawn) {
    const double lift_m =
        greatestLiftFor(si(0.94 * 101.3e3, 18e3, 970.0, 0.5), Head::fromMetres(5.0)).inMetres();
    const double level_m = 3.0 - lift_m;
    EXPECT_NEAR(level_m, 0.3848, 1e-4);
    const double volume_m3 = (2.5 - level_m) * std::numbers::pi / 4.0 * 9.0;
    EXPECT_NEAR(volume_m3, 14.95, 0.005);
    EXPECT_NEAR(volume_m3 / 5.0, 2.99, 0.005);
}

// Arasu, Turbomachines, Example 8.19: 3.5 m of pressure and velocity head at the inlet when it cavitates,
// head 36 m; barometer 0.75 and 0.62 m of mercury (13.6), vapour 1.8 kPa and 830 Pa. Thoma 0.0921,
// heights 6.7 and 5.03 m.
TEST(PublishedNpsh, APumpMovedToAHigherCoolerSite) {
    const double required_m = 3.5 - 1800.0 / 9810.0;
    EXPECT_NEAR(required_m / 36.0, 0.09213, 5e-5);
    const auto height_m = [&](double mercury_m, double vapour_Pa) {
        return greatestLiftFor(si(mercury_m * 13.6 * 9810.0, vapour_Pa, 1000.0, 0.0),
                               Head::fromMetres(required_m))
            .inMetres();
    };
    EXPECT_NEAR(height_m(0.75, 1800.0), 6.70, 0.001);
    EXPECT_NEAR(height_m(0.62, 830.0), 5.031, 0.001);
}

// Irfan Khan, Fluid Mechanics, Example 12.5: Thoma number 0.08, head 60 m, barometer 98 kPa, loss 1 m: 4.02
// m.
TEST(PublishedNpsh, LiftFromThomasNumber) {
    EXPECT_NEAR(greatestLiftFor(si(98e3, 1707.0, 1000.0, 1.0), Head::fromMetres(0.08 * 60.0)).inMetres(),
                4.016, 0.001);
}

// Best flow at 50 m3/h, NPSH required the same everywhere.
PumpModel pumpOfSpeed(double rpm, double required_m) {
    PumpModel pump = pumpOf(parabola(40.0, 0.0, -0.005, 0.0, 80.0));
    pump.efficiency = curveThrough({{0.0, 0.0}, {50.0, 0.7}, {100.0, 0.0}});
    pump.npshRequired = curveThrough({{0.0, required_m}, {80.0, required_m}});
    pump.chartSpeed = RotationalSpeed::fromRevolutionsPerMinute(rpm);
    return pump;
}

// Schaschke, Example 9.12: 2000 rpm, 50 m3/h, NPSH 5 m: 0.21195 in revolutions a second, m3/s and g h (9.81).
TEST(PublishedSuctionSpecificSpeed, OfAWorkedExample) {
    const auto s = pumpOfSpeed(2000.0, 5.0).suctionSpecificSpeed(Density::fromKilogramsPerCubicMetre(1000.0));
    ASSERT_TRUE(s);
    EXPECT_NEAR(*s / 60.0 / std::pow(9.81, 0.75), 0.21195, 0.21195 * 1e-4);
}

// ANSI/HI 9.6.1 as summarised in a public sheet, water pumps: ratio 1.1 or 0.6 m below a suction specific
// speed of 145, 1.2 or 1.0 m above. NPSH required 3.0 m: at S = 160 4.0 m must be available, at 120 3.6 m.
// The speeds for these S: S 3^(3/4)/sqrt(50/3600), by hand 3094.76 and 2321.07 rpm.
TEST(PublishedNpshMargin, AtHighAndModerateSuctionSpecificSpeed) {
    const SiteModel model = modelOf(knownSystem(10.0, 0.004));
    const auto mustBeAvailable_m = [&](double rpm) {
        const CaseSolver solver(model, pumpOfSpeed(rpm, 3.0), Limits{});
        return 3.0 + npshMarginNeeded_m(solver.advisedLimits(), 3.0);
    };
    EXPECT_NEAR(mustBeAvailable_m(3094.76), 4.0, 1e-9);
    EXPECT_NEAR(mustBeAvailable_m(2321.07), 3.6, 1e-9);
}

} // namespace
} // namespace headmark
