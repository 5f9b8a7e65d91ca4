// The mark of the place Installation in the rail.
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/installation/installation_place.h"
#include "app/words/caution_words.h"

#include <algorithm>

namespace headmark {

namespace {

// What is worse than a note, of studies and sheet.
std::vector<const Caution*> seriousOf(const PumpFindings& pump) {
    std::vector<const Caution*> serious;
    const auto look = [&](const Cautions& cautions) {
        for (const Caution& caution : cautions) {
            if (caution.severity != Severity::note) serious.push_back(&caution);
        }
    };
    for (const Study& study : pump.installation)
        look(study.cautions);
    if (pump.connections) look(pump.connections->sheet.findings);
    return serious;
}

} // namespace

PlaceMark InstallationPlace::mark() const {
    const auto answer = desk_.answers.latest();
    const PumpFindings* of = found(*answer);
    if (!of) return PlaceMark::empty;
    return seriousOf(*of).empty() ? PlaceMark::ready : PlaceMark::attention;
}

QString InstallationPlace::markWords() const {
    const auto answer = desk_.answers.latest();
    const PumpFindings* of = found(*answer);
    if (!of) return tr("no pump yet");
    QStringList said;
    const Phrasing phrasing = screenPhrasing(answer->workspace.job.site);
    for (const Caution* caution : seriousOf(*of))
        said << cautionLabel(caution->code, phrasing);
    said.removeDuplicates();
    return said.isEmpty() ? tr("nothing stands out") : said.join(QStringLiteral(", "));
}

} // namespace headmark
