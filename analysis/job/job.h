#pragma once
// The job document: site, pumps and question, as read from a "headmark-job" file, before any computing.
// Every default here is the contract's. Optional fields stay empty when the file leaves them out.

#include "analysis/irrigation/zone.h"
#include "analysis/pipework/run.h"
#include "analysis/units/quantities.h"

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace headmark {

struct WaterConditions {
    Temperature temperature = Temperature::fromCelsius(15.0);
    Length altitude = Length::fromMetres(0.0); // of the site above the sea
};

struct EnergyTariff {
    std::optional<double> pricePerKilowattHour;
    std::string currency;
};

enum class CurveQuantity { head, efficiency, power, npshRequired };

// A curve typed as points; value in SI of the quantity (m, share, W, m).
struct CurvePoints {
    struct At {
        Flow flow;
        double value = 0.0;
    };
    std::vector<At> points;
    std::optional<int> degree;
    double sigmaShare = 0.0; // one sigma of the values as a share; 0: exact up to four points
};

// A reading file (or one inside the job) and which of its lines is which quantity.
struct ReadingUse {
    std::string path;                                // relative to the job file
    std::map<CurveQuantity, std::string> lines;      // quantity to line name
};

struct Motor {
    std::optional<Power> rated;
    std::optional<Efficiency> efficiency;
    std::string supply;
};

struct Pump {
    std::string name;
    std::vector<ReadingUse> readings;
    std::map<CurveQuantity, CurvePoints> curves;
    bool powerAtMotorInput = false; // of curves.power
    std::optional<RotationalSpeed> chartSpeed;
    std::optional<RotationalSpeed> runSpeed;
    std::optional<Motor> motor;
    std::string inletThread, outletThread;
    std::optional<GaugePressure> greatestPressure;
    std::optional<double> deliveredHeadShare; // maker's tolerance; empty: by rated power
    std::optional<std::pair<double, double>> allowableShare;
};

struct WaterSource {
    std::string kind; // code of water_sources.csv; empty: not said
    Level low, usual, high;
    std::optional<Volume> volume;
    std::optional<Flow> refill;
    std::optional<Level> stopLevel;
};

struct TankReturn {
    PipeItem pipe;
    std::optional<Flow> setFlow;         // measured with every zone shut and usual water
    std::optional<double> valveKv_m3_h;
    std::optional<Level> outletLevel;    // empty: the source's surface
};

struct Vessel {
    Volume volume;
    GaugePressure precharge, cutIn, cutOut;
};

enum class ControlKind { withZones, pressureHeld };

struct Controller {
    std::optional<int> stations;
    std::optional<int> valvesAtOnce;
    std::optional<std::pair<std::string, std::string>> window; // "21:00", "05:00"
    std::optional<Duration> startDelay;
};

// One outlet instead of zones, such as a tank to be filled.
struct OutletEnd {
    Level level;
    GaugePressure pressure;
};

// A known system curve instead of a run: static head and resistance, or points (monotone cubic).
struct KnownSystem {
    std::optional<Head> staticHead;
    std::optional<double> resistance_m_per_m3_h_2;
    struct At {
        Flow flow;
        Head head;
    };
    std::vector<At> points;
};

struct Site {
    std::optional<WaterSource> source; // needed unless `system` is given
    Level pumpLevel;
    Run suction;
    Run delivery;
    std::optional<TankReturn> tankReturn;
    ControlKind control = ControlKind::withZones;
    std::optional<Controller> controller;
    std::optional<Vessel> vessel;
    std::optional<GaugePressure> hold;
    FrictionMethod friction = FrictionMethod::darcy;
    double fittingsAllowanceShare = 0.0; // added share of pipe friction for what is not listed
    std::vector<Zone> zones;             // exactly one of zones, end, system
    std::optional<OutletEnd> end;
    std::optional<KnownSystem> system;
};

enum class WaterLevel { low, usual, high };

struct Case {
    std::string name;
    std::vector<std::string> zonesOpen;
    WaterLevel level = WaterLevel::usual;
    FilterState filter = FilterState::clean;
    double speedShare = 1.0;
};

struct Limits {
    bool asDelivered = true;                     // else as printed
    Head npshMargin = Head::fromMetres(0.6);     // ANSI/HI 9.6.1 guidance, water pumps
    double npshMarginShare = 0.1;                // same
    bool preferredBandOnly = false;
};

// One sigma of what the site description does not know exactly.
struct Uncertainty {
    Head level = Head::fromMetres(0.1);
    double lengthShare = 0.05;
    double roughnessShare = 0.3;
    double kShare = 0.2;
    double emitterShare = 0.03;
};

struct GaugeTap {
    Level level;
    Length bore;
};

struct FieldPoint {
    GaugePressure inlet, outlet;
    bool zonesShut = false;
    std::optional<Flow> flow;
    std::optional<Volume> volume;
    std::optional<Duration> time;
    std::optional<Power> input;
    std::optional<double> amps, volts, powerFactor;
    std::optional<int> phases;
};

struct FieldCheck {
    std::string pump;
    std::optional<RotationalSpeed> speed;
    GaugeTap inlet, outlet;
    std::vector<FieldPoint> points;
    Pressure sigmaPressure = Pressure::fromKilopascals(2.0);
    double sigmaFlowShare = 0.02;
    double sigmaPowerShare = 0.02;
    std::optional<std::pair<Flow, Head>> guarantee;
    std::optional<Duration> perYear;
};

struct Job {
    std::string title, notes;
    WaterConditions water;
    EnergyTariff energy;
    std::vector<Pump> pumps;
    Site site;
    std::vector<Case> cases;
    bool casesGiven = false;
    Limits limits;
    Uncertainty uncertainty;
    std::optional<FieldCheck> fieldCheck;
    std::string madeBy;
};

} // namespace headmark
