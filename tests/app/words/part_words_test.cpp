#include "app/words/part_words.h"

#include "analysis/connections/part_catalogue.h"
#include "code_scan.h"
#include "tests/analysis/connections/sheet_sites.h"

#include <gtest/gtest.h>

#include <set>

namespace headmark {
namespace {

std::set<std::string> asSet(const std::vector<std::string_view>& codes) {
    return {codes.begin(), codes.end()};
}

const std::filesystem::path kConnections =
    std::filesystem::path(HEADMARK_TESTS_DIR) / ".." / "analysis" / "connections";

std::set<std::string> inSources(const std::string& pattern) {
    std::set<std::string> found;
    for (const auto& entry : std::filesystem::directory_iterator(kConnections)) {
        if (entry.path().extension() == ".cpp")
            found.merge(testing::matchesIn(testing::textOf(entry.path()), pattern));
    }
    return found;
}

// Calls do(sheet) for every source and outlet of the connection sheet's own tests.
template <class Do>
void onEverySheet(Do use) {
    for (const testing::NamedSite& named : testing::sitesOfEveryKind()) {
        for (const testing::Variant& variant : testing::outletVariants())
            use(testing::sheetOf(testing::withVariant(named.site, variant), variant));
    }
}

TEST(PartWords, NameEveryPartOfTheCatalogueAndNoOther) {
    std::set<std::string> parts;
    for (const PartRow& part : partRows())
        parts.insert(part.code);
    EXPECT_EQ(asSet(wordedParts()), parts);
    for (const PartRow& part : partRows()) {
        const QString words = materialWords(part.material, englishPhrasing());
        EXPECT_FALSE(words.contains('_')) << part.material;
    }
}

TEST(PartWords, SayWhatEveryPlacedPartIsForAndHowEveryJointIsClosed) {
    const auto purposes = asSet(wordedPurposes());
    onEverySheet([&](const ConnectionSheet& sheet) {
        for (const PlacedPart& part : sheet.parts) {
            EXPECT_TRUE(purposes.contains(part.purpose)) << part.purpose;
            EXPECT_TRUE(partPurpose(part.purpose, englishPhrasing()).endsWith('.'));
        }
    });
    // A run part's purpose is its group.
    for (const PartRow& part : partRows()) {
        const bool onSheet = part.group != "clamp" && part.group != "sealing" && part.group != "plug" &&
                             part.group != "gauge" && part.group != "start-relay";
        EXPECT_TRUE(!onSheet || part.endTokens.size() < 2 || purposes.contains(part.group)) << part.group;
    }
}

TEST(PartWords, WordEveryRuleOfJointsWithItsRemedy) {
    std::set<std::string> codes, remedies;
    for (const JointRule& rule : jointRules()) {
        codes.insert(rule.code);
        if (!rule.remedy.empty()) remedies.insert(rule.remedy);
    }
    EXPECT_EQ(asSet(wordedJoints()), codes);
    EXPECT_EQ(asSet(wordedJointRemedies()), remedies);
}

TEST(PartWords, WordEveryStepAndEveryRowOfCommissioning) {
    std::set<std::string> steps, rows;
    onEverySheet([&](const ConnectionSheet& sheet) {
        for (const AssemblyStep& step : assemblyOf(sheet)) {
            steps.insert(step.code);
            EXPECT_FALSE(assemblySentence(step, englishPhrasing()).contains('{'));
        }
        for (const int phases : {1, 3}) {
            ExpectedFigures expected;
            expected.phases = phases;
            for (const CommissioningRow& row : commissioningOf(sheet, expected))
                rows.insert(row.code);
        }
    });
    EXPECT_EQ(asSet(wordedSteps()), steps);
    EXPECT_EQ(asSet(wordedCommissioningRows()), rows);
}

// Findings and remedies stand in the sources as literals.
TEST(PartWords, WordEveryFindingRemedyAndErrorOfTheSheet) {
    std::set<std::string> cautions, remedies, errors;
    for (const CautionEntry& row : partCautionRows())
        cautions.emplace(row.code);
    for (const RemedyEntry& row : partRemedyRows())
        remedies.emplace(row.code);
    for (const ErrorEntry& row : partErrorEntries())
        errors.emplace(row.code);
    const auto raised = inSources(R"re("([a-z0-9-]+)",\s*Severity::)re");
    EXPECT_GE(raised.size(), 20u) << "the search no longer finds how findings are raised";
    for (const std::string& code : raised)
        EXPECT_TRUE(cautions.contains(code)) << code;
    for (const std::string& code : inSources(R"re(refusal\("([a-z0-9-]+)")re"))
        EXPECT_TRUE(errors.contains(code)) << code;
    onEverySheet([&](const ConnectionSheet& sheet) {
        for (const Caution& finding : sheet.findings) {
            EXPECT_TRUE(cautions.contains(finding.code)) << finding.code;
            EXPECT_TRUE(finding.remedy.empty() || remedies.contains(finding.remedy)) << finding.remedy;
        }
    });
    const std::filesystem::path root = std::filesystem::path(HEADMARK_TESTS_DIR) / "..";
    std::string sources = testing::textOf(root / "analysis" / "job" / "connection_finding.cpp") +
                          testing::textOf(root / "analysis" / "job" / "remedies.cpp") +
                          testing::textOf(root / "analysis" / "job" / "supply_rules.cpp") +
                          testing::textOf(root / "app" / "cli" / "sheet_command.cpp");
    for (const char* extension : {".cpp", ".csv"}) {
        for (const auto& entry : std::filesystem::recursive_directory_iterator(kConnections)) {
            if (entry.path().extension() == extension) sources += testing::textOf(entry.path());
        }
    }
    for (const auto* worded : {&cautions, &remedies, &errors}) {
        for (const std::string& code : *worded)
            EXPECT_NE(sources.find(code), std::string::npos) << code << " is worded but never raised";
    }
}

TEST(PartWords, NumberPartsAsOnTheDrawing) {
    const QString step = assemblySentence({"make-up-on-inlet", {6, 7, 8, 10, 14}}, englishPhrasing());
    EXPECT_EQ(step.toStdString(),
              "Screw the parts 7 to 9, 11 and 15 onto the pump's inlet while it can still be "
              "turned into place.");
}

TEST(PartWords, GiveSizesTheWayTheTradeDoes) {
    const ConnectionSheet sheet = testing::sheetOf(testing::sitesOfEveryKind()[4].site);
    const PlacedPart& tail = sheet.parts[1];
    EXPECT_EQ(placedPartWords(tail, englishPhrasing()).toStdString(),
              "Hose tail with male thread, plastic, 2 × hose of 51.0 mm");
}

TEST(PartWords, ShowAnExpectedFigureOnlyWhereItIsKnown) {
    const CommissioningRow known{
        "return-setting", {{"bucket_l", 10.0}, {"time_s", 72.0}}, "reading_s", {}, {}};
    EXPECT_EQ(commissioningWords(known, englishPhrasing()).expected.toStdString(), "10.0 l in 72.0 s");
    EXPECT_EQ(commissioningWords(known, englishPhrasing()).unit.toStdString(), "s");
    const CommissioningRow open{"return-setting", {{"bucket_l", 10.0}}, "reading_s", {}, {}};
    EXPECT_TRUE(commissioningWords(open, englishPhrasing()).expected.isEmpty());
    const CommissioningRow reasoned{"shut-off", {}, "reading_kPa", {}, "levels-not-given"};
    EXPECT_EQ(commissioningWords(reasoned, englishPhrasing()).expected.toStdString(),
              "not known: give the source's levels");
}

} // namespace
} // namespace headmark
