#pragma once
// The job document: site, pumps and question, as read from a "headmark-job" file, before any computing.
// Every default here is the contract's. Optional fields stay empty when the file leaves them out.

#include "analysis/connections/connection_sheet.h"
#include "analysis/duty/pump_model.h"
#include "analysis/duty/site.h"
#include "analysis/units/quantities.h"

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace headmark {

struct EnergyTariff {
    std::optional<double> pricePerKilowattHour;
    std::string currency;
};

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
    std::string path;                           // relative to the job file
    std::map<CurveQuantity, std::string> lines; // quantity to line name
};

// What stands on the motor's plate.
struct MotorPlate {
    std::optional<Power> input;
    std::optional<double> amps, volts, powerFactor;
    std::optional<int> phases;
};

struct Pump {
    std::string name;
    std::vector<ReadingUse> readings;
    std::map<CurveQuantity, CurvePoints> curves;
    bool powerAtMotorInput = false; // of curves.power
    std::optional<RotationalSpeed> chartSpeed;
    std::optional<RotationalSpeed> runSpeed;
    std::optional<Motor> motor;
    MotorPlate plate;
    std::optional<Volume> casing; // water in it
    std::optional<Head> primesTo; // greatest lift that it primes by itself
    std::string inletThread, outletThread;
    std::optional<GaugePressure> greatestPressure;
    std::optional<double> deliveredHeadShare; // maker's tolerance; empty: by rated power
    std::optional<std::pair<double, double>> allowableShare;
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
    SheetChoices connections; // of the connection sheet, for every pump alike
    std::optional<FieldCheck> fieldCheck;
    std::string madeBy;
    std::string
        folder; // where relative paths start: that of the job file; empty: the working one. Not written
    std::map<std::string, std::string> extras; // keys "x_...", by their place, as JSON text; kept, never used
};

} // namespace headmark
