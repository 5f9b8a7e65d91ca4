#pragma once
// Small quantity types. A number becomes a quantity only with its unit (Flow::fromLitresPerSecond) and
// leaves only through one (inLitresPerSecond); stored in SI. A level is a point and a head a difference,
// a gauge and an absolute pressure are different types: the products and sums that make no sense do not
// compile.

#include "analysis/units/unit_factors.h"

#include <compare>

namespace headmark {

// A difference or extent: adds, scales, compares.
template <class Self>
class Amount {
  public:
    friend constexpr Self operator+(Self a, Self b) { return made(a.si_ + b.si_); }
    friend constexpr Self operator-(Self a, Self b) { return made(a.si_ - b.si_); }
    friend constexpr Self operator-(Self a) { return made(-a.si_); }
    friend constexpr Self operator*(Self a, double s) { return made(a.si_ * s); }
    friend constexpr Self operator*(double s, Self a) { return made(a.si_ * s); }
    friend constexpr Self operator/(Self a, double s) { return made(a.si_ / s); }
    friend constexpr double operator/(Self a, Self b) { return a.si_ / b.si_; }
    friend constexpr auto operator<=>(Self a, Self b) { return a.si_ <=> b.si_; }
    friend constexpr bool operator==(Self a, Self b) { return a.si_ == b.si_; }

  protected:
    static constexpr Self made(double si) {
        Self q;
        q.si_ = si;
        return q;
    }
    double si_ = 0.0;
};

// A point on a scale whose differences are of type Difference.
template <class Self, class Difference>
class Point {
  public:
    friend constexpr auto operator<=>(Self a, Self b) { return a.si_ <=> b.si_; }
    friend constexpr bool operator==(Self a, Self b) { return a.si_ == b.si_; }

