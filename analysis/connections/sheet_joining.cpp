// Chooses the part of every slot so that slots and adapters together cost least, and puts them in order.
// Cost over a chain of slots with candidates c_i:  sum cost(c_i) + cost of bridging out(c_i-1) to in(c_i);
// what does not bear the pressure that stands there is dear;
// its least value by dynamic programming over the slots (each slot's best cost for each candidate).
#include "analysis/connections/slots.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <limits>
#include <map>

namespace headmark::connections {

namespace {

std::string endKey(const End& end) {
    return endText(end) + "/" + std::to_string(static_cast<int>(end.face)) +
           std::to_string(static_cast<int>(end.body));
}

class Joiner {
  public:
    Joiner(const SheetPlan& plan, ConnectionSheet& sheet, bool suction)
        : plan_(plan), sheet_(sheet), suction_(suction) {
        use_.joint.suction = suction;
        use_.lift = plan.lifts();
        use_.exposure = plan.choices().exposure;
        for (const auto& [slot, part] : plan.choices().parts) {
            const std::string_view side = suction ? "inlet." : "outlet.";
            if (slot.starts_with(side)) use_.preferred.emplace(slot.substr(side.size()), part);
        }
    }

    // Chooses and places the chain between two ends that may be missing. `last` is the index of the part
    // the chain follows on.
    void place(const Chain& chain, const std::optional<End>& start, const std::optional<End>& finish) {
        const std::vector<std::size_t> chosen = choice(chain, start, finish);
        std::optional<End> from = start;
        if (start) before_ = sheet_.pump;
        for (std::size_t i = 0; i < chain.slots.size(); ++i) {
            const Slot& slot = chain.slots[i];
            const Candidate& candidate = slot.candidates[chosen[i]];
            const int pieces = slot.line == SheetLine::main ? 1 : slot.count;
            for (int piece = 0; piece < pieces; ++piece) {
                if (from) placeBridge(*from, candidate.ends.front(), i, slot);
                placeSlot(slot, candidate);
                from = candidate.ends.size() > 1 ? candidate.ends[1] : candidate.ends[0];
            }
        }
        const std::size_t items = (suction_ ? plan_.site().suction : plan_.site().delivery).size();
        if (from && finish && !chain.slots.empty()) {
            Slot end;
            end.line = suction_ ? SheetLine::inlet : SheetLine::outlet;
            end.runIndex = items;
            placeBridge(*from, *finish, chain.slots.size(), end);
        }
        settleClaims(chain.claims, adapters_, sheet_);
        addUncounted(runIndexOf_, suction_, sheet_);
    }

    [[nodiscard]] std::optional<std::size_t> last() const { return before_; }
    void joint(std::size_t before, std::size_t endBefore, std::size_t after, std::size_t endAfter) {
        JointUse use{suction_, plan_.choices().clamp, true};
        const End& a = sheet_.parts[before].ends[endBefore];
        const End& b = sheet_.parts[after].ends[endAfter];
        sheet_.joints.push_back({before, after, endBefore, endAfter, judgedJoint(a, b, use)});
    }

  private:
    const Bridge& bridge(const End& from, const End& to, double above_m) {
        use_.pressure = plan_.pressureAt(suction_, above_m);
        const std::string key = endKey(from) + " > " + endKey(to) + " at " + std::to_string(above_m);
        auto known = bridges_.find(key);
        if (known == bridges_.end()) known = bridges_.emplace(key, bridgeBetween(from, to, use_)).first;
        return known->second;
    }

    double weakness(const Candidate& candidate, double above_m) const {
        return weaknessCost(*candidate.part, plan_.pressureAt(suction_, above_m));
    }

    static const End& out(const Candidate& c) { return c.ends.size() > 1 ? c.ends[1] : c.ends[0]; }

    double repeats(const Slot& slot, const Candidate& c) {
        if (slot.count < 2 || slot.line == SheetLine::main) return 0.0;
        return (slot.count - 1) * bridge(out(c), c.ends[0], slot.above_m).cost;
    }

