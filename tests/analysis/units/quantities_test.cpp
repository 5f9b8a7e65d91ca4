#include "analysis/units/quantities.h"

#include <gtest/gtest.h>

#include <array>
#include <concepts>

namespace headmark {
namespace {

template <class A, class B>
concept Addable = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept Subtractable = requires(A a, B b) {
    a - b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
    a < b;
}
|| requires(A a, B b) { a == b; };
template <class A>
concept Scalable = requires(A a) {
    a * 2.0;
};

// A level is a point, a head a difference.
static_assert(!Addable<Level, Level>);
static_assert(!Addable<Head, Level>);
static_assert(Addable<Level, Head>);
static_assert(Addable<Head, Head>);
static_assert(!Subtractable<Head, Level>);
static_assert(std::same_as<decltype(Level{} - Level{}), Head>);
static_assert(std::same_as<decltype(Level{} - Head{}), Level>);
static_assert(!Comparable<Level, Head>);
static_assert(!Scalable<Level>);
static_assert(!std::convertible_to<Head, Level>);
static_assert(!std::convertible_to<Level, Head>);

// Gauge and absolute pressure have different zeros.
static_assert(!Comparable<GaugePressure, AbsolutePressure>);
static_assert(!Comparable<GaugePressure, Pressure>);
static_assert(!Addable<GaugePressure, GaugePressure>);
static_assert(!Addable<GaugePressure, AbsolutePressure>);
static_assert(!Subtractable<GaugePressure, AbsolutePressure>);
static_assert(Addable<GaugePressure, Pressure>);
static_assert(std::same_as<decltype(AbsolutePressure{} - AbsolutePressure{}), Pressure>);

// Lengths and heads are both metres, and still different things; a bare number is no quantity.
static_assert(!Addable<Head, Length>);
static_assert(!Comparable<Head, Length>);
static_assert(!Addable<Flow, double>);
static_assert(!std::convertible_to<double, Flow>);
static_assert(!std::constructible_from<Flow, double>);
static_assert(!Addable<Temperature, Temperature>);
static_assert(std::same_as<decltype(Flow{} / Flow{}), double>);

// Rounding of one multiplication and one division: one unit in the last place each.
constexpr double kTwoRoundings = 4.5e-16;
constexpr std::array kValues = {0.0, 1.0, 8.0, 0.1, 123.456, -17.25, 1e-6, 3.7e8};

template <class Quantity>
void expectRoundTrip(Quantity (*from)(double), double (Quantity::*in)() const, const char* unit) {
    for (const double value : kValues) {
        EXPECT_NEAR((from(value).*in)(), value, std::abs(value) * kTwoRoundings) << unit << " " << value;
    }
}

#define EXPECT_ROUND_TRIP(Type, Unit)                                                                        \
    expectRoundTrip<Type>(&Type::from##Unit, &Type::in##Unit, #Type " " #Unit)

TEST(Quantities, FlowComesBackInEveryUnit) {
    EXPECT_ROUND_TRIP(Flow, CubicMetresPerSecond);
    EXPECT_ROUND_TRIP(Flow, CubicMetresPerHour);
    EXPECT_ROUND_TRIP(Flow, LitresPerSecond);
    EXPECT_ROUND_TRIP(Flow, LitresPerMinute);
    EXPECT_ROUND_TRIP(Flow, LitresPerHour);
    EXPECT_ROUND_TRIP(Flow, UsGallonsPerMinute);
    EXPECT_ROUND_TRIP(Flow, ImperialGallonsPerMinute);
}

TEST(Quantities, LengthHeadAndLevelComeBackInEveryUnit) {
    EXPECT_ROUND_TRIP(Length, Metres);
    EXPECT_ROUND_TRIP(Length, Millimetres);
    EXPECT_ROUND_TRIP(Length, Inches);
    EXPECT_ROUND_TRIP(Length, Feet);
    EXPECT_ROUND_TRIP(Head, Metres);
    EXPECT_ROUND_TRIP(Head, Feet);
    EXPECT_ROUND_TRIP(Level, Metres);
}

TEST(Quantities, PressureComesBackInEveryUnit) {
    EXPECT_ROUND_TRIP(Pressure, Pascals);
    EXPECT_ROUND_TRIP(Pressure, Kilopascals);
    EXPECT_ROUND_TRIP(Pressure, Bars);
    EXPECT_ROUND_TRIP(Pressure, Psi);
    EXPECT_ROUND_TRIP(GaugePressure, Pascals);
    EXPECT_ROUND_TRIP(GaugePressure, Kilopascals);
    EXPECT_ROUND_TRIP(GaugePressure, Bars);
    EXPECT_ROUND_TRIP(GaugePressure, Psi);
    EXPECT_ROUND_TRIP(AbsolutePressure, Pascals);
    EXPECT_ROUND_TRIP(AbsolutePressure, Kilopascals);
}

TEST(Quantities, EverythingElseComesBackInEveryUnit) {
    EXPECT_ROUND_TRIP(Power, Watts);
    EXPECT_ROUND_TRIP(Power, Kilowatts);
    EXPECT_ROUND_TRIP(Power, Horsepower);
    EXPECT_ROUND_TRIP(Energy, Joules);
    EXPECT_ROUND_TRIP(Energy, KilowattHours);
    EXPECT_ROUND_TRIP(Velocity, MetresPerSecond);
    EXPECT_ROUND_TRIP(RotationalSpeed, RevolutionsPerMinute);
    EXPECT_ROUND_TRIP(Efficiency, Share);
    EXPECT_ROUND_TRIP(Efficiency, Percent);
    EXPECT_ROUND_TRIP(Volume, CubicMetres);
    EXPECT_ROUND_TRIP(Volume, Litres);
    EXPECT_ROUND_TRIP(Area, SquareMetres);
    EXPECT_ROUND_TRIP(Duration, Seconds);
    EXPECT_ROUND_TRIP(Duration, Minutes);
    EXPECT_ROUND_TRIP(Duration, Hours);
    EXPECT_ROUND_TRIP(Density, KilogramsPerCubicMetre);
    EXPECT_ROUND_TRIP(KinematicViscosity, SquareMetresPerSecond);
    EXPECT_ROUND_TRIP(KinematicViscosity, SquareMillimetresPerSecond);
    EXPECT_ROUND_TRIP(Temperature, Kelvin);
}

TEST(Quantities, TemperatureMovesItsZero) {
    EXPECT_NEAR(Temperature::fromCelsius(15.0).inKelvin(), 288.15, 1e-12); // definition of the Celsius scale
    EXPECT_NEAR(Temperature::fromCelsius(15.0).inCelsius(), 15.0, 1e-12);
    EXPECT_NEAR(Temperature::fromKelvin(273.15).inCelsius(), 0.0, 1e-12);
}

TEST(Quantities, EightCubicMetresPerHourStayEight) {
    EXPECT_EQ(Flow::fromCubicMetresPerHour(8.0).inCubicMetresPerHour(), 8.0);
}

TEST(Quantities, AmountsAddScaleAndCompare) {
    const Flow two = Flow::fromLitresPerSecond(2.0);
    const Flow three = Flow::fromLitresPerSecond(3.0);
    EXPECT_DOUBLE_EQ((two + three).inLitresPerSecond(), 5.0);
    EXPECT_DOUBLE_EQ((two - three).inLitresPerSecond(), -1.0);
    EXPECT_DOUBLE_EQ((-two).inLitresPerSecond(), -2.0);
    EXPECT_DOUBLE_EQ((1.5 * two).inLitresPerSecond(), 3.0);
    EXPECT_DOUBLE_EQ((three / 2.0).inLitresPerSecond(), 1.5);
    EXPECT_DOUBLE_EQ(three / two, 1.5);
    EXPECT_LT(two, three);
    EXPECT_GT(Head::fromMetres(1.0), Head::fromFeet(3.0)); // 3 ft = 0.9144 m
}

TEST(Quantities, LevelsDifferByHeads) {
    const Level water = Level::fromMetres(-2.4);
    const Level pump = Level::fromMetres(0.3);
    EXPECT_DOUBLE_EQ((pump - water).inMetres(), 2.7);
    EXPECT_DOUBLE_EQ((water + Head::fromMetres(1.0)).inMetres(), -1.4);
    EXPECT_DOUBLE_EQ((water - Head::fromMetres(0.1)).inMetres(), -2.5);
}

TEST(Quantities, GaugePressuresDifferByPressures) {
    const GaugePressure outlet = GaugePressure::fromKilopascals(310.0);
    const GaugePressure inlet = GaugePressure::fromKilopascals(-25.0);
    EXPECT_DOUBLE_EQ((outlet - inlet).inKilopascals(), 335.0);
    EXPECT_DOUBLE_EQ((inlet + Pressure::fromKilopascals(30.0)).inKilopascals(), 5.0);
    EXPECT_DOUBLE_EQ((outlet - Pressure::fromBars(0.1)).inKilopascals(), 300.0);
}

} // namespace
} // namespace headmark
