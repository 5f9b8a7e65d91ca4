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

bool hasDirtyingFilter(const Site& site) {
    const auto dirties = [](const RunItem& i) { return std::holds_alternative<FilterItem>(i); };
    return std::any_of(site.suction.begin(), site.suction.end(), dirties) ||
           std::any_of(site.delivery.begin(), site.delivery.end(), dirties) ||
           std::any_of(site.zones.begin(), site.zones.end(),
                       [&](const Zone& z) { return std::any_of(z.branch.begin(), z.branch.end(), dirties); });
}

// Whether two cases put the same question, whatever they are called.
bool sameConditions(const Site& site, const Case& a, const Case& b) {
    const auto level = [&](const Case& c) {
        switch (c.level) {
        case WaterLevel::low:
            return site.source->low;
        case WaterLevel::high:
            return site.source->high;
        case WaterLevel::usual:
            break;
        }
        return site.source->usual;
    };
    auto zonesOfA = a.zonesOpen, zonesOfB = b.zonesOpen;
    std::sort(zonesOfA.begin(), zonesOfA.end());
    std::sort(zonesOfB.begin(), zonesOfB.end());
    const bool sameWater = a.level == b.level || !site.source || level(a) == level(b);
    return zonesOfA == zonesOfB && sameWater && (a.filter == b.filter || !hasDirtyingFilter(site));
}

void addShifts(const Site& site, const std::vector<std::vector<std::string>>& shifts,
               std::vector<MadeCase>& cases) {
    for (std::size_t i = 0; i < shifts.size(); ++i) {
        Case shift =
            make("shift " + std::to_string(i + 1) + " (" + joined(shifts[i]) + "), usual water, clean filter",
                 shifts[i], WaterLevel::usual, FilterState::clean);
        const bool there = std::any_of(cases.begin(), cases.end(), [&](const MadeCase& c) {
            return sameConditions(site, c.setting, shift);
        });
        if (!there) cases.push_back({std::move(shift), false});
    }
}

// Proposed sets (at most 20), valves shut and filling always stay.
void dropBeyondTheLimit(std::size_t singles, std::size_t shiftsEnd, MadeCases& made) {
    auto& cases = made.cases;
    if (cases.size() <= kMostMadeCases) return;
    made.dropped = cases.size() - kMostMadeCases;
    const std::size_t ofSingles = std::min(made.dropped, singles), ofShifts = made.dropped - ofSingles;
    const auto erase = [&](std::size_t end, std::size_t count) {
        const auto last = cases.begin() + static_cast<std::ptrdiff_t>(end);
        cases.erase(last - static_cast<std::ptrdiff_t>(count), last);
    };
    erase(shiftsEnd, ofShifts);
    erase(singles, ofSingles);
}

} // namespace

MadeCases madeCases(const Site& site, const std::vector<std::vector<std::string>>& proposedSets,
                    const std::vector<std::vector<std::string>>& shifts, bool setsKnown) {
    MadeCases made;
    auto& cases = made.cases;
    std::size_t shiftsEnd = 0;
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
        // A zone that no set takes in runs by itself: at low water as well.
        for (const Zone& z : site.zones) {
            const bool proposed = std::any_of(proposedSets.begin(), proposedSets.end(), [&](const auto& set) {
                return std::find(set.begin(), set.end(), z.name) != set.end();
            });
            if (setsKnown && !proposed)
                cases.push_back({make(z.name + " alone, low water, filter at service", {z.name},
                                      WaterLevel::low, FilterState::service),
                                 false});
        }
        addShifts(site, shifts, cases);
        shiftsEnd = cases.size();
        cases.push_back({make("no valve open", {}, WaterLevel::high, FilterState::clean), false});
    }
    if (hasMain(site)) {
        cases.push_back({make("filling an empty main", {}, WaterLevel::high, FilterState::clean), true});
    }
    dropBeyondTheLimit(site.zones.size(), shiftsEnd, made);
    return made;
}

} // namespace headmark