    std::vector<std::size_t> choice(const Chain& chain, const std::optional<End>& start,
                                    const std::optional<End>& finish) {
        const std::size_t n = chain.slots.size();
        std::vector<std::vector<double>> best(n);
        std::vector<std::vector<std::size_t>> from(n);
        for (std::size_t i = 0; i < n; ++i) {
            const double above_m = chain.slots[i].above_m;
            for (const Candidate& c : chain.slots[i].candidates) {
                double least = std::numeric_limits<double>::infinity();
                std::size_t by = 0;
                if (i == 0) least = start ? bridge(*start, c.ends[0], above_m).cost : 0.0;
                for (std::size_t p = 0; i > 0 && p < best[i - 1].size(); ++p) {
                    const double cost =
                        best[i - 1][p] +
                        bridge(out(chain.slots[i - 1].candidates[p]), c.ends[0], above_m).cost;
                    if (cost < least) {
                        least = cost;
                        by = p;
                    }
                }
                double own = c.cost + weakness(c, above_m) + repeats(chain.slots[i], c);
                if (i + 1 == n && finish) own += bridge(out(c), *finish, 0.0).cost;
                best[i].push_back(least + own);
                from[i].push_back(by);
            }
        }
        std::vector<std::size_t> chosen(n, 0);
        for (std::size_t i = n; i-- > 0;) {
            if (i + 1 == n)
                chosen[i] = static_cast<std::size_t>(std::min_element(best[i].begin(), best[i].end()) -
                                                     best[i].begin());
            else
                chosen[i] = from[i + 1][chosen[i + 1]];
        }
        return chosen;
    }

    std::size_t push(PlacedPart part) {
        sheet_.parts.push_back(std::move(part));
        return sheet_.parts.size() - 1;
    }

    void follow(std::size_t index) {
        if (before_) joint(*before_, sheet_.parts[*before_].ends.size() > 1 ? 1 : 0, index, 0);
        before_ = index;
    }

    PlacedPart adapterPart(const Adapter& adapter, SheetLine line, double above_m, bool hangs = false) const {
        PlacedPart part;
        part.part = adapter.part->code;
        part.size = adapter.size;
        part.ends = {adapter.in, adapter.out};
        part.line = line;
        part.above_m = above_m;
        part.hangs = hangs;
        part.origin = PartOrigin::adapter;
        part.slot = (suction_ ? "inlet." : "outlet.") + adapter.part->group;
        part.purpose = adapter.part->group;
        return part;
    }

    // What leads to the slot, at its level.
    void placeBridge(const End& from, const End& to, std::size_t gap, const Slot& slot) {
        for (const Adapter& adapter : bridge(from, to, slot.above_m).adapters) {
            const std::size_t index = push(adapterPart(adapter, slot.line, slot.above_m, slot.hangs));
            adapters_.push_back({index, gap});
            runIndexOf_[index] = slot.runIndex;
            follow(index);
        }
    }

    void placeSlot(const Slot& slot, const Candidate& candidate) {
        PlacedPart part;
        part.part = candidate.part->code;
        part.size = candidate.size;
        part.ends = candidate.ends;
        part.line = slot.line;
        part.origin = slot.origin;
        part.place = slot.place;
        part.item = slot.item;
        part.slot = slot.slot;
        part.purpose = slot.purpose;
        part.length = slot.length;
        part.above_m = slot.above_m;
        part.hangs = slot.hangs;
        if (slot.line == SheetLine::main) part.count = slot.count;
        const std::size_t index = push(std::move(part));
        runIndexOf_[index] = slot.runIndex;
        follow(index);
        std::vector<BranchPart> branch = slot.branch;
        const bool open = branch.empty() && candidate.ends.size() > 2 && slot.origin == PartOrigin::run;
        if (open) branch = sparePlug(candidate);
        placeBranch(index, branch);
    }

