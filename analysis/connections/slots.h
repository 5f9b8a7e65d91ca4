#pragma once
// How a sheet is put together, before parts are chosen: slots in the water's order, each with the parts that
// may stand there; claims of run items that adapters fulfil; accessories that hang on tees. Internal to
// analysis/connections.

#include "analysis/connections/connection_sheet.h"

namespace headmark::connections {

struct Candidate {
    const PartRow* part = nullptr;
    PartSize size;
    std::vector<End> ends;
    double cost = 0.0;
};

// What hangs on a tee's branch, from the tee outwards.
struct BranchPart {
    std::vector<Candidate> candidates;
    std::string place, item, slot, purpose;
    std::optional<Length> length;
    PartOrigin origin = PartOrigin::added;
};

struct Slot {
    std::vector<Candidate> candidates; // never empty
    std::string kind;                  // group of the parts asked for, also where a stand-in stands
    std::string place, item, slot, purpose;
    PartOrigin origin = PartOrigin::run;
    SheetLine line = SheetLine::inlet;
    std::size_t runIndex = 0; // for added ones: the item it would stand before
    std::string size;         // nominal thread size there
    int count = 1;
    std::optional<Length> length;
    double above_m = 0.0;     // the pump; the lower end of a pipe
    bool mayBeSuction = true; // pipes
    bool rigid = false;       // pipes
    bool isPipe = false;      // pipe or hose
    bool hangs = false;       // in the water with its pump
    std::vector<BranchPart> branch;

    [[nodiscard]] const std::string& group() const {
        return kind.empty() ? candidates.front().part->group : kind;
    }
};

// A run item that an inserted adapter stands for.
struct Claim {
    std::string fitting, place;
    std::size_t slot = 0; // it stands before this slot
    int count = 1;
};

struct Chain {
    std::vector<Slot> slots;
    std::vector<Claim> claims;
};

enum class SuctionKind { flooded, lift, floating, submersible, mains };

struct SheetPlan {
    const SheetInput* input = nullptr;
    SuctionKind suction = SuctionKind::flooded;
    PortEnd inletPort, outletPort;
    bool inletSaid = true, outletSaid = true;
    Chain inlet, delivery; // delivery: outlet and main
    Cautions findings;

    [[nodiscard]] const Site& site() const { return *input->site; }
    [[nodiscard]] const SheetChoices& choices() const { return input->choices; }
    // What stands there with every valve shut; empty: not known.
    [[nodiscard]] std::optional<GaugePressure> pressureAt(bool suction, double above_m) const;
    [[nodiscard]] bool lifts() const {
        return suction == SuctionKind::lift || suction == SuctionKind::floating;
    }
};

// --- run_parts.cpp
// The nominal thread size of each item of a run; `otherwise` where nothing tells.
[[nodiscard]] std::vector<std::string> itemSizes(const Run& run, const std::string& otherwise);
// The slots and claims of a run, `prefix` "suction" or "delivery".
[[nodiscard]] Chain runChain(const Run& run, std::string_view prefix, const SheetPlan& plan,
                             const std::string& otherwise);
[[nodiscard]] Slot pipeSlot(const PipeItem& pipe);
[[nodiscard]] std::string threadSizeOfPipe(const PipeItem& pipe);

// --- sheet_slots.cpp
[[nodiscard]] std::vector<Candidate> candidatesOf(const std::vector<std::string>& codes,
                                                  const std::string& size, const SheetPlan& plan,
                                                  std::string_view slotKey);
// fitting_to_suit with as many ends as that part has.
[[nodiscard]] Candidate standInFor(const PartRow& wanted, const std::string& size);
// A part that good practice adds, of these codes (first choice first).
[[nodiscard]] Slot addedSlot(const std::vector<std::string>& codes, const std::string& size,
                             std::string_view purpose, std::string_view key, const SheetPlan& plan);
[[nodiscard]] bool isGroup(const Slot& slot, std::string_view group);
// Index of the first slot of the group at or after `from`, or the number of slots.
[[nodiscard]] std::size_t firstOf(const Chain& chain, std::string_view group, std::size_t from = 0);
// Inserts, moving the claims behind it.
void insertSlot(Chain& chain, std::size_t at, Slot slot);
// Whether it lets the line be taken apart by hand.
[[nodiscard]] bool comesApart(const Slot& slot);
// A parallel male port takes a loose nut, which opens like a union.
[[nodiscard]] bool nutOnPort(const PortEnd& port);

// --- sheet_branches.cpp
enum class Accessory {
    gauge,
    compoundGauge,
    airVent,
    drain,
    fillingPlug,
    pressureSwitch,
    lowPressureSwitch,
    pressureSensor,
    reliefValve,
    flowSwitch,
    vessel,
    tankReturn
};
// Hangs an accessory on a tee put in before slot `at`; a tee of the run that has no branch yet and stands at
// `from` to `to` is used first. Gives the index of the tee.
std::size_t hang(Chain& chain, std::size_t at, std::size_t from, std::size_t to, Accessory accessory,
                 std::string_view purpose, const SheetPlan& plan, SheetLine line);

// --- sheet_inlet.cpp, sheet_outlet.cpp
void completeInlet(SheetPlan& plan);
void completeOutlet(SheetPlan& plan);
// --- sheet_joining.cpp
void placeChains(const SheetPlan& plan, ConnectionSheet& sheet);
// --- sheet_claims.cpp
struct InsertedAdapter {
    std::size_t part = 0; // index in the sheet
    std::size_t gap = 0;  // before which slot
};
void settleClaims(const std::vector<Claim>& claims, const std::vector<InsertedAdapter>& adapters,
                  ConnectionSheet& sheet);
// `runIndexOf`: parts of one line by the run's item they stand before.
void addUncounted(const std::map<std::size_t, std::size_t>& runIndexOf, bool suction, ConnectionSheet& sheet);
// --- connection_sheet.cpp
// The device that stops the pump before it runs dry: as the job says it, else the source's usual one.
[[nodiscard]] std::string_view chosenDevice(const SheetPlan& plan);
// What may stop the pump before that source runs dry, as a job says it ("float"), the usual one first.
[[nodiscard]] std::vector<std::string_view> dryRunDevices(const std::string& kind);
// --- sheet_findings.cpp
void findFaults(const SheetPlan& plan, ConnectionSheet& sheet);
[[nodiscard]] Caution fault(std::string code, Severity severity, std::string place, std::string remedy,
                            std::string source = "common practice, no source");

} // namespace headmark::connections
