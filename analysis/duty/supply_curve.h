#pragma once
// What reaches the first take-off in one corner of water level, filter state and delivery: the level of the
// energy line against the net flow (pump less tank return), tabulated.
//   root level  r(Q) = source + factor H(Q) - suction loss(Q)
//   net flow    n(Q) = Q - return(r(Q)),   level h0 = r less what the main takes up to there (regulators cap)
// A drive that holds the outlet's level caps r as a regulator there would; its chart ends where the speed
// that holds it puts the end of the printed one.

#include "analysis/duty/case_solver.h"
#include "analysis/duty/smooth_table.h"
#include "analysis/duty/zone_demand.h"

#include <optional>
#include <utility>
#include <vector>

namespace headmark {

struct SupplyCorner {
    WaterLevel level = WaterLevel::low;
    FilterState filter = FilterState::service;
    double factor = 1.0; // delivery
};

struct JudgedState;

class SupplyCurve {
  public:
    // `mainEdges`: how many edges of the tree's main lie before the first take-off; `tree` is that of the
    // corner with every zone open, `main` its edges in order, `back` the return's demand over the root level
    // (null: none). Not usable where the curve has more than one top or the net flow does not rise.
    SupplyCurve(const SupplyCorner& corner, const CaseSolver& solver, const SiteTree& tree,
                const std::vector<std::size_t>& main, const ZoneDemand* back);

    [[nodiscard]] bool usable() const { return usable_; }
    [[nodiscard]] SmoothTable::At at(double net_m3_s) const;
    [[nodiscard]] const SupplyCorner& corner() const { return corner_; }
    [[nodiscard]] double greatestNet_m3_s() const { return greatestNet_; } // at the end of the chart
    [[nodiscard]] double leastNet_m3_s() const { return leastNet_; }       // where the chart begins
    [[nodiscard]] double topNet_m3_s() const { return topNet_; } // where the level is highest; falls beyond
    [[nodiscard]] double topLevel_m() const { return topLevel_; }
    [[nodiscard]] double topRoot_m() const { return topRoot_; } // highest energy level at the pump's outlet
    // Stretches of net flow in which NPSH, motor or a filter's greatest flow is not kept.
    [[nodiscard]] const std::vector<std::pair<double, double>>& badStretches() const { return bad_; }
    [[nodiscard]] const std::vector<std::pair<double, double>>& badFilterStretches() const {
        return badFilter_;
    }

  private:
    struct Point {
        double pump_m3_s = 0.0;
        double root_m = 0.0; // at full speed
    };
    [[nodiscard]] double root_m(double pump_m3_s) const;
    [[nodiscard]] Point pointAt(double net_m3_s) const;
    [[nodiscard]] double net_m3_s(double pump_m3_s) const;
    void findEnds();
    // Whether NPSH or motor are not kept at that flow through the pump.
    [[nodiscard]] bool pumpBroken(const JudgedState& judged, double pump_m3_s) const;
    void tabulate();
    void findTop();
    void findBad(const SiteTree& tree);

    SupplyCorner corner_;
    const CaseSolver* solver_;
    PumpModel pump_;
    double source_m_ = 0.0;
    Chain suction_;
    std::vector<TreeEdge> main_;
    const ZoneDemand* back_;
    std::optional<double> outlet_m_; // held by a drive
    bool usable_ = true;
    double greatestNet_ = 0.0, leastNet_ = 0.0, topNet_ = 0.0, topLevel_ = 0.0, topRoot_ = 0.0;
    SmoothTable level_, held_; // free, and where a regulator holds
    bool regulated_ = false;
    std::vector<std::pair<double, double>> bad_, badFilter_;
};

} // namespace headmark
