#include "analysis/job/site_check.h"

#include "analysis/job/error_codes.h"
#include "analysis/job/json_document.h"

#include <algorithm>
#include <map>

namespace headmark {

namespace {

Error errorAt(std::string_view errorCode, std::string place, Facts facts = {}) {
    return {std::string(errorCode), "", std::move(place), std::move(facts)};
}

Result<void> checkOutlets(const Site& site) {
    if (site.zones.empty() && !site.end && !site.system)
        return errorAt(code::kOneOfNeeded, "site",
                       {{"keys", std::vector<std::string>{"zones", "end", "system"}}});
    return {};
}

Result<void> checkSystem(const KnownSystem& system) {
    if (system.points.empty() && !system.staticHead)
        return errorAt(code::kOneOfNeeded, "site.system",
                       {{"keys", std::vector<std::string>{"static_head_m", "points"}}});
    for (std::size_t i = 1; i < system.points.size(); ++i) {
        const auto &before = system.points[i - 1], &point = system.points[i];
        if (!(point.flow > before.flow) || !(point.head > before.head))
            return errorAt("system-not-rising", placeOfItem("site.system.points", i));
    }
    return {};
}

// Names met so far, and where first.
class Names {
  public:
    Result<void> take(const std::string& name, const std::string& place) {
        const auto [first, added] = firstPlace_.emplace(name, place);
        if (added) return {};
        return errorAt(code::kDuplicateName, place, {{"name", name}, {"first", first->second}});
    }
    [[nodiscard]] bool has(const std::string& name) const { return firstPlace_.contains(name); }
    [[nodiscard]] std::vector<std::string> all() const {
        std::vector<std::string> names;
        for (const auto& [name, place] : firstPlace_)
            names.push_back(name);
        return names;
    }

  private:
    std::map<std::string, std::string> firstPlace_;
};

Result<void> checkZones(const Site& site, Names& zones) {
    Names takeoffs;
    for (std::size_t i = 0; i < site.delivery.size(); ++i) {
        const auto* takeoff = std::get_if<TakeoffItem>(&site.delivery[i]);
        if (!takeoff) continue;
        if (auto once = takeoffs.take(takeoff->name, placeOfItem("site.delivery", i) + ".takeoff"); !once)
            return once;
    }
    for (std::size_t z = 0; z < site.zones.size(); ++z) {
        const Zone& zone = site.zones[z];
        const std::string place = placeOfItem("site.zones", z);
        if (auto once = zones.take(zone.name, place + ".name"); !once) return once;
        if (!zone.takeoff.empty() && !takeoffs.has(zone.takeoff))
            return errorAt(code::kUnknownTakeoff, place + ".takeoff",
                           {{"name", zone.takeoff}, {"known", takeoffs.all()}});
    }
    return {};
}

Result<void> checkCases(const Job& job, const Names& zones) {
    for (std::size_t c = 0; c < job.cases.size(); ++c) {
        const auto& open = job.cases[c].zonesOpen;
        for (std::size_t z = 0; z < open.size(); ++z) {
            if (zones.has(open[z])) continue;
            return errorAt(code::kUnknownZone, placeOfItem(placeOfItem("cases", c) + ".zones_open", z),
                           {{"name", open[z]}, {"known", zones.all()}});
        }
    }
    return {};
}

} // namespace

Result<void> checkSite(const Job& job) {
    if (auto outlets = checkOutlets(job.site); !outlets) return outlets;
    if (job.site.system) {
        if (auto system = checkSystem(*job.site.system); !system) return system;
    }
    Names zones;
    if (auto named = checkZones(job.site, zones); !named) return named;
    return checkCases(job, zones);
}

} // namespace headmark
