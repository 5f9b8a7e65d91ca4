#pragma once
// The part of zone_sets.h that knows the hydraulics: main, zones and supply as tables, and the duty of any
// set of zones on any supply.

#include "analysis/duty/supply_curve.h"
#include "analysis/irrigation/zones_at_once.h"

#include <deque>
#include <memory>
#include <optional>

namespace headmark {

struct CondensedZone {
    std::size_t zone = 0; // index in the job
    std::size_t node = 0; // take-off, counted from the pump
    ZoneDemand demand;
    double lowest_m = 0.0;   // level at the take-off at which the worst emitter meets its lower limit
    double greatest_m = 0.0; // the same for the upper limit; infinite: none, or never reached
    bool hasGreatest = false;
};

// Where a set runs on a supply.
struct SetDuty {
    enum class Where { inChart, left, right, none, unsure };
    Where where = Where::none;
    bool onFallingPart = true;
    double net_m3_s = 0.0;
    std::vector<double> level_m; // at the take-off of each open zone, in the order of `open`
};

// Water drawn at a take-off besides what open zones draw.
struct Load {
    std::size_t node = 0;
    double flow_m3_s = 0.0;
};

// Where open zones and loads run on a supply; taken as level left of its top.
struct Reach {
    bool onFallingPart = true;
    double net_m3_s = 0.0;
    std::vector<double> node_m; // level at every take-off up to the farthest looked at, the nearest first
};

class CondensedSite {
  public:
    // Null where the site cannot be condensed.
    [[nodiscard]] static std::unique_ptr<const CondensedSite> make(const CaseSolver& solver);

    // Zones of a set, the farthest from the pump first.
    [[nodiscard]] std::vector<const CondensedZone*> open(ZoneMask set) const;
    // `start_m`: level at the farthest open take-off to start from; left as the answer's.
    [[nodiscard]] SetDuty duty(const std::vector<const CondensedZone*>& open, const SupplyCurve& supply,
                               std::optional<double>& start_m) const;

    // The same with a load, seen from take-off `far` on: zones farther off are taken as shut. `start_m`:
    // level at `far` to start from; left as the answer's.
    void reach(const std::vector<const CondensedZone*>& open, const Load& load, std::size_t far,
               const SupplyCurve& supply, double& start_m, Reach& reach) const;
    [[nodiscard]] std::size_t lastNode() const { return pieces_.size() - 1; }

    [[nodiscard]] const std::deque<CondensedZone>& zones() const { return zones_; } // farthest first
    [[nodiscard]] const std::vector<SupplyCurve>& weakest() const { return weakest_; }
    [[nodiscard]] const std::vector<SupplyCurve>& strongest() const { return strongest_; }
    [[nodiscard]] const std::vector<SupplyCurve>& printed() const { return printed_; } // the four corners
    [[nodiscard]] const std::vector<SupplyCurve>& high() const { return high_; }       // the same, in order
    // The same with the weaker pump, where a drive holds the pressure; else none.
    [[nodiscard]] const std::vector<SupplyCurve>& low() const { return low_; }
    [[nodiscard]] double greatestNet_m3_s() const { return greatestNet_; }
    [[nodiscard]] bool ratingsMatter() const { return ratingsMatter_; }
    [[nodiscard]] bool falls() const { return falls_; }

  private:
    CondensedSite() = default;
    class Maker;
    struct March {
        double level_m = 0.0, levelSlope = 1.0, net_m3_s = 0.0, netSlope = 0.0;
    };
    [[nodiscard]] March march(const std::vector<const CondensedZone*>& open, double far_m,
                              std::vector<double>* level_m = nullptr) const;
    [[nodiscard]] March marchLoaded(const std::vector<const CondensedZone*>& open, const Load& load,
                                    std::size_t far, double far_m, std::vector<double>* node_m) const;
    [[nodiscard]] std::optional<double> meet(const std::vector<const CondensedZone*>& open,
                                             const SupplyCurve& supply, std::optional<double> start_m) const;
    [[nodiscard]] SetDuty onRisingPart(const std::vector<const CondensedZone*>& open,
                                       const SupplyCurve& supply, double from_m, double to_m,
                                       std::optional<double>& start_m) const;
    [[nodiscard]] double lowestStart_m(const std::vector<const CondensedZone*>& open) const;
    [[nodiscard]] SetDuty placed(const std::vector<const CondensedZone*>& open, const SupplyCurve& supply,
                                 double far_m) const;

    std::deque<CondensedZone> zones_;
    std::vector<SmoothTable> pieces_; // loss of the main from take-off k - 1 to k; the first is not used
    double stillLoss_m_ = 0.0;        // what the pieces take without flow
    std::unique_ptr<ZoneDemand> back_;
    std::vector<SupplyCurve> weakest_, strongest_, printed_, high_, low_;
    double greatestNet_ = 0.0;
    bool ratingsMatter_ = false, falls_ = true;
};

} // namespace headmark
