// Which line is which quantity: the job file's contract on readings.
#include "analysis/job/choose_lines.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

std::shared_ptr<const Reading> reading(const std::vector<std::pair<const char*, LineQuantity>>& lines) {
    Reading r;
    for (const auto& [name, quantity] : lines) {
        ChartLine line;
        line.name = name;
        line.quantity = quantity;
        r.lines.push_back(line);
    }
    return std::make_shared<const Reading>(r);
}

Pump pumpOf(std::vector<ReadingUse> uses) {
    Pump pump;
    pump.name = "P";
    pump.readings = std::move(uses);
    return pump;
}

const Fact& fact(const Error& error, const char* key) {
    static const Fact none{"none", std::string()};
    const Fact* found = findFact(error.facts, key);
    EXPECT_NE(found, nullptr) << key;
    return found ? *found : none;
}

std::string text(const Error& error, const char* key) {
    return std::get<std::string>(fact(error, key).value);
}

TEST(ChooseLines, TheOnlyLineOfAQuantityNeedsNoEntry) {
    const auto chosen =
        chooseLines(pumpOf({{"a.json", {}}}),
                    {reading({{"x", LineQuantity::npshRequired}, {"y", LineQuantity::head}})}, "pumps[0]");
    ASSERT_TRUE(chosen.ok());
    EXPECT_EQ(chosen->size(), 2U);
    EXPECT_EQ(chosen->at(CurveQuantity::head).line, 1U);
    EXPECT_EQ(chosen->at(CurveQuantity::npshRequired).line, 0U);
}

TEST(ChooseLines, TakesTheNamedLineOfTheQuantityAskedFor) {
    const auto two = reading(
        {{"upper", LineQuantity::efficiency}, {"upper", LineQuantity::head}, {"lower", LineQuantity::head}});
    const auto chosen =
        chooseLines(pumpOf({{"a.json", {{CurveQuantity::head, "upper"}}}}), {two}, "pumps[0]");
    ASSERT_TRUE(chosen.ok());
    EXPECT_EQ(chosen->at(CurveQuantity::head).line, 1U);
    EXPECT_EQ(chosen->at(CurveQuantity::efficiency).line, 0U);
}

TEST(ChooseLines, RefusesTwoCandidatesWithoutAChoiceAndNamesBoth) {
    const auto two = reading({{"upper", LineQuantity::head}, {"lower", LineQuantity::head}});
    const auto chosen = chooseLines(pumpOf({{"a.json", {}}}), {two}, "pumps[3]");
    ASSERT_FALSE(chosen.ok());
    EXPECT_EQ(chosen.error().code, "line-choice-needed");
    EXPECT_EQ(chosen.error().place, "pumps[3].readings[0].lines.head");
    EXPECT_EQ(std::get<std::vector<std::string>>(fact(chosen.error(), "lines").value),
              (std::vector<std::string>{"upper", "lower"}));
}

TEST(ChooseLines, RefusesANameTheReadingHasNotForThatQuantity) {
    const auto chosen =
        chooseLines(pumpOf({{"a.json", {{CurveQuantity::head, "eta"}}}}),
                    {reading({{"eta", LineQuantity::efficiency}, {"H", LineQuantity::head}})}, "pumps[0]");
    ASSERT_FALSE(chosen.ok());
    EXPECT_EQ(chosen.error().code, "unknown-line");
    EXPECT_EQ(chosen.error().place, "pumps[0].readings[0].lines.head");
    EXPECT_EQ(std::get<std::vector<std::string>>(fact(chosen.error(), "known").value),
              std::vector<std::string>{"H"});
}

TEST(ChooseLines, RefusesAQuantityGivenByTwoReadings) {
    const auto chosen =
        chooseLines(pumpOf({{"a.json", {}}, {"b.json", {}}}),
                    {reading({{"A", LineQuantity::head}}), reading({{"B", LineQuantity::head}})}, "pumps[0]");
    ASSERT_FALSE(chosen.ok());
    EXPECT_EQ(chosen.error().code, "quantity-given-twice");
    EXPECT_EQ(chosen.error().place, "pumps[0].readings[1]");
    EXPECT_EQ(text(chosen.error(), "line"), "B");
    EXPECT_EQ(text(chosen.error(), "first"), "pumps[0].readings[0]");
    EXPECT_EQ(text(chosen.error(), "first_line"), "A");
}

TEST(ChooseLines, RefusesAQuantityGivenByAReadingAndByPoints) {
    Pump pump = pumpOf({{"a.json", {}}});
    pump.curves[CurveQuantity::head] = {};
    const auto chosen = chooseLines(pump, {reading({{"A", LineQuantity::head}})}, "pumps[0]");
    ASSERT_FALSE(chosen.ok());
    EXPECT_EQ(chosen.error().code, "quantity-given-twice");
    EXPECT_EQ(text(chosen.error(), "first"), "pumps[0].curves.head");
}

TEST(ChooseLines, RefusesAPumpWhoseReadingsHoldNoHead) {
    const auto chosen =
        chooseLines(pumpOf({{"a.json", {}}}), {reading({{"eta", LineQuantity::efficiency}})}, "pumps[1]");
    ASSERT_FALSE(chosen.ok());
    EXPECT_EQ(chosen.error().code, "pump-without-head");
    EXPECT_EQ(chosen.error().place, "pumps[1]");
}

} // namespace
} // namespace headmark
