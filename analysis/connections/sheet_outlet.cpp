// What good practice adds between pump and main: in the order the water meets it
//   union, gauge, (vent where the pump is flooded), return tee, check valve, pressure switch, vessel and
//   relief valve, isolating valve, (vent where the pump lifts), drain, gauge, filter, gauge, coupler of a
//   temporary set.
// Where the pump lifts its water, no vent stands before the check valve: it could let air in on the way down.
// A pump in the water carries the check valve; all else stands behind its riser, the first pipe of the run.
#include "analysis/connections/slots.h"

#include <algorithm>
#include <optional>
#include <variant>

namespace headmark::connections {

namespace {

constexpr double kMainFrom_m = 10.0; // common practice, no source

class OutletMaker {
  public:
    explicit OutletMaker(SheetPlan& plan) : plan_(plan), chain_(plan.delivery) {}

    void complete() {
        unionAtPump();
        checkValve();
        isolatingValve();
        beforeCheck();
        afterCheck();
        afterIsolating();
        filters();
        if (plan_.choices().temporary) coupler();
        markMain();
        if (inWater() && headFrom() == 0) lack("no-riser", Severity::note, "list-the-riser");
        for (std::size_t i = 0; i < headFrom(); ++i)
            chain_.slots[i].hangs = true;
    }

  private:
    bool inWater() const { return plan_.suction == SuctionKind::submersible; }

    bool isRunPipe(std::size_t i) const {
        return chain_.slots[i].isPipe && chain_.slots[i].origin == PartOrigin::run;
    }

    // Where what can be reached begins: at the pump, or behind the riser of a pump in the water. A run that
    // lists what must be reached before its first pipe lists no riser.
    std::size_t headFrom() const {
        for (std::size_t i = 0; inWater() && i < chain_.slots.size(); ++i) {
            const Slot& slot = chain_.slots[i];
            if (isRunPipe(i)) return i + 1;
            if (comesApart(slot) || isGroup(slot, "isolating-valve") || isGroup(slot, "filter")) break;
        }
        return 0;
    }

    // Index of the main's first pipe, or the number of slots.
    std::size_t mainAt() const {
        const Run& run = plan_.site().delivery;
        for (std::size_t i = headFrom(); i < chain_.slots.size(); ++i) {
            if (!isRunPipe(i)) continue;
            const std::size_t next = chain_.slots[i].runIndex + 1;
            const bool ends = next >= run.size() || std::holds_alternative<TakeoffItem>(run[next]);
            if (ends || chain_.slots[i].length->inMetres() >= kMainFrom_m) return i;
        }
        return chain_.slots.size();
    }

    std::size_t within(std::string_view group, std::size_t from = 0) const {
        return std::min(firstOf(chain_, group, from), mainAt());
    }

    std::string sizeAt(std::size_t at) const {
        if (chain_.slots.empty()) return plan_.outletPort.size;
        return chain_.slots[std::min(at, chain_.slots.size() - 1)].size;
    }

    void add(std::size_t at, const std::vector<std::string>& codes, std::string_view purpose) {
        Slot slot = addedSlot(codes, sizeAt(at), purpose, "outlet." + std::string(purpose), plan_);
        slot.line = SheetLine::outlet;
        insertSlot(chain_, at, std::move(slot));
    }

    void lack(std::string code, Severity severity, std::string remedy) {
        plan_.findings.push_back(fault(std::move(code), severity, "delivery", std::move(remedy)));
    }

    std::size_t isolatingAt() const { return within("isolating-valve", headFrom()); }

    // The check valve, where one stands between pump and main.
    std::optional<std::size_t> checkAt() const {
        const std::size_t at = within("check-valve");
        return at < mainAt() ? std::optional<std::size_t>(at) : std::nullopt;
    }

    // Before this slot stands what must see the pump with every valve shut.
    std::size_t splitAt() const { return headFrom() > 0 ? isolatingAt() : checkAt().value_or(isolatingAt()); }

    void unionAtPump() {
        // On the pump's side of the first valve that could stay on the pipe.
        const std::size_t from = headFrom();
        if (from == 0 && nutOnPort(plan_.outletPort)) return;
        for (std::size_t i = from; i < isolatingAt(); ++i) {
            if (comesApart(chain_.slots[i])) return;
        }
        add(from, {"union_flat_galv", "union_plastic", "union_conical_galv"}, "union-outlet");
        lack("no-union-at-outlet", Severity::warning, "add-union");
    }

    // One at the inlet of a flooded pump holds the main as well.
    bool heldAtInlet() const {
        return plan_.suction == SuctionKind::flooded &&
               firstOf(plan_.inlet, "check-valve") < plan_.inlet.slots.size();
    }

    void checkValve() {
        if (within("check-valve") < mainAt() || heldAtInlet()) return;
        std::size_t at = 0;
        while (at < mainAt() && comesApart(chain_.slots[at]))
            ++at;
        add(at, {"check_spring", "check_swing"}, "check-valve");
        lack("no-check-valve", Severity::warning, "add-check-valve");
    }

