#include "analysis/pipework/friction.h"

#include <cmath>
#include <numbers>

namespace headmark {

namespace {

constexpr double kTwoPerLn10 = 2.0 / std::numbers::ln10;
constexpr double kGravity = factor::kStandardGravity_m_s2;

// Value and slope at both ends of the transition, joined by the cubic that meets all four.
FrictionFactor transition(double reynolds, const FrictionFactor& end) {
    const double span = kTurbulentStart - kLaminarEnd;
    const double startValue = 64.0 / kLaminarEnd;
    const double startSlope = -startValue / kLaminarEnd;
    const double t = (reynolds - kLaminarEnd) / span;
    const double t2 = t * t, t3 = t2 * t;
    FrictionFactor f;
    f.value = (2 * t3 - 3 * t2 + 1) * startValue + (t3 - 2 * t2 + t) * span * startSlope +
              (-2 * t3 + 3 * t2) * end.value + (t3 - t2) * span * end.perReynolds;
    f.perReynolds = (6 * t2 - 6 * t) / span * startValue + (3 * t2 - 4 * t + 1) * startSlope +
                    (-6 * t2 + 6 * t) / span * end.value + (3 * t2 - 2 * t) * end.perReynolds;
    return f;
}

FrictionFactor laminar(double reynolds) { return {64.0 / reynolds, -64.0 / (reynolds * reynolds)}; }

} // namespace

FrictionFactor colebrookWhite(double reynolds, double relativeRoughness) {
    // x = 1/sqrt f solves x + 2 log10(a + b x) = 0, nearly linear in x: Newton gains digits very fast.
    const double a = relativeRoughness / 3.7;
    const double b = 2.51 / reynolds;
    // First guess: the equation itself with x = 8 (f about 0.016) put in once.
    double x = -kTwoPerLn10 * std::log(a + b * 8.0);
    double inner = a + b * x;
    for (int i = 0; i < 8; ++i) {
        const double step = (x + kTwoPerLn10 * std::log(inner)) / (1.0 + kTwoPerLn10 * b / inner);
        x -= step;
        inner = a + b * x;
        if (std::abs(step) < 1e-9 * x) break; // the next step would be below rounding
    }
    const double f = 1.0 / (x * x);
    const double xPerReynolds = kTwoPerLn10 * (b * x / reynolds) / inner / (1.0 + kTwoPerLn10 * b / inner);
    return {f, -2.0 * f / x * xPerReynolds};
}

FrictionFactor darcyFrictionFactor(double reynolds, double relativeRoughness) {
    if (reynolds <= kLaminarEnd) return laminar(reynolds);
    if (reynolds >= kTurbulentStart) return colebrookWhite(reynolds, relativeRoughness);
    return transition(reynolds, colebrookWhite(kTurbulentStart, relativeRoughness));
}

PipeFriction::PipeFriction(double bore_m, double length_m, double roughness_m, KinematicViscosity viscosity)
    : bore_m_(bore_m), roughness_m_(roughness_m), length_m_(length_m),
      relativeRoughness_(roughness_m / bore_m) {
    const double area_m2 = std::numbers::pi / 4.0 * bore_m * bore_m;
    perLength_ = 1.0 / (2.0 * kGravity * bore_m * area_m2 * area_m2);
    reynoldsPerFlow_ = bore_m / (area_m2 * viscosity.inSquareMetresPerSecond());
    turbulentStart_ = colebrookWhite(kTurbulentStart, relativeRoughness_);
}

void PipeFriction::addLength(double length_m) { length_m_ += length_m; }

LossAt PipeFriction::at(double flow_m3_s) const {
    const double re = reynolds(flow_m3_s);
    const double c = perLength_ * length_m_;
    if (re <= kLaminarEnd) { // 64/Re q^2 is linear in q, also at zero
        const double slope = c * 64.0 / reynoldsPerFlow_;
        return {slope * flow_m3_s, slope};
    }
    const FrictionFactor f =
        re >= kTurbulentStart ? colebrookWhite(re, relativeRoughness_) : transition(re, turbulentStart_);
    const double cq = c * flow_m3_s;
    return {f.value * cq * flow_m3_s, cq * (2.0 * f.value + f.perReynolds * re)};
}

double hazenWilliamsCoefficient(double bore_m, double length_m, double c) {
    return 10.67 * length_m / (std::pow(c, 1.852) * std::pow(bore_m, 4.8704));
}

} // namespace headmark
