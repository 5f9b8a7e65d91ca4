// Unit factors against NIST SP 811 (2008) Appendix B and NIST Handbook 44 Appendix C.

#include "analysis/units/quantities.h"
#include "analysis/units/unit_table.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

// Exact values differ by the rounding of a product at most.
constexpr double kRounding = 1e-15;

void expectExact(double made, double published) { EXPECT_NEAR(made, published, kRounding * published); }

//
TEST(PublishedUnits, InchAndFoot) {
    expectExact(Length::fromInches(1.0).inMetres(), 0.0254);
    expectExact(Length::fromFeet(1.0).inMetres(), 0.3048);
    expectExact(Head::fromFeet(1.0).inMetres(), 0.3048);
    expectExact(findUnit(Dimension::head, "ft")->inSi, 0.3048);
}

//
TEST(PublishedUnits, Gallons) {
    EXPECT_EQ(factor::kUsGallon_m3, 3.785411784e-3);
    EXPECT_EQ(factor::kImperialGallon_m3, 4.54609e-3);
    expectExact(231.0 * 0.0254 * 0.0254 * 0.0254, factor::kUsGallon_m3); // 231 cubic inches
}

//
TEST(PublishedUnits, PoundAndPoundForce) {
    EXPECT_EQ(factor::kPound_kg, 0.45359237);
    expectExact(factor::kPoundForce_N, 4.4482216152605);
}

// X-09, X-10 (bar).
TEST(PublishedUnits, PsiAndBar) {
    expectExact(Pressure::fromPsi(1.0).inPascals(), 6894.757293168361);
    expectExact(Pressure::fromBars(1.0).inPascals(), 100000.0);
    expectExact(GaugePressure::fromPsi(1.0).inPascals(), 6894.757293168361);
}

//
TEST(PublishedUnits, MechanicalHorsepower) {
    EXPECT_NEAR(Power::fromHorsepower(1.0).inWatts(), 745.69987158227, 1e-11);
    EXPECT_NEAR(findUnit(Dimension::power, "hp")->inSi, 745.69987158227, 1e-11);
}

// pressure as head, conventional water of 1000 kg/m3.
TEST(PublishedUnits, PressureAsHead) {
    expectExact(factor::kMetreOfWater_Pa, 9806.65);
    EXPECT_NEAR(factor::kMetreOfWater_Pa * factor::kFoot_m, 2989.06692, 1e-10);
    EXPECT_NEAR(findUnit(Dimension::head, "psi")->inSi, 0.70306957964, 1e-11);
    EXPECT_NEAR(findUnit(Dimension::head, "bar")->inSi, 10.19716213, 5e-9);
    EXPECT_NEAR(findUnit(Dimension::head, "kPa")->inSi, 0.1019716213, 5e-11);
    // 2.307692 ft belongs to 62.4 lb/ft3; conventional water is 62.42796 lb/ft3: 0.045 % less.
    EXPECT_NEAR(findUnit(Dimension::head, "psi")->inSi / factor::kFoot_m, 2.307692, 5e-4 * 2.307692);
}

//
TEST(PublishedUnits, GallonsPerMinute) {
    EXPECT_NEAR(Flow::fromUsGallonsPerMinute(1.0).inCubicMetresPerHour(), 0.22712470704, 1e-14);
    EXPECT_NEAR(Flow::fromUsGallonsPerMinute(1.0).inLitresPerSecond(), 0.0630901964, 1e-13);
    EXPECT_NEAR(Flow::fromImperialGallonsPerMinute(1.0).inCubicMetresPerHour(), 0.2727654, 1e-14);
    EXPECT_NEAR(findUnit(Dimension::flow, "US gal/min")->inSi * 3600.0, 0.22712470704, 1e-14);
    EXPECT_NEAR(findUnit(Dimension::flow, "imp gal/min")->inSi * 3600.0, 0.2727654, 1e-14);
}

//
TEST(PublishedUnits, HorsepowerHour) {
    const double hour_s = Duration::fromHours(1.0).inSeconds();
    const double joules = Power::fromHorsepower(1.0).inWatts() * hour_s;
    EXPECT_NEAR(Energy::fromJoules(joules).inKilowattHours(), 0.74569987158, 1e-11);
}

//
TEST(PublishedUnits, Kelvin) {
    EXPECT_EQ(factor::kZeroCelsius_K, 273.15);
    EXPECT_NEAR(Temperature::fromCelsius(25.0).inKelvin(), 298.15, 1e-12);
}

} // namespace
} // namespace headmark
