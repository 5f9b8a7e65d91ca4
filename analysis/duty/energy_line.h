#pragma once
// The energy line along the way the water takes, item by item, at a solved state of the tree: for the long
// section, the pressure checks and the energy balance. Pressure at a place is the energy line less its level
// (the velocity head, a few centimetres, is not taken off: the safe side for ratings).
// With every valve shut the main is no part of the tree; it is listed all the same, without flow.
// Levels: rise_to_m where given. Before that the main lies at the pump's level. The suction begins at the
// source's surface where the pump stands above it, else at the pump's level (mains, a tank that floods the
// pump). A branch begins at the level of its take-off where the main says it, and goes over to the zone's
// level with its first pipe or regulator; where the main says nothing it lies at the zone's level.

#include "analysis/duty/case_answer.h"
#include "analysis/duty/site_model.h"

namespace headmark {

struct EnergyLineItem {
    std::string place; // "suction[1]", "pump", "delivery[0]", "zones[2].branch[0]", "tank_return"
    const Element* element = nullptr; // null for the pump
    double flow_m3_s = 0.0;
    double lossOrGain_m = 0.0;
    double energyBefore_m = 0.0, energyAfter_m = 0.0; // levels of the energy line
    double levelBefore_m = 0.0, levelAfter_m = 0.0;   // of the pipe
    [[nodiscard]] double velocity_m_s() const;        // 0 where no bore is known
};

[[nodiscard]] std::vector<EnergyLineItem> energyLine(const SiteModel& model, const SiteTree& tree,
                                                     const TreeSolution& solution, FilterState filter);

} // namespace headmark
