// What was measured at an installed pump.

#include "analysis/job/error_codes.h"
#include "analysis/job/job_reader_parts.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace headmark {

namespace {

constexpr NumberRange kSpeed_rpm{10.0, 60'000.0};
constexpr NumberRange kLevel_m{-12'000.0, 9000.0};
constexpr NumberRange kBore_mm{1.0, 2000.0};
constexpr NumberRange kInlet_kPa{-101.325, 10'000.0}; // no gauge reads below vacuum
constexpr NumberRange kOutlet_kPa{-101.325, 50'000.0};
constexpr NumberRange kFlow_m3_h{0.0, 100'000.0};
constexpr NumberRange kVolume_l{0.01, 1e9};
constexpr NumberRange kTime_s{0.1, 1e7};
constexpr NumberRange kInput_kW{0.001, 50'000.0};
constexpr NumberRange kSigma_kPa{0.0, 1000.0};
constexpr NumberRange kSigmaShare{0.0, 0.5};
constexpr NumberRange kGuaranteedFlow_m3_h{0.001, 100'000.0};
constexpr NumberRange kGuaranteedHead_m{0.1, 5000.0};
constexpr NumberRange kHoursPerYear{0.0, 8784.0}; // a leap year

GaugeTap readTap(const ObjectReader& taps, std::string_view key) {
    if (!taps.need(key)) return {};
    const ObjectReader object(*taps.value(key), taps.log(), {"level_m", "bore_mm"});
    return {object.neededAmount("level_m", kLevel_m, Level::fromMetres),
            object.neededAmount("bore_mm", kBore_mm, Length::fromMillimetres)};
}

// The flow of a point: given, a volume in a time, or none with every zone shut.
void readPointFlow(const ObjectReader& object, FieldPoint& point) {
    const auto shut = object.boolean("zones_shut");
    point.zonesShut = shut.value_or(false);
    point.flow = object.amount("flow_m3_h", kFlow_m3_h, Flow::fromCubicMetresPerHour);
    point.volume = object.amount("volume_l", kVolume_l, Volume::fromLitres);
    point.time = object.amount("seconds", kTime_s, Duration::fromSeconds);
    if (object.has("volume_l") || object.has("seconds")) {
        object.needBeside("seconds", "volume_l");
        object.needBeside("volume_l", "seconds");
    }
    const std::vector<std::string> all{"flow_m3_h", "volume_l", "zones_shut"};
    std::vector<std::string> found;
    if (object.has("flow_m3_h")) found.emplace_back("flow_m3_h");
    if (object.has("volume_l") || object.has("seconds")) found.emplace_back("volume_l");
    // "zones_shut": false says nothing; a wrong type there has been reported.
    if (object.has("zones_shut") && shut.value_or(true)) found.emplace_back("zones_shut");
    if (found.empty() && object.valid())
        object.log().add(code::kOneOfNeeded, object.place(), {{"keys", all}});
    if (found.size() > 1)
        object.log().add(code::kOnlyOneOf, object.place(), {{"found", found}, {"keys", all}});
}

void readPointPower(const ObjectReader& object, FieldPoint& point) {
    point.input = object.amount("input_kW", kInput_kW, Power::fromKilowatts);
    point.amps = object.number("amps", kAmps);
    point.volts = object.number("volts", kVolts);
    point.powerFactor = object.number("power_factor", kPowerFactor);
    if (object.has("phases")) {
        point.phases = object.integer("phases", 1, 3);
        if (point.phases == 2)
            object.refuse(code::kUnknownChoice, "phases",
                          {{"found", std::string("2")}, {"allowed", std::vector<std::string>{"1", "3"}}});
    }
    // Electrical input = amps, volts and power factor together (times the root of 3 on three phases).
    constexpr std::string_view kElectrical[] = {"amps", "volts", "power_factor", "phases"};
    const auto given = std::find_if(std::begin(kElectrical), std::end(kElectrical),
                                    [&](std::string_view key) { return object.has(key); });
    if (given == std::end(kElectrical)) return;
    for (const auto key : kElectrical) {
        object.needBeside(key, *given);
    }
}

FieldPoint readPoint(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log,
                              {"inlet_kPa", "outlet_kPa", "zones_shut", "flow_m3_h", "volume_l", "seconds",
                               "input_kW", "amps", "volts", "power_factor", "phases"});
    FieldPoint point;
    point.inlet = object.neededAmount("inlet_kPa", kInlet_kPa, GaugePressure::fromKilopascals);
    point.outlet = object.neededAmount("outlet_kPa", kOutlet_kPa, GaugePressure::fromKilopascals);
    readPointFlow(object, point);
    readPointPower(object, point);
    return point;
}

// The pump's name; with a single pump it may be left out.
std::string readPumpName(const ObjectReader& object, const std::vector<Pump>& pumps) {
    if (!object.has("pump") && pumps.size() == 1) return pumps.front().name;
    object.need("pump");
    const auto name = object.name("pump");
    if (!name) return {};
    std::vector<std::string> known;
    for (const Pump& pump : pumps) {
        known.push_back(pump.name);
    }
    if (std::find(known.begin(), known.end(), *name) == known.end())
        object.refuse(code::kUnknownPump, "pump", {{"name", *name}, {"known", known}});
    return *name;
}

void readSigma(const PlacedValue& at, FieldCheck& check, ReadLog& log) {
    const ObjectReader object(at, log, {"pressure_kPa", "flow_share", "power_share"});
    check.sigmaPressure =
        object.amount("pressure_kPa", kSigma_kPa, Pressure::fromKilopascals).value_or(check.sigmaPressure);
    check.sigmaFlowShare = object.number("flow_share", kSigmaShare).value_or(check.sigmaFlowShare);
    check.sigmaPowerShare = object.number("power_share", kSigmaShare).value_or(check.sigmaPowerShare);
}

} // namespace

FieldCheck readFieldCheck(const PlacedValue& at, const std::vector<Pump>& pumps, ReadLog& log) {
    const ObjectReader object(
        at, log, {"pump", "speed_rpm", "taps", "points", "sigma", "guarantee", "hours_per_year"});
    FieldCheck check;
    check.pump = readPumpName(object, pumps);
    check.speed = object.amount("speed_rpm", kSpeed_rpm, RotationalSpeed::fromRevolutionsPerMinute);
    if (object.need("taps")) {
        const ObjectReader taps(*object.value("taps"), log, {"inlet", "outlet"});
        check.inlet = readTap(taps, "inlet");
        check.outlet = readTap(taps, "outlet");
    }
    if (object.need("points")) {
        const auto items = object.list("points");
        for (const auto& item : items) {
            check.points.push_back(readPoint(item, log));
        }
        if (items.empty() && object.value("points")->value->is_array())
            object.refuse(code::kEmptyList, "points");
    }
    if (const auto sigma = object.value("sigma")) readSigma(*sigma, check, log);
    if (const auto guarantee = object.value("guarantee")) {
        const ObjectReader promised(*guarantee, log, {"flow_m3_h", "head_m"});
        check.guarantee = {
            promised.neededAmount("flow_m3_h", kGuaranteedFlow_m3_h, Flow::fromCubicMetresPerHour),
            promised.neededAmount("head_m", kGuaranteedHead_m, Head::fromMetres)};
    }
    check.perYear = object.amount("hours_per_year", kHoursPerYear, Duration::fromHours);
    return check;
}

} // namespace headmark
