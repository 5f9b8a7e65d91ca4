// What good practice adds between pump and main: in the order the water meets it
//   union, gauge, (vent where the pump is flooded), return tee, check valve, pressure switch, vessel and
//   relief valve,
//   isolating valve, (vent where the pump lifts), drain, gauge, filter, gauge, coupler of a temporary set.
// Where the pump lifts its water, no vent stands before the check valve: it could let air in on the way down.
#include "analysis/connections/slots.h"

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
    }

  private:
    // Index of the main's first pipe, or the number of slots.
    std::size_t mainAt() const {
        const Run& run = plan_.site().delivery;
        for (std::size_t i = 0; i < chain_.slots.size(); ++i) {
            const Slot& slot = chain_.slots[i];
            if (!slot.isPipe || slot.origin != PartOrigin::run) continue;
            const std::size_t next = slot.runIndex + 1;
            const bool ends = next >= run.size() || std::holds_alternative<TakeoffItem>(run[next]);
            if (ends || slot.length->inMetres() >= kMainFrom_m) return i;
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

    void unionAtPump() {
        // On the pump's side of the first valve that could stay on the pipe.
        if (nutOnPort(plan_.outletPort)) return;
        const std::size_t valve = within("isolating-valve");
        for (std::size_t i = 0; i < valve; ++i) {
            if (comesApart(chain_.slots[i])) return;
        }
        add(0, {"union_flat_galv", "union_plastic", "union_conical_galv"}, "union-outlet");
        lack("no-union-at-outlet", Severity::warning, "add-union");
    }

    void checkValve() {
        if (within("check-valve") < mainAt()) return;
        std::size_t at = 0;
        while (at < mainAt() && comesApart(chain_.slots[at]))
            ++at;
        add(at, {"check_spring", "check_swing"}, "check-valve");
        lack("no-check-valve", Severity::warning, "add-check-valve");
    }

    void isolatingValve() {
        const std::size_t check = within("check-valve");
        if (within("isolating-valve") < mainAt()) return;
        add(check + 1, {"ball_valve_full_bore", "ball_valve_plastic"}, "isolating-valve");
        lack("no-isolating-valve-on-delivery", Severity::note, "add-isolating-valve");
    }

    // After the union where one stands before the check valve.
    std::size_t afterUnion() const {
        const std::size_t check = within("check-valve");
        for (std::size_t i = 0; i < check; ++i) {
            if (comesApart(chain_.slots[i])) return i + 1;
        }
        return 0;
    }

    // A tee that the run lists at that stretch is used before a new one is put in. Gives the place after it.
    std::size_t hangOn(std::size_t at, std::size_t to, Accessory accessory, std::string_view purpose) {
        return hang(chain_, at, at, to, accessory, purpose, plan_, SheetLine::outlet) + 1;
    }

    void beforeCheck() {
        std::size_t at = hangOn(afterUnion(), within("check-valve"), Accessory::gauge, "gauge-outlet");
        const auto check = [&] { return within("check-valve"); };
        const auto next = [&](std::size_t from) { return freeTee(from, check()); };
        if (!plan_.lifts() && plan_.suction != SuctionKind::submersible)
            at = hangOn(next(at), check(), Accessory::airVent, "air-vent");
        if (plan_.site().tankReturn) hangOn(next(at), check(), Accessory::tankReturn, "tank-return");
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
        const auto limit = [&] { return std::max(within("isolating-valve"), within("check-valve") + 1); };
        const bool sensed = plan_.site().hold.has_value();
        std::size_t at = hangOn(within("check-valve") + 1, limit(),
                                sensed ? Accessory::pressureSensor : Accessory::pressureSwitch,
                                sensed ? "pressure-sensor" : "pressure-switch");
        at = hangOn(at, limit(), Accessory::gauge, "gauge-held");
        at = hangOn(at, limit(), Accessory::vessel, "vessel");
        // A switch that sticks leaves the pump against shut valves.
        hangOn(at, limit(), Accessory::reliefValve, "relief-valve");
    }

    void afterIsolating() {
        std::size_t at = std::min(std::max(within("isolating-valve"), within("check-valve")) + 1, mainAt());
        const auto limit = [&] { return std::max(at, std::min(within("filter"), mainAt())); };
        if (plan_.lifts() || plan_.suction == SuctionKind::submersible)
            at = hangOn(at, limit(), Accessory::airVent, "air-vent");
        at = hangOn(at, limit(), Accessory::drain, "drain");
        if (plan_.site().source && plan_.site().source->kind == "open_channel")
            hangOn(at, limit(), Accessory::flowSwitch, "flow-switch");
    }

    void filters() {
        std::size_t i = within("filter");
        while (i < mainAt()) {
            const bool listed = i > 0 && freeTee(i - 1, i) < i;
            const std::size_t before = hangOn(listed ? i - 1 : i, i, Accessory::gauge, "gauge-before-filter");
            const std::size_t after =
                hangOn(before + 1, std::min(before + 2, mainAt()), Accessory::gauge, "gauge-after-filter");
            i = within("filter", after);
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
