#pragma once
// The answer to a job, as data: what the site needs, and for every pump every case and the zones at once.
// Written as a "headmark-findings" document by findings_json.h; worded by app/words.

#include "analysis/connections/commissioning.h"
#include "analysis/duty/case_answer.h"
#include "analysis/duty/needs.h"
#include "analysis/irrigation/shift_plan.h"
#include "analysis/practice/installation.h"

#include <optional>
#include <string>
#include <vector>

namespace headmark {

struct ZonesAtOnceFinding {
    int anySet = 0;
    std::vector<int> everyChoiceWorksFor;
    int bestSet = 0;
    std::vector<std::vector<std::string>> bestSets; // zone names, at most 20
    long bestSetsCount = 0;
    bool proven = true;
    int bestSetAtMost = 0, anySetAtMost = 0;
    struct Limit {
        std::string code, zone; // what a set one larger than `anySet` breaks; zone empty: none in particular
        bool operator==(const Limit&) const = default;
    };
    std::vector<Limit> limits;
    struct OneMore {
        std::string change; // "wider-main", "cleaner-filter", "higher-water", "more-valves"
        int bestSet = 0;    // with that change; at least that many
    };
    std::vector<OneMore> oneMore;
    Cautions cautions;           // about sets, such as fewer zones failing where more work
    bool bestSetsCounted = true; // false: at least `bestSetsCount`, and the listed ones are some of them
};

struct ShiftPlanFinding {
    struct Station {
        int station = 0; // number of the zone in the job
        Flow flow;
    };
    struct Shift {
        std::vector<std::string> zones;
        std::vector<Station> stations; // one for each zone
        std::string start;             // "21:00"; empty without a window
        int beginMinute = 0;           // after the beginning of the first shift
        int minutes = 0;
        Flow flow; // of the zones together
        std::optional<double> energy_kWh;
    };
    struct TankAt {
        double minute = 0.0; // after the beginning of the first shift
        Volume left;         // above the level at which the pump stops
        Level level;
        std::string time; // empty without a window
    };
    std::vector<Shift> shifts;
    Duration total; // delays included
    std::optional<double> totalEnergy_kWh, cost;
    ShiftObjective objective = ShiftObjective::time;
    bool proven = true;
    double gapShare = 0.0; // where not proven
    bool fitsWindow = true;
    std::vector<TankAt> tank; // empty where the source's volume is not given
    Cautions cautions;
};

struct ConnectionFinding {
    ConnectionSheet sheet;
    std::vector<CommissioningRow> commissioning;
};

struct PumpFindings {
    std::string name;
    std::vector<CaseAnswer> cases;
    std::optional<ZonesAtOnceFinding> zonesAtOnce; // sites with zones
    std::optional<ShiftPlanFinding> shiftPlan;     // sites whose zones state a need
    std::vector<Study> installation;               // what guards it, by topic
    std::optional<ConnectionFinding> connections;  // empty for a known system curve
    Cautions cautions;                             // about the pump as a whole
};

struct Findings {
    std::vector<Need> needs;
    std::vector<PumpFindings> pumps;
};

} // namespace headmark
