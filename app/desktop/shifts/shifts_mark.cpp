// The mark of the place Shifts in the rail.
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/shifts/shifts_place.h"
#include "app/words/caution_words.h"

#include <algorithm>

namespace headmark {

PlaceMark ShiftsPlace::mark() const {
    const auto answer = desk_.answers.latest();
    const PumpFindings* of = found(*answer);
    if (!of) return PlaceMark::empty;
    const auto& cautions = of->shiftPlan->cautions;
    const bool worse = std::any_of(cautions.begin(), cautions.end(),
                                   [](const Caution& c) { return c.severity != Severity::note; });
    return worse ? PlaceMark::attention : PlaceMark::ready;
}

QString ShiftsPlace::markWords() const {
    const auto answer = desk_.answers.latest();
    const PumpFindings* of = found(*answer);
    if (!of) return tr("no plan yet");
    QStringList said;
    const Phrasing phrasing = screenPhrasing(answer->workspace.job.site);
    for (const Caution& c : of->shiftPlan->cautions) {
        if (c.severity != Severity::note) said << cautionLabel(c.code, phrasing);
    }
    said.removeDuplicates();
    if (!said.isEmpty()) return said.join(QStringLiteral(", "));
    const std::size_t shifts = of->shiftPlan->shifts.size();
    return shifts == 1 ? tr("one shift a night") : tr("%1 shifts a night").arg(shifts);
}

} // namespace headmark
