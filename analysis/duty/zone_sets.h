#pragma once
// Whether a set of zones keeps its limits, asked for very many sets: the site condensed to
//   supply   h0(n): energy level at the first take-off against the net flow there, one curve for every corner
//            of water level, filter state and delivery; pump, suction, return and main up to there in it
//   main     loss of every piece of main between take-offs
//   zones    flow against the level at the take-off (zone_demand.h), and the levels at which the worst
//            emitter meets its lower and its upper limit
// Unknown is only the level at the farthest open take-off: going up the main from it gives the net flow and
// the level needed at the first take-off; where that meets the supply is the duty. Verdicts are those of
// CaseSolver::lowerLimitsHold and upperLimitsHold. Where a limit is met within a hair (1 mm of head, 1e-5 of
// the chart's flow), and wherever the condensed curves cannot tell, these two are asked themselves.
// Sites that cannot be condensed (regulators or filters beyond the first take-off, filters in branches,
// preferred region asked for, power or NPSH required falling with flow) are asked that way throughout.

#include "analysis/duty/case_solver.h"
#include "analysis/irrigation/zones_at_once.h"

#include <memory>

namespace headmark {

class ZoneSets {
  public:
    explicit ZoneSets(const CaseSolver& solver);
    ~ZoneSets();
    ZoneSets(const ZoneSets&) = delete;
    ZoneSets& operator=(const ZoneSets&) = delete;

    [[nodiscard]] SetVerdict verdict(ZoneMask set) const;

    // All that zones_at_once.h asks for; lives no longer than this.
    [[nodiscard]] ZonesAtOnceQuestion question() const;

    [[nodiscard]] bool condensed() const { return site_ != nullptr; }
    // Whether the inheritance of zones_at_once.h holds.
    [[nodiscard]] bool inherits() const { return inherits_; }
    // Whether any set may break an upper limit.
    [[nodiscard]] bool upperLimits() const;
    // What each zone draws at its lower limit (m3/s); empty where not condensed.
    [[nodiscard]] std::vector<double> burden() const;
    // No larger set keeps its lower limits: the thirstless zones of that number already ask too much.
    [[nodiscard]] int mostThatCanWork() const;
    [[nodiscard]] long exactQuestions() const { return exact_; }

  private:
    class Condensed;
    [[nodiscard]] SetVerdict askedExactly(ZoneMask set, ZoneMask knownTooHigh) const;

    const CaseSolver& solver_;
    bool inherits_ = false;
    std::unique_ptr<const Condensed> site_;
    mutable long exact_ = 0;
};

// Zones of a mask as open marks.
[[nodiscard]] std::vector<bool> openZones(ZoneMask mask, std::size_t zones);

} // namespace headmark