    void isolatingValve() {
        if (isolatingAt() < mainAt()) return;
        const auto check = checkAt();
        const std::size_t at = check && headFrom() == 0 ? *check + 1 : afterUnion();
        add(at, {"ball_valve_full_bore", "ball_valve_plastic"}, "isolating-valve");
        lack("no-isolating-valve-on-delivery", Severity::note, "add-isolating-valve");
    }

    // After the union where one stands before the split.
    std::size_t afterUnion() const {
        for (std::size_t i = headFrom(); i < splitAt(); ++i) {
            if (comesApart(chain_.slots[i])) return i + 1;
        }
        return headFrom();
    }

    // A tee that the run lists at that stretch is used before a new one is put in. Gives the place after it.
    std::size_t hangOn(std::size_t at, std::size_t to, Accessory accessory, std::string_view purpose) {
        return hang(chain_, at, at, to, accessory, purpose, plan_, SheetLine::outlet) + 1;
    }

    void beforeCheck() {
        std::size_t at = hangOn(afterUnion(), splitAt(), Accessory::gauge, "gauge-outlet");
        const auto next = [&](std::size_t from) { return freeTee(from, splitAt()); };
        if (!plan_.lifts() && !inWater()) at = hangOn(next(at), splitAt(), Accessory::airVent, "air-vent");
        if (plan_.site().tankReturn) hangOn(next(at), splitAt(), Accessory::tankReturn, "tank-return");
    }

    // The first tee of the run without a branch in that stretch, else its end.
    std::size_t freeTee(std::size_t from, std::size_t to) const {
        for (std::size_t i = from; i < to; ++i) {
            const Slot& slot = chain_.slots[i];
            if (isGroup(slot, "tee") && slot.origin == PartOrigin::run && slot.branch.empty()) return i;
        }
        return to;
    }

    void afterCheck() {
        if (plan_.site().control != ControlKind::pressureHeld) return;
        const auto from = [&] {
            const auto check = checkAt();
            return check && headFrom() == 0 ? *check + 1 : splitAt();
        };
        const auto limit = [&] { return std::max(isolatingAt(), from()); };
        const bool sensed = plan_.site().hold.has_value();
        std::size_t at =
            hangOn(from(), limit(), sensed ? Accessory::pressureSensor : Accessory::pressureSwitch,
                   sensed ? "pressure-sensor" : "pressure-switch");
        at = hangOn(at, limit(), Accessory::gauge, "gauge-held");
        at = hangOn(at, limit(), Accessory::vessel, "vessel");
        // A switch that sticks leaves the pump against shut valves.
        hangOn(at, limit(), Accessory::reliefValve, "relief-valve");
    }

    void afterIsolating() {
        std::size_t at = std::min(std::max(isolatingAt(), checkAt().value_or(0)) + 1, mainAt());
        const auto limit = [&] { return std::max(at, std::min(within("filter"), mainAt())); };
        if (plan_.lifts() || inWater()) at = hangOn(at, limit(), Accessory::airVent, "air-vent");
        at = hangOn(at, limit(), Accessory::drain, "drain");
        if (chosenDevice(plan_) == "flow-switch") hangOn(at, limit(), Accessory::flowSwitch, "flow-switch");
    }

    // Wherever the run has one, along the main as well.
    void filters() {
        std::size_t i = firstOf(chain_, "filter");
        while (i < chain_.slots.size()) {
            const bool listed = i > 0 && freeTee(i - 1, i) < i;
            const std::size_t before = hangOn(listed ? i - 1 : i, i, Accessory::gauge, "gauge-before-filter");
            const std::size_t after = hangOn(before + 1, std::min(before + 2, chain_.slots.size()),
                                             Accessory::gauge, "gauge-after-filter");
            i = firstOf(chain_, "filter", after);
        }
    }

    void coupler() {
        for (std::size_t i = 0; i < mainAt(); ++i) {
            if (isGroup(chain_.slots[i], "coupler")) return;
        }
        const std::size_t at = mainAt();
        const std::size_t near = at > 0 ? at - 1 : 0;
        Slot slot = addedSlot({"quick_coupler_threaded", "quick_coupler_tail"}, sizeAt(near),
                              "coupler-outlet", "outlet.coupler-outlet", plan_);
        slot.line = SheetLine::outlet;
        insertSlot(chain_, at, std::move(slot));
    }

    void markMain() {
        for (std::size_t i = mainAt() + 1; i < chain_.slots.size(); ++i)
            chain_.slots[i].line = SheetLine::main;
    }

    SheetPlan& plan_;
    Chain& chain_;
};

} // namespace

void completeOutlet(SheetPlan& plan) { OutletMaker(plan).complete(); }

} // namespace headmark::connections
