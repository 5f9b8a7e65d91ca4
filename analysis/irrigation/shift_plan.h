#pragma once
// Which zones run together and in which order, so that every zone gets its water in one night.
// Model: every zone runs once a night, in one shift; a shift opens its zones together and lasts until the
// slowest of them has its need, in whole minutes:
//   minutes(S) = max over its zones of ceil(need_i / flow_i(S) / 60)        (need m3, flow m3/s)
// (quicker zones get a little more; the pump then stays at one duty point that was checked). Between two
// shifts lies the start delay, rounded up to whole minutes. Sought: the division of the zones into sets that
// work which is least in the objective, then in time, energy and number of shifts:
//   time    minutes of all shifts and the delays between them
//   energy  power(S) minutes(S), summed
//   shifts  their number
// Up to kExactPlanZones zones by dynamic programming over subsets, which is exact. Beyond, zones are put one
// by one where they cost least, then moved and exchanged while that helps; the gap to a proven bound is said.
//   bounds: time >= needs / greatest delivery of any set, and >= need / flow alone; energy >= needs times the
//   least energy of a cubic metre; shifts >= zones / largest set. The caller states the figures.

#include "analysis/irrigation/zones_at_once.h"

#include <optional>
#include <utility>

namespace headmark {

inline constexpr int kExactPlanZones = 12;

enum class ShiftObjective { time, energy, shifts };

// How a set of zones runs.
struct SetRun {
    std::vector<double> flow_m3_s; // by zone of the job; 0 where shut
    double drawn_m3_s = 0.0;       // out of the source, return deducted
    std::optional<double> input_W;
};

struct ShiftPlanQuestion {
    std::vector<double> need_m3;                        // by zone; zones without need are not planned
    std::function<std::optional<SetRun>(ZoneMask)> run; // empty: the set does not work
    std::vector<std::pair<int, int>> together, apart;   // zones that must, must not run in one shift
    int mostOpen = kMostMaskedZones;
    int delay_min = 0; // between shifts
    ShiftObjective objective = ShiftObjective::time;
    // For the bound beyond kExactPlanZones; empty: none is known.
    std::optional<double> mostDelivered_m3_s, leastEnergy_J_m3;
    int largestSet = kMostMaskedZones;
};

struct Shift {
    ZoneMask zones = 0;
    int minutes = 0;
    SetRun run;
    [[nodiscard]] std::optional<double> energy_J() const;
};

struct ShiftPlan {
    std::vector<Shift> shifts; // in the order of their first zone in the job
    int total_min = 0;         // delays included
    bool proven = true;        // least in the objective
    double gapShare = 0.0;     // where not proven: (found - bound)/found in the objective
    ZoneMask impossible = 0;   // zones that stand in no set that works and keeps the pairs
};

[[nodiscard]] ShiftPlan planShifts(const ShiftPlanQuestion& question);

// Minutes a set runs; empty where it does not work or a zone of it gets nothing.
[[nodiscard]] std::optional<int> minutesOf(const ShiftPlanQuestion& question, ZoneMask set,
                                           const SetRun& run);

// --- the source over the night ---

struct TankQuestion {
    double usable_m3 = 0.0; // when full
    double start_m3 = 0.0;  // at the beginning of the first shift
    double refill_m3_s = 0.0;
    int delay_min = 0;
};

struct TankPoint {
    double minute = 0.0; // after the beginning of the first shift
    double left_m3 = 0.0;
};

struct TankNight {
    std::vector<TankPoint> points; // at the beginning and end of every shift, and where it runs dry
    std::optional<double> dry_min; // when it runs dry first
    double short_m3 = 0.0;         // what is missing over the night
};

// Level over time: what is drawn less what flows in, never above full. A dry tank gives only its refill.
[[nodiscard]] TankNight tankNight(const std::vector<Shift>& shifts, const TankQuestion& tank);

} // namespace headmark
