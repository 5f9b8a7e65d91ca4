#pragma once
// Friction of water in a full round pipe.
//   Darcy-Weisbach  h = f L/D v^2/(2g)
//   laminar         f = 64/Re                                       Re <= 2000
//   turbulent       1/sqrt f = -2 log10(k/(3.7 D) + 2.51/(Re sqrt f)) Re >= 4000 (Colebrook 1939), solved to
//   rounding between         cubic Hermite in f over Re that meets value and slope at both ends
//   Hazen-Williams  h = 10.67 L Q^1.852 / (C^1.852 D^4.8704)         Q m3/s, L and D m (on request)
// Flow must not be negative. Range: Re to 1e8, k/D to 0.05 (the Moody chart's).

#include "analysis/units/quantities.h"

namespace headmark {

inline constexpr double kLaminarEnd = 2000.0;     // Reynolds number, contract of the job file
inline constexpr double kTurbulentStart = 4000.0; // same

// A loss and its slope: h in m, dh/dq in s/m2.
struct LossAt {
    double loss_m = 0.0;
    double slope_s_m2 = 0.0;
};

// Darcy friction factor and its derivative by Reynolds number.
struct FrictionFactor {
    double value = 0.0;
    double perReynolds = 0.0;
};

[[nodiscard]] FrictionFactor colebrookWhite(double reynolds, double relativeRoughness);

// All three regimes; reynolds > 0.
[[nodiscard]] FrictionFactor darcyFrictionFactor(double reynolds, double relativeRoughness);

// One pipe prepared for repeated evaluation.
class PipeFriction {
  public:
    PipeFriction(double bore_m, double length_m, double roughness_m, KinematicViscosity viscosity);

    [[nodiscard]] LossAt at(double flow_m3_s) const;
    [[nodiscard]] double reynolds(double flow_m3_s) const { return reynoldsPerFlow_ * flow_m3_s; }
    [[nodiscard]] double bore_m() const { return bore_m_; }
    [[nodiscard]] double roughness_m() const { return roughness_m_; }
    void addLength(double length_m);

  private:
    double bore_m_, roughness_m_;
    double perLength_; // 1/(2 g D A^2): h = f L perLength q^2
    double length_m_;
    double relativeRoughness_;
    double reynoldsPerFlow_;        // 4/(pi D nu)
    FrictionFactor turbulentStart_; // at Re 4000, for the Hermite join
};

// Coefficient a of h = a q^1.852.
[[nodiscard]] double hazenWilliamsCoefficient(double bore_m, double length_m, double c);
inline constexpr double kHazenWilliamsExponent = 1.852;

} // namespace headmark
