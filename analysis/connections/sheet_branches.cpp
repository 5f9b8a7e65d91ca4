// Accessories on tees: gauges, vent, drain, plug, switches, vessel, tank return.
#include "analysis/connections/slots.h"

#include "analysis/core/assertion.h"

#include <algorithm>

namespace headmark::connections {

namespace {

// Thread of the branch an accessory wants; smaller mains take what their tees offer.
std::string wantedBranch(Accessory accessory, const SheetPlan& plan) {
    switch (accessory) {
    case Accessory::fillingPlug:
    case Accessory::flowSwitch:
    case Accessory::vessel:
        return "1";
    case Accessory::tankReturn:
        return threadSizeOfPipe(plan.site().tankReturn->pipe);
    default:
        return "1/2";
    }
}

// Of the branch sizes a tee offers: the smallest that is wide enough, else the widest.
void keepBranch(std::vector<Candidate>& tees, const std::string& wanted) {
    const int least = threadSizeIndex(wanted);
    const auto indexOf = [](const Candidate& c) {
        return threadSizeIndex(c.size.b.empty() ? c.size.a : c.size.b);
    };
    int best = -1;
    for (const Candidate& tee : tees) {
        const int index = indexOf(tee);
        const bool better = best < 0 || (best < least ? index > best : index >= least && index < best);
        if (better) best = index;
    }
    std::erase_if(tees, [&](const Candidate& tee) { return indexOf(tee) != best; });
}

BranchPart branchPart(const std::vector<std::string>& codes, const std::string& size,
                      std::string_view purpose, const std::string& slot, const SheetPlan& plan) {
    BranchPart part;
    part.slot = slot;
    part.purpose = purpose;
    part.candidates = candidatesOf(codes, size, plan, slot);
    return part;
}

std::vector<BranchPart> tankReturn(const SheetPlan& plan) {
    const PipeItem& pipe = plan.site().tankReturn->pipe;
    const std::string size = threadSizeOfPipe(pipe);
    BranchPart valve = branchPart({"return_valve_lockable", "return_orifice"}, size, "return-valve",
                                  "outlet.return-valve", plan);
    BranchPart line;
    Slot slot = pipeSlot(pipe);
    line.candidates = slot.candidates;
    line.place = "tank_return";
    line.item = pipe.kind.code;
    line.slot = "outlet.return-pipe";
    line.purpose = "return-pipe";
    line.length = pipe.length;
    line.origin = PartOrigin::run;
    if (!plan.lifts()) return {valve, line};
    // The open end of the return stands above the water that the pump lifts.
    return {valve, branchPart({"check_spring"}, size, "return-check", "outlet.return-check", plan), line};
}

std::vector<BranchPart> branchOf(Accessory accessory, std::string_view purpose, const std::string& branch,
                                 const std::string& slot, const SheetPlan& plan) {
    switch (accessory) {
    case Accessory::gauge:
        return {branchPart({"gauge_with_cock"}, branch, purpose, slot, plan)};
    case Accessory::compoundGauge:
        return {branchPart({"gauge_compound_with_cock"}, branch, purpose, slot, plan)};
    case Accessory::airVent:
        return {branchPart({"air_vent_automatic"}, branch, purpose, slot, plan)};
    case Accessory::drain:
        return {branchPart({"drain_cock"}, branch, purpose, slot, plan)};
    case Accessory::fillingPlug:
        return {branchPart({"filling_plug"}, branch, purpose, slot, plan)};
    case Accessory::pressureSwitch:
        return {branchPart({"pressure_switch"}, branch, purpose, slot, plan)};
    case Accessory::lowPressureSwitch:
        return {branchPart({"pressure_switch_low"}, branch, purpose, slot, plan)};
    case Accessory::flowSwitch:
        return {branchPart({"flow_switch"}, branch, purpose, slot, plan)};
    case Accessory::pressureSensor:
        return {branchPart({"pressure_sensor"}, branch, purpose, slot, plan)};
    case Accessory::reliefValve:
        return {branchPart({"relief_valve"}, branch, purpose, slot, plan)};
    case Accessory::vessel:
        return {branchPart({"vessel_valve_drain"}, "1", "vessel-valve", "outlet.vessel-valve", plan),
                branchPart({"vessel_diaphragm"}, "1", purpose, slot, plan)};
    case Accessory::tankReturn:
        return tankReturn(plan);
    }
    return {};
}

std::string branchSize(const Candidate& tee) { return tee.size.b.empty() ? tee.size.a : tee.size.b; }

} // namespace

std::size_t hang(Chain& chain, std::size_t at, std::size_t from, std::size_t to, Accessory accessory,
                 std::string_view purpose, const SheetPlan& plan, SheetLine line) {
    const std::string wanted = wantedBranch(accessory, plan);
    const std::string key = line == SheetLine::inlet ? "inlet." : "outlet.";
    std::size_t index = at;
    bool found = false;
    for (std::size_t i = from; i < std::min(to, chain.slots.size()) && !found; ++i) {
        const Slot& slot = chain.slots[i];
        if (!isGroup(slot, "tee") || slot.origin != PartOrigin::run || !slot.branch.empty() || slot.count > 1)
            continue;
        index = i;
        found = true;
    }
    if (!found) {
        const std::string size = chain.slots.empty() ? wanted : chain.slots[at > 0 ? at - 1 : 0].size;
        Slot tee = addedSlot({"tee_galv", "tee_plastic"}, size, "tee-for-" + std::string(purpose),
                             key + "tee-for-" + std::string(purpose), plan);
        tee.line = line;
        insertSlot(chain, at, std::move(tee));
    }
    Slot& tee = chain.slots[index];
    keepBranch(tee.candidates, wanted);
    tee.purpose = "tee-for-" + std::string(purpose);
    tee.branch =
        branchOf(accessory, purpose, branchSize(tee.candidates.front()), key + std::string(purpose), plan);
    return index;
}

} // namespace headmark::connections
