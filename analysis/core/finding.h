#pragma once
// Cautions and workings as data. One list serves window, report and text; app/words makes the sentences.

#include "analysis/core/error.h"

#include <string>
#include <vector>

namespace headmark {

// note: worth knowing; warning: the answer is impaired or a rule of the trade is broken;
// danger: people, pump or pipe come to harm, or the answer cannot be relied on.
enum class Severity { note, warning, danger };

struct Caution {
    std::string code; // "suction-velocity"
    Severity severity = Severity::note;
    std::string place;  // path of the item concerned ("suction[1]", "zones[2]"); empty: the whole
    Facts values;       // figures with their limits, unit in the key
    std::string remedy; // remedy code, worded in app/words; empty: none
    Facts remedyValues; // figures the remedy's sentence needs
    std::string source; // where the limit comes from; "common practice, no source" where it has none
    bool stops = false; // the case does not serve because of it
};

using Cautions = std::vector<Caution>;

// One line of a working: what was computed, from which numbers, with what result.
// Title, formula and source stand in app/words under the code.
struct WorkingStep {
    std::string code;  // "npsh-available"
    std::string place; // item or zone concerned; empty: the whole case
    Facts with;        // numbers put in, in the order in which the formula names them
    Fact result;
};

using Working = std::vector<WorkingStep>;

} // namespace headmark
