#pragma once
// The hydraulic tree behind the pump: edges (chains of elements, each possibly ended by a regulator) that
// branch from the pump's outlet, and at their ends outflows whose flow depends on the pressure.
// Heads are energy-line levels in m above the site's datum, flows in m3/s, never negative.

#include "analysis/pipework/chain.h"

#include <array>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace headmark {

// Head an outflow needs above its level to pass a flow: h(q), rising, h(0) = 0.
class OutflowTable;
struct OutflowLaw {
    // power:        h = headAt (q/flowAt)^(1/exponent), no upper end
    // compensating: h = headAt (q/flowAt)^2 up to flowAt; from there the flow stays and h is whatever is
    // offered table:        tabulated rising curve (zones with laterals)
    enum class Kind { power, compensating, table };
    Kind kind = Kind::power;
    double flowAt_m3_s = 0.0;
    double headAt_m = 0.0;
    double inverseExponent = 2.0;
    std::shared_ptr<const OutflowTable> table;

    [[nodiscard]] LossAt at(double flow_m3_s) const;
    // Flow at a head; 0 below 0.
    [[nodiscard]] double flowAtHead_m3_s(double head_m) const;
    // Greatest flow it ever passes.
    [[nodiscard]] double cap_m3_s() const;
    [[nodiscard]] double guess_m3_s() const;

    // The same law with every flow multiplied.
    [[nodiscard]] OutflowLaw timesFlow(double factor) const;
};

// A rising curve h(q) through knots, cubic between them (monotone), as the last two knots go beyond them
// unless `capped`.
class OutflowTable {
  public:
    // Both strictly rising, starting at (0, 0), at least two knots.
    OutflowTable(std::vector<double> flows_m3_s, std::vector<double> heads_m, bool capped);
    [[nodiscard]] LossAt at(double flow_m3_s) const;
    [[nodiscard]] double flowAtHead_m3_s(double head_m) const;
    [[nodiscard]] bool capped() const { return capped_; }
    [[nodiscard]] double greatestFlow_m3_s() const { return flows_.back(); }

  private:
    std::vector<double> flows_, heads_, slopes_;
    double slopeBeyond_ = 0.0;
    bool capped_;
};

struct Regulator {
    double setLevel_m = 0.0; // level of the regulator plus its set pressure as head
    double leastLoss_m = 0.0;
};

struct TreeEdge {
    int parent = -1; // -1: starts at the pump's outlet; parents come before their children
    Chain chain;
    std::optional<Regulator> regulator; // at the edge's end
};

struct TreeOutflow {
    int edge = -1;        // at whose end it sits; -1: at the pump's outlet itself
    double level_m = 0.0; // energy level at which the flow just begins
    OutflowLaw law;
};

struct PipeTree {
    double sourceLevel_m = 0.0;
    Chain suction;
    std::vector<TreeEdge> edges;
    std::vector<TreeOutflow> outflows;
};

// Head that the pump adds, by flow. Must not rise with flow where the solver goes (see tree_solver.h).
class HeadSource {
  public:
    virtual ~HeadSource() = default;
    [[nodiscard]] virtual LossAt at(double flow_m3_s) const = 0; // loss_m is the head added, slope its slope
};

} // namespace headmark
