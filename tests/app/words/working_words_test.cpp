#include "app/words/working_words.h"

#include "app/words/english_wording.h"
#include "code_scan.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

WorkingWords worded(const WorkingStep& step) { return workingWords(step, englishPhrasing()); }

TEST(WorkingWords, HasWordsForEveryStepOfACase) {
    auto raised = testing::matchesInSources(testing::kWorkingCode);
    EXPECT_GE(raised.size(), 15u) << "the search no longer finds how workings are made";
    const auto codes = wordedWorkingCodes();
    const std::set<std::string> known(codes.begin(), codes.end());
    for (const std::string& code : raised)
        EXPECT_TRUE(known.contains(code)) << code;
}

TEST(WorkingWords, KeepsNoWordsForStepsThatNothingMakes) {
    std::string sources;
    for (const auto& file : testing::raisingSources())
        sources += testing::textOf(file);
    for (std::string_view code : wordedWorkingCodes()) {
        EXPECT_NE(sources.find("\"" + std::string(code) + "\""), std::string::npos) << code;
    }
}

// Every figure that a formula of ours asks for must be among those the core hands over.
TEST(WorkingWords, AsksOnlyForFiguresThatTheCoreHandsOver) {
    std::set<std::string> keys;
    for (const auto& file : testing::raisingSources()) {
        keys.merge(testing::matchesIn(testing::textOf(file), R"re(\{"([A-Za-z0-9_]+)",)re"));
    }
    for (std::string_view code : wordedWorkingCodes()) {
        WorkingStep step{std::string(code), "suction[0]", {}, {"x", 1.0}};
        for (const std::string& key : keys)
            step.with.push_back({key, 1.0});
        const WorkingWords words = worded(step);
        EXPECT_FALSE(words.with.contains("not known")) << code << ": " << words.with.toStdString();
        EXPECT_FALSE(words.with.contains('{') || words.title.contains('{')) << code;
        EXPECT_FALSE(words.title.isEmpty() || words.formula.isEmpty() || words.source.isEmpty()) << code;
    }
}

TEST(WorkingWords, PutsTheFiguresInTheFormulasOrderWithUnits) {
    const WorkingWords v = worded({"velocity",
                                   "suction[1]",
                                   {{"flow_m3_s", 0.00219444}, {"area_m2", 0.00204282}},
                                   {"velocity_m_s", 1.07422}});
    EXPECT_EQ(v.title.toStdString(), "Velocity in item 2 of the suction run");
    EXPECT_EQ(v.formula.toStdString(), "v = Q / A");
    EXPECT_EQ(v.with.toStdString(), "0.002194 m³/s / 0.002043 m²");
    EXPECT_EQ(v.result.toStdString(), "1.074 m/s");
    EXPECT_EQ(v.source.toStdString(), "continuity");
}

TEST(WorkingWords, PutsNegativeFiguresInBracketsAndTinyOnesAsPowersOfTen) {
    const WorkingWords h = worded({"system-head",
                                   "end",
                                   {{"end_level_m", 12.0},
                                    {"source_level_m", -1.8},
                                    {"suction_loss_m", 0.4},
                                    {"delivery_loss_m", 3.25},
                                    {"exit_loss_m", 0.0}},
                                   {"head_m", 17.45}});
    EXPECT_EQ(h.with.toStdString(), "12 m - (-1.8 m) + 0.4 m + 3.25 m + 0 m");
    EXPECT_EQ(h.result.toStdString(), "17.45 m");
    const WorkingWords re = worded({"reynolds",
                                    "delivery[2]",
                                    {{"velocity_m_s", 1.0}, {"bore_m", 0.05}, {"viscosity_m2_s", 1.1386e-6}},
                                    {"reynolds", 43913.0}});
    EXPECT_EQ(re.with.toStdString(), "1 m/s · 0.05 m / 1.139·10^-6 m²/s");
}

TEST(WorkingWords, GivesSharesAsPercentOnlyInResults) {
    const WorkingWords p = worded({"shaft-power",
                                   "pump",
                                   {{"hydraulic_kW", 0.8234}, {"efficiency_share", 0.61}},
                                   {"shaft_kW", 1.34984}});
    EXPECT_EQ(p.with.toStdString(), "0.8234 kW / 0.61");
    EXPECT_EQ(p.result.toStdString(), "1.35 kW");
    const WorkingWords s = worded(
        {"share-of-best-flow", "pump", {{"flow_m3_h", 7.9}, {"best_flow_m3_h", 8.5}}, {"share", 0.9294}});
    EXPECT_EQ(s.result.toStdString(), "93 %");
}

TEST(WorkingWords, NamesAnUnknownStepWithItsFigures) {
    const auto text =
        EnglishWording().workingText({"new-step", "pump", {{"depth_m", 1.25}}, {"head_m", 2.0}});
    EXPECT_EQ(text.title, "new-step (the pump)");
    EXPECT_EQ(text.with, "depth_m = 1.25 m");
    EXPECT_EQ(text.result, "2 m");
}

} // namespace
} // namespace headmark
