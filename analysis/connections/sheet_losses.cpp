#include "analysis/connections/connection_sheet.h"

#include <algorithm>

namespace headmark {

namespace {

Run withLosses(const Run& run, const ConnectionSheet& sheet, bool suction) {
    Run made;
    for (std::size_t i = 0; i <= run.size(); ++i) {
        for (const UncountedLoss& loss : sheet.uncounted) {
            if (loss.suction == suction && std::min(loss.before, run.size()) == i) made.push_back(loss.item);
        }
        if (i < run.size()) made.push_back(run[i]);
    }
    return made;
}

} // namespace

Site withSheetLosses(const Site& site, const ConnectionSheet& sheet) {
    Site made = site;
    made.suction = withLosses(site.suction, sheet, true);
    made.delivery = withLosses(site.delivery, sheet, false);
    return made;
}

} // namespace headmark
