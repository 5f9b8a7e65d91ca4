#include "analysis/connections/connection_sheet.h"

#include "analysis/connections/slots.h"
#include "analysis/core/assertion.h"
#include "analysis/core/csv.h"
#include "analysis/pipework/catalogue.h"
#include "analysis/units/unit_factors.h"

#include <algorithm>
#include <string_view>

namespace headmark::embedded {
std::string_view water_sources_csv();
}

namespace headmark {

namespace connections {
namespace {

bool anyFitting(const Run& run, std::string_view beginning) {
    return std::any_of(run.begin(), run.end(), [&](const RunItem& item) {
        const auto* fitting = std::get_if<FittingItem>(&item);
        return fitting && fitting->code.starts_with(beginning);
    });
}

// Where the kind is not said, the run and the levels tell.
SuctionKind guessedSuction(const Site& site) {
    if (anyFitting(site.suction, "floating_inlet")) return SuctionKind::floating;
    if (anyFitting(site.suction, "foot_valve") || anyFitting(site.suction, "suction_strainer_basket"))
        return SuctionKind::lift;
    const bool below = site.source && site.source->levelsGiven && site.source->usual < site.pumpLevel;
    return below ? SuctionKind::lift : SuctionKind::flooded;
}

struct KindOf {
    std::string_view source;
    SuctionKind kind;
};
constexpr KindOf kKinds[] = {{"raised_tank", SuctionKind::flooded},
                             {"tank_drawn_below_pump", SuctionKind::flooded},
                             {"mains_break_tank", SuctionKind::flooded},
                             {"rain_butts", SuctionKind::flooded},
                             {"buried_tank", SuctionKind::lift},
                             {"open_channel", SuctionKind::lift},
                             {"well_shallow", SuctionKind::lift},
                             {"pond_lake", SuctionKind::floating},
                             {"buried_tank_submersible", SuctionKind::submersible},
                             {"well_deep", SuctionKind::submersible},
                             {"mains_direct_boost", SuctionKind::mains}};

SuctionKind suctionKind(const Site& site) {
    if (site.source) {
        for (const KindOf& known : kKinds) {
            if (known.source == site.source->kind) return known.kind;
        }
    }
    return guessedSuction(site);
}

// The port as said, else of the run's size as a G thread.
Result<PortEnd> port(const std::string& text, const Run& run, bool suction, const char* place) {
    if (!text.empty()) {
        Result<PortEnd> parsed = parsedPort(text);
        if (parsed) return parsed;
        Error error = parsed.error();
        error.place = place;
        return error;
    }
    const std::vector<std::string> sizes = itemSizes(run, "1-1/4");
    PortEnd assumed;
    assumed.size = sizes.empty() ? "1-1/4" : (suction ? sizes.back() : sizes.front());
    return assumed;
}

Result<void> checkedChoices(const SheetChoices& choices) {
    for (const auto& [slot, code] : choices.parts) {
        if (!findPart(code)) return Error{"unknown-part", "", slot, {{"part", code}, {"slot", slot}}};
    }
    return {};
}

struct Device {
    std::string_view said, word, part; // as a job says it, in the column of water_sources.csv, in parts.csv
};
constexpr Device kDevices[] = {{"float", "float", "level_switch_float"},
                               {"electrode", "electrode", "level_electrodes"},
                               {"under-current", "under-current", "under_current_relay"},
                               {"flow-switch", "flow", "flow_switch"},
                               {"pressure-switch", "pressure switch", "pressure_switch_low"}};

std::string_view devicesText(const std::string& kind) {
    static const CsvTable table(embedded::water_sources_csv());
    for (std::size_t i = 0; i < table.rows(); ++i) {
        if (table.text(i, "code") == kind) return table.text(i, "dry_run_protection");
    }
    return "float";
}

void placeControl(const SheetPlan& plan, ConnectionSheet& sheet) {
    const auto add = [&](std::string code, std::string purpose) {
        PlacedPart part;
        const auto chosen = plan.choices().parts.find("control." + purpose);
        part.part = chosen == plan.choices().parts.end() ? std::move(code) : chosen->second;
        part.line = SheetLine::control;
        part.origin = PartOrigin::added;
        part.slot = "control." + purpose;
        part.purpose = std::move(purpose);
        sheet.parts.push_back(std::move(part));
    };
    const std::string_view device = chosenDevice(plan);
    for (const Device& known : kDevices) {
        // Switches for flow and pressure stand in the line, where inlet and outlet place them.
        const bool inLine = known.said == "flow-switch" || known.said == "pressure-switch";
        if (known.said == device && !inLine) add(std::string(known.part), "dry-run");
    }
    if (sheet.submersible) {
        add("lifting_rope", "lifting-rope");
        add("submersible_cable", "submersible-cable");
    }
    // A tank to be filled calls for its water itself.
    const bool fillsTank = plan.site().end && plan.site().end->pressure.inPascals() <= 0.0;
    if (fillsTank) add("level_switch_float", "fill-level");
    if (plan.site().hold)
        add("variable_speed_drive", "variable-speed-drive");
    else if (plan.site().control == ControlKind::pressureHeld)
        add("start_relay", "start-relay-pressure");
    else
        add("start_relay", fillsTank         ? "start-relay-fill"
                           : plan.site().end ? "start-relay-hand"
                                             : "start-relay-zones");
}

// Levels of a run's slots over the pump, where its pipes tell them.
void setLevels(Chain& chain, const Run& run, const Site& site) {
    double above_m = 0.0;
    for (Slot& slot : chain.slots) {
        slot.above_m = above_m;
        const bool listed = slot.isPipe && slot.origin == PartOrigin::run && slot.runIndex < run.size();
        const auto* pipe = listed ? std::get_if<PipeItem>(&run[slot.runIndex]) : nullptr;
        if (!pipe || !pipe->riseTo) continue;
        above_m = (*pipe->riseTo - site.pumpLevel).inMetres();
        slot.above_m = std::min(slot.above_m, above_m);
    }
}

} // namespace

std::string_view chosenDevice(const SheetPlan& plan) {
    const auto& source = plan.site().source;
    if (source && !source->dryRunDevice.empty()) return source->dryRunDevice;
    const std::vector<std::string_view> usual = dryRunDevices(source ? source->kind : std::string());
    return usual.empty() ? std::string_view() : usual.front();
}

std::optional<GaugePressure> SheetPlan::pressureAt(bool before, double above_m) const {
    const auto& greatest = before ? input->greatestInletPressure : input->greatestPressure;
    if (!greatest) return std::nullopt;
    return GaugePressure::fromPascals(greatest->inPascals() - above_m * factor::kMetreOfWater_Pa);
}

// In the order in which the table names them: the usual one first.
std::vector<std::string_view> dryRunDevices(const std::string& kind) {
    const std::string_view text = devicesText(kind);
    std::vector<std::pair<std::size_t, std::string_view>> found;
    for (const Device& device : kDevices) {
        if (const std::size_t at = text.find(device.word); at != std::string_view::npos)
            found.emplace_back(at, device.said);
    }
    std::sort(found.begin(), found.end());
    std::vector<std::string_view> devices;
    for (const auto& [at, said] : found)
        devices.push_back(said);
    return devices;
}

} // namespace connections

const PartRow& PlacedPart::row() const {
    const PartRow* found = findPart(part);
    HEADMARK_ASSERT(found, "a placed part that is not in parts.csv");
    return *found;
}

Result<ConnectionSheet> connectionSheet(const SheetInput& input) {
    using namespace connections;
    HEADMARK_ASSERT(input.site, "a connection sheet without a site");
    if (const auto checked = checkedChoices(input.choices); !checked) return checked.error();
    SheetPlan plan;
    plan.input = &input;
    plan.suction = suctionKind(*input.site);
    const auto inlet = port(input.inletThread, input.site->suction, true, "inlet_thread");
    if (!inlet) return inlet.error();
    const auto outlet = port(input.outletThread, input.site->delivery, false, "outlet_thread");
    if (!outlet) return outlet.error();
    plan.inletPort = *inlet;
    plan.outletPort = *outlet;
    plan.inletSaid = !input.inletThread.empty();
    plan.outletSaid = !input.outletThread.empty();
    plan.inlet = runChain(input.site->suction, "suction", plan, plan.inletPort.size);
    plan.delivery = runChain(input.site->delivery, "delivery", plan, plan.outletPort.size);
    completeInlet(plan);
    completeOutlet(plan);
    // A suction's items stand between the source and the pump: judged at the pump's level.
    setLevels(plan.delivery, input.site->delivery, *input.site);

    ConnectionSheet sheet;
    sheet.lift = plan.lifts();
    sheet.submersible = plan.suction == SuctionKind::submersible;
    sheet.sourceKind = input.site->source ? input.site->source->kind : std::string();
    placeChains(plan, sheet);
    placeControl(plan, sheet);
    findFaults(plan, sheet);
    return sheet;
}

} // namespace headmark
