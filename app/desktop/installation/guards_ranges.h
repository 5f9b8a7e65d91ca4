#pragma once
// The figures that a pump and its source may have, as a job file is read (job_reader_pumps.cpp, _site.cpp,
// _general.cpp); a test keeps both equal. Base units as in files.

#include "app/desktop/site/site_ranges.h"

namespace headmark::range {

inline constexpr FigureRange kSpeed_rpm{10.0, 60'000.0};
inline constexpr FigureRange kRated_kW{0.001, 50'000.0};
inline constexpr FigureRange kMotorEfficiency_percent{5.0, 100.0};
inline constexpr FigureRange kAmps{0.001, 10'000.0};
inline constexpr FigureRange kVolts{1.0, 50'000.0};
inline constexpr FigureRange kPowerFactor{0.05, 1.0};
inline constexpr FigureRange kCasing_l{0.01, 10'000.0};
inline constexpr FigureRange kPrimes_m{0.1, 10.3};
inline constexpr FigureRange kPumpRating_kPa{1.0, 100'000.0};
inline constexpr FigureRange kDelivered_percent{0.0, 50.0};
inline constexpr FigureRange kAllowable_percent{0.0, 300.0};
inline constexpr FigureRange kValveClosing_s{0.01, 3600.0};
inline constexpr FigureRange kRule{1e-6, 1e6};

} // namespace headmark::range
