// What guards a pump's installation, for the table of findings: the figures of every study.
#include "app/words/findings_parts.h"
#include "app/words/number_words.h"
#include "app/words/working_words.h"

#include <QCoreApplication>

namespace headmark {

namespace {

constexpr const char* kContext = "Findings";

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Findings", text)

} // namespace

void writeInstallation(TextPage& page, const PumpFindings& pump, const Phrasing& p) {
    bool any = false;
    for (const Study& study : pump.installation) {
        if (study.figures.empty()) continue;
        if (!any) {
            page.blank();
            page.title(p.text(kContext, HM_WORDS("The installation")), QLatin1Char('-'));
        }
        any = true;
        page.item(topicTitle(study.topic, p));
        for (const WorkingStep& figure : study.figures) {
            const WorkingWords words = workingWords(figure, p);
            const auto* number = std::get_if<double>(&figure.result.value);
            const QString result = number ? quantityWords(figure.result.key, *number, p) : words.result;
            page.item(p.text(kContext, HM_WORDS("%1: %2")).arg(words.title, result), 2);
        }
    }
}

} // namespace headmark
