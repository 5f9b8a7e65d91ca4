#include "app/desktop/site/run_spot.h"

#include <charconv>

namespace headmark {

namespace {

std::string indexed(const char* name, int index) {
    return index < 0 ? std::string(name) : std::string(name) + "[" + std::to_string(index) + "]";
}

bool take(std::string_view& text, std::string_view word) {
    if (!text.starts_with(word)) return false;
    text.remove_prefix(word.size());
    return true;
}

// "[12]" at the front; -1 where there is none.
int takeIndex(std::string_view& text) {
    if (!text.starts_with('[')) return -1;
    int index = -1;
    const auto read = std::from_chars(text.data() + 1, text.data() + text.size(), index);
    const std::size_t close = text.find(']');
    if (read.ec != std::errc() || close == std::string_view::npos) return -1;
    text.remove_prefix(close + 1);
    return index;
}

} // namespace

std::string placeOf(const RunSpot& spot) {
    switch (spot.part) {
    case RunPart::source:
        return "site.source";
    case RunPart::suction:
        return indexed("suction", spot.index);
    case RunPart::pump:
        return "pump";
    case RunPart::tankReturn:
        return "tank_return";
    case RunPart::delivery:
        return indexed("delivery", spot.index);
    case RunPart::zone:
        return indexed("zones", spot.zone);
    case RunPart::branch:
        return indexed("zones", spot.zone) + "." + indexed("branch", spot.index);
    case RunPart::outlet:
        return "site.end";
    }
    return {};
}

std::optional<RunSpot> spotOf(std::string_view place) {
    const bool ofSite = take(place, "site.") || place == "site";
    if (take(place, "suction")) return RunSpot{RunPart::suction, -1, takeIndex(place)};
    if (take(place, "delivery")) return RunSpot{RunPart::delivery, -1, takeIndex(place)};
    if (take(place, "tank_return")) return RunSpot{RunPart::tankReturn, -1, -1};
    if (take(place, "zones")) {
        const int zone = takeIndex(place);
        if (take(place, ".branch")) return RunSpot{RunPart::branch, zone, takeIndex(place)};
        return RunSpot{RunPart::zone, zone, -1};
    }
    if (take(place, "source")) return RunSpot{RunPart::source, -1, -1};
    if (place == "pump" || (ofSite && take(place, "pump_level"))) return RunSpot{RunPart::pump, -1, -1};
    if (ofSite && (place.starts_with("end") || place.starts_with("system")))
        return RunSpot{RunPart::outlet, -1, -1};
    return std::nullopt;
}

Run* runAt(Site& site, const RunSpot& spot) {
    if (spot.part == RunPart::suction) return &site.suction;
    if (spot.part == RunPart::delivery) return &site.delivery;
    if (spot.part != RunPart::branch && spot.part != RunPart::zone) return nullptr;
    if (spot.zone < 0 || spot.zone >= static_cast<int>(site.zones.size())) return nullptr;
    return &site.zones[static_cast<std::size_t>(spot.zone)].branch;
}

const Run* runAt(const Site& site, const RunSpot& spot) { return runAt(const_cast<Site&>(site), spot); }

RunItem* itemAt(Site& site, const RunSpot& spot) {
    Run* run = spot.part == RunPart::zone ? nullptr : runAt(site, spot);
    if (!run || spot.index < 0 || spot.index >= static_cast<int>(run->size())) return nullptr;
    return &(*run)[static_cast<std::size_t>(spot.index)];
}

const RunItem* itemAt(const Site& site, const RunSpot& spot) { return itemAt(const_cast<Site&>(site), spot); }

} // namespace headmark
