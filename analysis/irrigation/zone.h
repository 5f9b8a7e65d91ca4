#pragma once
// A watering zone as the user describes it: where it leaves the main, its branch and its outlets.

#include "analysis/pipework/run.h"
#include "analysis/units/quantities.h"

#include <optional>
#include <string>

namespace headmark {

// One outlet's law. Power: q = nominal (p/at)^exponent for p > 0, else 0.
// Compensating: nominal from `regulatedFrom` up; below it nominal sqrt(p/regulatedFrom).
struct EmitterLaw {
    Flow nominal;
    Pressure at;
    double exponent = 0.5;
    std::optional<Pressure> regulatedFrom; // both or neither
    std::optional<Pressure> regulatedTo;

    [[nodiscard]] bool compensating() const { return regulatedFrom.has_value(); }
};

struct Emitters {
    std::string type;   // code of emitters.csv; empty: spelled out
    EmitterLaw law;     // of one outlet (of one metre where the type is per metre); whole zone if `whole`
    bool whole = false; // the law is that of the whole zone (total_m3_h)
    std::optional<int> count;              // as written
    std::optional<Length> metres;          // as written
    std::optional<Length> spacing;         // as written
    std::optional<GaugePressure> least;    // lower pressure limit: given, or the type's
    std::optional<GaugePressure> greatest; // upper pressure limit
    std::optional<double> variation;       // coefficient of variation of new emitters: given, or the type's
    bool variationGiven = false;           // it was written in the job
    std::optional<Length> passage;         // smallest opening that water passes in one outlet
    int perPlant = 1;                      // emitters that water one plant
    bool limitsGiven = false;              // the limits were written in the job, not taken from the type

    // Outlets (or metres) that the law is multiplied with; 1 for a whole zone; ignores laterals.
    [[nodiscard]] double outlets() const;
};

struct Laterals {
    int count = 1;
    PipeKind pipe;
    Length length;
    Length spacing;
    bool firstAtHalf = false; // else the first outlet stands a full spacing from the inlet
    double slopeShare = 0.0;  // rise per length, positive when rising away from the inlet
};

struct Zone {
    std::string name;
    std::string takeoff; // empty: the end of the delivery run
    Level level;
    Run branch;
    Emitters emitters;
    std::optional<Laterals> laterals;
    std::optional<Volume> needPerDay;
    std::optional<Area> area;
    std::optional<Length> needDepthPerDay;
};

} // namespace headmark
