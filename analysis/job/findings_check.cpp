#include "analysis/job/findings_check.h"

#include "analysis/job/findings_check_parts.h"
#include "analysis/job/job_reader_parts.h"
#include "analysis/job/json_document.h"

#include <nlohmann/json.hpp>

namespace headmark {

using namespace findings_check;

namespace {

void checkNeed(const PlacedValue& at, ReadLog& log) {
    const ObjectReader need(at, log, {"case", "flow_m3_h", "flow_95_m3_h", "head_m", "head_95_m"});
    checkName(need, "case");
    checkFigure(need, "flow_m3_h", "flow_95_m3_h");
    checkFigure(need, "head_m", "head_95_m");
}

void checkDuty(const PlacedValue& at, ReadLog& log) {
    const ObjectReader duty(at, log, {"flow_m3_h", "head_m", "flow_95_m3_h", "head_95_m", "stable"});
    checkFigure(duty, "flow_m3_h", "flow_95_m3_h");
    checkFigure(duty, "head_m", "head_95_m");
    checkBoolean(duty, "stable");
}

void checkDeliveredEnd(const PlacedValue& at, ReadLog& log) {
    const ObjectReader end(at, log, {"flow_m3_h", "flow_95_m3_h", "head_m", "head_95_m"});
    checkFigure(end, "flow_m3_h", "flow_95_m3_h");
    checkFigure(end, "head_m", "head_95_m");
}

void checkDelivered(const PlacedValue& at, ReadLog& log) {
    const ObjectReader delivered(at, log, {"low", "high"});
    checkObject(delivered, "low", checkDeliveredEnd, Presence::neededOrNull);
    checkObject(delivered, "high", checkDeliveredEnd, Presence::neededOrNull);
}

void checkEfficiency(const PlacedValue& at, ReadLog& log) {
    const ObjectReader efficiency(at, log,
                                  {"at_duty_share", "at_duty_95_share", "best_share", "best_95_share",
                                   "best_flow_m3_h", "best_flow_95_m3_h", "share_of_best_flow",
                                   "share_of_best_flow_95", "band"});
    checkFigure(efficiency, "at_duty_share", "at_duty_95_share", kShareRange, Presence::neededOrNull);
    checkFigure(efficiency, "best_share", "best_95_share", kShareRange);
    checkFigure(efficiency, "best_flow_m3_h", "best_flow_95_m3_h");
    checkFigure(efficiency, "share_of_best_flow", "share_of_best_flow_95");
    efficiency.need("band");
    (void)efficiency.choice<int>("band",
                                 {{"preferred", 0}, {"allowable", 1}, {"outside", 2}, {"unknown", 3}});
}

void checkPower(const PlacedValue& at, ReadLog& log) {
    const ObjectReader power(at, log,
                             {"hydraulic_kW", "hydraulic_95_kW", "shaft_kW", "shaft_95_kW", "input_kW",
                              "input_95_kW", "kWh_per_m3", "kWh_per_m3_95"});
    checkFigure(power, "hydraulic_kW", "hydraulic_95_kW");
    checkFigure(power, "shaft_kW", "shaft_95_kW", kAny, Presence::neededOrNull);
    checkFigure(power, "input_kW", "input_95_kW", kAny, Presence::neededOrNull);
    checkFigure(power, "kWh_per_m3", "kWh_per_m3_95", kAny, Presence::neededOrNull);
}

void checkNpsh(const PlacedValue& at, ReadLog& log) {
    const ObjectReader npsh(
        at, log, {"available_m", "available_95_m", "required_m", "required_95_m", "margin_m", "margin_95_m"});
    checkFigure(npsh, "available_m", "available_95_m");
    checkFigure(npsh, "required_m", "required_95_m", kAny, Presence::neededOrNull);
    checkFigure(npsh, "margin_m", "margin_95_m", kAny, Presence::neededOrNull);
}

void checkEmitterPressure(const PlacedValue& at, ReadLog& log) {
    const ObjectReader pressure(at, log, {"lowest", "lowest_95", "highest", "highest_95"});
    checkFigure(pressure, "lowest", "lowest_95");
    checkFigure(pressure, "highest", "highest_95");
}

void checkEmitterFlow(const PlacedValue& at, ReadLog& log) {
    const ObjectReader flow(at, log, {"lowest", "mean", "highest"});
    for (const auto key : {"lowest", "mean", "highest"})
        checkNumber(flow, key, kNotNegative);
}

void checkZone(const PlacedValue& at, ReadLog& log) {
    const ObjectReader zone(at, log,
                            {"name", "flow_m3_h", "flow_95_m3_h", "pressure_at_emitter_kPa", "within_limits",
                             "emitter_flow_l_h", "emission_uniformity_share"});
    checkName(zone, "name");
    checkFigure(zone, "flow_m3_h", "flow_95_m3_h");
    checkObject(zone, "pressure_at_emitter_kPa", checkEmitterPressure);
    checkBoolean(zone, "within_limits");
    checkObject(zone, "emitter_flow_l_h", checkEmitterFlow, Presence::mayBeLeftOut);
    checkNumber(zone, "emission_uniformity_share", kShareRange, Presence::mayBeLeftOut);
}

void checkWorkingStep(const PlacedValue& at, ReadLog& log) {
    const ObjectReader step(at, log, {"title", "formula", "with", "result", "source"});
    checkTexts(step, {"title", "formula", "with", "result", "source"});
}

void checkCase(const PlacedValue& at, ReadLog& log) {
    const ObjectReader one(at, log,
                           {"name", "serves", "duty", "duties", "held_speed_share", "as_delivered",
                            "efficiency", "power", "npsh", "zones", "tank_return_flow_m3_h",
                            "tank_return_flow_95_m3_h", "cautions", "working"});
    checkName(one, "name");
    checkBoolean(one, "serves");
    checkObject(one, "duty", checkDuty, Presence::neededOrNull);
    if (one.has("duties")) checkItems(one, "duties", checkDuty);
    if (one.has("held_speed_share")) checkNumber(one, "held_speed_share", kNotNegative);
    checkObject(one, "as_delivered", checkDelivered);
    checkObject(one, "efficiency", checkEfficiency, Presence::neededOrNull);
    checkObject(one, "power", checkPower, Presence::neededOrNull);
    checkObject(one, "npsh", checkNpsh, Presence::neededOrNull);
    checkItems(one, "zones", checkZone);
    checkFigure(one, "tank_return_flow_m3_h", "tank_return_flow_95_m3_h", kAny, Presence::mayBeLeftOut);
    checkItems(one, "cautions", checkCaution);
    checkItems(one, "working", checkWorkingStep);
}

void checkPump(const PlacedValue& at, ReadLog& log) {
    const ObjectReader pump(
        at, log, {"name", "cases", "zones_at_once", "shift_plan", "installation", "connections", "cautions"});
    checkName(pump, "name");
    checkItems(pump, "cases", checkCase);
    checkObject(pump, "zones_at_once", checkZonesAtOnce, Presence::mayBeLeftOut);
    checkObject(pump, "shift_plan", checkShiftPlan, Presence::mayBeLeftOut);
    if (pump.has("installation")) checkItems(pump, "installation", checkStudy);
    checkObject(pump, "connections", checkConnections, Presence::mayBeLeftOut);
    if (pump.has("cautions")) checkItems(pump, "cautions", checkCaution);
}

} // namespace

std::vector<Error> checkFindingsDocument(const nlohmann::ordered_json& document,
                                         const std::string& fileName) {
    ReadLog log(fileName);
    const PlacedValue root{&document, ""};
    if (!checkFormatAndVersion(root, "headmark-findings", kFindingsVersion, log)) return log.errors();
    const ObjectReader top(root, log, {"format", "version", "made_by", "needs", "pumps"});
    (void)top.text("made_by");
    checkItems(top, "needs", checkNeed);
    checkItems(top, "pumps", checkPump);
    return log.errors();
}

} // namespace headmark