  protected:
    static constexpr Self made(double si) {
        Self q;
        q.si_ = si;
        return q;
    }
    double si_ = 0.0;
};

#define HEADMARK_UNIT(Type, Name, factor_)                                                                   \
    static constexpr Type from##Name(double v) { return made(v * (factor_)); }                               \
    [[nodiscard]] constexpr double in##Name() const { return si_ / (factor_); }

class Flow : public Amount<Flow> {
  public:
    HEADMARK_UNIT(Flow, CubicMetresPerSecond, 1.0)
    // Divided by the whole number of seconds, so that 8 m3/h comes back as 8.
    static constexpr Flow fromCubicMetresPerHour(double v) { return made(v / factor::kHour_s); }
    [[nodiscard]] constexpr double inCubicMetresPerHour() const { return si_ * factor::kHour_s; }
    HEADMARK_UNIT(Flow, LitresPerSecond, factor::kLitre_m3)
    HEADMARK_UNIT(Flow, LitresPerMinute, factor::kLitrePerMinute_m3_s)
    HEADMARK_UNIT(Flow, LitresPerHour, factor::kLitrePerHour_m3_s)
    HEADMARK_UNIT(Flow, UsGallonsPerMinute, factor::kUsGallonPerMinute_m3_s)
    HEADMARK_UNIT(Flow, ImperialGallonsPerMinute, factor::kImperialGallonPerMinute_m3_s)
};

class Length : public Amount<Length> {
  public:
    HEADMARK_UNIT(Length, Metres, 1.0)
    HEADMARK_UNIT(Length, Millimetres, 1e-3)
    HEADMARK_UNIT(Length, Inches, factor::kInch_m)
    HEADMARK_UNIT(Length, Feet, factor::kFoot_m)
};

// A difference of energy per weight, in metres of the water pumped.
class Head : public Amount<Head> {
  public:
    HEADMARK_UNIT(Head, Metres, 1.0)
    HEADMARK_UNIT(Head, Feet, factor::kFoot_m)
};

// A height above the site's datum.
class Level : public Point<Level, Head> {
  public:
    HEADMARK_UNIT(Level, Metres, 1.0)
    friend constexpr Head operator-(Level a, Level b) { return Head::fromMetres(a.si_ - b.si_); }
    friend constexpr Level operator+(Level a, Head h) { return fromMetres(a.si_ + h.inMetres()); }
    friend constexpr Level operator-(Level a, Head h) { return fromMetres(a.si_ - h.inMetres()); }
};

// A pressure difference.
class Pressure : public Amount<Pressure> {
  public:
    HEADMARK_UNIT(Pressure, Pascals, 1.0)
    HEADMARK_UNIT(Pressure, Kilopascals, 1e3)
    HEADMARK_UNIT(Pressure, Bars, factor::kBar_Pa)
    HEADMARK_UNIT(Pressure, Psi, factor::kPsi_Pa)
};

// Pressure above the air around.
class GaugePressure : public Point<GaugePressure, Pressure> {
  public:
    HEADMARK_UNIT(GaugePressure, Pascals, 1.0)
    HEADMARK_UNIT(GaugePressure, Kilopascals, 1e3)
    HEADMARK_UNIT(GaugePressure, Bars, factor::kBar_Pa)
    HEADMARK_UNIT(GaugePressure, Psi, factor::kPsi_Pa)
    friend constexpr Pressure operator-(GaugePressure a, GaugePressure b) {
        return Pressure::fromPascals(a.si_ - b.si_);
    }
    friend constexpr GaugePressure operator+(GaugePressure a, Pressure d) {
        return fromPascals(a.si_ + d.inPascals());
    }
    friend constexpr GaugePressure operator-(GaugePressure a, Pressure d) {
        return fromPascals(a.si_ - d.inPascals());
    }
};

// Pressure above vacuum.
class AbsolutePressure : public Point<AbsolutePressure, Pressure> {
  public:
    HEADMARK_UNIT(AbsolutePressure, Pascals, 1.0)
    HEADMARK_UNIT(AbsolutePressure, Kilopascals, 1e3)
    friend constexpr Pressure operator-(AbsolutePressure a, AbsolutePressure b) {
        return Pressure::fromPascals(a.si_ - b.si_);
    }
    friend constexpr AbsolutePressure operator+(AbsolutePressure a, Pressure d) {
        return fromPascals(a.si_ + d.inPascals());
    }
};

class Power : public Amount<Power> {
  public:
    HEADMARK_UNIT(Power, Watts, 1.0)
    HEADMARK_UNIT(Power, Kilowatts, 1e3)
    HEADMARK_UNIT(Power, Horsepower, factor::kHorsepower_W)
};

class Energy : public Amount<Energy> {
  public:
    HEADMARK_UNIT(Energy, Joules, 1.0)
    HEADMARK_UNIT(Energy, KilowattHours, factor::kKilowattHour_J)
};

class Velocity : public Amount<Velocity> {
  public:
    HEADMARK_UNIT(Velocity, MetresPerSecond, 1.0)
};

class RotationalSpeed : public Amount<RotationalSpeed> {
  public:
    static constexpr RotationalSpeed fromRevolutionsPerMinute(double v) { return made(v / 60.0); }
    [[nodiscard]] constexpr double inRevolutionsPerMinute() const { return si_ * 60.0; }
};

// A share, 0 to 1; percent only where people read it.
class Efficiency : public Amount<Efficiency> {
  public:
    HEADMARK_UNIT(Efficiency, Share, 1.0)
    HEADMARK_UNIT(Efficiency, Percent, 1e-2)
};

class Volume : public Amount<Volume> {
  public:
    HEADMARK_UNIT(Volume, CubicMetres, 1.0)
    HEADMARK_UNIT(Volume, Litres, factor::kLitre_m3)
};

class Area : public Amount<Area> {
  public:
    HEADMARK_UNIT(Area, SquareMetres, 1.0)
};

class Duration : public Amount<Duration> {
  public:
    HEADMARK_UNIT(Duration, Seconds, 1.0)
    HEADMARK_UNIT(Duration, Minutes, factor::kMinute_s)
    HEADMARK_UNIT(Duration, Hours, factor::kHour_s)
};

class Density : public Amount<Density> {
  public:
    HEADMARK_UNIT(Density, KilogramsPerCubicMetre, 1.0)
};

class KinematicViscosity : public Amount<KinematicViscosity> {
  public:
    HEADMARK_UNIT(KinematicViscosity, SquareMetresPerSecond, 1.0)
    HEADMARK_UNIT(KinematicViscosity, SquareMillimetresPerSecond, 1e-6)
};

class Temperature : public Point<Temperature, double> {
  public:
    HEADMARK_UNIT(Temperature, Kelvin, 1.0)
    static constexpr Temperature fromCelsius(double t) { return made(t + factor::kZeroCelsius_K); }
    [[nodiscard]] constexpr double inCelsius() const { return si_ - factor::kZeroCelsius_K; }
};

#undef HEADMARK_UNIT

} // namespace headmark
