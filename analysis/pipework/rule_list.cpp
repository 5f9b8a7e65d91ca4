#include "analysis/pipework/rule_list.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr std::string_view kJudging[] = {
    "v_suction_max",
    "v_suction_lift_max",
    "v_delivery_main_max",
    "suction_lift_max",
    "submergence_min_practice",
    "floor_clearance_foot_valve",
    "min_flow_share",
    "starts_per_hour_pump",
    "water_temp_max_general",
    "suction_specific_speed",
    "casing_water",
    "priming_flow",
    "return_rise",
    "bucket",
    "filling_velocity",
    "zone_valve_closing",
};

} // namespace

std::span<const std::string_view> judgingCodes() { return kJudging; }

bool isJudgingCode(std::string_view code) { return std::ranges::find(kJudging, code) != std::end(kJudging); }

std::vector<const LimitRow*> judgingRows() {
    std::vector<const LimitRow*> rows;
    for (const LimitRow& row : limitRows()) {
        if (row.value && isJudgingCode(row.code)) rows.push_back(&row);
    }
    return rows;
}

} // namespace headmark
