#include "app/words/findings_table.h"

#include "app/words/findings_parts.h"
#include "app/words/number_words.h"
#include "app/words/safety_words.h"
#include "app/words/text_page.h"

#include <QCoreApplication>

namespace headmark {

namespace {

constexpr const char* kContext = "Findings";

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Findings", text)

void writeTitle(TextPage& page, const Job& job, const Phrasing& p) {
    page.title(job.title.empty() ? p.text(kContext, HM_WORDS("Findings")) : QString::fromStdString(job.title),
               QLatin1Char('='));
    page.paragraph(
        job.limits.asDelivered
            ? p.text(kContext,
                     HM_WORDS("Whether a case is served is judged at the worse end of what the maker "
                              "may deliver."))
            : p.text(kContext, HM_WORDS("Whether a case is served is judged by the pump as printed.")));
}

void writeNeeds(TextPage& page, const std::vector<Need>& needs, const Phrasing& p) {
    if (needs.empty()) return;
    page.blank();
    page.title(p.text(kContext, HM_WORDS("What the site needs at the pump")), QLatin1Char('-'));
    for (const Need& need : needs) {
        page.item(QString::fromStdString(need.caseName) + QStringLiteral(": ") +
                  p.text(kContext, HM_WORDS("%1 at %2"))
                      .arg(quantityWords("flow_m3_h", need.flow.inCubicMetresPerHour(), p),
                           quantityWords("head_m", need.head.inMetres(), p)));
    }
}

} // namespace

QString findingsTable(const Findings& findings, const Job& job, Phrasing phrasing) {
    phrasing.site = &job.site;
    TextPage page(kTableColumns);
    writeTitle(page, job, phrasing);
    writeNeeds(page, findings.needs, phrasing);
    for (const PumpFindings& pump : findings.pumps) {
        page.blank();
        page.title(QString::fromStdString(pump.name), QLatin1Char('='));
        writeVerdict(page, pump, job, phrasing);
        writeShifts(page, pump, job, phrasing);
        writeCases(page, pump, job, phrasing);
        writeZonePressures(page, pump, job, phrasing);
        writeInstallation(page, pump, phrasing);
        writeCautions(page, pump, phrasing);
        writeIntervals(page, pump, phrasing);
    }
    page.blank();
    page.title(phrasing.text(kContext, HM_WORDS("Always")), QLatin1Char('-'));
    for (const QString& sentence : usualCautions(phrasing))
        page.item(sentence);
    return page.text();
}

} // namespace headmark
