// What good practice adds between source and pump; the kinds of source and their parts are those of
// water_sources.csv.
#include "analysis/connections/slots.h"

namespace headmark::connections {

namespace {

const std::vector<std::string> kUnions{"union_flat_galv", "union_plastic", "union_conical_galv"};

class InletMaker {
  public:
    explicit InletMaker(SheetPlan& plan) : plan_(plan), chain_(plan.inlet) {}

    void complete() {
        switch (plan_.suction) {
        case SuctionKind::submersible:
            return;
        case SuctionKind::flooded:
            flooded();
            fallsBelowPump();
            break;
        case SuctionKind::mains:
            mains();
            break;
        case SuctionKind::lift:
            lifted({"foot_valve_poppet", "foot_valve_hinged"}, "foot-valve");
            break;
        case SuctionKind::floating:
            lifted({"floating_inlet_check", "floating_inlet"}, "floating-inlet");
            break;
        }
        nearPump();
    }

  private:
    // Nominal size of the suction line.
    std::string size() const {
        return chain_.slots.empty() ? plan_.inletPort.size : chain_.slots.back().size;
    }
    std::size_t end() const { return chain_.slots.size(); }
    std::string place() const { return "suction"; }

    void add(std::size_t at, const std::vector<std::string>& codes, std::string_view purpose) {
        const std::string near = at < end() ? chain_.slots[at].size : size();
        Slot slot = addedSlot(codes, near, purpose, "inlet." + std::string(purpose), plan_);
        slot.line = SheetLine::inlet;
        insertSlot(chain_, at, std::move(slot));
    }

    void flooded() {
        if (firstOf(chain_, "tank-connector") == end())
            add(0, {"tank_connector_brass", "tank_connector_plastic"}, "tank-connector");
        if (firstOf(chain_, "isolating-valve") == end()) {
            add(firstOf(chain_, "tank-connector") + 1, {"ball_valve_full_bore", "ball_valve_plastic"},
                "isolating-valve-suction");
            plan_.findings.push_back(
                fault("no-isolating-valve-on-suction", Severity::warning, place(), "add-full-bore-valve"));
        }
    }

    // The low water stands below the pump: without a check valve the line empties when the pump stops.
    void fallsBelowPump() {
        const auto& source = plan_.site().source;
        const bool below = source && (source->kind == "tank_drawn_below_pump" ||
                                      (source->levelsGiven && source->low < plan_.site().pumpLevel));
        if (!below || firstOf(chain_, "check-valve") < end()) return;
        add(end(), {"check_swing", "check_spring"}, "check-valve-suction");
        plan_.findings.push_back(fault("no-check-valve-where-water-falls-below", Severity::warning, place(),
                                       "add-check-valve-at-inlet", "water_sources.csv: trade practice"));
    }

    void mains() {
        if (firstOf(chain_, "backflow-preventer") == end()) {
            add(0, {"double_check"}, "backflow-preventer");
            plan_.findings.push_back(
                fault("no-backflow-preventer", Severity::danger, place(), "add-double-check-valve",
                      "Water Supply (Water Fittings) Regulations 1999; schedule 2 paragraph 15"));
        }
        if (firstOf(chain_, "isolating-valve") == end()) {
            add(firstOf(chain_, "backflow-preventer"), {"ball_valve_full_bore", "ball_valve_plastic"},
                "isolating-valve-suction");
            plan_.findings.push_back(
                fault("no-isolating-valve-on-suction", Severity::warning, place(), "add-full-bore-valve"));
        }
    }

    bool opensInWater(const Slot& slot) const {
        return isGroup(slot, "foot-valve") || isGroup(slot, "floating-inlet") ||
               (isGroup(slot, "suction-strainer") &&
                slot.candidates.front().ends.front().kind == EndKind::water);
    }

    // A valve that keeps suction line and pump full.
    bool holdsPrime(const Slot& slot) const {
        return isGroup(slot, "foot-valve") || isGroup(slot, "check-valve") ||
               slot.item == "floating_inlet_check" ||
               (isGroup(slot, "floating-inlet") &&
                slot.candidates.front().part->code == "floating_inlet_check");
    }

    void addHose() {
        const std::string near = size();
        const PartRow* tails = findPart("hose_tail_female_brass");
        const PartSize* tail = findSize(*tails, near);
        Slot slot;
        const PartRow* part = findPart("hose");
        End hose;
        hose.kind = EndKind::hose;
        hose.diameter_mm = tail ? endsOf(*tails, *tail).back().diameter_mm : 51.0;
        slot.candidates.push_back({part, {}, {hose, hose}, 0.0});
        slot.isPipe = true;
        slot.origin = PartOrigin::added;
        slot.line = SheetLine::inlet;
        slot.slot = "inlet.hose";
        slot.purpose = "suction-hose";
        slot.size = near;
        insertSlot(chain_, 1, std::move(slot));
        plan_.findings.push_back(fault("no-suction-pipe", Severity::note, place(), "add-suction-hose"));
    }

    bool anyPipe() const {
        for (const Slot& slot : chain_.slots) {
            if (slot.isPipe) return true;
        }
        return false;
    }

    void lifted(const std::vector<std::string>& codes, std::string_view purpose) {
        bool opens = false, holds = false;
        for (const Slot& slot : chain_.slots) {
            opens = opens || opensInWater(slot);
            holds = holds || holdsPrime(slot);
        }
        if (!opens) {
            add(0, codes, purpose);
            plan_.findings.push_back(
                fault(holds ? "no-strainer-at-inlet" : "no-foot-valve", Severity::warning, place(),
                      purpose == "floating-inlet" ? "add-floating-inlet" : "add-foot-valve",
                      "water_sources.csv: trade practice"));
        }
        if (!anyPipe()) addHose();
        if (opens && !holds) {
            add(end(), {"check_spring", "check_swing"}, "check-valve-suction");
            plan_.findings.push_back(fault("no-foot-valve", Severity::warning, place(), "add-foot-valve",
                                           "water_sources.csv: trade practice"));
        }
    }

    void nearPump() {
        bool apart = nutOnPort(plan_.inletPort);
        for (const Slot& slot : chain_.slots)
            apart = apart || comesApart(slot);
        if (plan_.choices().parts.contains("inlet.tail") &&
            plan_.choices().parts.at("inlet.tail") == "hose_tail_nut")
            apart =
                apart || (!chain_.slots.empty() && chain_.slots.back().isPipe && !chain_.slots.back().rigid);
        if (!apart) {
            add(end(),
                plan_.choices().temporary ? std::vector<std::string>{"quick_coupler_threaded"} : kUnions,
                "union-inlet");
            plan_.findings.push_back(fault("no-union-at-inlet", Severity::warning, place(), "add-union",
                                           "water_sources.csv: trade practice"));
        }
        if (plan_.lifts()) hangOn(Accessory::fillingPlug, "filling-plug");
        if (chosenDevice(plan_) == "pressure-switch")
            hangOn(Accessory::lowPressureSwitch, "pressure-switch-low");
        hangOn(Accessory::compoundGauge, "gauge-inlet");
    }

    // On a tee that the run lists, else on one at the pump.
    void hangOn(Accessory accessory, std::string_view purpose) {
        hang(chain_, end(), 0, end(), accessory, purpose, plan_, SheetLine::inlet);
    }

    SheetPlan& plan_;
    Chain& chain_;
};

} // namespace

void completeInlet(SheetPlan& plan) { InletMaker(plan).complete(); }

} // namespace headmark::connections
