// What is wrong or missing in the run as described. Sources: water_sources.csv (trade practice) and common
// practice, no source, as each finding says.
#include "analysis/connections/slots.h"

#include "analysis/pipework/catalogue.h"

#include <algorithm>
#include <map>

namespace headmark::connections {

namespace {

const char* const kSourcesTable = "water_sources.csv: trade practice";

bool holdsWater(const Slot& slot) {
    return slot.origin == PartOrigin::run && (isGroup(slot, "foot-valve") || isGroup(slot, "check-valve") ||
                                              slot.item == "floating_inlet_check");
}

class FaultFinder {
  public:
    FaultFinder(const SheetPlan& plan, ConnectionSheet& sheet) : plan_(plan), sheet_(sheet) {}

    void find() {
        source();
        threads();
        suctionParts();
        tankSide();
        checkValves(plan_.inlet, "suction");
        checkValves(plan_.delivery, "delivery");
        control();
        hoseClamps();
        joints();
        ratings();
        choices();
        losses();
    }

  private:
    void add(std::string code, Severity severity, const std::string& place, std::string remedy,
             Facts values = {}, const char* source = "common practice, no source") {
        Caution caution = fault(std::move(code), severity, place, std::move(remedy), source);
        caution.values = std::move(values);
        sheet_.findings.push_back(std::move(caution));
    }

    void source() {
        const auto& given = plan_.site().source;
        if (!given || given->kind.empty())
            add("source-kind-not-said", Severity::note, "source", "say-source-kind");
        const bool run = !plan_.site().suction.empty();
        if (given && given->kind == "well_deep" && run)
            add("surface-pump-beyond-lift", Severity::danger, "source", "use-submersible-pump", {},
                kSourcesTable);
        if (given && given->kind == "mains_break_tank")
            add("air-gap-at-break-tank", Severity::note, "source", "keep-the-air-gap",
                {{"gap_mm", findLimit("air_gap")->value.value_or(0.0)}}, "WRAS interpretation I31 (2012)");
        if (given && given->kind == "mains_direct_boost" && plan_.site().tankReturn)
            add("return-into-the-mains", Severity::danger, "tank_return", "leave-return-out-at-mains", {},
                "Water Supply (Water Fittings) Regulations 1999");
        if (given && !given->kind.empty()) dryRun(*given);
    }

    void dryRun(const WaterSource& source) {
        std::vector<std::string> usual;
        for (const std::string_view device : dryRunDevices(source.kind))
            usual.emplace_back(device);
        if (usual.empty()) return;
        if (source.dryRunDevice.empty())
            add("dry-run-device-not-said", Severity::note, "source", "say-dry-run-device",
                {{"devices", usual}}, kSourcesTable);
        else if (std::find(usual.begin(), usual.end(), source.dryRunDevice) == usual.end())
            add("dry-run-device-unsuitable", Severity::warning, "source", "fit-dry-run-device",
                {{"device", source.dryRunDevice}, {"devices", usual}}, kSourcesTable);
        if (source.dryRunDevice.empty() || source.stopLevel) return;
        if (source.dryRunDevice == "float" || source.dryRunDevice == "electrode")
            add("stop-level-not-said", Severity::note, "source", "say-stop-level");
    }

    void threads() {
        if (!plan_.inletSaid && !sheet_.submersible)
            add("pump-thread-not-said", Severity::note, "pump", "give-pump-threads",
                {{"size", plan_.inletPort.size}});
        else if (!plan_.outletSaid)
            add("pump-thread-not-said", Severity::note, "pump", "give-pump-threads",
                {{"size", plan_.outletPort.size}});
        if (!plan_.inletSaid || sheet_.submersible || plan_.suction == SuctionKind::mains) return;
        for (const Slot& slot : plan_.inlet.slots) {
            if (slot.isPipe && slot.origin == PartOrigin::run &&
                threadSizeIndex(slot.size) < threadSizeIndex(plan_.inletPort.size)) {
                add("suction-narrower-than-pump", Severity::warning, slot.place, "wider-suction",
                    {{"size", slot.size}, {"limit_size", plan_.inletPort.size}});
                return;
            }
        }
    }

    void suctionParts() {
        for (const Slot& slot : plan_.inlet.slots) {
            if (slot.origin != PartOrigin::run) continue;
            if (slot.isPipe && !slot.mayBeSuction)
                add("plain-hose-on-suction", Severity::danger, slot.place, "use-helix-hose", {},
                    kSourcesTable);
            if (slot.item == "ball_valve_reduced_bore")
                add("reduced-bore-on-suction", Severity::warning, slot.place, "use-full-bore-valve", {},
                    kSourcesTable);
            else if (isGroup(slot, "isolating-valve") && plan_.lifts())
                add("valve-on-suction-lift", Severity::note, slot.place, "leave-valve-out", {},
                    kSourcesTable);
            if (isGroup(slot, "filter"))
                add("fine-filter-on-suction", Severity::warning, slot.place, "filter-after-pump");
            if (isGroup(slot, "throttling-valve"))
                add("throttling-on-suction", Severity::warning, slot.place, "use-full-bore-valve");
        }
    }

    // A pipe that cannot give way between a plastic wall and a pump that shakes.
    void tankSide() {
        if (plan_.suction != SuctionKind::flooded || !plan_.choices().plasticTank) return;
        std::string rigid;
        for (const Slot& slot : plan_.inlet.slots) {
            if (isGroup(slot, "flexible") || (slot.isPipe && !slot.rigid)) return;
            if (slot.isPipe && rigid.empty()) rigid = slot.place;
        }
        if (!rigid.empty() || plan_.site().suction.empty())
            add("rigid-pipe-on-plastic-tank", Severity::warning, rigid.empty() ? "suction" : rigid,
                "add-flexible-connector");
    }

