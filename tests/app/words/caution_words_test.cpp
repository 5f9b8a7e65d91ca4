#include "app/words/caution_words.h"

#include "analysis/chart/chart_codes.h"
#include "app/words/english_wording.h"
#include "app/words/error_words.h"
#include "app/words/number_words.h"
#include "app/words/safety_words.h"
#include "app/words/working_words.h"
#include "code_scan.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace headmark {
namespace {

std::string worded(const Caution& caution, const Phrasing& phrasing = englishPhrasing()) {
    return cautionSentence(caution, phrasing).toStdString();
}

std::string remedied(const std::string& code, const Facts& facts) {
    return remedySentence({"x", Severity::note, "", {}, code, facts, ""}, englishPhrasing()).toStdString();
}

std::set<std::string> asSet(const std::vector<std::string_view>& codes) {
    return {codes.begin(), codes.end()};
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::set<std::string> allWordedCodes() {
    std::set<std::string> all = asSet(wordedCautionCodes());
    all.merge(asSet(wordedRemedyCodes()));
    all.merge(asSet(wordedWorkingCodes()));
    all.merge(asSet(wordedErrorCodes()));
    all.merge(asSet(wordedTopics()));
    return all;
}

TEST(CautionWords, HasWordsForEveryCautionRaised) {
    const auto raised = testing::matchesInSources(testing::kCautionCode);
    EXPECT_GE(raised.size(), 25u) << "the search no longer finds how cautions are raised";
    const auto known = asSet(wordedCautionCodes());
    for (const std::string& code : raised)
        EXPECT_TRUE(known.contains(code)) << code;
}

TEST(CautionWords, HasWordsForEveryCodeThatStandsInTheSources) {
    const auto found = testing::matchesInSources(testing::kHyphenated);
    EXPECT_GE(found.size(), 50u) << "the search no longer finds the codes";
    const auto known = allWordedCodes();
    for (const std::string& code : found)
        EXPECT_TRUE(known.contains(code)) << code;
}

TEST(CautionWords, KeepsNoWordsForCodesThatNothingRaises) {
    std::string sources;
    for (const auto& file : testing::namingSources())
        sources += testing::textOf(file);
    for (const auto& codes : {wordedCautionCodes(), wordedRemedyCodes()}) {
        for (std::string_view code : codes)
            EXPECT_TRUE(has(sources, "\"" + std::string(code) + "\"")) << code;
    }
}

TEST(CautionWords, HasWordsForEveryCautionOfCharts) {
    const auto known = asSet(wordedCautionCodes()), remedies = asSet(wordedRemedyCodes());
    for (const code::ChartCautionRow& row : code::kChartCautions) {
        EXPECT_TRUE(known.contains(std::string(row.code))) << row.code;
        EXPECT_TRUE(remedies.contains(std::string(row.remedy))) << row.remedy;
    }
}

TEST(CautionWords, NamesTheLineOfAChartAndWhereItStands) {
    const Caution lost{"line-lost",
                       Severity::warning,
                       "pumps[0].readings[1].lines[2]",
                       {{"line", std::string("upper")}, {"x_px", 620.0}, {"y_px", 480.25}},
                       "click-further-on",
                       {},
                       ""};
    EXPECT_EQ(worded(lost),
              "Line 3 of reading 2 of pump 1 (\"upper\") could not be followed to an end of its own: it is "
              "lost near pixel (620.0, 480.3), so part of it may be missing.");
    const Phrasing p = englishPhrasing();
    EXPECT_EQ(placeWords("lines[0]", p).toStdString(), "line 1 of the reading");
    EXPECT_EQ(placeWords("pins[3]", p).toStdString(), "pin 4 of the reading");
    EXPECT_EQ(placeWords("pins", p).toStdString(), "one of the pins of the reading");
    EXPECT_EQ(placeWords("pumps[1].readings[0]", p).toStdString(), "reading 1 of pump 2");
    EXPECT_EQ(placeWords("pumps[1].readings", p).toStdString(), "pumps[1].readings");
}

TEST(CautionWords, MakesWholeSentencesWithoutPlaceHoldersForEveryCode) {
    for (std::string_view code : wordedCautionCodes()) {
        for (Severity severity : {Severity::note, Severity::warning, Severity::danger}) {
            for (const char* side : {"left", "right"}) {
                const std::string text = worded(
                    {std::string(code), severity, "suction[1]", {{"side", std::string(side)}}, "", {}, ""});
                EXPECT_TRUE(text.ends_with('.')) << text;
                EXPECT_FALSE(has(text, "{")) << text;
                EXPECT_FALSE(has(text, "needs a look")) << text;
            }
        }
        EXPECT_FALSE(cautionLabel(code, englishPhrasing()).isEmpty()) << code;
    }
    for (std::string_view code : wordedRemedyCodes()) {
        const std::string text = remedied(std::string(code), {});
        EXPECT_TRUE(text.ends_with('.') && !has(text, "{") && !has(text, "Remedy:")) << text;
    }
}

TEST(CautionWords, SaysWhatWhereHowMuchAndWhy) {
    const Caution fast{"suction-velocity",
                       Severity::warning,
                       "suction[1]",
                       {{"velocity_m_s", 1.0741}, {"limit_m_s", 1.0}},
                       "wider-bore",
                       {{"bore_mm", 52.68}},
                       ""};
    EXPECT_EQ(worded(fast),
              "The water in item 2 of the suction run runs at 1.07 m/s, above the 1.00 m/s that is good "
              "practice on a suction side, so friction eats up suction head and the pump may draw air or "
              "cavitate.");
    EXPECT_EQ(remedySentence(fast, englishPhrasing()).toStdString(),
              "Use pipe with a bore of about 52.7 mm or more there.");
}

TEST(CautionWords, SpeaksInTheReadersUnits) {
    WordUnits units;
    units.pressure = WordUnit{QStringLiteral("bar"), 0.01, 5, 2};
    Phrasing phrasing = englishPhrasing();
    phrasing.units = &units;
    const Caution rating{"shut-off-above-rating",
                         Severity::danger,
                         "pump",
                         {{"pressure_kPa", 1234.0}, {"limit_kPa", 1000.0}},
                         {},
                         {},
                         ""};
    const QString said = cautionSentence(rating, phrasing);
    EXPECT_TRUE(said.contains(QStringLiteral("12.34 bar"))) << said.toStdString();
    EXPECT_TRUE(said.contains(QStringLiteral("10.00 bar"))) << said.toStdString();
    EXPECT_FALSE(said.contains(QStringLiteral("kPa"))) << said.toStdString();
}

TEST(CautionWords, UsesTheSitesOwnNames) {
    Site site;
    FittingItem footValve;
    footValve.code = "foot_valve_poppet_strainer";
    PipeItem hose;
    hose.kind.code = "suction_hose_51";
    site.suction = {footValve, hose};
    site.zones.resize(1);
    site.zones[0].name = "Beds 1-4";
    site.zones[0].branch.push_back(PipeItem{});
    const Phrasing named = englishPhrasing(&site);
    EXPECT_EQ(placeWords("suction[1]", named).toStdString(), "item 2 of the suction run (suction_hose_51)");
    EXPECT_EQ(placeWords("zones[0].branch[0]", named).toStdString(),
              "item 1 of the branch of zone \"Beds 1-4\" (pipe)");
    EXPECT_EQ(placeWords("zones[7]", named).toStdString(), "zone 8");
}

TEST(CautionWords, TurnsEveryPlaceIntoWords) {
    const Phrasing p = englishPhrasing();
    EXPECT_EQ(placeWords("zones[2].branch[0]", p).toStdString(), "item 1 of the branch of zone 3");
    EXPECT_EQ(placeWords("delivery[3]", p).toStdString(), "item 4 of the delivery run");
    EXPECT_EQ(placeWords("tank_return", p).toStdString(), "the tank return");
    EXPECT_EQ(placeWords("somewhere.else", p).toStdString(), "somewhere.else");
}

TEST(CautionWords, TellsAFigureFromItsLimitWhenRoundingWouldHideIt) {
    const std::string close =
        worded({"pressure-low",
                Severity::warning,
                "zones[0]",
                {{"zone", std::string("Beds")}, {"pressure_kPa", 79.7}, {"limit_kPa", 80.0}},
                "",
                {},
                ""});
    EXPECT_TRUE(has(close, "sees 79.7 kPa, below its lower limit of 80.0 kPa")) << close;
}

TEST(CautionWords, TellsDangerFromAShortNpshMargin) {
    const Facts facts{{"available_m", 3.1}, {"required_m", 3.4}, {"margin_m", -0.3}, {"limit_m", 0.6}};
    EXPECT_TRUE(has(worded({"npsh-margin", Severity::danger, "suction", facts, "", {}, ""}),
                    "leaves 3.1 m of NPSH, less than the 3.4 m"));
    EXPECT_TRUE(has(worded({"npsh-margin", Severity::warning, "suction", facts, "", {}, ""}),
                    "below the 0.6 m asked for"));
}

TEST(CautionWords, NamesAnUnknownCodeWithItsFacts) {
    const Caution strange{
        "new-kind-of-trouble", Severity::note, "pump", {{"depth_m", 1.25}}, "do-this", {}, ""};
    EXPECT_EQ(worded(strange),
              "Something about the pump needs a look (new-kind-of-trouble; depth_m: 1.3 m).");
    EXPECT_EQ(remedySentence(strange, englishPhrasing()).toStdString(), "Remedy: do-this.");
    EXPECT_TRUE(remedySentence({}, englishPhrasing()).isEmpty());
}

TEST(CautionWords, WritesNumbersInTheNumberFormatAskedFor) {
    Phrasing german = englishPhrasing();
    german.locale = QLocale(QLocale::German, QLocale::Germany);
    const Caution lift{
        "suction-lift",
        Severity::danger,
        "source",
        {{"lift_m", 6.83}, {"static_m", 6.5}, {"loss_m", 0.33}, {"limit_m", 6.0}, {"altitude_m", 0.0}},
        "",
        {},
        ""};
    EXPECT_TRUE(has(worded(lift, german), "lift 6,8 m on its suction side")) << worded(lift, german);
    EXPECT_TRUE(has(worded(lift, german), "more than the 6,0 m")) << worded(lift, german);
    EXPECT_TRUE(has(EnglishWording().cautionText(lift), "lift 6.8 m on"));
}

TEST(NumberWords, GivesEachQuantityTheDigitsItDeserves) {
    const Phrasing p = englishPhrasing();
    const auto text = [&](const char* key, double v) { return quantityWords(key, v, p).toStdString(); };
    EXPECT_EQ(text("flow_m3_h", 7.9345), "7.93 m³/h");
    EXPECT_EQ(text("flow_m3_h", 0.3), "0.30 m³/h");
    EXPECT_EQ(text("flow_m3_h", 9.996), "10.0 m³/h"); // rounding carries into the next decade
    EXPECT_EQ(text("flow_m3_h", 1234.0), "1230 m³/h");
    EXPECT_EQ(text("head_m", 38.249), "38.2 m");
    EXPECT_EQ(text("head_m", -0.04), "0.0 m"); // no minus before nothing
    EXPECT_EQ(text("limit_kPa", 1234.4), "1234 kPa");
    EXPECT_EQ(text("off_share", 0.127), "13 %");
    EXPECT_EQ(text("share_of_best_flow", 0.3), "30 %");
    EXPECT_EQ(text("input_kW", 1.628), "1.63 kW");
    EXPECT_EQ(text("kWh_per_m3", 0.2234), "0.22 kWh/m³");
    EXPECT_EQ(text("velocity_m_s", 1.0741), "1.07 m/s");
    EXPECT_EQ(text("residual_m", 0.00123), "0.0012 m");
    EXPECT_EQ(text("reynolds", 3123.4), "3123");
    EXPECT_EQ(text("head_m", std::numeric_limits<double>::infinity()), "not known");
}

TEST(SafetyWords, SayTheUsualDangers) {
    const std::string all = usualCautions(englishPhrasing()).join(' ').toStdString();
    for (const char* word : {"30 mA", "isolate", "qualified electrician", "pressure", "heavy", "backflow",
                             "drinking water", "local codes", "licensed"}) {
        EXPECT_TRUE(has(all, word)) << word;
    }
}

} // namespace
} // namespace headmark
