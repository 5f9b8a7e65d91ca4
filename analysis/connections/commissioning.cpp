#include "analysis/connections/commissioning.h"

namespace headmark {

namespace {

constexpr double kBucket_l = 10.0; // a usual bucket

void put(Facts& facts, const char* key, const std::optional<GaugePressure>& value) {
    if (value) facts.push_back({key, value->inKilopascals()});
}
void put(Facts& facts, const char* key, const std::optional<Pressure>& value) {
    if (value) facts.push_back({key, value->inKilopascals()});
}

class Rows {
  public:
    Rows(const ConnectionSheet& sheet, const ExpectedFigures& expected)
        : sheet_(sheet), expected_(expected) {}

    std::vector<CommissioningRow> made() {
        beforeStart();
        firstStart();
        settings();
        duty();
        return std::move(rows_);
    }

  private:
    std::vector<std::size_t> partsFor(std::string_view purpose) const {
        std::vector<std::size_t> found;
        for (std::size_t i = 0; i < sheet_.parts.size(); ++i) {
            if (sheet_.parts[i].purpose == purpose) found.push_back(i);
        }
        return found;
    }

    void add(std::string code, Facts expected = {}, std::string unitKey = {},
             std::vector<std::size_t> parts = {}) {
        rows_.push_back({std::move(code), std::move(expected), std::move(unitKey), std::move(parts), {}});
    }

    // A reading whose figure may be missing for a reason.
    void addReading(std::string code, Facts expected, const char* key, std::string unitKey,
                    std::vector<std::size_t> parts, const std::string& why) {
        const bool known = findFact(expected, key) != nullptr;
        add(std::move(code), std::move(expected), std::move(unitKey), std::move(parts));
        if (!known) rows_.back().why = why;
    }

    std::vector<std::size_t> startRelays() const {
        std::vector<std::size_t> relays;
        for (const char* purpose :
             {"start-relay-zones", "start-relay-pressure", "start-relay-fill", "start-relay-hand"}) {
            for (const std::size_t part : partsFor(purpose))
                relays.push_back(part);
        }
        return relays;
    }

    void beforeStart() {
        // While no water is in it yet.
        if (const auto vessel = partsFor("vessel"); !vessel.empty()) {
            Facts precharge;
            put(precharge, "pressure_kPa", expected_.precharge);
            add("vessel-precharge", precharge, "reading_kPa", vessel);
        }
        if (sheet_.lift) {
            Facts time;
            if (expected_.primingTime) time.push_back({"priming_min", expected_.primingTime->inMinutes()});
            add("fill-through-plug", time, "", partsFor("filling-plug"));
        } else if (!sheet_.submersible) {
            add("open-suction-valve", {}, "", partsFor("isolating-valve-suction"));
        }
        add(sheet_.submersible ? "vent-line" : "vent", {}, "", partsFor("air-vent"));
        if (!sheet_.submersible) {
            Facts standing;
            put(standing, "pressure_kPa", expected_.inletStandingPressure);
            add("inlet-standing", standing, "reading_kPa", partsFor("gauge-inlet"));
        }
        if (sheet_.lift) add("prime-holds", {}, "reading_min");
    }

    void firstStart() {
        add(sheet_.submersible ? "direction-submersed" : "direction-of-rotation");
        std::vector<std::size_t> devices = partsFor("dry-run");
        for (const char* inLine : {"pressure-switch-low", "flow-switch"}) {
            for (const std::size_t part : partsFor(inLine))
                devices.push_back(part);
        }
        add("dry-run-device", {}, "", devices);
        Facts filling;
        if (expected_.fillingTime) filling.push_back({"filling_min", expected_.fillingTime->inMinutes()});
        add("fill-slowly", filling);
        add("flush-main");
        add(sheet_.submersible ? "leaks-submersed" : "leaks");
        if (partsFor("return-valve").empty()) shutOff("shut-off");
        add("check-valve-holds", {}, "", partsFor("check-valve"));
    }

    // Held by a switch or a drive, the pump never runs against shut valves.
    void shutOff(const char* code) {
        if (!partsFor("pressure-switch").empty() || !partsFor("pressure-sensor").empty()) return;
        Facts shut;
        put(shut, "pressure_kPa", expected_.shutOffPressure);
        addReading(code, shut, "pressure_kPa", "reading_kPa", partsFor("gauge-outlet"),
                   expected_.whyNoShutOff);
    }

