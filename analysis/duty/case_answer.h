#pragma once
// The answer for one pump in one operating case.

#include "analysis/core/finding.h"
#include "analysis/duty/crossings.h"
#include "analysis/duty/pump_model.h"
#include "analysis/duty/site.h"
#include "analysis/units/quantities.h"

#include <optional>
#include <string>
#include <vector>

namespace headmark {

template <class Q>
struct Interval95 {
    Q low, high;
};

struct DutyPoint {
    Flow flow;
    Head head;
    bool stable = true;
    std::optional<Interval95<Flow>> flow95;
    std::optional<Interval95<Head>> head95;
};

struct DeliveredPoint {
    Flow flow;
    Head head;
};

struct EfficiencyAnswer {
    std::optional<Efficiency> atDuty; // empty: the efficiency curve does not reach there
    Efficiency best;
    Flow bestFlow;
    double shareOfBestFlow = 0.0;
    Band band = Band::unknown;
    BandLimits limits{}; // of the preferred and the allowable region, as shares of the best flow
    std::optional<Interval95<Efficiency>> atDuty95{};
};

struct PowerAnswer {
    Power hydraulic;
    std::optional<Power> shaft, input;
    std::optional<double> kilowattHoursPerCubicMetre;
    std::optional<Interval95<Power>> shaft95{}, input95{};
};

struct NpshAnswer {
    Head available;
    std::optional<Head> required, margin;
    std::optional<Interval95<Head>> available95, margin95;
};

struct ZoneAnswer {
    std::string name;
    Flow flow;
    GaugePressure lowest, highest; // at the emitters, nominal pump
    bool withinLimits = true;      // judged per the job's limits
    struct OfOneEmitter {
        Flow lowest, mean, highest;
        double uniformityShare = 0.0; // emission uniformity, see irrigation/uniformity.h
    };
    std::optional<OfOneEmitter> emitter; // empty: the zone is known only as a whole
};

struct CaseAnswer {
    std::string name;
    Case setting;
    bool fillingEmptyMain = false;
    // Where a drive holds the site's set point: the share of running speed at which it does.
    std::optional<double> heldSpeedShare;
    bool serves = false;
    std::vector<DutyPoint> duties; // all crossings, ascending flow
    std::optional<DutyPoint> duty;
    std::optional<DeliveredPoint> deliveredLow, deliveredHigh;
    std::optional<EfficiencyAnswer> efficiency;
    std::optional<PowerAnswer> power;
    std::optional<NpshAnswer> npsh;
    std::vector<ZoneAnswer> zones;
    std::optional<Flow> tankReturnFlow;
    Cautions cautions;
    Working working;
    int solverIterations = 0;
    Head energyResidual;
};

} // namespace headmark
