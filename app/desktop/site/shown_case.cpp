#include "app/desktop/site/shown_case.h"

#include "app/desktop/site/run_spot.h"

#include <QCoreApplication>

namespace headmark {

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(ShownCase)
};

} // namespace

const MadeCase* shownCase(const Answer& answer, const Shown& shown) {
    if (!answer.prepared) return nullptr;
    const auto& cases = answer.prepared->cases();
    const auto index = static_cast<std::size_t>(shown.caseIndex);
    return shown.caseIndex >= 0 && index < cases.size() ? &cases[index] : nullptr;
}

QString neededWords(const Answer& answer, const Shown& shown, const DisplayUnits& units) {
    const MadeCase* made = shownCase(answer, shown);
    if (!made) return {};
    for (const Need& need : answer.needs) {
        if (need.caseName != made->setting.name) continue;
        return Words::tr("needed: %1 at %2").arg(units.text(need.flow), units.text(need.head));
    }
    return {};
}

std::vector<Error> siteErrors(const Answer& answer) {
    std::vector<Error> errors;
    for (const Error& error : answer.errors) {
        if (error.place.starts_with("site") || spotOf(error.place)) errors.push_back(error);
    }
    return errors;
}

Cautions siteCautions(const Answer& answer) {
    Cautions cautions;
    if (!answer.shownCase) return cautions;
    for (const Caution& caution : answer.shownCase->cautions) {
        const bool ofSite = caution.place == "site" || (caution.place != "pump" && spotOf(caution.place));
        if (ofSite && caution.severity != Severity::note) cautions.push_back(caution);
    }
    return cautions;
}

} // namespace headmark
