// Pumps and the field check as JSON.

#include "analysis/job/job_writer_parts.h"

namespace headmark {

namespace {

using Json = nlohmann::ordered_json;

struct QuantityWords {
    CurveQuantity quantity;
    const char* name;
    const char* valueKey;
    double fromSi;
};

constexpr QuantityWords kQuantities[] = {
    {CurveQuantity::head, "head", "head_m", 1.0},
    {CurveQuantity::efficiency, "efficiency", "efficiency_share", 1.0},
    {CurveQuantity::power, "power", "power_kW", 1e-3},
    {CurveQuantity::npshRequired, "npsh_required", "npsh_required_m", 1.0},
};

Json curveJson(const CurvePoints& curve, const QuantityWords& words) {
    Json object{{"points", Json::array()}};
    for (const auto& point : curve.points) {
        object["points"].push_back({{"flow_m3_h", numberJson(point.flow.inCubicMetresPerHour())},
                                    {words.valueKey, numberJson(point.value * words.fromSi)}});
    }
    setCount(object, "degree", curve.degree);
    if (curve.sigmaShare > 0.0) object["sigma_share"] = numberJson(curve.sigmaShare);
    return object;
}

Json readingJson(const ReadingUse& use) {
    Json object{{"path", use.path}};
    for (const auto& words : kQuantities) {
        const auto line = use.lines.find(words.quantity);
        if (line != use.lines.end()) object["lines"][words.name] = line->second;
    }
    return object;
}

Json curvesJson(const Pump& pump) {
    Json curves = Json::object();
    for (const auto& words : kQuantities) {
        const auto curve = pump.curves.find(words.quantity);
        if (curve == pump.curves.end()) continue;
        curves[words.name] = curveJson(curve->second, words);
        if (words.quantity == CurveQuantity::power && pump.powerAtMotorInput)
            curves[words.name]["power_at"] = "motor_input";
    }
    return curves;
}

Json tapJson(const GaugeTap& tap) {
    return {{"level_m", numberJson(tap.level.inMetres())}, {"bore_mm", numberJson(tap.bore.inMillimetres())}};
}

Json fieldPointJson(const FieldPoint& point) {
    Json object{{"inlet_kPa", numberJson(point.inlet.inKilopascals())},
                {"outlet_kPa", numberJson(point.outlet.inKilopascals())}};
    if (point.zonesShut) object["zones_shut"] = true;
    setAmount(object, "flow_m3_h", point.flow, &Flow::inCubicMetresPerHour);
    setAmount(object, "volume_l", point.volume, &Volume::inLitres);
    setAmount(object, "seconds", point.time, &Duration::inSeconds);
    setAmount(object, "input_kW", point.input, &Power::inKilowatts);
    setNumber(object, "amps", point.amps);
    setNumber(object, "volts", point.volts);
    setNumber(object, "power_factor", point.powerFactor);
    setCount(object, "phases", point.phases);
    return object;
}

} // namespace

Json plateJson(const MotorPlate& plate) {
    Json object = Json::object();
    setAmount(object, "input_kW", plate.input, &Power::inKilowatts);
    setNumber(object, "amps", plate.amps);
    setNumber(object, "volts", plate.volts);
    setNumber(object, "power_factor", plate.powerFactor);
    setCount(object, "phases", plate.phases);
    return object;
}

Json pumpJson(const Pump& pump) {
    Json object = Json::object();
    setText(object, "name", pump.name);
    for (const ReadingUse& use : pump.readings) {
        object["readings"].push_back(readingJson(use));
    }
    if (!pump.curves.empty()) object["curves"] = curvesJson(pump);
    setAmount(object, "chart_speed_rpm", pump.chartSpeed, &RotationalSpeed::inRevolutionsPerMinute);
    setAmount(object, "run_speed_rpm", pump.runSpeed, &RotationalSpeed::inRevolutionsPerMinute);
    if (pump.motor) {
        Json motor = Json::object();
        setAmount(motor, "rated_kW", pump.motor->rated, &Power::inKilowatts);
        setAmount(motor, "efficiency_share", pump.motor->efficiency, &Efficiency::inShare);
        setText(motor, "supply", pump.motor->supply);
        object["motor"] = motor;
    }
    if (Json plate = plateJson(pump.plate); !plate.empty()) object["motor_plate"] = std::move(plate);
    setAmount(object, "casing_l", pump.casing, &Volume::inLitres);
    setAmount(object, "primes_to_m", pump.primesTo, &Head::inMetres);
    setText(object, "inlet_thread", pump.inletThread);
    setText(object, "outlet_thread", pump.outletThread);
    setAmount(object, "max_pressure_kPa", pump.greatestPressure, &GaugePressure::inKilopascals);
    if (pump.deliveredHeadShare) object["delivered"] = {{"head_share", numberJson(*pump.deliveredHeadShare)}};
    if (pump.allowableShare) {
        object["allowable_share"] =
            Json::array({numberJson(pump.allowableShare->first), numberJson(pump.allowableShare->second)});
    }
    return object;
}

Json fieldCheckJson(const FieldCheck& check) {
    Json object{{"pump", check.pump}};
    setAmount(object, "speed_rpm", check.speed, &RotationalSpeed::inRevolutionsPerMinute);
    object["taps"] = {{"inlet", tapJson(check.inlet)}, {"outlet", tapJson(check.outlet)}};
    object["points"] = Json::array();
    for (const FieldPoint& point : check.points) {
        object["points"].push_back(fieldPointJson(point));
    }
    object["sigma"] = {{"pressure_kPa", numberJson(check.sigmaPressure.inKilopascals())},
                       {"flow_share", numberJson(check.sigmaFlowShare)},
                       {"power_share", numberJson(check.sigmaPowerShare)}};
    if (check.guarantee) {
        object["guarantee"] = {{"flow_m3_h", numberJson(check.guarantee->first.inCubicMetresPerHour())},
                               {"head_m", numberJson(check.guarantee->second.inMetres())}};
    }
    setAmount(object, "hours_per_year", check.perYear, &Duration::inHours);
    return object;
}

} // namespace headmark
