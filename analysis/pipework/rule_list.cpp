#include "analysis/pipework/rule_list.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr std::string_view kJudging[] = {
    "v_suction_max",
    "v_suction_lift_max",
    "v_delivery_main_max",
    "suction_lift_max",
    "suction_lift_altitude",
    "npsh_margin_abs",
    "npsh_margin_ratio",
    "npsh_margin_high_from",
    "npsh_margin_high_abs",
    "npsh_margin_high_ratio",
    "submergence_min_practice",
    "floor_clearance_foot_valve",
    "tank_outlet_floor",
    "submersible_cover",
    "submersible_floor",
    "floating_inlet_depth",
    "strainer_open_area",
    "suction_rise",
    "min_flow_share",
    "starts_per_hour_pump",
    "run_time_min",
    "vessel_precharge",
    "cut_out_share",
    "pe_temperature_factor",
    "pvcu_temperature_factor",
    "water_temp_max_general",
    "filter_ratio",
    "booster_consent_flow",
    "abstraction_threshold",
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
