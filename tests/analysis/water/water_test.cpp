#include "analysis/water/water.h"

#include "analysis/core/assertion.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

TEST(Water, IsDensestNearFourDegrees) {
    // Textbook fact: the maximum lies at 3.98 C (Tanaka et al., Metrologia 38 (2001) 301: 3.983 C).
    const auto density = [](double t_C) {
        return waterAt(Temperature::fromCelsius(t_C)).density.inKilogramsPerCubicMetre();
    };
    EXPECT_GT(density(3.98), density(3.5));
    EXPECT_GT(density(3.98), density(4.5));
}

TEST(Water, GetsThinnerAndBoilsMoreEasilyAsItWarms) {
    WaterProperties colder = waterAt(Temperature::fromCelsius(kColdestWater_C));
    for (double t_C = 1.0; t_C <= kHottestWater_C; t_C += 1.0) {
        const WaterProperties warmer = waterAt(Temperature::fromCelsius(t_C));
        EXPECT_LT(warmer.viscosity, colder.viscosity) << t_C;
        EXPECT_GT(warmer.vapourPressure, colder.vapourPressure) << t_C;
        colder = warmer;
    }
}

TEST(Water, RefusesTemperaturesItIsNotOfferedFor) {
    EXPECT_NO_THROW(static_cast<void>(waterAt(Temperature::fromCelsius(0.0))));
    EXPECT_NO_THROW(static_cast<void>(waterAt(Temperature::fromCelsius(60.0))));
    EXPECT_THROW(static_cast<void>(waterAt(Temperature::fromCelsius(-0.1))), InternalError);
    EXPECT_THROW(static_cast<void>(waterAt(Temperature::fromCelsius(60.1))), InternalError);
}

TEST(Air, ThinsWithAltitude) {
    AbsolutePressure lower = airPressureAt(Length::fromMetres(kLowestAltitude_m));
    for (double z_m = kLowestAltitude_m + 250.0; z_m <= kHighestAltitude_m; z_m += 250.0) {
        const AbsolutePressure higher = airPressureAt(Length::fromMetres(z_m));
        EXPECT_LT(higher, lower) << z_m;
        lower = higher;
    }
}

TEST(Air, RefusesAltitudesItIsNotOfferedFor) {
    EXPECT_THROW(static_cast<void>(airPressureAt(Length::fromMetres(-501.0))), InternalError);
    EXPECT_THROW(static_cast<void>(airPressureAt(Length::fromMetres(5001.0))), InternalError);
}

} // namespace
} // namespace headmark
