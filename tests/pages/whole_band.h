#pragma once
// How many of its sigmas must lie to both sides of a curve for the band to hold the whole true curve at once?
//   At a single flow 95 % of truths lie within 1.96 sigma; that all of a curve lies in its band is asked more
//   rarely granted the more freely the curve's errors turn along it. With u(Q) = L' b(Q)/|L' b(Q)|, b the
//   curve's basis and L L' its covariance, and k the length of the way u goes on the unit sphere,
//     P(truth leaves c sigma somewhere) = (k/pi) exp(-c^2/2) + erfc(c/sqrt 2)
//   A shift alone has k = 0 and 1.96; two coefficients over all flows k = pi, Working and Hotelling's band.
// Normal errors. An upper bound of the probability (Naiman), nearly exact where it is small.
// Sources: Hotelling, Amer. J. Math. 61 (1939) 440; Naiman, Ann. Statist. 14 (1986) 896; Sun and Loader, Ann.
// Statist. 22 (1994) 1328.

#include "analysis/curve/polynomial_curve.h"

namespace headmark {

// For a band that holds the whole curve in `share` of cases; of an exact curve as of one that only shifts.
[[nodiscard]] double wholeBandSigmas(const PolynomialCurve& curve, double share = 0.95);

} // namespace headmark
