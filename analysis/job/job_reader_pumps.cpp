// The pumps of a job: readings, typed curves, speeds, motor and ratings.

#include "analysis/job/error_codes.h"
#include "analysis/job/job_reader_parts.h"

#include <nlohmann/json.hpp>

#include <set>

namespace headmark {

namespace {

constexpr NumberRange kPumpFlow_m3_h{0.0, 100'000.0};
constexpr NumberRange kPumpHead_m{0.0, 5000.0};
constexpr NumberRange kSuctionHead_m{0.0, 1000.0};
constexpr NumberRange kPower_kW{0.0, 50'000.0};
constexpr NumberRange kRatedPower_kW{0.001, 50'000.0};
constexpr NumberRange kCasing_l{0.01, 10'000.0};
constexpr NumberRange kPrimes_m{0.1, 10.3}; // no pump lifts by more than the air's pressure
constexpr NumberRange kSpeed_rpm{10.0, 60'000.0};
constexpr NumberRange kPressureRating_kPa{1.0, 100'000.0};
constexpr NumberRange kSigmaShare{0.0, 0.5};
constexpr NumberRange kDeliveredShare{0.0, 0.5};
// A motor of no efficiency would need endless power.
constexpr NumberRange kMotorEfficiency{0.05, 1.0};
constexpr NumberRange kAllowableShare{0.0, 3.0};
constexpr int kGreatestDegree = 10;

struct QuantityKey {
    CurveQuantity quantity;
    std::string_view name;
    std::string_view valueKey;
    NumberRange range;
    double toSi;
};

constexpr double kWattsPerKilowatt = 1000.0;

constexpr QuantityKey kQuantities[] = {
    {CurveQuantity::head, "head", "head_m", kPumpHead_m, 1.0},
    {CurveQuantity::efficiency, "efficiency", "efficiency_share", kShareRange, 1.0},
    {CurveQuantity::power, "power", "power_kW", kPower_kW, kWattsPerKilowatt},
    {CurveQuantity::npshRequired, "npsh_required", "npsh_required_m", kSuctionHead_m, 1.0},
};

CurvePoints::At readPoint(const PlacedValue& at, const QuantityKey& quantity, ReadLog& log) {
    const ObjectReader object(at, log, {"flow_m3_h", quantity.valueKey});
    CurvePoints::At point;
    point.flow = object.neededAmount("flow_m3_h", kPumpFlow_m3_h, Flow::fromCubicMetresPerHour);
    object.need(quantity.valueKey);
    point.value = object.number(quantity.valueKey, quantity.range).value_or(0.0) * quantity.toSi;
    return point;
}

// Too few points, a flow twice, a degree beyond them.
void checkPoints(const ObjectReader& object, const std::vector<PlacedValue>& items,
                 const CurvePoints& curve) {
    constexpr std::int64_t kLeastPoints = 2;
    const auto count = static_cast<std::int64_t>(items.size());
    if (count < kLeastPoints) {
        if (object.value("points")->value->is_array())
            object.refuse(code::kTooFewPoints, "points", {{"points", count}, {"least", kLeastPoints}});
        return;
    }
    std::set<double> flows;
    for (std::size_t i = 0; i < items.size(); ++i) {
        const double flow_m3_h = curve.points[i].flow.inCubicMetresPerHour();
        // A flow that was refused reads as zero; it has been reported already.
        const bool readable = items[i].value->is_object() && items[i].value->contains("flow_m3_h") &&
                              (*items[i].value)["flow_m3_h"].is_number() &&
                              ((*items[i].value)["flow_m3_h"] == 0.0 || flow_m3_h != 0.0);
        if (readable && !flows.insert(flow_m3_h).second)
            object.log().add(code::kRepeatedFlow, items[i].place + ".flow_m3_h", {{"flow_m3_h", flow_m3_h}});
    }
    if (curve.degree && *curve.degree >= count)
        object.refuse(code::kDegreeTooHigh, "degree",
                      {{"degree", static_cast<std::int64_t>(*curve.degree)}, {"points", count}});
}

CurvePoints readCurve(const PlacedValue& at, const QuantityKey& quantity, Pump& pump, ReadLog& log) {
    const bool isPower = quantity.quantity == CurveQuantity::power;
    const ObjectReader object = isPower
                                    ? ObjectReader(at, log, {"points", "degree", "sigma_share", "power_at"})
                                    : ObjectReader(at, log, {"points", "degree", "sigma_share"});
    CurvePoints curve;
    curve.degree = object.integer("degree", 1, kGreatestDegree);
    curve.sigmaShare = object.number("sigma_share", kSigmaShare).value_or(0.0);
    if (isPower) {
        pump.powerAtMotorInput =
            object.choice<bool>("power_at", {{"shaft", false}, {"motor_input", true}}).value_or(false);
    }
    if (!object.need("points")) return curve;
    const auto items = object.list("points");
    for (const auto& item : items) {
        curve.points.push_back(readPoint(item, quantity, log));
    }
    checkPoints(object, items, curve);
    return curve;
}

using FirstPlaces = std::map<CurveQuantity, std::string>;

void noteQuantity(const QuantityKey& quantity, const std::string& place, FirstPlaces& seen, ReadLog& log) {
    const auto [first, added] = seen.emplace(quantity.quantity, place);
    if (!added)
        log.add(code::kQuantityTwice, place,
                {{"quantity", std::string(quantity.name)}, {"first", first->second}});
}

ReadingUse readReadingUse(const PlacedValue& at, FirstPlaces& seen, ReadLog& log) {
    const ObjectReader object(at, log, {"path", "lines"});
    ReadingUse use;
    object.need("path");
    use.path = object.name("path").value_or("");
    const auto lines = object.value("lines");
    if (!lines) return use;
    const ObjectReader choice(*lines, log, {"head", "efficiency", "power", "npsh_required"});
    for (const auto& quantity : kQuantities) {
        if (const auto name = choice.name(quantity.name)) {
            use.lines[quantity.quantity] = *name;
            noteQuantity(quantity, choice.placeOf(quantity.name), seen, log);
        }
    }
    return use;
}

void readCurves(const PlacedValue& at, Pump& pump, FirstPlaces& seen, ReadLog& log) {
    const ObjectReader curves(at, log, {"head", "efficiency", "power", "npsh_required"});
    for (const auto& quantity : kQuantities) {
        const auto curve = curves.value(quantity.name);
        if (!curve) continue;
        pump.curves[quantity.quantity] = readCurve(*curve, quantity, pump, log);
        noteQuantity(quantity, curve->place, seen, log);
    }
}

Motor readMotor(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log, {"rated_kW", "efficiency_share", "supply"});
    return {object.amount("rated_kW", kRatedPower_kW, Power::fromKilowatts),
            object.amount("efficiency_share", kMotorEfficiency, Efficiency::fromShare),
            object.text("supply").value_or("")};
}

MotorPlate readPlate(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log, {"input_kW", "amps", "volts", "power_factor", "phases"});
    MotorPlate plate;
    plate.input = object.amount("input_kW", kRatedPower_kW, Power::fromKilowatts);
    plate.amps = object.number("amps", kAmps);
    plate.volts = object.number("volts", kVolts);
    plate.powerFactor = object.number("power_factor", kPowerFactor);
    plate.phases = object.integer("phases", 1, 3);
    if (plate.phases == 2)
        object.refuse(code::kUnknownChoice, "phases",
                      {{"found", std::string("2")}, {"allowed", std::vector<std::string>{"1", "3"}}});
    return plate;
}

Pump readPump(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log,
                              {"name", "readings", "curves", "chart_speed_rpm", "run_speed_rpm", "motor",
                               "motor_plate", "casing_l", "primes_to_m", "inlet_thread", "outlet_thread",
                               "max_pressure_kPa", "delivered", "allowable_share"});
    Pump pump;
    pump.name = object.name("name").value_or("");
    FirstPlaces seen;
    for (const auto& reading : object.list("readings")) {
        pump.readings.push_back(readReadingUse(reading, seen, log));
    }
    if (const auto curves = object.value("curves")) readCurves(*curves, pump, seen, log);
    pump.chartSpeed = object.amount("chart_speed_rpm", kSpeed_rpm, RotationalSpeed::fromRevolutionsPerMinute);
    pump.runSpeed = object.amount("run_speed_rpm", kSpeed_rpm, RotationalSpeed::fromRevolutionsPerMinute);
    if (const auto motor = object.value("motor")) pump.motor = readMotor(*motor, log);
    if (const auto plate = object.value("motor_plate")) pump.plate = readPlate(*plate, log);
    pump.casing = object.amount("casing_l", kCasing_l, Volume::fromLitres);
    pump.primesTo = object.amount("primes_to_m", kPrimes_m, Head::fromMetres);
    pump.inletThread = object.text("inlet_thread").value_or("");
    pump.outletThread = object.text("outlet_thread").value_or("");
    pump.greatestPressure =
        object.amount("max_pressure_kPa", kPressureRating_kPa, GaugePressure::fromKilopascals);
    if (const auto delivered = object.value("delivered")) {
        const ObjectReader tolerance(*delivered, log, {"head_share"});
        tolerance.need("head_share");
        pump.deliveredHeadShare = tolerance.number("head_share", kDeliveredShare);
    }
    pump.allowableShare = object.ascendingPair("allowable_share", kAllowableShare);
    // Which lines a reading holds is known only when it is opened: it may be the head.
    const bool mayHaveHead = pump.curves.contains(CurveQuantity::head) || object.has("readings");
    if (object.valid() && !mayHaveHead) log.add(code::kPumpWithoutHead, at.place, {{"name", pump.name}});
    if (object.has("readings") && pump.readings.empty() && !pump.curves.contains(CurveQuantity::head) &&
        object.value("readings")->value->is_array())
        object.refuse(code::kEmptyList, "readings");
    return pump;
}

} // namespace

std::vector<Pump> readPumps(const std::vector<PlacedValue>& items, ReadLog& log) {
    std::vector<Pump> pumps;
    for (const auto& item : items) {
        pumps.push_back(readPump(item, log));
    }
    std::vector<std::pair<std::string*, std::string>> named;
    for (std::size_t i = 0; i < pumps.size(); ++i) {
        named.emplace_back(&pumps[i].name, items[i].place + ".name");
    }
    settleNames("Pump", std::move(named), log);
    return pumps;
}

} // namespace headmark
