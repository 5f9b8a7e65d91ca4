#include "analysis/connections/slots.h"

#include "analysis/core/assertion.h"

#include <algorithm>

namespace headmark::connections {

std::vector<Candidate> candidatesOf(const std::vector<std::string>& codes, const std::string& size,
                                    const SheetPlan& plan, std::string_view slotKey) {
    std::vector<Candidate> candidates;
    const auto chosen = plan.choices().parts.find(std::string(slotKey));
    const bool other = chosen != plan.choices().parts.end() && findPart(chosen->second) &&
                       mayReplace(*findPart(chosen->second), *findPart(codes.front()));
    for (const std::string& code : other ? std::vector<std::string>{chosen->second} : codes) {
        const PartRow* part = findPart(code);
        HEADMARK_ASSERT(part, "an added part that is not in parts.csv");
        const double cost =
            exposureCost(*part, plan.choices().exposure) + 0.05 * static_cast<double>(candidates.size());
        if (part->sizes.empty()) candidates.push_back({part, {}, endsOf(*part, {}), cost});
        for (const PartSize& known : part->sizes) {
            if (known.a == size) candidates.push_back({part, known, endsOf(*part, known), cost});
        }
    }
    if (candidates.empty()) candidates.push_back(standInFor(*findPart(codes.front()), size));
    return candidates;
}

Candidate standInFor(const PartRow& wanted, const std::string& size) {
    return {findPart("fitting_to_suit"), {size, {}}, std::vector<End>(wanted.endTokens.size()), 0.0};
}

Slot addedSlot(const std::vector<std::string>& codes, const std::string& size, std::string_view purpose,
               std::string_view key, const SheetPlan& plan) {
    Slot slot;
    slot.slot = key;
    slot.kind = findPart(codes.front())->group;
    slot.candidates = candidatesOf(codes, size, plan, key);
    slot.purpose = purpose;
    slot.origin = PartOrigin::added;
    slot.size = size;
    return slot;
}

bool isGroup(const Slot& slot, std::string_view group) { return slot.group() == group; }

std::size_t firstOf(const Chain& chain, std::string_view group, std::size_t from) {
    for (std::size_t i = from; i < chain.slots.size(); ++i) {
        if (isGroup(chain.slots[i], group)) return i;
    }
    return chain.slots.size();
}

void insertSlot(Chain& chain, std::size_t at, Slot slot) {
    HEADMARK_ASSERT(at <= chain.slots.size(), "a slot beyond the chain");
    const std::size_t n = chain.slots.size();
    if (slot.origin == PartOrigin::added) {
        slot.runIndex = at < n ? chain.slots[at].runIndex : (n > 0 ? chain.slots[n - 1].runIndex + 1 : 0);
    }
    chain.slots.insert(chain.slots.begin() + static_cast<std::ptrdiff_t>(at), std::move(slot));
    for (Claim& claim : chain.claims) {
        if (claim.slot >= at) ++claim.slot;
    }
}

bool comesApart(const Slot& slot) {
    const std::string& group = slot.group();
    return group == "union" || group == "coupler" || group == "flexible";
}

bool nutOnPort(const PortEnd& port) {
    return !port.flange && port.male && port.form == ThreadForm::parallelG;
}

} // namespace headmark::connections
