#pragma once
// How many zones can run at once: exact over all sets of zones, given two questions about one set.
//   lowerOk: no lower limit is broken (pressure, NPSH margin, motor, flow ceiling, duty within the chart).
//            Where the head curve falls, opening a zone never raises a pressure and never lowers the pump's
//            flow: a set that fails makes every larger set around it fail.
//   upperOk:  no upper limit is broken (pressure too high, ratings, too little flow). Opening one more zone
//   only
//            helps the zones that were open; the new one has limits of its own. So a set passes where each of
//            its zones stands in a smaller set that passes.
// A set works if both hold. Sets are bit masks, bit i = zone i in job order. Sizes are decided one after the
// other, every set of each; inheritance saves questions and ends the search once every set of a size fails a
// lower limit. When `mostQuestions` or `mostSetsPerSize` is used up, a proven bracket is given; 16 zones stay
// within the defaults. Without inheritance (drooping curves) every set is asked.

#include <cstdint>
#include <functional>
#include <vector>

namespace headmark {

using ZoneMask = std::uint64_t;
inline constexpr int kMostMaskedZones = 63; // beyond, nothing is searched and the bracket is 0 to all

struct ZonesAtOnceQuestion {
    int zones = 0;
    bool inherits = true; // the head curve falls over the whole range
    std::function<bool(ZoneMask)> lowerOk;
    std::function<bool(ZoneMask)> upperOk;
    long mostQuestions = 200000;
    long mostSetsPerSize = 500000;
};

struct ZonesAtOnceAnswer {
    int anySet = 0;                       // greatest N for which every choice of exactly N works
    std::vector<int> everyChoiceWorksFor; // all such N, ascending
    int bestSet = 0;                      // greatest N for which some choice works
    std::vector<ZoneMask> bestSets;       // at most 20, in job order
    long bestSetsCount = 0;
    bool proven = true;
    int anySetAtMost = 0, bestSetAtMost = 0; // equal to the above when proven
    long questions = 0;
    std::vector<ZoneMask> failingLarger; // minimal failing sets one larger than anySet, at most 20
};

[[nodiscard]] ZonesAtOnceAnswer zonesAtOnce(const ZonesAtOnceQuestion& question);

} // namespace headmark
