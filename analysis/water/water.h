#pragma once
// Properties of liquid water at 0.1 MPa and of the air above it.
//   density, viscosity:  IAPWS SR6-08(2011), valid -20 to 110 C; offered here from 0 to 60 C
//   vapour pressure:     IAPWS-IF97 region 4 (R7-97), from 0 C
//   air pressure:        ISO 2533:1975; altitude above the sea taken as geometric, -500 to 5000 m
// Outside these ranges the reader refuses the job; the functions assert.

#include "analysis/units/quantities.h"

namespace headmark {

struct WaterProperties {
    Density density;
    KinematicViscosity viscosity;
    AbsolutePressure vapourPressure;
    Velocity soundSpeed; // for surge
};

inline constexpr double kColdestWater_C = 0.0;
inline constexpr double kHottestWater_C = 60.0;
inline constexpr double kLowestAltitude_m = -500.0;
inline constexpr double kHighestAltitude_m = 5000.0;

[[nodiscard]] WaterProperties waterAt(Temperature temperature);

[[nodiscard]] AbsolutePressure airPressureAt(Length altitude);

} // namespace headmark
