#pragma once
// What one zone takes from the main, as a function of the energy level at its take-off alone: branch,
// regulators and outlets condensed into a table. For questions about very many sets of zones.
//   level needed(q) = zone level + h_outlets(q) + losses of the branch(q), rising with q
// solved for q at equal steps of s = sqrt(level - level at which water begins), in which q(s) is smooth.
// A regulator or compensating outlets cap the flow; beyond that level it stays.

#include "analysis/duty/smooth_table.h"
#include "analysis/pipework/tree.h"

#include <vector>

namespace headmark {

class ZoneDemand {
  public:
    // `branch`: edges from the take-off on. The table reaches to `greatest_m` (a level).
    ZoneDemand(std::vector<TreeEdge> branch, const TreeOutflow& outflow, double greatest_m);

    // Flow and its slope at a level of the energy line at the take-off.
    [[nodiscard]] SmoothTable::At at(double level_m) const;
    // Level at the take-off at which the branch's end has that head above the zone; infinite where a
    // regulator holds it below.
    [[nodiscard]] double levelFor(double headAboveZone_m) const;
    // Level from which water flows; infinite where none ever does.
    [[nodiscard]] double begin_m() const { return begin_m_; }

  private:
    struct Needed {
        double level_m = 0.0, slope_s_m2 = 0.0;
        bool reachable = true; // no regulator holds the head below
    };
    [[nodiscard]] Needed needed(double flow_m3_s, double headAboveZone_m, double slope_s_m2) const;
    [[nodiscard]] Needed neededFor(double flow_m3_s) const;
    [[nodiscard]] double flowAt(double level_m, double guess_m3_s) const;

    std::vector<TreeEdge> branch_;
    TreeOutflow outflow_;
    double begin_m_ = 0.0, end_m_ = 0.0, endFlow_m3_s_ = 0.0;
    SmoothTable flow_; // over s
};

} // namespace headmark
