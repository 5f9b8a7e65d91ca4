// Which adapters stand for items of the run, and which losses of the sheet the run does not count.
#include "analysis/connections/slots.h"

#include <algorithm>
#include <cstdlib>

namespace headmark::connections {

namespace {

// The gap itself first, then those after it, then those before, nearest first.
std::size_t rank(std::size_t gap, std::size_t claim) {
    constexpr std::size_t kBefore = 100000; // more gaps than any run has
    return gap >= claim ? gap - claim : kBefore + claim - gap;
}

// Gives the place to at most `count` adapters that carry the fitting's loss; what is left over.
int settled(const Claim& claim, std::vector<InsertedAdapter> adapters, ConnectionSheet& sheet) {
    std::stable_sort(adapters.begin(), adapters.end(),
                     [&](const InsertedAdapter& a, const InsertedAdapter& b) {
                         return rank(a.gap, claim.slot) < rank(b.gap, claim.slot);
                     });
    int left = claim.count;
    for (const InsertedAdapter& adapter : adapters) {
        if (left == 0) break;
        PlacedPart& part = sheet.parts[adapter.part];
        if (!part.place.empty() || !part.row().carries(claim.fitting)) continue;
        part.place = claim.place;
        part.item = claim.fitting;
        part.origin = PartOrigin::run;
        --left;
    }
    return left;
}

// By its size, since near the pump no pipe need stand on either side to give the bores: the loss of one step
// of size, for each.
FittingItem threadReducer(const PlacedPart& part) {
    const int a = threadSizeIndex(part.ends[0].size), b = threadSizeIndex(part.ends[1].size);
    FittingItem item;
    item.code = "reducing_bush_default";
    item.size = threadSizes()[static_cast<std::size_t>(std::min(a, b))];
    item.count = std::max(1, std::abs(a - b));
    return item;
}

FittingItem lossItem(const PlacedPart& part) {
    const bool threads = part.ends.size() == 2 && threadSizeIndex(part.ends[0].size) >= 0 &&
                         threadSizeIndex(part.ends[1].size) >= 0;
    if (threads && part.row().group == "reducer") return threadReducer(part);
    FittingItem item;
    const PartRow& row = part.row();
    item.code = row.fittings.front();
    if (row.group == "reducer") {
        const End &in = part.ends[0], &out = part.ends[1];
        const bool narrows = in.kind == EndKind::thread ? threadSizeIndex(in.size) > threadSizeIndex(out.size)
                                                        : in.diameter_mm > out.diameter_mm;
        item.code = narrows ? "contraction_sudden" : "expansion_sudden";
    } else if (row.group == "tail") {
        item.size = "b=0.80"; // fittings.csv: where the tail's bore is not known
    } else if (threadSizeIndex(part.size.a) >= 0 && row.group != "floating-inlet") {
        item.size = part.size.a;
    }
    // A hose that is still to be described gives no bore; the tail in it does.
    for (const End& end : part.ends) {
        if (end.kind == EndKind::tail && end.diameter_mm > 0.0)
            item.bore = Length::fromMillimetres(end.diameter_mm);
    }
    return item;
}

} // namespace

void settleClaims(const std::vector<Claim>& claims, const std::vector<InsertedAdapter>& adapters,
                  ConnectionSheet& sheet) {
    for (const Claim& claim : claims) {
        const int left = settled(claim, adapters, sheet);
        if (left == 0) continue;
        Caution spare = fault("listed-part-without-place", Severity::note, claim.place, "check-the-run");
        spare.values = {{"fitting", claim.fitting}, {"count", static_cast<std::int64_t>(left)}};
        sheet.findings.push_back(std::move(spare));
    }
}

void addUncounted(const std::map<std::size_t, std::size_t>& runIndexOf, bool suction,
                  ConnectionSheet& sheet) {
    for (const auto& [index, runIndex] : runIndexOf) {
        const PlacedPart& part = sheet.parts[index];
        if (!part.place.empty() || part.row().fittings.empty()) continue;
        sheet.uncounted.push_back({index, suction, runIndex, lossItem(part)});
    }
}

} // namespace headmark::connections
