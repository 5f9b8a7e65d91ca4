#pragma once
// A site as described: water, source, runs, zones, and the case asked about. Defaults are the job file's.

#include "analysis/irrigation/shift_plan.h"
#include "analysis/irrigation/zone.h"
#include "analysis/pipework/rules.h"
#include "analysis/pipework/run.h"
#include "analysis/units/quantities.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace headmark {

struct WaterConditions {
    Temperature temperature = Temperature::fromCelsius(15.0);
    Length altitude = Length::fromMetres(0.0); // of the site above the sea
};

struct WaterSource {
    std::string kind; // code of water_sources.csv; empty: not said
    Level low, usual, high;
    bool levelsGiven = true; // false: taken at 0 m, and the suction is not judged
    std::optional<Volume> volume;
    std::optional<Flow> refill;
    std::optional<Level> stopLevel;
    std::optional<Level> mouth; // upper edge of the suction's open end; a floating inlet has none
    std::optional<Level> floor; // of tank or bed below it
    std::string dryRunDevice;   // what stops the pump before it runs dry; empty: not said
};

struct TankReturn {
    PipeItem pipe;
    std::optional<Flow> setFlow; // measured with every zone shut and usual water
    std::optional<double> valveKv_m3_h;
    std::optional<Level> outletLevel; // empty: the source's surface
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
    ShiftObjective objective = ShiftObjective::time; // of the shift plan
    std::vector<std::vector<std::string>> together;  // lists of zones that must run in one shift
    std::vector<std::vector<std::string>> apart;     // lists of zones no two of which may
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
    std::optional<WaterSource> source; // empty: water at 0 m, the suction is not judged
    Level pumpLevel;
    Run suction;
    Run delivery;
    std::optional<TankReturn> tankReturn;
    ControlKind control = ControlKind::withZones;
    std::optional<Controller> controller;
    std::optional<Vessel> vessel;
    std::optional<GaugePressure> hold;
    std::optional<Duration> valveClosing; // in which a zone valve takes the last of the flow away
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
    bool asDelivered = true;                 // else as printed
    Head npshMargin = Head::fromMetres(0.6); // ANSI/HI 9.6.1 guidance, water pumps
    double npshMarginShare = 0.1;            // same
    bool npshMarginOwn = false;              // the job sets them; else the table of limits does
    bool preferredBandOnly = false;
    Rules rules; // of the trade, with what the job sets in their place
};

// One sigma of what the site description does not know exactly.
struct Uncertainty {
    Head level = Head::fromMetres(0.1);
    double lengthShare = 0.05;
    double roughnessShare = 0.3;
    double kShare = 0.2;
    double emitterShare = 0.03;
};

} // namespace headmark
