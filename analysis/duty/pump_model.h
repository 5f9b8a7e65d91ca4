#pragma once
// A pump ready for computing: its curves as printed, and at a running speed.
// Speed ratio r = run/chart (affinity laws): flow r, head and NPSH required r^2, power r^3, efficiency as it
// is. As delivered: head at every flow times (1 -/+ share) (ISO 9906 grades, see deliveredShare).
// Simplifications: density does not change the curves; efficiency does not fall with speed.

#include "analysis/curve/pump_curve.h"
#include "analysis/pipework/tree.h"
#include "analysis/units/quantities.h"

#include <optional>
#include <string>
#include <utility>

namespace headmark {

enum class CurveQuantity { head, efficiency, power, npshRequired };

struct Motor {
    std::optional<Power> rated;
    std::optional<Efficiency> efficiency;
    std::string supply;
};

struct PumpModel {
    std::string name;
    PumpCurve head;                      // as printed
    std::optional<PumpCurve> efficiency; // share
    std::optional<PumpCurve> power;      // W
    bool powerAtMotorInput = false;
    std::optional<PumpCurve> npshRequired;
    std::optional<RotationalSpeed> chartSpeed;
    double runRatio = 1.0; // run speed over chart speed, before a case's speed share
    std::optional<Motor> motor;
    std::optional<GaugePressure> greatestPressure;
    double deliveredShare = 0.08;
    std::optional<std::pair<double, double>> allowableShare;

    // At `speedShare` of the running speed.
    [[nodiscard]] PumpModel atSpeed(double speedShare) const;

    // Efficiency and shaft power at a flow, from whichever curve there is; empty where none tells.
    [[nodiscard]] std::optional<double> efficiencyAt(double flow_m3_s, double head_m, Density density) const;
    [[nodiscard]] std::optional<double> shaftAt_W(double flow_m3_s, double head_m, Density density) const;
    // Power drawn from the supply; needs the motor's efficiency or a curve at the motor's input.
    [[nodiscard]] std::optional<double> inputAt_W(double flow_m3_s, double head_m, Density density) const;

    struct BestPoint {
        double flow_m3_s = 0.0, efficiency = 0.0;
        bool atEndOfRange = false; // the true best may lie beyond what was read
    };
    [[nodiscard]] std::optional<BestPoint> bestPoint(Density density) const;

    // S = n sqrt(Q)/NPSH_required^(3/4) at best flow, in rpm, m3/s and m; the same at every speed. Empty
    // where the speed is not given or a curve does not tell best flow or the NPSH there.
    [[nodiscard]] std::optional<double> suctionSpecificSpeed(Density density) const;
};

// Maker's tolerance on head by rated shaft power: 8 % below 10 kW, 7 % to 100 kW, 5 % above.
// Source: ISO 9906 grades (below 10 kW, 3B, 2B); unknown power counts as below 10 kW.
[[nodiscard]] double deliveredShareFor(std::optional<Power> rated);

enum class Band { unknown, preferred, allowable, outside };

// Preferred 70 to 120 % of best-efficiency flow, 80 to 115 % above a specific speed of 4500 (US units):
// ANSI/HI 9.6.3. Allowable: the maker's, else 50 to 125 % (common practice, no source).
struct BandLimits {
    double preferredLow = 0.70, preferredHigh = 1.20;
    double allowableLow = 0.50, allowableHigh = 1.25;
};
[[nodiscard]] BandLimits bandLimits(const PumpModel& pump, const PumpModel::BestPoint& best);
[[nodiscard]] Band bandOf(double shareOfBestFlow, const BandLimits& limits);

// A pump curve as the tree solver wants it: not rising, and beyond the ends of `from`..`to` continued flat to
// the left and falling to the right, so that a solution outside shows itself as outside.
class FallingHead final : public HeadSource {
  public:
    FallingHead(const PumpCurve& curve, double factor, double from_m3_s, double to_m3_s);
    [[nodiscard]] LossAt at(double flow_m3_s) const override;

  private:
    PumpCurve curve_;
    double factor_, from_, to_, headFrom_, headTo_, slopeTo_;
};

} // namespace headmark
