#include "analysis/job/findings_check.h"

#include "analysis/job/error_codes.h"
#include "analysis/job/job_reader_parts.h"
#include "analysis/job/json_document.h"
#include "analysis/job/object_reader.h"

#include <nlohmann/json.hpp>

#include <cmath>

namespace headmark {

namespace {

// Results may lie anywhere; only what no number could be is refused.
constexpr NumberRange kAny{-1e15, 1e15};
constexpr NumberRange kNotNegative{0.0, 1e15};
// Counts of sets of zones grow past what an int holds.
constexpr NumberRange kCount{0.0, 1e18};
constexpr std::size_t kLongestText = 100'000;
constexpr std::size_t kMostBestSets = 20;

enum class Presence { needed, neededOrNull, mayBeLeftOut };

// The value, unless it is left out or null and may be.
std::optional<PlacedValue> present(const ObjectReader& object, std::string_view key, Presence presence) {
    if (presence != Presence::mayBeLeftOut) object.need(key);
    const auto at = object.value(key);
    if (at && at->value->is_null() && presence != Presence::needed) return std::nullopt;
    return at;
}

void checkNumber(const ObjectReader& object, std::string_view key, NumberRange range,
                 Presence presence = Presence::needed) {
    if (present(object, key, presence)) (void)object.number(key, range);
}

// [lo, hi]; an interval may have no width.
void checkInterval(const ObjectReader& object, std::string_view key) {
    const auto at = object.value(key);
    if (!at) return;
    const auto items = object.list(key);
    if (!at->value->is_array()) return;
    if (items.size() != 2) {
        object.refuse(code::kWrongLength, key,
                      {{"found", static_cast<std::int64_t>(items.size())}, {"expected", std::int64_t{2}}});
        return;
    }
    const auto low = numberOf(items[0], kAny, object.log());
    const auto high = numberOf(items[1], kAny, object.log());
    if (!low || !high || *low <= *high) return;
    object.refuse(code::kNotAscending, key,
                  {{"lower", items[0].place},
                   {"lower_value", *low},
                   {"upper", items[1].place},
                   {"upper_value", *high}});
}

// A figure and its 95 % interval.
void checkFigure(const ObjectReader& object, std::string_view key, std::string_view key95,
                 NumberRange range = kAny, Presence presence = Presence::needed) {
    checkNumber(object, key, range, presence);
    checkInterval(object, key95);
}

void checkWhole(const PlacedValue& at, ReadLog& log) {
    const bool whole =
        at.value->is_number() && std::floor(at.value->get<double>()) == at.value->get<double>();
    if (whole) {
        (void)numberOf(at, kCount, log);
    } else {
        refuseType(at, "whole number", log);
    }
}

void checkCount(const ObjectReader& object, std::string_view key) {
    if (object.need(key)) checkWhole(*object.value(key), object.log());
}

void checkBoolean(const ObjectReader& object, std::string_view key) {
    if (object.need(key)) (void)object.boolean(key);
}

void checkName(const ObjectReader& object, std::string_view key) {
    // The name of a case may list many zones: longer than a name in a job.
    if (!object.need(key)) return;
    const auto name = object.text(key, kLongestText);
    if (name && name->find_first_not_of(" \t\r\n") == std::string::npos) object.refuse(code::kEmptyText, key);
}

void checkTexts(const ObjectReader& object, std::initializer_list<std::string_view> keys) {
    for (const auto key : keys) {
        if (object.need(key)) (void)object.text(key, kLongestText);
    }
}

void checkNames(const PlacedValue& at, ReadLog& log) {
    if (!at.value->is_array()) {
        refuseType(at, "list", log);
        return;
    }
    for (std::size_t i = 0; i < at.value->size(); ++i) {
        (void)nameOf({&(*at.value)[i], placeOfItem(at.place, i)}, log);
    }
}

template <class Check>
void checkItems(const ObjectReader& object, std::string_view key, Check check,
                Presence presence = Presence::needed) {
    if (!present(object, key, presence)) return;
    for (const auto& item : object.list(key)) {
        check(item, object.log());
    }
}

template <class Check>
void checkObject(const ObjectReader& object, std::string_view key, Check check,
                 Presence presence = Presence::needed) {
    if (const auto at = present(object, key, presence)) check(*at, object.log());
}

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

// Numbers, texts and lists of texts under any key; null where a number was not finite.
void checkValues(const PlacedValue& at, ReadLog& log) {
    if (!at.value->is_object()) {
        refuseType(at, "object", log);
        return;
    }
    for (const auto& [key, value] : at.value->items()) {
        const PlacedValue member{&value, placeOfKey(at.place, key)};
        if (value.is_array()) {
            for (std::size_t i = 0; i < value.size(); ++i) {
                if (!value[i].is_string()) refuseType({&value[i], placeOfItem(member.place, i)}, "text", log);
            }
        } else if (value.is_boolean() || value.is_object()) {
            refuseType(member, "number", log);
        }
    }
}

void checkCaution(const PlacedValue& at, ReadLog& log) {
    const ObjectReader caution(at, log, {"code", "severity", "place", "values", "remedy", "text", "source"});
    checkName(caution, "code");
    caution.need("severity");
    (void)caution.choice<int>("severity", {{"note", 0}, {"warning", 1}, {"danger", 2}});
    checkTexts(caution, {"place", "remedy", "text", "source"});
    checkObject(caution, "values", checkValues);
}

void checkWorkingStep(const PlacedValue& at, ReadLog& log) {
    const ObjectReader step(at, log, {"title", "formula", "with", "result", "source"});
    checkTexts(step, {"title", "formula", "with", "result", "source"});
}

void checkStudyFigure(const PlacedValue& at, ReadLog& log) {
    const ObjectReader figure(
        at, log, {"code", "place", "values", "title", "formula", "with", "result", "source"});
    checkName(figure, "code");
    checkTexts(figure, {"place", "title", "formula", "with", "result", "source"});
    checkObject(figure, "values", checkValues);
}

void checkStudy(const PlacedValue& at, ReadLog& log) {
    const ObjectReader study(at, log, {"topic", "figures", "cautions"});
    checkName(study, "topic");
    checkItems(study, "figures", checkStudyFigure);
    checkItems(study, "cautions", checkCaution);
}

void checkCase(const PlacedValue& at, ReadLog& log) {
    const ObjectReader one(at, log,
                           {"name", "serves", "duty", "duties", "as_delivered", "efficiency", "power", "npsh",
                            "zones", "tank_return_flow_m3_h", "tank_return_flow_95_m3_h", "cautions",
                            "working"});
    checkName(one, "name");
    checkBoolean(one, "serves");
    checkObject(one, "duty", checkDuty, Presence::neededOrNull);
    if (one.has("duties")) checkItems(one, "duties", checkDuty);
    checkObject(one, "as_delivered", checkDelivered);
    checkObject(one, "efficiency", checkEfficiency, Presence::neededOrNull);
    checkObject(one, "power", checkPower, Presence::neededOrNull);
    checkObject(one, "npsh", checkNpsh, Presence::neededOrNull);
    checkItems(one, "zones", checkZone);
    checkFigure(one, "tank_return_flow_m3_h", "tank_return_flow_95_m3_h", kAny, Presence::mayBeLeftOut);
    checkItems(one, "cautions", checkCaution);
    checkItems(one, "working", checkWorkingStep);
}

void checkLimit(const PlacedValue& at, ReadLog& log) {
    const ObjectReader limit(at, log, {"code", "zone"});
    checkName(limit, "code");
    (void)limit.name("zone"); // left out: none in particular
}

void checkOneMore(const PlacedValue& at, ReadLog& log) {
    const ObjectReader change(at, log, {"change", "best_set"});
    checkName(change, "change");
    checkCount(change, "best_set");
}

void checkZonesAtOnce(const PlacedValue& at, ReadLog& log) {
    const ObjectReader zones(at, log,
                             {"any_set", "every_choice_works_for", "best_set", "best_sets", "best_sets_count",
                              "best_sets_counted", "proven", "best_set_at_most", "any_set_at_most", "limits",
                              "one_more", "cautions"});
    for (const auto key : {"any_set", "best_set", "best_sets_count", "best_set_at_most", "any_set_at_most"}) {
        checkCount(zones, key);
    }
    checkItems(zones, "every_choice_works_for", checkWhole);
    checkItems(zones, "best_sets", checkNames);
    const auto sets = zones.value("best_sets");
    if (sets && sets->value->is_array() && sets->value->size() > kMostBestSets) {
        zones.refuse(code::kListTooLong, "best_sets",
                     {{"found", static_cast<std::int64_t>(sets->value->size())},
                      {"limit", static_cast<std::int64_t>(kMostBestSets)}});
    }
    checkBoolean(zones, "proven");
    if (zones.has("best_sets_counted")) checkBoolean(zones, "best_sets_counted");
    checkItems(zones, "limits", checkLimit);
    if (zones.has("one_more")) checkItems(zones, "one_more", checkOneMore);
    if (zones.has("cautions")) checkItems(zones, "cautions", checkCaution);
}

bool isTimeOfDay(std::string_view text) {
    const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
    if (text.size() != 5 || text[2] != ':' || !digit(0) || !digit(1) || !digit(3) || !digit(4)) return false;
    return text.substr(0, 2) < "24" && text.substr(3) < "60";
}

// Without a window nothing says when to begin.
void checkStart(const ObjectReader& object, std::string_view key) {
    if (!present(object, key, Presence::mayBeLeftOut)) return;
    const auto start = object.text(key);
    if (start && !isTimeOfDay(*start)) object.refuse(code::kBadTime, key, {{"found", *start}});
}

void checkStation(const PlacedValue& at, ReadLog& log) {
    const ObjectReader station(at, log, {"station", "zone", "start", "minutes", "flow_m3_h"});
    checkCount(station, "station");
    checkName(station, "zone");
    checkStart(station, "start");
    checkNumber(station, "minutes", kNotNegative);
    checkNumber(station, "flow_m3_h", kAny);
}

void checkShift(const PlacedValue& at, ReadLog& log) {
    const ObjectReader shift(at, log,
                             {"zones", "start", "minutes", "minutes_95", "flow_m3_h", "flow_95_m3_h",
                              "energy_kWh", "energy_95_kWh", "stations"});
    checkObject(shift, "zones", checkNames);
    checkStart(shift, "start");
    checkFigure(shift, "minutes", "minutes_95", kNotNegative);
    checkFigure(shift, "flow_m3_h", "flow_95_m3_h");
    checkFigure(shift, "energy_kWh", "energy_95_kWh", kNotNegative, Presence::neededOrNull);
    if (shift.has("stations")) checkItems(shift, "stations", checkStation);
}

void checkTankAt(const PlacedValue& at, ReadLog& log) {
    const ObjectReader tank(at, log, {"minute", "time", "left_m3", "level_m"});
    checkNumber(tank, "minute", kNotNegative);
    checkStart(tank, "time");
    checkNumber(tank, "left_m3", kNotNegative);
    checkNumber(tank, "level_m", kAny);
}

void checkShiftPlan(const PlacedValue& at, ReadLog& log) {
    const ObjectReader plan(at, log,
                            {"shifts", "total_hours", "total_95_hours", "total_energy_kWh",
                             "total_energy_95_kWh", "cost", "cost_95", "objective", "proven", "gap_share",
                             "fits_window", "tank", "cautions"});
    checkItems(plan, "shifts", checkShift);
    checkFigure(plan, "total_hours", "total_95_hours", kNotNegative);
    checkFigure(plan, "total_energy_kWh", "total_energy_95_kWh", kNotNegative, Presence::neededOrNull);
    checkFigure(plan, "cost", "cost_95", kNotNegative, Presence::mayBeLeftOut);
    (void)plan.choice<int>("objective", {{"time", 0}, {"energy", 1}, {"shifts", 2}});
    (void)plan.boolean("proven");
    (void)plan.boolean("fits_window");
    checkNumber(plan, "gap_share", kShareRange, Presence::mayBeLeftOut);
    if (plan.has("tank")) checkItems(plan, "tank", checkTankAt);
    if (plan.has("cautions")) checkItems(plan, "cautions", checkCaution);
}

void checkPump(const PlacedValue& at, ReadLog& log) {
    const ObjectReader pump(at, log,
                            {"name", "cases", "zones_at_once", "shift_plan", "installation", "cautions"});
    checkName(pump, "name");
    checkItems(pump, "cases", checkCase);
    checkObject(pump, "zones_at_once", checkZonesAtOnce, Presence::mayBeLeftOut);
    checkObject(pump, "shift_plan", checkShiftPlan, Presence::mayBeLeftOut);
    if (pump.has("installation")) checkItems(pump, "installation", checkStudy);
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
