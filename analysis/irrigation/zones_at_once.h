#pragma once
// How many zones can run at once: exact over all sets of zones, given one question about a set.
//   lower limits (pressure, NPSH margin, motor, flow ceiling, duty within the chart): where the head curve
//     falls, opening a zone never raises a pressure and never lowers the pump's flow. A set that fails makes
//     every larger set around it fail, and a set that holds makes every set within it hold.
//   upper limits (pressure too high, ratings, too little flow): opening one more zone only helps the zones
//     that were open; the new one has limits of its own. So a set passes where it is the union of sets that
//     pass, and a zone that is too high with every other zone open is too high in every set.
// A set works if both hold and it has no more zones than `mostOpen`. Sets are bit masks, bit i = zone i in
// job order. Every set is decided: zone after zone is opened or left shut, and a whole branch of sets is
// decided at once where inheritance allows. When `mostQuestions` is used up a proven bracket is given
// instead: single sizes are then decided from both ends, each with a share of the questions.
// Where a bound on whole branches is known (`bound`), single sizes are decided from the start (size_walk.h);
// what needs no counting is then exact for far more zones, and the number of best sets may be a lower bound.
// Questions and bounds are counted, not seconds: the same job gives the same answer on every machine.

#include <cstdint>
#include <functional>
#include <vector>

namespace headmark {

using ZoneMask = std::uint64_t;
inline constexpr int kMostMaskedZones = 62; // beyond, nothing is searched and the bracket is 0 to all
inline constexpr ZoneMask kTooHighSomewhere = ZoneMask{1} << 63U; // not known in which zone
inline constexpr ZoneMask kPumpTooSlow = ZoneMask{1} << 62U;      // flow floor: cured by opening more

// What is to be known of one set.
struct SetVerdict {
    bool lowerOk = true;
    bool failsForGood = false; // its lower failure is inherited by every larger set around it
    ZoneMask tooHigh = 0;      // zones whose upper limits are broken, and the two marks above
    [[nodiscard]] bool works() const { return lowerOk && tooHigh == 0; }
};

// The sets that hold `held` and any choice of the zones of `free`.
struct SetBranch {
    ZoneMask held = 0, free = 0;
    int heldCount = 0, freeCount = 0;
};

// What is known of every set of one size in a branch without asking for each; both false: nothing.
struct SetBound {
    bool noneWork = false, allWork = false;
};
enum class BoundOn { noneWork, allWork, both };

struct ZonesAtOnceQuestion {
    int zones = 0;
    std::function<SetVerdict(ZoneMask)> ask;
    std::function<SetBound(const SetBranch&, int size, BoundOn)> bound = {};
    bool inherits = true;            // the head curve falls over the whole range: all of the above holds
    bool upperLimits = true;         // whether `tooHigh` may ever be other than 0
    int mostOpen = kMostMaskedZones; // valves the controller can hold open
    std::vector<double> burden = {}; // what each zone asks of the pump; only makes the bracket tighter
    int mostThatCanWork = kMostMaskedZones; // no larger set works: proven otherwise, for the bracket
    long mostQuestions = 160000;
    std::function<bool()> stop = {}; // true: the answer is no longer wanted, whatever it is
};

struct ZonesAtOnceAnswer {
    int anySet = 0;                       // greatest N for which every choice of exactly N works
    std::vector<int> everyChoiceWorksFor; // all such N, ascending
    int bestSet = 0;                      // greatest N for which some choice works
    std::vector<ZoneMask> bestSets;       // at most 20, in job order
    long bestSetsCount = 0;
    bool bestSetsCounted = true; // false: there are at least that many
    bool proven = true;
    int anySetAtMost = 0, bestSetAtMost = 0; // equal to the above when proven
    long questions = 0;
    std::vector<ZoneMask> failingLarger; // failing sets one larger than anySet, at most 20, in job order
};

[[nodiscard]] ZonesAtOnceAnswer zonesAtOnce(const ZonesAtOnceQuestion& question);

} // namespace headmark
