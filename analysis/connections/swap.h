#pragma once
// Another part in the place of one on the sheet. Where the new part's loss is another catalogue fitting, the
// run item changes and the loss model follows; where the loss stays the same or none is counted, only a
// choice of the sheet changes.

#include "analysis/connections/connection_sheet.h"

namespace headmark {

struct Swap {
    // Set: this item of that run is to be replaced.
    struct Item {
        bool suction = false;
        std::size_t index = 0;
        RunItem item;
    };
    std::optional<Item> item;
    SheetChoices choices;  // in any case: as they are after the swap
    ConnectionSheet sheet; // as it is after the swap
};

// Codes of the parts that may stand there instead: of the same kind, in that size, allowed on that side.
[[nodiscard]] std::vector<std::string> alternativesTo(const SheetInput& input, const ConnectionSheet& sheet,
                                                      std::size_t part);

// Errors: "unknown-part" (facts: part), "swap-of-another-kind" (part, instead_of), "part-not-in-size" (part,
// size, allowed), "part-not-on-suction" (part), "swap-does-not-join" (part): no listed adaptor leads to it,
// "nothing-to-swap" (part): pump, pipes and hoses are changed in the run.
[[nodiscard]] Result<Swap> replaced(const SheetInput& input, const ConnectionSheet& sheet, std::size_t part,
                                    std::string_view code);

} // namespace headmark
