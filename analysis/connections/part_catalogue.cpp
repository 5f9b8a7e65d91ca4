#include "analysis/connections/part_catalogue.h"

#include "analysis/connections/end_grammar.h"
#include "analysis/core/assertion.h"
#include "analysis/core/csv.h"

#include <algorithm>

namespace headmark::embedded {
std::string_view parts_csv();
}

namespace headmark {

namespace {

SuctionUse suctionNamed(std::string_view text) {
    if (text == "yes") return SuctionUse::yes;
    if (text == "flooded") return SuctionUse::floodedOnly;
    HEADMARK_ASSERT(text == "no", "an unknown use at suction in parts.csv");
    return SuctionUse::no;
}

PartRow readPart(const CsvTable& table, std::size_t i) {
    PartRow part;
    part.code = table.text(i, "code");
    part.description = table.text(i, "description");
    part.group = table.text(i, "group");
    part.symbol = table.text(i, "symbol");
    part.endTokens = splitText(table.text(i, "ends"), ';');
    part.sizes = sizesFromText(table.text(i, "sizes"));
    part.seal = table.text(i, "seal");
    part.material = table.text(i, "material");
    if (!table.empty(i, "rating_bar")) part.rating = Pressure::fromBars(table.number(i, "rating_bar"));
    part.suction = suctionNamed(table.text(i, "suction"));
    if (!table.empty(i, "adapter")) part.adapterCost = table.number(i, "adapter");
    part.exposure = table.text(i, "exposure");
    part.fittings = splitText(table.text(i, "fittings"), ';');
    part.confidence = table.text(i, "confidence");
    part.source = table.text(i, "source");
    part.notes = table.text(i, "notes");
    return part;
}

std::vector<PartRow> readParts() {
    const CsvTable table(embedded::parts_csv());
    std::vector<PartRow> parts;
    parts.reserve(table.rows());
    for (std::size_t i = 0; i < table.rows(); ++i)
        parts.push_back(readPart(table, i));
    return parts;
}

struct KindGroup {
    std::string_view group, kind;
};
// Groups that may stand for each other.
constexpr KindGroup kKinds[] = {{"foot-valve", "source-end"},
                                {"floating-inlet", "source-end"},
                                {"union", "opens"},
                                {"coupler", "opens"},
                                {"flexible", "opens"},
                                {"isolating-valve", "valve"},
                                {"throttling-valve", "valve"},
                                {"tee", "tee"},
                                {"pressure-switch", "switch"}};

std::string kindOf(const PartRow& part) {
    // A basket in the water stands for a foot valve, one in the line does not.
    if (part.code == "suction_basket") return "source-end";
    for (const KindGroup& known : kKinds) {
        if (known.group == part.group) return std::string(known.kind);
    }
    return part.group;
}

constexpr std::string_view kLossOnly[] = {"exit", "pe_butt_weld_bead"};

} // namespace

bool PartRow::carries(std::string_view fitting) const {
    return std::find(fittings.begin(), fittings.end(), fitting) != fittings.end();
}

std::span<const PartRow> partRows() {
    static const std::vector<PartRow> parts = readParts();
    return parts;
}

const PartRow* findPart(std::string_view code) {
    const auto parts = partRows();
    const auto found =
        std::find_if(parts.begin(), parts.end(), [&](const PartRow& p) { return p.code == code; });
    return found == parts.end() ? nullptr : &*found;
}

std::vector<const PartRow*> partsForFitting(std::string_view fitting) {
    std::vector<const PartRow*> found;
    for (const PartRow& part : partRows()) {
        if (part.carries(fitting)) found.push_back(&part);
    }
    return found;
}

bool mayReplace(const PartRow& a, const PartRow& b) { return kindOf(a) == kindOf(b); }

bool isLossOnly(std::string_view fitting) {
    return std::find(std::begin(kLossOnly), std::end(kLossOnly), fitting) != std::end(kLossOnly);
}

std::vector<End> endsOf(const PartRow& part, const PartSize& size) {
    std::vector<End> ends;
    for (const std::string& token : part.endTokens)
        ends.push_back(endFromToken(token, size, part.material));
    return ends;
}

const PartSize* findSize(const PartRow& part, std::string_view a, std::string_view b) {
    const auto found = std::find_if(part.sizes.begin(), part.sizes.end(),
                                    [&](const PartSize& s) { return s.a == a && (b.empty() || s.b == b); });
    return found == part.sizes.end() ? nullptr : &*found;
}

} // namespace headmark
