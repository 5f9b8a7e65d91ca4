#pragma once
// One fitting made ready for computing, between the bores of its neighbours. Part of elementsOf(); the rules
// for bore, size and loss model are told in element.h.

#include "analysis/pipework/element.h"

#include <numbers>

namespace headmark {

// Bores around an item. `inside`: pipes of the run itself; the others reach beyond its ends.
struct Neighbours {
    std::optional<double> insideBefore_m, insideAfter_m, before_m, after_m;
    bool hoseBefore = false, hoseAfter = false;

    [[nodiscard]] std::optional<double> usual_m() const {
        return insideAfter_m ? insideAfter_m : insideBefore_m ? insideBefore_m : after_m ? after_m : before_m;
    }
};

[[nodiscard]] inline double boreArea_m2(double bore_m) { return 0.25 * std::numbers::pi * bore_m * bore_m; }

// Nothing tells the bore of the item `what` ("fitting", "filter").
[[nodiscard]] Error noBore(std::size_t index, std::string_view what, const std::string& code);

[[nodiscard]] Result<Element> fittingElement(const FittingItem& fitting, std::size_t index,
                                             const Neighbours& around, const ElementContext& context);

} // namespace headmark
