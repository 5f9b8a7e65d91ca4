#pragma once
// What the long section draws, before there are pixels: places from left (0) to right (1), heights in metres
// above the site's zero level. The way is drawn by length but not to scale: every item gets room to be seen.
// Heights that nobody gave are drawn between those that are given: for the picture alone, nothing is computed
// from them.

#include "analysis/job/prepared_job.h"
#include "app/desktop/site/run_spot.h"

#include <optional>
#include <string>
#include <vector>

namespace headmark {

struct SectionItem {
    enum class Symbol { pipe, fitting, inlet, filter, regulator, takeoff };
    RunSpot spot;
    Symbol symbol = Symbol::fitting;
    double from = 0.0, to = 0.0;
    double levelFrom_m = 0.0, levelTo_m = 0.0;
    std::optional<double> energyBefore_m, energyAfter_m, loss_m;
    [[nodiscard]] double middle() const { return (from + to) / 2.0; }
};

struct SectionZone {
    int zone = 0;
    std::string name;
    double at = 0.0;      // where it stands
    double leaves = 0.0;  // where its branch leaves the main
    double main_m = 0.0;  // level of the main there
    double level_m = 0.0; // of its emitters
    bool open = false;
    std::optional<double> energyAtMain_m, energyAtEnd_m;
};

struct SectionDrawing {
    bool drawable = false; // false: a known system curve has no way of the water
    double sourceFrom = 0.0, sourceTo = 0.0;
    double low_m = 0.0, usual_m = 0.0, high_m = 0.0, shown_m = 0.0; // water levels, and that of the case
    bool waterAbovePump = false;
    std::vector<SectionItem> suction, delivery;
    double pumpAt = 0.0, pump_m = 0.0;
    std::optional<double> pumpBefore_m, pumpAfter_m, pumpAdds_m;
    bool hasReturn = false;
    std::vector<SectionZone> zones;
    std::optional<double> outlet_m; // one outlet at the end
    double least_m = 0.0, greatest_m = 1.0;

    [[nodiscard]] double mainLevelAt(double x) const;
};

// `items` may be empty (no pump or no duty point), `setting` null (no case known).
[[nodiscard]] SectionDrawing drawnSection(const Site& site, const Case* setting,
                                          const std::vector<LongSectionItem>& items);

} // namespace headmark
