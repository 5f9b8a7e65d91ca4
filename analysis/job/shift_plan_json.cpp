#include "analysis/job/shift_plan_json.h"

#include "analysis/job/cautions_json.h"

namespace headmark {

namespace {

using Json = nlohmann::ordered_json;

const char* objectiveName(ShiftObjective objective) {
    switch (objective) {
    case ShiftObjective::energy:
        return "energy";
    case ShiftObjective::shifts:
        return "shifts";
    case ShiftObjective::time:
        break;
    }
    return "time";
}

Json timeJson(const std::string& time) { return time.empty() ? Json(nullptr) : Json(time); }
Json optionalJson(const std::optional<double>& value) { return value ? finiteJson(*value) : Json(nullptr); }

Json shiftJson(const ShiftPlanFinding::Shift& s) {
    Json stations = Json::array();
    for (std::size_t i = 0; i < s.stations.size(); ++i) {
        stations.push_back({{"station", s.stations[i].station},
                            {"zone", s.zones[i]},
                            {"start", timeJson(s.start)},
                            {"minutes", s.minutes},
                            {"flow_m3_h", s.stations[i].flow.inCubicMetresPerHour()}});
    }
    return {{"zones", s.zones},
            {"start", timeJson(s.start)},
            {"minutes", s.minutes},
            {"flow_m3_h", s.flow.inCubicMetresPerHour()},
            {"energy_kWh", optionalJson(s.energy_kWh)},
            {"stations", stations}};
}

} // namespace

Json shiftPlanJson(const ShiftPlanFinding& plan, const Wording& wording) {
    Json j{{"shifts", Json::array()}};
    for (const auto& s : plan.shifts)
        j["shifts"].push_back(shiftJson(s));
    j["total_hours"] = plan.total.inHours();
    j["total_energy_kWh"] = optionalJson(plan.totalEnergy_kWh);
    j["cost"] = optionalJson(plan.cost);
    j["objective"] = objectiveName(plan.objective);
    j["proven"] = plan.proven;
    if (!plan.proven) j["gap_share"] = plan.gapShare;
    j["fits_window"] = plan.fitsWindow;
    j["tank"] = Json::array();
    for (const auto& t : plan.tank) {
        j["tank"].push_back({{"minute", t.minute},
                             {"time", timeJson(t.time)},
                             {"left_m3", t.left.inCubicMetres()},
                             {"level_m", t.level.inMetres()}});
    }
    j["cautions"] = cautionsJson(plan.cautions, wording);
    return j;
}

} // namespace headmark
