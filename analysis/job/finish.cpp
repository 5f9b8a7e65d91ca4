#include "analysis/job/finish.h"

#include "analysis/job/error_codes.h"

#include <algorithm>
#include <array>

namespace headmark {

namespace {

bool isOneOf(std::string_view text, const auto& known) {
    return std::find(known.begin(), known.end(), text) != known.end();
}

constexpr std::array kUnfinishedAnywhere{
    code::kTooFewPinned, code::kPumpWithoutHead, code::kTooFewPoints,      code::kDegreeTooHigh,
    code::kRepeatedFlow, code::kDuplicateName,   code::kUnknownTakeoff,    code::kUnknownZone,
    code::kUnknownPump,  code::kEmptyList,       code::kPressureHeldNeeds,
};

constexpr std::array<std::string_view, 5> kMayBeMissing{"pumps", "site", "pins", "lines",
                                                        "printed_units.flow"};

} // namespace

bool isOnlyUnfinished(std::string_view code, std::string_view place) {
    if (isOneOf(code, kUnfinishedAnywhere)) return true;
    if (code == code::kMissingKey) return isOneOf(place, kMayBeMissing) || place.ends_with("].zones_open");
    if (code == code::kEmptyText) return place.ends_with(".name");
    if (code == code::kMissingBeside) return place.ends_with("].level_share");
    if (code != code::kOneOfNeeded) return false;
    return place == "site" || place == "site.system" || place.starts_with("pins[") ||
           place.starts_with("lines[");
}

} // namespace headmark
