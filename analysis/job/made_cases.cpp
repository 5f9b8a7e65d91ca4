#include "analysis/job/made_cases.h"

#include <algorithm>

namespace headmark {

namespace {

std::string joined(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& n : names)
        text += (text.empty() ? "" : " + ") + n;
    return text;
}

Case make(std::string name, std::vector<std::string> open, WaterLevel level, FilterState filter) {
    Case c;
    c.name = std::move(name);
    c.zonesOpen = std::move(open);
    c.level = level;
    c.filter = filter;
    return c;
}

bool hasMain(const Site& site) {
    return std::any_of(site.delivery.begin(), site.delivery.end(),
                       [](const RunItem& i) { return std::holds_alternative<PipeItem>(i); });
}

} // namespace

MadeCases madeCases(const Site& site, const std::vector<std::vector<std::string>>& proposedSets) {
    MadeCases made;
    auto& cases = made.cases;
    if (site.system) {
        cases.push_back({make("as given", {}, WaterLevel::usual, FilterState::clean), false});
        return made;
    }
    if (site.end) {
        cases.push_back(
            {make("usual water, clean filter", {}, WaterLevel::usual, FilterState::clean), false});
        cases.push_back(
            {make("low water, filter at service", {}, WaterLevel::low, FilterState::service), false});
        cases.push_back({make("high water, clean filter", {}, WaterLevel::high, FilterState::clean), false});
    } else {
        for (const Zone& z : site.zones) {
            cases.push_back({make(z.name + " alone, high water, clean filter", {z.name}, WaterLevel::high,
                                  FilterState::clean),
                             false});
        }
        for (const auto& set : proposedSets) {
            cases.push_back({make(joined(set) + ", low water, filter at service", set, WaterLevel::low,
                                  FilterState::service),
                             false});
        }
        cases.push_back({make("no valve open", {}, WaterLevel::high, FilterState::clean), false});
    }
    if (hasMain(site)) {
        cases.push_back({make("filling an empty main", {}, WaterLevel::high, FilterState::clean), true});
    }
    if (cases.size() > kMostMadeCases) {
        // Dropped are the last of the single zones; proposed sets, valves shut and filling stay as long as
        // they can.
        made.dropped = cases.size() - kMostMadeCases;
        const std::size_t singles =
            std::max(made.dropped, site.zones.size()); // 20 sets and two states fit in
        cases.erase(cases.begin() + static_cast<std::ptrdiff_t>(singles - made.dropped),
                    cases.begin() + static_cast<std::ptrdiff_t>(singles));
    }
    return made;
}

} // namespace headmark
