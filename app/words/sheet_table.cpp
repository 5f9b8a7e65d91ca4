#include "app/words/sheet_table.h"

#include "app/words/caution_words.h"
#include "app/words/findings_table.h"
#include "app/words/part_words.h"
#include "app/words/safety_words.h"
#include "app/words/sheet_rows.h"

#include <QCoreApplication>

#include <algorithm>

namespace headmark {

namespace {

constexpr const char* kContext = "Sheet";

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Sheet", text)

constexpr int kNumberWidth = 4;
constexpr int kPartWidth = 44;
constexpr int kPurposeWidth = kTableColumns - kNumberWidth - kPartWidth - 4;

QString lineTitle(SheetLine line, const Phrasing& p) {
    switch (line) {
    case SheetLine::inlet:
        return p.text(kContext, HM_WORDS("Inlet, from the source to the pump"));
    case SheetLine::pump:
    case SheetLine::outlet:
        return p.text(kContext, HM_WORDS("Outlet, from the pump to the main"));
    case SheetLine::main:
        return p.text(kContext, HM_WORDS("Along the main"));
    case SheetLine::control:
        break;
    }
    return p.text(kContext, HM_WORDS("Control"));
}

void heading(TextPage& page, const QString& text) {
    page.blank();
    page.title(text, QLatin1Char('-'));
}

void writeCautions(TextPage& page, const ConnectionSheet& sheet, const Phrasing& p) {
    if (sheet.findings.empty()) return;
    heading(page, p.text(kContext, HM_WORDS("Missing or wrong")));
    std::vector<const Caution*> sorted;
    for (const Caution& caution : sheet.findings)
        sorted.push_back(&caution);
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const Caution* a, const Caution* b) { return a->severity > b->severity; });
    for (const Caution* caution : sorted) {
        page.item(severityWords(caution->severity, p) + QStringLiteral(": ") + cautionSentence(*caution, p));
        const QString remedy = remedySentence(*caution, p);
        if (!remedy.isEmpty()) page.paragraph(p.text(kContext, HM_WORDS("What to do: %1")).arg(remedy), 4);
    }
}

// "added" and "adapter" tell what the run does not list.
QString partWords(const PlacedPart& part, const Phrasing& p) {
    const QString words = placedPartWords(part, p);
    return part.origin == PartOrigin::run ? words : QStringLiteral("+ ") + words;
}

void writeParts(TextPage& page, const ConnectionSheet& sheet, const Phrasing& p) {
    for (const SheetLine line :
         {SheetLine::inlet, SheetLine::pump, SheetLine::outlet, SheetLine::main, SheetLine::control}) {
        std::vector<QStringList> rows;
        for (std::size_t i = 0; i < sheet.parts.size(); ++i) {
            const PlacedPart& part = sheet.parts[i];
            if (part.line == line)
                rows.push_back({QString::number(i + 1), partWords(part, p), partPurpose(part.purpose, p)});
        }
        if (rows.empty()) continue;
        // The pump stands by itself between its two sides.
        heading(page, line == SheetLine::pump ? p.text(kContext, HM_WORDS("Pump")) : lineTitle(line, p));
        page.table({{{QString()}, kNumberWidth, true},
                    {{p.text(kContext, HM_WORDS("part"))}, kPartWidth, false},
                    {{p.text(kContext, HM_WORDS("what it is for"))}, kPurposeWidth, false}},
                   rows);
    }
    page.blank();
    page.paragraph(p.text(
        kContext, HM_WORDS("+ stands for what the runs of the job do not list: adapters where ends or sizes "
                           "change, and what good practice adds.")));
}

void writeJoints(TextPage& page, const ConnectionSheet& sheet, const Phrasing& p) {
    if (sheet.joints.empty()) return;
    heading(page, p.text(kContext, HM_WORDS("Joints")));
    for (const JointKind& kind : jointKinds(sheet, p)) {
        const QString words = kind.sentence + QLatin1Char(' ') + kind.between;
        page.item(kind.verdict->right ? words : p.text(kContext, HM_WORDS("Wrong: %1")).arg(words));
        const QString remedy = jointRemedy(*kind.verdict, p);
        if (!remedy.isEmpty()) page.paragraph(p.text(kContext, HM_WORDS("What to do: %1")).arg(remedy), 4);
    }
}

void writeBill(TextPage& page, const ConnectionSheet& sheet, const Phrasing& p) {
    heading(page, p.text(kContext, HM_WORDS("List of parts")));
    page.table({{{p.text(kContext, HM_WORDS("pcs"))}, kNumberWidth, true},
                {{p.text(kContext, HM_WORDS("part"))}, kTableColumns - kNumberWidth - 24, false},
                {{p.text(kContext, HM_WORDS("numbers"))}, 20, false}},
               billRows(sheet, p));
}

void writeAssembly(TextPage& page, const ConnectionSheet& sheet, const Phrasing& p) {
    heading(page, p.text(kContext, HM_WORDS("Order of assembly")));
    int number = 0;
    for (const AssemblyStep& step : assemblyOf(sheet))
        page.paragraph(QStringLiteral("%1. %2").arg(++number).arg(assemblySentence(step, p)));
}

void writeCommissioning(TextPage& page, const std::vector<CommissioningRow>& steps, const Phrasing& p) {
    heading(page, p.text(kContext, HM_WORDS("Commissioning: read and write down")));
    std::vector<QStringList> rows;
    for (const FirstStartRow& row : firstStartRows(steps, p)) {
        const QString blank =
            row.unit.isEmpty() ? QStringLiteral("[ ]") : QStringLiteral("________ ") + row.unit;
        rows.push_back({row.what, row.expected, blank});
    }
    page.table({{{p.text(kContext, HM_WORDS("what"))}, 50, false},
                {{p.text(kContext, HM_WORDS("expected"))}, 30, false},
                {{p.text(kContext, HM_WORDS("read"))}, 16, false}},
               rows);
}

} // namespace

QString sheetTable(const PumpFindings& pump, const Job& job, Phrasing phrasing) {
    phrasing.site = &job.site;
    TextPage page(kTableColumns);
    page.title(
        phrasing.text(kContext, HM_WORDS("Connection sheet: %1")).arg(QString::fromStdString(pump.name)),
        QLatin1Char('='));
    if (!pump.connections) {
        page.paragraph(phrasing.text(
            kContext, HM_WORDS("The site is given as a known system curve, so there is no run to connect.")));
        return page.text();
    }
    const ConnectionSheet& sheet = pump.connections->sheet;
    writeCautions(page, sheet, phrasing);
    writeParts(page, sheet, phrasing);
    writeJoints(page, sheet, phrasing);
    writeBill(page, sheet, phrasing);
    writeAssembly(page, sheet, phrasing);
    writeCommissioning(page, pump.connections->commissioning, phrasing);
    heading(page, phrasing.text(kContext, HM_WORDS("Always")));
    for (const QString& sentence : usualCautions(phrasing))
        page.item(sentence);
    return page.text();
}

} // namespace headmark
