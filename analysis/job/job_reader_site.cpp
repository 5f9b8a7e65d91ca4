// The site: source, runs, tank return, control, and what the water is for (zones, one outlet, known curve).

#include "analysis/job/error_codes.h"
#include "analysis/job/job_reader_parts.h"
#include "analysis/pipework/catalogue.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <set>

namespace headmark {

namespace {

constexpr NumberRange kLevel_m{-12'000.0, 9000.0}; // deepest borehole to highest mountain
constexpr NumberRange kVolume_m3{0.001, 1e8};      // to the size of a reservoir
constexpr NumberRange kRefill_m3_h{0.0, 100'000.0};
constexpr NumberRange kFlow_m3_h{0.0, 100'000.0};
constexpr NumberRange kReturnFlow_m3_h{0.0001, 10'000.0};
constexpr NumberRange kKv_m3_h{0.001, 100'000.0};
constexpr NumberRange kVesselVolume_l{0.1, 1'000'000.0};
constexpr NumberRange kGauge_kPa{0.0, 10'000.0};
constexpr NumberRange kEndPressure_kPa{-90.0, 10'000.0}; // the air's pressure is the most that can be missing
constexpr NumberRange kHold_kPa{1.0, 10'000.0};
constexpr NumberRange kValveClosing_s{0.01, 3600.0};
constexpr NumberRange kStaticHead_m{-5000.0, 5000.0};
constexpr NumberRange kResistance{0.0, 1e9};
constexpr NumberRange kDelay_s{0.0, 3600.0};
constexpr int kMostStations = 1000;

// One or more of three levels; see job_reader.h for what a missing one becomes.
void readLevels(const PlacedValue& at, WaterSource& source, ReadLog& log) {
    const ObjectReader object(at, log, {"low", "usual", "high"});
    const auto low = object.amount("low", kLevel_m, Level::fromMetres);
    const auto usual = object.amount("usual", kLevel_m, Level::fromMetres);
    const auto high = object.amount("high", kLevel_m, Level::fromMetres);
    if (object.valid() && !object.has("low") && !object.has("usual") && !object.has("high")) {
        log.add(code::kOneOfNeeded, at.place, {{"keys", std::vector<std::string>{"low", "usual", "high"}}});
    }
    const auto inOrder = [&](const char* lower, auto& below, const char* upper, auto& above) {
        if (!below || !above || *below <= *above) return true;
        object.refuse(code::kNotAscending, upper,
                      {{"lower", object.placeOf(lower)},
                       {"lower_value", below->inMetres()},
                       {"upper", object.placeOf(upper)},
                       {"upper_value", above->inMetres()}});
        return false;
    };
    if (inOrder("low", low, "usual", usual) && inOrder("usual", usual, "high", high)) {
        if (!usual) inOrder("low", low, "high", high);
    }
    const Level middle = usual ? *usual : low ? *low : high.value_or(Level());
    source.usual = middle;
    source.low = low.value_or(middle);
    source.high = high.value_or(middle);
}

WaterSource readSource(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log,
                              {"kind", "levels_m", "volume_m3", "refill_m3_h", "stop_level_m",
                               "mouth_level_m", "floor_level_m", "dry_run_device"});
    WaterSource source;
    source.kind = object.name("kind").value_or("");
    if (!source.kind.empty() && !findSourceKind(source.kind)) {
        std::vector<std::string> known;
        for (const SourceKindRow& row : sourceKindRows()) {
            known.push_back(row.code);
        }
        refuseCode(*object.value("kind"), "source", known, log);
    }
    source.levelsGiven = object.has("levels_m");
    if (source.levelsGiven) readLevels(*object.value("levels_m"), source, log);
    source.volume = object.amount("volume_m3", kVolume_m3, Volume::fromCubicMetres);
    source.refill = object.amount("refill_m3_h", kRefill_m3_h, Flow::fromCubicMetresPerHour);
    source.stopLevel = object.amount("stop_level_m", kLevel_m, Level::fromMetres);
    source.mouth = object.amount("mouth_level_m", kLevel_m, Level::fromMetres);
    source.floor = object.amount("floor_level_m", kLevel_m, Level::fromMetres);
    source.dryRunDevice =
        std::string(object
                        .choice<std::string_view>("dry_run_device", {{"float", "float"},
                                                                     {"electrode", "electrode"},
                                                                     {"flow-switch", "flow-switch"},
                                                                     {"pressure-switch", "pressure-switch"},
                                                                     {"under-current", "under-current"}})
                        .value_or(""));
    if (source.mouth && source.floor && *source.mouth <= *source.floor)
        object.refuse(code::kNotAscending, "mouth_level_m",
                      {{"lower", object.placeOf("floor_level_m")},
                       {"lower_value", source.floor->inMetres()},
                       {"upper", object.placeOf("mouth_level_m")},
                       {"upper_value", source.mouth->inMetres()}});
    return source;
}

TankReturn readTankReturn(const PlacedValue& at, FrictionMethod friction, ReadLog& log) {
    const ObjectReader object(
        at, log, {"pipe", "length_m", "rise_to_m", "set_flow_m3_h", "valve_kv_m3_h", "outlet_level_m"});
    object.atMostOneOf({"set_flow_m3_h", "valve_kv_m3_h"}, false);
    TankReturn back;
    back.pipe = readPipeItem(object, friction);
    back.setFlow = object.amount("set_flow_m3_h", kReturnFlow_m3_h, Flow::fromCubicMetresPerHour);
    back.valveKv_m3_h = object.number("valve_kv_m3_h", kKv_m3_h);
    back.outletLevel = object.amount("outlet_level_m", kLevel_m, Level::fromMetres);
    return back;
}

// "HH:MM", 00:00 to 23:59, or 24:00.
bool isTime(const std::string& text) {
    const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
    if (text.size() != 5 || text[2] != ':' || !digit(0) || !digit(1) || !digit(3) || !digit(4)) return false;
    const int hours = (text[0] - '0') * 10 + (text[1] - '0');
    const int minutes = (text[3] - '0') * 10 + (text[4] - '0');
    return minutes < 60 && (hours < 24 || (hours == 24 && minutes == 0));
}

std::optional<std::pair<std::string, std::string>> readWindow(const ObjectReader& object) {
    const auto at = object.value("window");
    const auto items = object.list("window");
    if (!at || !at->value->is_array()) return std::nullopt;
    if (items.size() != 2) {
        object.refuse(code::kWrongLength, "window",
                      {{"found", static_cast<std::int64_t>(items.size())}, {"expected", std::int64_t{2}}});
        return std::nullopt;
    }
    std::vector<std::string> times;
    for (const auto& item : items) {
        const auto time = nameOf(item, object.log());
        if (!time) continue;
        if (isTime(*time)) {
            times.push_back(*time);
        } else {
            object.log().add(code::kBadTime, item.place, {{"found", *time}});
        }
    }
    if (times.size() != 2) return std::nullopt;
    if (times[0] == times[1]) object.refuse(code::kEmptyWindow, "window", {{"found", times[0]}});
    return std::pair(times[0], times[1]);
}

Controller readController(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(
        at, log, {"stations", "valves_at_once", "window", "start_delay_s", "objective", "together", "apart"});
    Controller controller;
    controller.stations = object.integer("stations", 1, kMostStations);
    controller.valvesAtOnce = object.integer("valves_at_once", 1, kMostStations);
    controller.window = readWindow(object);
    controller.startDelay = object.amount("start_delay_s", kDelay_s, Duration::fromSeconds);
    controller.objective = object
                               .choice<ShiftObjective>("objective", {{"time", ShiftObjective::time},
                                                                     {"energy", ShiftObjective::energy},
                                                                     {"shifts", ShiftObjective::shifts}})
                               .value_or(ShiftObjective::time);
    return controller;
}

// A list of zones, of two names or more.
std::vector<std::string> readZoneList(const PlacedValue& item, const std::vector<std::string>& known,
                                      ReadLog& log) {
    std::vector<std::string> names;
    if (!item.value->is_array()) {
        refuseType(item, "list", log);
        return names;
    }
    for (std::size_t i = 0; i < item.value->size(); ++i) {
        const PlacedValue entry{&(*item.value)[i], item.place + "[" + std::to_string(i) + "]"};
        const auto name = nameOf(entry, log);
        if (!name) continue;
        if (std::find(known.begin(), known.end(), *name) == known.end()) {
            log.add(code::kUnknownZone, entry.place, {{"name", *name}, {"known", known}});
        } else if (std::find(names.begin(), names.end(), *name) != names.end()) {
            log.add(code::kRepeatedEntry, entry.place, {{"name", *name}});
        } else {
            names.push_back(*name);
        }
    }
    if (item.value->size() < 2) {
        log.add(code::kWrongLength, item.place,
                {{"found", static_cast<std::int64_t>(item.value->size())}, {"expected", std::int64_t{2}}});
    }
    return names;
}

// Read once the zones are known; the controller's keys were looked at before.
void readPairs(const PlacedValue& at, Site& site, ReadLog& log) {
    if (!at.value->is_object()) return;
    std::vector<std::string> known;
    for (const Zone& zone : site.zones)
        known.push_back(zone.name);
    for (const auto& [key, lists] :
         {std::pair{"together", &site.controller->together}, std::pair{"apart", &site.controller->apart}}) {
        const auto value = at.value->find(key);
        if (value == at.value->end()) continue;
        const PlacedValue placed{&*value, at.place + "." + key};
        if (!value->is_array()) {
            refuseType(placed, "list", log);
            continue;
        }
        for (std::size_t i = 0; i < value->size(); ++i)
            lists->push_back(
                readZoneList({&(*value)[i], placed.place + "[" + std::to_string(i) + "]"}, known, log));
    }
}

Vessel readVessel(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log, {"volume_l", "precharge_kPa", "cut_in_kPa", "cut_out_kPa"});
    Vessel vessel;
    vessel.volume = object.neededAmount("volume_l", kVesselVolume_l, Volume::fromLitres);
    vessel.precharge = object.neededAmount("precharge_kPa", kGauge_kPa, GaugePressure::fromKilopascals);
    object.need("cut_in_kPa");
    object.need("cut_out_kPa");
    const auto cutIn = object.amount("cut_in_kPa", kGauge_kPa, GaugePressure::fromKilopascals);
    const auto cutOut = object.amount("cut_out_kPa", kGauge_kPa, GaugePressure::fromKilopascals);
    if (!cutIn || !cutOut) return vessel;
    vessel.cutIn = *cutIn;
    vessel.cutOut = *cutOut;
    if (*cutIn >= *cutOut)
        object.refuse(code::kNotAscending, "cut_out_kPa",
                      {{"lower", object.placeOf("cut_in_kPa")},
                       {"lower_value", cutIn->inKilopascals()},
                       {"upper", object.placeOf("cut_out_kPa")},
                       {"upper_value", cutOut->inKilopascals()}});
    return vessel;
}

OutletEnd readEnd(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log, {"level_m", "pressure_kPa"});
    return {object.neededAmount("level_m", kLevel_m, Level::fromMetres),
            object.amount("pressure_kPa", kEndPressure_kPa, GaugePressure::fromKilopascals)
                .value_or(GaugePressure())};
}

void readSystemPoints(const ObjectReader& object, KnownSystem& system) {
    const auto items = object.list("points");
    std::set<double> flows;
    for (const auto& item : items) {
        const ObjectReader point(item, object.log(), {"flow_m3_h", "head_m"});
        point.need("flow_m3_h");
        const auto flow = point.amount("flow_m3_h", kFlow_m3_h, Flow::fromCubicMetresPerHour);
        const Head head = point.neededAmount("head_m", kStaticHead_m, Head::fromMetres);
        if (!flow) continue;
        system.points.push_back({*flow, head});
        if (!flows.insert(flow->inCubicMetresPerHour()).second)
            point.refuse(code::kRepeatedFlow, "flow_m3_h", {{"flow_m3_h", flow->inCubicMetresPerHour()}});
    }
    if (items.empty() && object.value("points")->value->is_array()) object.refuse(code::kEmptyList, "points");
}

KnownSystem readSystem(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log, {"static_head_m", "resistance_m_per_m3_h_2", "points"});
    KnownSystem system;
    if (object.has("points")) {
        object.exclude({"static_head_m", "resistance_m_per_m3_h_2"}, "points");
        readSystemPoints(object, system);
        return system;
    }
    if (object.valid() && !object.has("static_head_m") && !object.has("resistance_m_per_m3_h_2")) {
        log.add(code::kOneOfNeeded, at.place,
                {{"keys", std::vector<std::string>{"static_head_m", "points"}}});
        return system;
    }
    object.needBeside("static_head_m", "resistance_m_per_m3_h_2");
    object.needBeside("resistance_m_per_m3_h_2", "static_head_m");
    system.staticHead = object.amount("static_head_m", kStaticHead_m, Head::fromMetres);
    system.resistance_m_per_m3_h_2 = object.number("resistance_m_per_m3_h_2", kResistance);
    return system;
}

void readControl(const ObjectReader& object, Site& site) {
    site.control = object
                       .choice<ControlKind>("control", {{"with-zones", ControlKind::withZones},
                                                        {"pressure-held", ControlKind::pressureHeld}})
                       .value_or(ControlKind::withZones);
    if (const auto at = object.value("controller")) site.controller = readController(*at, object.log());
    if (const auto at = object.value("vessel")) site.vessel = readVessel(*at, object.log());
    site.hold = object.amount("hold_kPa", kHold_kPa, GaugePressure::fromKilopascals);
    site.valveClosing = object.amount("valve_closing_s", kValveClosing_s, Duration::fromSeconds);
    if (site.control == ControlKind::pressureHeld && !object.has("vessel") && !object.has("hold_kPa"))
        object.refuse(code::kPressureHeldNeeds, "control");
}

void readOutlets(const ObjectReader& object, Site& site) {
    object.atMostOneOf({"zones", "end", "system"}, true);
    const auto zones = object.list("zones");
    if (zones.empty() && object.has("zones") && object.value("zones")->value->is_array())
        object.refuse(code::kEmptyList, "zones");
    site.zones = readZones(zones, site.delivery, site.friction, object.log());
    if (const auto at = object.value("end")) site.end = readEnd(*at, object.log());
    if (const auto at = object.value("system")) site.system = readSystem(*at, object.log());
}

} // namespace

Site readSite(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log,
                              {"source", "pump_level_m", "suction", "delivery", "tank_return", "control",
                               "controller", "vessel", "hold_kPa", "valve_closing_s", "friction",
                               "fittings_allowance_share", "zones", "end", "system"});
    Site site;
    if (const auto source = object.value("source")) {
        site.source = readSource(*source, log);
    }
    site.pumpLevel = object.amount("pump_level_m", kLevel_m, Level::fromMetres).value_or(Level());
    site.friction =
        object
            .choice<FrictionMethod>("friction", {{"darcy", FrictionMethod::darcy},
                                                 {"hazen-williams", FrictionMethod::hazenWilliams}})
            .value_or(FrictionMethod::darcy);
    site.suction = readRun(object.list("suction"), site.friction, false, log);
    site.delivery = readRun(object.list("delivery"), site.friction, true, log);
    if (const auto back = object.value("tank_return"))
        site.tankReturn = readTankReturn(*back, site.friction, log);
    site.fittingsAllowanceShare = object.number("fittings_allowance_share", kShareRange).value_or(0.0);
    readControl(object, site);
    readOutlets(object, site);
    if (const auto controller = object.value("controller"); controller && site.controller)
        readPairs(*controller, site, log);
    return site;
}

} // namespace headmark
