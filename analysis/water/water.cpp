#include "analysis/water/water.h"

#include "analysis/core/assertion.h"
#include "analysis/water/iapws.h"

#include <cmath>

namespace headmark {

namespace {

// ISO 2533:1975, layer below 11 km.
constexpr double kSeaLevelPressure_Pa = 101325.0;
constexpr double kSeaLevelTemperature_K = 288.15;
constexpr double kLapse_K_m = -0.0065;
constexpr double kAirGasConstant_J_kgK = 287.05287;
constexpr double kEarthRadius_m = 6356766.0;

} // namespace

WaterProperties waterAt(Temperature temperature) {
    // Celsius to kelvin and back loses the last digit: the ends of the range belong to it.
    constexpr double kRounding_K = 1e-9;
    const double temperature_K = temperature.inKelvin();
    HEADMARK_ASSERT(temperature_K >= factor::kZeroCelsius_K + kColdestWater_C &&
                        temperature_K <= factor::kZeroCelsius_K + kHottestWater_C + kRounding_K,
                    "water temperature outside the range offered");
    const double density_kg_m3 = iapws::liquidDensity_kg_m3(temperature_K);
    return {Density::fromKilogramsPerCubicMetre(density_kg_m3),
            KinematicViscosity::fromSquareMetresPerSecond(iapws::liquidViscosity_Pa_s(temperature_K) /
                                                          density_kg_m3),
            AbsolutePressure::fromPascals(iapws::saturationPressure_Pa(temperature_K)),
            Velocity::fromMetresPerSecond(iapws::liquidSoundSpeed_m_s(temperature_K))};
}

AbsolutePressure airPressureAt(Length altitude) {
    const double geometric_m = altitude.inMetres();
    HEADMARK_ASSERT(geometric_m >= kLowestAltitude_m && geometric_m <= kHighestAltitude_m,
                    "altitude outside the range offered");
    const double geopotential_m = kEarthRadius_m * geometric_m / (kEarthRadius_m + geometric_m);
    const double ratio = 1.0 + kLapse_K_m * geopotential_m / kSeaLevelTemperature_K;
    const double exponent = -factor::kStandardGravity_m_s2 / (kLapse_K_m * kAirGasConstant_J_kgK);
    return AbsolutePressure::fromPascals(kSeaLevelPressure_Pa * std::pow(ratio, exponent));
}

} // namespace headmark
