#pragma once
// The published equations behind waterAt(), over their own full ranges and in plain SI numbers, so that they
// can be checked against the check values printed with them. T in K.
//   liquid water at 0.1 MPa:  IAPWS SR6-08(2011), 253.15 to 383.15 K
//     v0 = (R Tr/p0) [a5 + sum a_i alpha^n_i + sum b_i beta^m_i], alpha = Tr/(593 K - T), beta = Tr/(T - 232
//     K) mu = 1e-6 Pa s sum c_i (T/300 K)^d_i w^2 = -v^2 cp / (cp dv/dp + T (dv/dT)^2)
//   saturation pressure:      IAPWS R7-97(2012) equation 30 (IF97 region 4), 273.15 to 647.096 K
// Outside the ranges they assert.

namespace headmark::iapws {

[[nodiscard]] double liquidDensity_kg_m3(double temperature_K);
[[nodiscard]] double liquidViscosity_Pa_s(double temperature_K); // dynamic
[[nodiscard]] double liquidSoundSpeed_m_s(double temperature_K);
[[nodiscard]] double saturationPressure_Pa(double temperature_K);

} // namespace headmark::iapws