    std::vector<BranchPart> sparePlug(const Candidate& tee) const {
        BranchPart plug;
        const std::string size = tee.size.b.empty() ? tee.size.a : tee.size.b;
        plug.slot = "spare-branch";
        plug.purpose = "spare-branch";
        const bool thread = tee.ends[2].kind == EndKind::thread;
        plug.candidates = candidatesOf({"plug"}, thread ? size : std::string("1/2"), plan_, plug.slot);
        return {plug};
    }

    void placeBranch(std::size_t tee, const std::vector<BranchPart>& branch) {
        End from = sheet_.parts[tee].ends.back();
        std::size_t before = tee, endBefore = 2;
        const double above_m = sheet_.parts[tee].above_m;
        for (const BranchPart& wanted : branch) {
            const auto costOf = [&](const Candidate& c) {
                return c.cost + weakness(c, above_m) + bridge(from, c.ends[0], above_m).cost;
            };
            const Candidate& c = *std::min_element(
                wanted.candidates.begin(), wanted.candidates.end(),
                [&](const Candidate& a, const Candidate& b) { return costOf(a) < costOf(b); });
            for (const Adapter& adapter : bridge(from, c.ends[0], above_m).adapters) {
                PlacedPart part = adapterPart(adapter, sheet_.parts[tee].line, above_m);
                part.branchOf = tee;
                const std::size_t index = push(std::move(part));
                joint(before, endBefore, index, 0);
                before = index;
                endBefore = 1;
            }
            const std::size_t index = push(branchPart(wanted, c, tee));
            joint(before, endBefore, index, 0);
            before = index;
            endBefore = c.ends.size() > 1 ? 1 : 0;
            from = out(c);
        }
    }

    PlacedPart branchPart(const BranchPart& wanted, const Candidate& c, std::size_t tee) const {
        PlacedPart part;
        part.part = c.part->code;
        part.size = c.size;
        part.ends = c.ends;
        part.line = sheet_.parts[tee].line;
        part.above_m = sheet_.parts[tee].above_m;
        part.origin = wanted.origin;
        part.branchOf = tee;
        part.place = wanted.place;
        part.item = wanted.item;
        part.slot = wanted.slot;
        part.purpose = wanted.purpose;
        part.length = wanted.length;
        return part;
    }

    const SheetPlan& plan_;
    ConnectionSheet& sheet_;
    bool suction_;
    BridgeUse use_;
    std::map<std::string, Bridge> bridges_;
    std::vector<InsertedAdapter> adapters_;
    std::map<std::size_t, std::size_t> runIndexOf_;
    std::optional<std::size_t> before_;
};

End portEnd(const PortEnd& port, bool plastic) {
    End end;
    end.kind = port.flange ? EndKind::flange : EndKind::thread;
    end.male = port.male;
    end.form = port.form;
    end.size = port.size;
    // A G port is made to be closed on its faces.
    if (!port.flange && port.form == ThreadForm::parallelG) end.face = Face::flat;
    end.body = plastic ? Body::plastic : Body::metal;
    return end;
}

} // namespace

void placeChains(const SheetPlan& plan, ConnectionSheet& sheet) {
    const bool plastic = plan.choices().plasticPumpPorts;
    const End inlet = portEnd(plan.inletPort, plastic), outlet = portEnd(plan.outletPort, plastic);
    Joiner before(plan, sheet, true);
    before.place(plan.inlet, std::nullopt, inlet);

    PlacedPart pump;
    pump.part = "pump";
    pump.size = {plan.inletPort.size, plan.outletPort.size};
    pump.ends = {inlet, outlet};
    pump.line = SheetLine::pump;
    pump.origin = PartOrigin::run;
    pump.slot = pump.purpose = "pump";
    sheet.parts.push_back(pump);
    sheet.pump = sheet.parts.size() - 1;
    if (const auto last = before.last())
        before.joint(*last, sheet.parts[*last].ends.size() > 1 ? 1 : 0, sheet.pump, 0);

    Joiner after(plan, sheet, false);
    after.place(plan.delivery, outlet, std::nullopt);
}

} // namespace headmark::connections
