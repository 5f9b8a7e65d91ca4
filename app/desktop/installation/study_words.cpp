#include "app/desktop/installation/study_words.h"

#include "app/words/number_words.h"
#include "app/words/working_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace headmark {

namespace {

struct StudyWords {
    Q_DECLARE_TR_FUNCTIONS(StudyWords)
};

struct GroupRow {
    std::string_view code;
    const char* title;
};

// Kinds that a study states once for each level, case, zone, part or filter.
constexpr GroupRow kGroups[] = {
    {"npsh-margin-at-level",
     QT_TRANSLATE_NOOP("StudyWords", "Margin of NPSH at every water level, at the greatest flow")},
    {"submergence", QT_TRANSLATE_NOOP("StudyWords", "Depth of the suction's mouths below the surface")},
    {"submergence-strainer", QT_TRANSLATE_NOOP("StudyWords", "Depth of the strainers below the surface")},
    {"submergence-outlet", QT_TRANSLATE_NOOP("StudyWords", "Water over the tank's outlets")},
    {"floating-inlet-depth", QT_TRANSLATE_NOOP("StudyWords", "Depth at which floating inlets hang")},
    {"return-share", QT_TRANSLATE_NOOP("StudyWords", "Share of the pump's flow that the return takes")},
    {"rating-spare", QT_TRANSLATE_NOOP("StudyWords", "Spare of the parts")},
    {"filter-clean", QT_TRANSLATE_NOOP("StudyWords", "Gauge difference of the clean filters")},
    {"filter-service", QT_TRANSLATE_NOOP("StudyWords", "Gauge difference at which filters are cleaned")},
    {"filter-mesh", QT_TRANSLATE_NOOP("StudyWords", "Opening that the finest emitter asks of the filters")},
    {"valve-shuts", QT_TRANSLATE_NOOP("StudyWords", "Jump of head when a zone valve shuts")},
    {"surge-peak", QT_TRANSLATE_NOOP("StudyWords", "Highest pressure with that jump")},
    {"starts-smallest-zone",
     QT_TRANSLATE_NOOP("StudyWords", "Starts an hour while only the smallest zone draws")},
    {"speed-for-set-point", QT_TRANSLATE_NOOP("StudyWords", "Speed that holds the set point")},
    {"energy-saved-by-speed",
     QT_TRANSLATE_NOOP("StudyWords", "Energy a cubic metre saved at the shaft by speed")},
    {"motor-current-three", QT_TRANSLATE_NOOP("StudyWords", "Current drawn, three phases")},
    {"motor-current-one", QT_TRANSLATE_NOOP("StudyWords", "Current drawn, one phase")},
    {"cost-per-volume", QT_TRANSLATE_NOOP("StudyWords", "Cost of a cubic metre")},
};

double figureOf(const WorkingStep& step) {
    const auto* number = std::get_if<double>(&step.result.value);
    return number ? *number : 0.0;
}

} // namespace

QString groupTitle(const WorkingStep& first, const Phrasing& phrasing) {
    for (const GroupRow& row : kGroups) {
        if (row.code == first.code) return StudyWords::tr(row.title);
    }
    return workingWords(first, phrasing).title;
}

std::vector<std::string_view> groupedCodes() {
    std::vector<std::string_view> codes;
    for (const GroupRow& row : kGroups)
        codes.push_back(row.code);
    return codes;
}

QString figureWords(const WorkingStep& step, const Phrasing& phrasing) {
    const auto* number = std::get_if<double>(&step.result.value);
    return number ? quantityWords(step.result.key, *number, phrasing) : workingWords(step, phrasing).result;
}

QString groupRange(const std::vector<const WorkingStep*>& steps, const Phrasing& phrasing) {
    const auto [least, greatest] =
        std::minmax_element(steps.begin(), steps.end(), [](const WorkingStep* a, const WorkingStep* b) {
            return figureOf(*a) < figureOf(*b);
        });
    const QString low = figureWords(**least, phrasing);
    const QString high = figureWords(**greatest, phrasing);
    return low == high ? low : StudyWords::tr("%1 to %2").arg(low, high);
}

} // namespace headmark
