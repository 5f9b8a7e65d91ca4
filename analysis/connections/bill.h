#pragma once
// The list of parts with counts, as it is ordered: parts of one code and size together, in the order in which
// they first stand on the sheet; hoses and pipes by metres; then what seals the joints.
//   tape     turns * pi * d per taper joint, kTurns turns, d the major diameter; common practice, no source
//   washers  one per face joint and one spare per union with a flat seat; clamps one per hose end
//   gaskets  one set of bolts per flange joint

#include "analysis/connections/connection_sheet.h"

namespace headmark {

struct BillRow {
    std::string part; // code of parts.csv
    PartSize size;
    std::string item;                 // catalogue code of a pipe, hose or filter; a spelled-out one has none
    int count = 0;                    // pieces; of a pipe or hose the lengths
    std::optional<Length> length;     // pipes, hoses, tape; empty where it is to be measured on site
    std::vector<std::size_t> numbers; // indices of the sheet's parts; empty for what seals
    bool main = false;                // stands along the main only
};

[[nodiscard]] std::vector<BillRow> billOf(const ConnectionSheet& sheet);

} // namespace headmark