    void checkValves(const Chain& chain, const std::string&) {
        std::vector<const Slot*> holding;
        for (const Slot& slot : chain.slots) {
            if (holdsWater(slot) && slot.line != SheetLine::main) holding.push_back(&slot);
        }
        if (holding.size() > 1)
            add("check-valve-twice", Severity::warning, holding[1]->place, "keep-one-check-valve");
        const bool needed = plan_.suction == SuctionKind::flooded && &chain == &plan_.inlet;
        const auto& given = plan_.site().source;
        const bool falls = given && (given->kind == "tank_drawn_below_pump" ||
                                     (given->levelsGiven && given->low < plan_.site().pumpLevel));
        if (needed && !falls && !holding.empty())
            add("check-valve-on-flooded-suction", Severity::note, holding.front()->place,
                "move-check-valve-to-delivery", {}, kSourcesTable);
    }

    void control() {
        const Site& site = plan_.site();
        if (site.control != ControlKind::pressureHeld) return;
        if (site.tankReturn)
            add("return-on-pressure-held", Severity::warning, "tank_return", "leave-return-out");
        if (!site.vessel && !site.hold) add("no-vessel", Severity::warning, "vessel", "add-vessel");
    }

    void hoseClamps() {
        const Clamp clamp = plan_.choices().clamp;
        if (clamp == Clamp::heavyBand) return;
        for (const PlacedJoint& joint : sheet_.joints) {
            if (joint.verdict.right || joint.verdict.remedy != "use-heavy-band-clamp") continue;
            const PlacedPart& hose =
                sheet_.parts[joint.after].length ? sheet_.parts[joint.after] : sheet_.parts[joint.before];
            // A hose has two ends, and one word is enough.
            const bool said =
                std::any_of(sheet_.findings.begin(), sheet_.findings.end(), [&](const Caution& c) {
                    return c.code == joint.verdict.code && c.place == hose.place;
                });
            if (!said) add(joint.verdict.code, Severity::danger, hose.place, joint.verdict.remedy);
        }
    }

    void joints() {
        for (const PlacedPart& part : sheet_.parts) {
            if (part.part == "adaptor_to_suit")
                add("no-listed-adaptor", Severity::warning, nearestPlace(part), "find-adaptor");
            if (part.part == "fitting_to_suit" && findFitting(part.item))
                add("part-not-in-size", Severity::warning, part.place, "check-size",
                    {{"fitting", part.item}, {"size", part.size.a}});
        }
    }

    // Of the run item that comes next, or the last before it.
    std::string nearestPlace(const PlacedPart& part) const {
        const auto index = static_cast<std::size_t>(&part - sheet_.parts.data());
        for (std::size_t i = index; i < sheet_.parts.size(); ++i) {
            if (!sheet_.parts[i].place.empty()) return sheet_.parts[i].place;
        }
        return {};
    }

    // Once for every kind of part, with the highest pressure that one of them sees.
    void ratings() {
        std::map<std::string, Caution> weak;
        for (const PlacedPart& part : sheet_.parts) {
            const auto rating = part.row().rating;
            const bool wet = part.line != SheetLine::control && part.line != SheetLine::pump;
            if (!rating || !wet || part.length) continue;
            const auto pressure = plan_.pressureAt(part.line == SheetLine::inlet, part.above_m);
            if (!pressure || pressure->inPascals() <= rating->inPascals()) continue;
            const auto [at, fresh] = weak.try_emplace(part.part);
            Caution& caution = at->second;
            if (fresh) {
                caution = fault("part-rating-exceeded", Severity::danger, part.place, "stronger-part");
                caution.values = {{"part", part.part},
                                  {"count", std::int64_t{0}},
                                  {"pressure_kPa", 0.0},
                                  {"limit_kPa", rating->inKilopascals()}};
            }
            std::get<std::int64_t>(caution.values[1].value) += part.count;
            double& highest = std::get<double>(caution.values[2].value);
            highest = std::max(highest, pressure->inKilopascals());
        }
        for (auto& [part, caution] : weak)
            sheet_.findings.push_back(std::move(caution));
    }

    // What the user chose and the sheet could not use.
    void choices() {
        for (const auto& [slot, part] : plan_.choices().parts) {
            const bool used = std::any_of(sheet_.parts.begin(), sheet_.parts.end(),
                                          [&](const PlacedPart& p) { return p.part == part; });
            if (!used)
                add("choice-not-used", Severity::note, slot.find('[') == std::string::npos ? "" : slot,
                    "choose-another-part", {{"part", part}});
        }
    }

    void losses() {
        if (sheet_.uncounted.empty()) return;
        const bool allowance = plan_.site().fittingsAllowanceShare > 0.0;
        add(allowance ? "losses-in-allowance" : "losses-not-in-run", Severity::note, "",
            allowance ? "" : "add-sheet-parts-to-run",
            {{"count", static_cast<std::int64_t>(sheet_.uncounted.size())}});
    }

    const SheetPlan& plan_;
    ConnectionSheet& sheet_;
};

} // namespace

Caution fault(std::string code, Severity severity, std::string place, std::string remedy,
              std::string source) {
    Caution caution;
    caution.code = std::move(code);
    caution.severity = severity;
    caution.place = std::move(place);
    caution.remedy = std::move(remedy);
    caution.source = std::move(source);
    return caution;
}

void findFaults(const SheetPlan& plan, ConnectionSheet& sheet) {
    sheet.findings.insert(sheet.findings.begin(), plan.findings.begin(), plan.findings.end());
    FaultFinder(plan, sheet).find();
}

} // namespace headmark::connections
