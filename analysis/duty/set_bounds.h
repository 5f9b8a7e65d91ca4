#pragma once
// What is known of every set of one size in a branch of sets (zones held open and k of the free ones), from a
// few solutions of the condensed site instead of one for each set. Where the supply falls, more draw at one
// place never raises a level anywhere. Sought are, at a take-off j, levels that no set of the branch passes:
//   highest  j and what lies before it: held zones as they are. Beyond it: what its held zones draw at least.
//            The k free zones draw at least what the k least of them do, all of it at their nearest take-off:
//            beyond j it counts the same wherever it is, since nothing there answers to the level
//   lowest   the held zones, and all that the k greatest of the free zones draw, at j itself: draw elsewhere
//            lowers j less, since zones between answer to it
// A zone that works draws at least what it draws at its own lower limit (its burden), and any zone at most
// what it draws with the held zones alone. Then
//   no set works   where a held zone misses its lower limit at the highest level or its upper limit at the
//                  lowest, where fewer than k free zones could meet theirs, or where every set's flow lies
//                  beyond the chart or where NPSH, motor or a filter stop
//   all sets work  where held and free zones keep their lower limits at the lowest levels and their upper
//                  ones at the highest, and the flows between keep clear of everything that stops
// A hair (1 mm, 1e-5 of the chart's flow) is left to the question itself, as in zone_sets.h. Where a set may
// run left of the top of a drooping curve nothing is said.

#include "analysis/duty/condensed_site.h"

namespace headmark {

inline constexpr double kLevelHair_m = 1e-3;
inline constexpr double kFlowHair = 1e-5; // share of the chart's flow

class SetBounds {
  public:
    // `pumpHasLimits`: a crossing beyond the chart fails the upper limits of zone_sets.h.
    SetBounds(const CondensedSite& site, bool pumpHasLimits);

    [[nodiscard]] SetBound bound(const SetBranch& branch, int size, BoundOn on) const;

  private:
    using Zones = std::vector<const CondensedZone*>;
    struct Branch {
        Zones held; // farthest first
        ZoneMask heldMask = 0, free = 0;
        std::size_t more = 0; // free zones in each set
    };
    // Levels the solutions start from, by take-off; of the supplies in their order.
    using Starts = std::vector<std::vector<double>>;

    [[nodiscard]] bool noneHold(Branch& b) const;
    [[nodiscard]] bool noneHoldOn(Branch& b, std::size_t corner) const;
    [[nodiscard]] bool heldMissOn(const Branch& b, std::size_t corner, const Load& least) const;
    [[nodiscard]] bool allTooHigh(const Branch& b) const;
    [[nodiscard]] bool allTooHighOn(const Branch& b, std::size_t corner) const;
    [[nodiscard]] bool allStopped(const Branch& b) const;
    [[nodiscard]] bool allWork(const Branch& b) const;
    [[nodiscard]] bool allHoldOn(const Branch& b, std::size_t corner, double& leastNet_m3_s) const;
    [[nodiscard]] bool allLowEnoughOn(const Branch& b, std::size_t corner, double& greatestNet_m3_s) const;
    [[nodiscard]] bool flowsAreClear(double least_m3_s, double greatest_m3_s) const;

    // Solutions behind the highest level at a take-off; false: left of the top.
    bool highestAt(const Branch& b, std::size_t node, const Load& least, const SupplyCurve& supply,
                   double& start_m, Reach& reach) const;
    // The highest levels at all take-offs, free zones left out.
    bool heldAlone(const Branch& b, const SupplyCurve& supply, std::vector<double>& starts,
                   Reach& reach) const;
    [[nodiscard]] Load leastBurden(const Branch& b) const;
    [[nodiscard]] double greatestDraw_m3_s(const Branch& b, const Reach& highest) const;
    [[nodiscard]] double burdenOf(const CondensedZone& z) const { return burden_m3_s_[z.zone]; }
    [[nodiscard]] double hair() const { return kFlowHair * site_.greatestNet_m3_s(); }

    const CondensedSite& site_;
    bool pumpHasLimits_;
    std::vector<double> burden_m3_s_; // by zone of the job
    Zones lightFirst_;                // by burden; zones that can never hold are left out
    mutable Starts weak_, strong_, printed_, high_, weakLow_, strongLow_;
    mutable std::vector<double> draws_;
    mutable std::vector<std::pair<double, std::size_t>> nodes_;
    mutable Reach highest_, lowest_, near_;
};

} // namespace headmark
