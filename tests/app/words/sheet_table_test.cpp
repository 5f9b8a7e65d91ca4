// Connection sheet and drawing in words: every part, every joint and every blank is on the page.
#include "app/words/sheet_table.h"

#include "analysis/connections/schematic.h"
#include "app/words/drawing_svg.h"
#include "app/words/findings_table.h"
#include "app/words/part_words.h"
#include "tests/analysis/connections/sheet_sites.h"

#include <QXmlStreamReader>
#include <gtest/gtest.h>

namespace headmark {
namespace {

struct SheetCase {
    std::string name;
    Job job;
    PumpFindings pump;
};

std::vector<SheetCase> everySheet() {
    std::vector<SheetCase> cases;
    for (const testing::NamedSite& named : testing::sitesOfEveryKind()) {
        for (const testing::Variant& variant : testing::outletVariants()) {
            SheetCase one;
            one.name = named.name + ", " + variant.name;
            one.job.site = testing::withVariant(named.site, variant);
            one.pump.name = "A";
            ConnectionFinding finding;
            finding.sheet = testing::sheetOf(one.job.site, variant);
            finding.commissioning = commissioningOf(finding.sheet, {});
            one.pump.connections = std::move(finding);
            cases.push_back(std::move(one));
        }
    }
    return cases;
}

TEST(SheetTable, NamesEveryPartByItsNumberWithinTheWidthOfAPage) {
    for (const SheetCase& one : everySheet()) {
        SCOPED_TRACE(one.name);
        const QStringList lines = sheetTable(one.pump, one.job).split(QLatin1Char('\n'));
        for (const QString& line : lines)
            EXPECT_LE(line.size(), kTableColumns) << line.toStdString();
        const auto& parts = one.pump.connections->sheet.parts;
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const QString number = QString::number(i + 1).rightJustified(4) + QStringLiteral("  ");
            const QString first = partName(parts[i].part, englishPhrasing()).section(QLatin1Char(' '), 0, 0);
            const bool there = std::any_of(lines.begin(), lines.end(), [&](const QString& line) {
                return line.startsWith(number) && line.contains(first);
            });
            EXPECT_TRUE(there) << i + 1 << " " << parts[i].part;
        }
    }
}

TEST(SheetTable, LeavesABlankForEveryReading) {
    for (const SheetCase& one : everySheet()) {
        SCOPED_TRACE(one.name);
        const QString page = sheetTable(one.pump, one.job);
        qsizetype blanks = 0, ticks = 0;
        for (const CommissioningRow& row : one.pump.connections->commissioning)
            ++(row.unitKey.empty() ? ticks : blanks);
        EXPECT_EQ(page.count(QStringLiteral("________")), blanks);
        EXPECT_EQ(page.count(QStringLiteral("[ ]")), ticks);
    }
}

TEST(SheetTable, SaysTheUsualCautionsAndThatAKnownCurveHasNoRun) {
    PumpFindings pump;
    pump.name = "A";
    EXPECT_TRUE(sheetTable(pump, Job()).contains(QStringLiteral("known system curve")));
    EXPECT_TRUE(sheetTable(everySheet().front().pump, everySheet().front().job)
                    .contains(QStringLiteral("qualified electrician")));
}

// A drawing as SVG: one element a stroke, all words in.
TEST(DrawingSvg, IsWellFormedAndHasEveryStroke) {
    for (const SheetCase& one : everySheet()) {
        SCOPED_TRACE(one.name);
        const Schematic drawing = schematicOf(one.pump.connections->sheet);
        QXmlStreamReader reader(drawingSvg(drawing, QStringLiteral("A & B"), englishPhrasing()));
        std::size_t shapes = 0, texts = 0;
        QString words;
        while (!reader.atEnd()) {
            if (reader.readNext() != QXmlStreamReader::StartElement) continue;
            const QStringView name = reader.name();
            if (name == QLatin1String("text")) {
                ++texts;
                words += reader.readElementText() + QLatin1Char('\n');
            } else if (name != QLatin1String("svg") && name != QLatin1String("title")) {
                ++shapes;
            }
        }
        EXPECT_FALSE(reader.hasError()) << reader.errorString().toStdString();
        const std::vector<Stroke> strokes = drawing.strokes();
        const auto textStrokes = static_cast<std::size_t>(std::count_if(
            strokes.begin(), strokes.end(), [](const Stroke& s) { return s.kind == StrokeKind::text; }));
        EXPECT_EQ(texts, textStrokes);
        EXPECT_EQ(shapes, strokes.size() - textStrokes);
        EXPECT_TRUE(words.contains(captionWords("to-main", englishPhrasing())));
    }
}

} // namespace
} // namespace headmark
