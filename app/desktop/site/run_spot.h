#pragma once
// Where an item stands on the site, as the screens of the place point at it, and the same as the text in
// errors and cautions ("suction[1]", "zones[2].branch[0]", "site.zones[2].emitters.count").

#include "analysis/duty/site.h"

#include <optional>
#include <string>
#include <string_view>

namespace headmark {

enum class RunPart { source, suction, pump, tankReturn, delivery, zone, branch, outlet };

struct RunSpot {
    RunPart part = RunPart::source;
    int zone = -1;  // of zone and branch
    int index = -1; // of the item in its run; -1: the part as a whole

    bool operator==(const RunSpot&) const = default;
};

// "suction[1]"; parts that are no item: "site.source", "pump", "tank_return", "zones[2]", "site.end".
[[nodiscard]] std::string placeOf(const RunSpot& spot);

// The most exact spot a place names; empty where it is none of the site ("pumps[0]", "cases[1]").
[[nodiscard]] std::optional<RunSpot> spotOf(std::string_view place);

// The run the spot lies in, or null (source, pump, a zone no longer there).
[[nodiscard]] Run* runAt(Site& site, const RunSpot& spot);
[[nodiscard]] const Run* runAt(const Site& site, const RunSpot& spot);

// The item itself, or null.
[[nodiscard]] RunItem* itemAt(Site& site, const RunSpot& spot);
[[nodiscard]] const RunItem* itemAt(const Site& site, const RunSpot& spot);

} // namespace headmark
