#pragma once
// The answer to a job, as data: what the site needs, and for every pump every case and the zones at once.
// Written as a "headmark-findings" document by findings_json.h; worded by app/words.

#include "analysis/duty/case_answer.h"
#include "analysis/duty/needs.h"

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
    Cautions cautions; // about sets, such as fewer zones failing where more work
};

struct PumpFindings {
    std::string name;
    std::vector<CaseAnswer> cases;
    std::optional<ZonesAtOnceFinding> zonesAtOnce; // sites with zones
    Cautions cautions;                             // about the pump as a whole
};

struct Findings {
    std::vector<Need> needs;
    std::vector<PumpFindings> pumps;
};

} // namespace headmark
