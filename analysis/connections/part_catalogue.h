#pragma once
// The catalogue of parts between source, pump and main: data/parts.csv, each row with its source, embedded.
// A part has ends in the order the water meets them (a third is a branch) and comes in sizes; an end takes
// its size from the part's size a or b. Names and purposes are worded in app/words/part_words.

#include "analysis/connections/joint.h"
#include "analysis/units/quantities.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace headmark {

// a and b of parts.csv; b empty where a part has one size.
struct PartSize {
    std::string a, b;

    bool operator==(const PartSize&) const = default;
    [[nodiscard]] std::string text() const { return b.empty() ? a : a + " x " + b; }
};

enum class SuctionUse { yes, floodedOnly, no };

struct PartRow {
    std::string code, description, group, symbol;
    std::vector<std::string> endTokens; // grammar in parts.csv
    std::vector<PartSize> sizes;        // empty: one part for any size
    std::string seal;                   // its own: "tape", "face_washer", "o_ring" ...
    std::string material;
    std::optional<Pressure> rating;
    SuctionUse suction = SuctionUse::yes;
    std::optional<double> adapterCost; // among adapters; empty: never inserted as one
    std::string exposure;              // "open", "sheltered", "any": where it is the first choice
    std::vector<std::string> fittings; // codes of fittings.csv whose loss it carries
    std::string confidence, source, notes;

    [[nodiscard]] bool carries(std::string_view fitting) const;
};

[[nodiscard]] std::span<const PartRow> partRows();
[[nodiscard]] const PartRow* findPart(std::string_view code); // or null
// Every part that carries the loss of that fitting, in the catalogue's order.
[[nodiscard]] std::vector<const PartRow*> partsForFitting(std::string_view fitting);
// Whether the two do the same work and one may stand for the other: of one group, or both open the line,
// both begin the suction, both shut it.
[[nodiscard]] bool mayReplace(const PartRow& a, const PartRow& b);
// Fittings of fittings.csv that are no part: exits, fusion beads.
[[nodiscard]] bool isLossOnly(std::string_view fitting);

// Its ends at that size; asserts on a size the grammar cannot use.
[[nodiscard]] std::vector<End> endsOf(const PartRow& part, const PartSize& size);
// The catalogue size whose a (and b, where given) are these, or null.
[[nodiscard]] const PartSize* findSize(const PartRow& part, std::string_view a, std::string_view b = {});

} // namespace headmark