    void settings() {
        const auto valve = partsFor("return-valve");
        if (!valve.empty()) {
            const double litres = expected_.bucket ? expected_.bucket->inLitres() : kBucket_l;
            Facts set{{"bucket_l", litres}};
            if (expected_.returnFlow && expected_.returnFlow->inLitresPerSecond() > 0.0) {
                set.push_back({"flow_m3_h", expected_.returnFlow->inCubicMetresPerHour()});
                set.push_back({"time_s", litres / expected_.returnFlow->inLitresPerSecond()});
            }
            add("return-setting", set, "reading_s", valve);
            // Reads what is expected only once the return is set.
            shutOff("shut-off-with-return");
        }
        if (const auto relay = partsFor("start-relay-zones"); !relay.empty())
            add("start-order", {}, "", relay);
        if (const auto level = partsFor("fill-level"); !level.empty()) add("fill-level", {}, "", level);
        const auto pressureSwitch = partsFor("pressure-switch");
        if (!pressureSwitch.empty()) {
            Facts in, out;
            put(in, "pressure_kPa", expected_.cutIn);
            put(out, "pressure_kPa", expected_.cutOut);
            add("switch-cut-in", in, "reading_kPa", pressureSwitch);
            add("switch-cut-out", out, "reading_kPa", pressureSwitch);
        }
        if (const auto relief = partsFor("relief-valve"); !relief.empty()) {
            Facts band;
            put(band, "pressure_kPa", expected_.hold ? expected_.hold : expected_.cutOut);
            put(band, "limit_kPa", expected_.weakestRating);
            add("relief-set", band, "reading_kPa", relief);
        }
        if (const auto low = partsFor("pressure-switch-low"); !low.empty())
            add("low-switch-set", {}, "reading_kPa", low);
        if (const auto relay = startRelays(); !relay.empty()) {
            Facts plate;
            if (expected_.ratedAmps) plate.push_back({"limit_A", *expected_.ratedAmps});
            add("overload-set", plate, "reading_A", relay);
        }
        const auto sensor = partsFor("pressure-sensor");
        if (!sensor.empty()) {
            Facts hold;
            put(hold, "pressure_kPa", expected_.hold);
            add("held-pressure", hold, "reading_kPa", sensor);
        }
    }

    void duty() {
        Facts pressure, inlet, amps;
        put(pressure, "pressure_kPa", expected_.dutyPressure);
        put(inlet, "pressure_kPa", expected_.inletRunningPressure);
        if (expected_.dutyFlow) pressure.push_back({"flow_m3_h", expected_.dutyFlow->inCubicMetresPerHour()});
        if (!expected_.zones.empty() && expected_.dutyFlow) {
            for (Facts* facts : {&pressure, &inlet, &amps})
                facts->push_back({"zones", expected_.zones});
        }
        if (!sheet_.submersible)
            addReading("inlet-running", inlet, "pressure_kPa", "reading_kPa", partsFor("gauge-inlet"),
                       expected_.whyNoDuty);
        addReading("outlet-running", pressure, "pressure_kPa", "reading_kPa", partsFor("gauge-outlet"),
                   expected_.whyNoDuty);
        if (expected_.dutyAmps) amps.push_back({"current_A", *expected_.dutyAmps});
        if (expected_.ratedAmps) amps.push_back({"limit_A", *expected_.ratedAmps});
        addReading(expected_.phases == 1 ? "amps-one-phase" : "amps", amps, "current_A", "reading_A", {},
                   expected_.dutyFlow ? "motor-not-known" : "no-case-may-run");
        Facts volts;
        if (expected_.ratedVolts) volts.push_back({"volts", *expected_.ratedVolts});
        add(expected_.phases == 1 ? "voltage-one-phase" : "voltage", volts, "reading_volts");
        std::vector<std::size_t> filterGauges = partsFor("gauge-before-filter");
        for (std::size_t part : partsFor("gauge-after-filter"))
            filterGauges.push_back(part);
        if (!filterGauges.empty()) {
            Facts filter;
            put(filter, "difference_kPa", expected_.filterClean);
            put(filter, "service_kPa", expected_.filterService);
            add("filter-difference", filter, "reading_kPa", filterGauges);
        }
        add("frost", {}, "", partsFor("drain"));
    }

    const ConnectionSheet& sheet_;
    const ExpectedFigures& expected_;
    std::vector<CommissioningRow> rows_;
};

} // namespace

std::vector<CommissioningRow> commissioningOf(const ConnectionSheet& sheet, const ExpectedFigures& expected) {
    return Rows(sheet, expected).made();
}

} // namespace headmark
