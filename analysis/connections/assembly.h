#pragma once
// The numbered order of assembly. Steps as codes with the parts they concern; app/words/part_words makes the
// sentences. Order (common practice, no source): look over the parts; set the source's fittings; make up the
// groups that cannot be turned once they hang on the pump; pump on its base; suction rising to the pump;
// delivery; accessories; main; electrics; fill and test.

#include "analysis/connections/connection_sheet.h"

namespace headmark {

struct AssemblyStep {
    std::string code;               // "place-pump"
    std::vector<std::size_t> parts; // indices of the sheet's parts, in the order they are joined
};

[[nodiscard]] std::vector<AssemblyStep> assemblyOf(const ConnectionSheet& sheet);

} // namespace headmark
