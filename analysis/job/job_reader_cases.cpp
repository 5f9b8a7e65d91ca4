// The cases of a job: which zones are open at which water level, filter state and speed.

#include "analysis/job/error_codes.h"
#include "analysis/job/job_reader_parts.h"

#include <algorithm>

namespace headmark {

namespace {

// Wider than the range in which the affinity laws hold: outside 70 to 110 % a caution says so.
constexpr NumberRange kSpeedShare{0.05, 2.0};

std::vector<std::string> zoneNames(const Site& site) {
    std::vector<std::string> names;
    for (const Zone& zone : site.zones) {
        names.push_back(zone.name);
    }
    return names;
}

std::vector<std::string> readZonesOpen(const ObjectReader& object, const Site& site) {
    std::vector<std::string> open;
    const auto known = zoneNames(site);
    for (const auto& item : object.list("zones_open")) {
        const auto name = nameOf(item, object.log());
        if (!name) continue;
        // Without any readable zone the missing zones are what must be mended first.
        const bool isKnown = known.empty() || std::find(known.begin(), known.end(), *name) != known.end();
        if (!isKnown) object.log().add(code::kUnknownZone, item.place, {{"name", *name}, {"known", known}});
        if (std::find(open.begin(), open.end(), *name) != open.end()) {
            object.log().add(code::kRepeatedEntry, item.place, {{"name", *name}});
        } else {
            open.push_back(*name);
        }
    }
    return open;
}

Case readCase(const PlacedValue& at, const Site& site, ReadLog& log) {
    const ObjectReader object(at, log, {"name", "zones_open", "level", "filter", "speed_share"});
    Case one;
    one.name = object.name("name").value_or("");
    if (site.end || site.system) {
        if (object.has("zones_open"))
            object.refuse(code::kZonesWithoutZones, "zones_open",
                          {{"by", std::string(site.end ? "site.end" : "site.system")}});
    } else if (object.need("zones_open")) {
        one.zonesOpen = readZonesOpen(object, site);
    }
    one.level =
        object
            .choice<WaterLevel>(
                "level", {{"low", WaterLevel::low}, {"usual", WaterLevel::usual}, {"high", WaterLevel::high}})
            .value_or(WaterLevel::usual);
    one.filter =
        object
            .choice<FilterState>("filter", {{"clean", FilterState::clean}, {"service", FilterState::service}})
            .value_or(FilterState::clean);
    one.speedShare = object.number("speed_share", kSpeedShare).value_or(1.0);
    return one;
}

} // namespace

std::vector<Case> readCases(const std::vector<PlacedValue>& items, const Site& site, ReadLog& log) {
    std::vector<Case> cases;
    for (const auto& item : items) {
        cases.push_back(readCase(item, site, log));
    }
    std::vector<std::pair<std::string*, std::string>> named;
    for (std::size_t i = 0; i < cases.size(); ++i) {
        named.emplace_back(&cases[i].name, items[i].place + ".name");
    }
    settleNames("Case", std::move(named), log);
    return cases;
}

} // namespace headmark
