#pragma once
// The items of a run of pipe in the order the water meets them, as the user describes them.
// A catalogue code is kept beside the figures taken from it, so that a job is written back as it was read.

#include "analysis/units/quantities.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace headmark {

// What a pipe is made of; bore is the mean bore (catalogue: id_mean_mm).
struct PipeKind {
    std::string code; // id of pipes.csv; empty: spelled out by the user
    Length bore;
    Length roughness; // absolute roughness of the wall
    std::optional<double> hazenWilliamsC;
    std::optional<Pressure> rating; // nominal pressure at 20 C (PVC-U 25 C)
    bool mayBeSuction = true;       // false: collapses under suction
};

struct PipeItem {
    PipeKind kind;
    Length length;
    std::optional<Level> riseTo; // level of the pipe's far end
};

struct FittingItem {
    std::string code;                // code of fittings.csv; empty: spelled out by k or kv
    std::string size;                // "1-1/4"; empty: from the neighbouring bore
    std::optional<double> k;         // loss coefficient on the velocity in `bore`
    std::optional<double> kv_m3_h;   // flow at 1 bar loss
    std::optional<Length> bore;      // overrules size and neighbours
    std::optional<double> angle_deg; // included angle of a conical reducer
    int count = 1;
};

struct FilterItem {
    std::string code; // code of filters.csv; empty: spelled out
    Pressure loss;    // clean, at the flow `at`
    Flow at;
    double exponent = 2.0;
    Pressure service; // the gauge difference at which it is cleaned
    std::optional<Flow> greatestFlow;
};

// The pressure after it is at most `set`; below that it takes at least `leastLoss`.
struct RegulatorItem {
    GaugePressure set;
    Pressure leastLoss;
    std::string code;      // "pressure_regulator_fixed" where taken from the catalogue
    std::string size = {}; // of that fitting, "3/4", as written; no bearing on its loss
};

struct TakeoffItem {
    std::string name;
};

using RunItem = std::variant<PipeItem, FittingItem, FilterItem, RegulatorItem, TakeoffItem>;
using Run = std::vector<RunItem>;

enum class FrictionMethod { darcy, hazenWilliams };

enum class FilterState { clean, service };

} // namespace headmark
