#pragma once
// Exact unit factors, each the SI value of one unit.
// Source: NIST SP 811 (2008) Appendix B and NIST Handbook 44 Appendix C, exact by definition; conventional
// metre and foot of water at 1000 kg/m3 and standard gravity (3rd CGPM, 1901).

namespace headmark::factor {

inline constexpr double kStandardGravity_m_s2 = 9.80665; // exact, 3rd CGPM (1901)
inline constexpr double kInch_m = 0.0254;
inline constexpr double kFoot_m = 0.3048;
inline constexpr double kLitre_m3 = 1e-3;
inline constexpr double kUsGallon_m3 = 3.785411784e-3; // 231 cubic inches
inline constexpr double kImperialGallon_m3 = 4.54609e-3;
inline constexpr double kPound_kg = 0.45359237;
inline constexpr double kPoundForce_N = kPound_kg * kStandardGravity_m_s2;
inline constexpr double kPsi_Pa = kPoundForce_N / (kInch_m * kInch_m);
inline constexpr double kBar_Pa = 1e5;
inline constexpr double kMetreOfWater_Pa = 1000.0 * kStandardGravity_m_s2;
inline constexpr double kHorsepower_W = 550.0 * kFoot_m * kPoundForce_N; // mechanical, 550 ft lbf/s
inline constexpr double kMinute_s = 60.0;
inline constexpr double kHour_s = 3600.0;
inline constexpr double kCubicMetrePerHour_m3_s = 1.0 / kHour_s;
inline constexpr double kLitrePerMinute_m3_s = kLitre_m3 / kMinute_s;
inline constexpr double kLitrePerHour_m3_s = kLitre_m3 / kHour_s;
inline constexpr double kUsGallonPerMinute_m3_s = kUsGallon_m3 / kMinute_s;
inline constexpr double kImperialGallonPerMinute_m3_s = kImperialGallon_m3 / kMinute_s;
inline constexpr double kZeroCelsius_K = 273.15;
inline constexpr double kKilowattHour_J = 3.6e6;

} // namespace headmark::factor
