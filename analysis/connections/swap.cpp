#include "analysis/connections/swap.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <charconv>

namespace headmark {

namespace {

Error refusal(const char* code, const PlacedPart& placed, std::string_view part, Facts more = {}) {
    Error error{code, "", placed.place, {{"part", std::string(part)}}};
    error.facts.insert(error.facts.end(), more.begin(), more.end());
    return error;
}

bool inSize(const PartRow& part, const PlacedPart& placed) {
    if (part.sizes.empty() || findSize(part, placed.size.a)) return true;
    return placed.size.a.empty();
}

std::vector<std::string> sizeTexts(const PartRow& part) {
    std::vector<std::string> texts;
    for (const PartSize& size : part.sizes)
        texts.push_back(size.text());
    return texts;
}

std::size_t indexIn(const std::string& place) {
    const std::size_t at = place.find('[');
    std::size_t index = 0;
    if (at != std::string::npos) std::from_chars(place.data() + at + 1, place.data() + place.size(), index);
    return index;
}

// The run item with the new part's fitting; empty where the part carries the old one's loss as well, or none.
std::optional<Swap::Item> changedItem(const Site& site, const PlacedPart& placed, const PartRow& part) {
    const bool suction = placed.place.starts_with("suction[");
    if (!suction && !placed.place.starts_with("delivery[")) return {};
    const std::size_t index = indexIn(placed.place);
    const Run& run = suction ? site.suction : site.delivery;
    HEADMARK_ASSERT(index < run.size(), "a place beyond the run");
    const auto* fitting = std::get_if<FittingItem>(&run[index]);
    if (!fitting || part.fittings.empty() || part.carries(fitting->code)) return {};
    FittingItem item = *fitting;
    item.code = part.fittings.front();
    // Figures of the old one, spelled out, would overrule the new one's.
    item.k.reset();
    item.kv_m3_h.reset();
    item.angle_deg.reset();
    return Swap::Item{suction, index, item};
}

int standIns(const ConnectionSheet& sheet) {
    return static_cast<int>(std::count_if(sheet.parts.begin(), sheet.parts.end(),
                                          [](const PlacedPart& p) { return p.row().group == "to-suit"; }));
}

Result<void> mayStand(const ConnectionSheet& sheet, const PlacedPart& placed, const PartRow& part) {
    const std::string& group = placed.row().group;
    if (group == "pump" || group == "pipe" || group == "hose" || group == "to-suit")
        return refusal("nothing-to-swap", placed, placed.part);
    if (!mayReplace(placed.row(), part))
        return refusal("swap-of-another-kind", placed, part.code, {{"instead_of", placed.part}});
    BridgeUse use;
    use.joint.suction = placed.line == SheetLine::inlet;
    use.lift = sheet.lift;
    if (!allowedThere(part, use)) return refusal("part-not-on-suction", placed, part.code);
    if (!inSize(part, placed))
        return refusal("part-not-in-size", placed, part.code,
                       {{"size", placed.size.text()}, {"allowed", sizeTexts(part)}});
    return {};
}

} // namespace

Result<Swap> replaced(const SheetInput& input, const ConnectionSheet& sheet, std::size_t index,
                      std::string_view code) {
    HEADMARK_ASSERT(input.site && index < sheet.parts.size(), "a swap beyond the sheet");
    const PlacedPart& placed = sheet.parts[index];
    const PartRow* part = findPart(code);
    if (!part) return refusal("unknown-part", placed, code);
    if (const auto may = mayStand(sheet, placed, *part); !may) return may.error();
    Swap swap;
    swap.choices = input.choices;
    const bool adapter = part->adapterCost.has_value();
    const std::string key =
        adapter ? std::string(placed.line == SheetLine::inlet ? "inlet." : "outlet.") + placed.row().group
                : placed.slot;
    swap.choices.parts[key] = part->code;
    Site site = *input.site;
    if (!adapter) swap.item = changedItem(site, placed, *part);
    if (swap.item) (swap.item->suction ? site.suction : site.delivery)[swap.item->index] = swap.item->item;
    SheetInput changed = input;
    changed.site = &site;
    changed.choices = swap.choices;
    Result<ConnectionSheet> made = connectionSheet(changed);
    if (!made) return made.error();
    if (standIns(*made) > standIns(sheet)) return refusal("swap-does-not-join", placed, code);
    const auto stands = [&](const PlacedPart& p) { return p.part == code; };
    if (std::none_of(made->parts.begin(), made->parts.end(), stands))
        return refusal("swap-does-not-join", placed, code);
    swap.sheet = std::move(*made);
    return swap;
}

std::vector<std::string> alternativesTo(const SheetInput& input, const ConnectionSheet& sheet,
                                        std::size_t index) {
    std::vector<std::string> codes;
    const PlacedPart& placed = sheet.parts[index];
    for (const PartRow& part : partRows()) {
        if (part.code == placed.part || !mayStand(sheet, placed, part)) continue;
        if (replaced(input, sheet, index, part.code)) codes.push_back(part.code);
    }
    return codes;
}

} // namespace headmark
