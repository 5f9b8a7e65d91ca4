#pragma once
// The connection sheet: every part between source, pump and main in the order the water meets them, what
// joins and seals them, and what is wrong or missing in the run as described.
//   inlet   source to pump; outlet: pump to the first pipe of the main, with it; main: the rest of the
//           delivery run; control: what has no water in it (float switch, relay)
// Every item of a run that is a part stands once, by its place ("suction[0]", count times where it repeats);
// adapters are put in where ends or sizes change; what good practice adds (union, gauges, plug, drain, vent,
// check valve) is put in where the run lacks it and marked `added`.
// Rules of what belongs where: water_sources.csv and common practice, no source, as each finding says.
// The main begins at the first delivery pipe of 10 m or more, or the first followed by a take-off or the
// run's end (common practice, no source).

#include "analysis/connections/bridge.h"
#include "analysis/core/finding.h"
#include "analysis/duty/site.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace headmark {

// What the user chooses about the sheet.
struct SheetChoices {
    Exposure exposure = Exposure::sheltered;
    bool temporary = false; // a set that is carried away: quick coupler to the main
    bool plasticTank = true;
    bool plasticPumpPorts = false;
    Clamp clamp = Clamp::heavyBand;
    // Part chosen for a slot: key is the place of a run item ("suction[0]") or the slot of an added part
    // ("outlet.check-valve") or of adapters of a group ("inlet.tail").
    std::map<std::string, std::string> parts;

    bool operator==(const SheetChoices&) const = default;
};

struct SheetInput {
    const Site* site = nullptr;            // not owned
    std::string inletThread, outletThread; // as in the job; empty: not said, then the run's size is taken
    SheetChoices choices;
    // Highest that stand at the pump's level, to judge ratings and to choose parts by: behind the pump with
    // every valve shut, and before it. Less by rho g for what stands higher (water at 1000 kg/m3).
    std::optional<GaugePressure> greatestPressure, greatestInletPressure;
};

enum class SheetLine { inlet, pump, outlet, main, control };
enum class PartOrigin { run, adapter, added };

struct PlacedPart {
    std::string part; // code of parts.csv; "pipe", "hose" and "pump" stand for what the job describes
    PartSize size;
    std::vector<End> ends; // as the water meets them; third: branch; accessories have one
    SheetLine line = SheetLine::inlet;
    PartOrigin origin = PartOrigin::run;
    std::optional<std::size_t> branchOf; // index of the tee it hangs on, directly or through others
    std::string place;                   // of its run item; empty: none
    std::string item;                    // catalogue code of that item ("suction_hose_51"), if any
    std::string slot;                    // key for SheetChoices::parts
    std::string purpose;                 // what it is for, worded in app/words/part_words
    int count = 1;                       // more than one only in the main
    std::optional<Length> length;        // pipes and hoses
    double above_m = 0.0;                // over the pump; 0 where the run tells no level
    bool hangs = false;                  // in the water with its pump, as its riser does

    [[nodiscard]] const PartRow& row() const;
};

struct PlacedJoint {
    std::size_t before = 0, after = 0; // indices of parts, in the water's order
    std::size_t endBefore = 1, endAfter = 0;
    JointVerdict verdict;
};

// A part of the sheet whose loss the run does not count, and where in the run it would stand.
struct UncountedLoss {
    std::size_t part = 0;
    bool suction = false;
    std::size_t before = 0; // index in the run to insert before
    FittingItem item;
};

struct ConnectionSheet {
    std::vector<PlacedPart> parts; // numbers on sheet and drawing are index + 1
    std::vector<PlacedJoint> joints;
    std::size_t pump = 0;
    Cautions findings;
    std::vector<UncountedLoss> uncounted;
    bool lift = false;        // suction below the air's pressure
    bool submersible = false; // the pump hangs in the water
    std::string sourceKind;
};

// A choice that does not fit its place any more (the run was edited) is passed over.
// Errors: those of parsedPort with place "inlet_thread" or "outlet_thread"; "unknown-part" for a choice
// (facts: part, slot).
[[nodiscard]] Result<ConnectionSheet> connectionSheet(const SheetInput& input);

// The site with the losses of the sheet's own parts added to its runs, so that the loss model follows.
[[nodiscard]] Site withSheetLosses(const Site& site, const ConnectionSheet& sheet);

} // namespace headmark
