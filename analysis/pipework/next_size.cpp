#include "analysis/pipework/next_size.h"

namespace headmark {

namespace {

// "pe100_sdr17" of "pe100_sdr17_63".
std::string_view familyOf(std::string_view code) { return code.substr(0, code.rfind('_')); }

} // namespace

// The least wide pipe of at least that bore: of the same family, else of the same material and no less
// rating.
const PipeRow* widerPipe(const PipeKind& kind, Length least, bool suction) {
    const PipeRow* now = findPipe(kind.code);
    if (!now) return nullptr;
    const PipeRow* best = nullptr;
    bool bestIsFamily = false;
    for (const PipeRow& row : pipeRows()) {
        if (row.kind.bore < least || row.material != now->material) continue;
        if (suction && !row.kind.mayBeSuction) continue;
        const bool family = familyOf(row.kind.code) == familyOf(kind.code);
        const bool strong = !kind.rating || (row.kind.rating && *row.kind.rating >= *kind.rating);
        if (!family && !strong) continue;
        const bool better =
            !best || (family && !bestIsFamily) || (family == bestIsFamily && row.kind.bore < best->kind.bore);
        if (!better) continue;
        best = &row;
        bestIsFamily = family;
    }
    return best;
}

const PipeRow* strongerPipe(const PipeKind& kind, GaugePressure needed) {
    const PipeRow* now = findPipe(kind.code);
    if (!now) return nullptr;
    const PipeRow* best = nullptr;
    for (const PipeRow& row : pipeRows()) {
        if (row.material != now->material || row.outerDiameter_mm != now->outerDiameter_mm) continue;
        if (!row.kind.rating || row.kind.rating->inPascals() < needed.inPascals()) continue;
        if (!best || row.kind.rating->inKilopascals() < best->kind.rating->inKilopascals()) best = &row;
    }
    return best;
}

const FilterRow* largerFilter(const FilterItem& filter, Flow needed) {
    const FilterRow* now = findFilter(filter.code);
    if (!now) return nullptr;
    const FilterRow* best = nullptr;
    for (const FilterRow& row : filterRows()) {
        if (row.type != now->type || !row.item.greatestFlow) continue;
        if (*row.item.greatestFlow < needed) continue;
        if (!best || *row.item.greatestFlow < *best->item.greatestFlow) best = &row;
    }
    return best;
}

} // namespace headmark
