// The rules of the trade that the program judges by, and how DEVELOPERS.md prints them.
// To approve a change after reading the difference: HEADMARK_APPROVE=1 ctest -R RuleList (in the build
// folder).
#include "analysis/pipework/rule_list.h"

#include "analysis/core/assertion.h"
#include "analysis/pipework/rules.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

namespace headmark {
namespace {

std::string textOf(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

// Everything of the core but the list itself.
std::string sourcesThatJudge() {
    const std::filesystem::path analysis = std::filesystem::path(HEADMARK_TESTS_DIR) / ".." / "analysis";
    std::string all;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(analysis)) {
        if (entry.path().extension() == ".cpp" && entry.path().filename() != "rule_list.cpp")
            all += textOf(entry.path());
    }
    return all;
}

TEST(RuleList, NamesOnlyRulesThatTheSourcesAskFor) {
    const std::string sources = sourcesThatJudge();
    ASSERT_GT(sources.size(), 100'000U);
    for (const std::string_view code : judgingCodes()) {
        EXPECT_NE(sources.find('"' + std::string(code) + '"'), std::string::npos) << code;
        EXPECT_TRUE(findLimit(code) && findLimit(code)->value) << code;
    }
}

TEST(RuleList, ARuleThatIsNotListedGivesNoFigure) {
    const Rules rules;
    EXPECT_EQ(rules.value("suction_lift_max"), 6.0); // the row of velocities_and_limits.csv
    EXPECT_THROW(static_cast<void>(rules.value("test_pressure")), InternalError);
    EXPECT_THROW(static_cast<void>(rules.valueForPower("motor_margin", 1.0)), InternalError);
}

TEST(RuleList, ARuleThatGoesByPowerHasARowForEach) {
    std::set<std::string> powers;
    for (const LimitRow* row : judgingRows()) {
        if (row->code == "starts_per_hour_pump") powers.insert(row->appliesTo);
    }
    EXPECT_EQ(powers.size(), 5U); // five rows in the table
    // Besides, five rows by temperature for polyethylene and five for PVC-U.
    EXPECT_EQ(judgingRows().size(), judgingCodes().size() - 3 + powers.size() + 5 + 5);
    EXPECT_TRUE(std::ranges::is_sorted(judgingRows()));
}

std::string printed(const LimitRow& row) {
    std::ostringstream line;
    line << "| `" << row.code << "` | " << row.quantity << " | " << *row.value << " | " << row.unit << " | "
         << row.appliesTo << " | "
         << (row.confidence == "practice" ? std::string("common practice, no source") : row.source) << " |\n";
    return line.str();
}

TEST(RuleList, DevelopersPagePrintsTheTable) {
    const std::string head =
        "| code | quantity | value | unit | applies to | source |\n|---|---|---|---|---|---|\n";
    std::string expected = head;
    for (const LimitRow* row : judgingRows())
        expected += printed(*row);
    const std::string page = HEADMARK_TESTS_DIR "/../DEVELOPERS.md";
    std::string text = textOf(page);
    const std::size_t section = text.find("## Rules of the trade\n");
    ASSERT_NE(section, std::string::npos);
    const std::size_t begin = text.find(head, section);
    ASSERT_NE(begin, std::string::npos);
    std::size_t end = begin;
    while (end < text.size() && text[end] == '|')
        end = text.find('\n', end) + 1;
    if (std::getenv("HEADMARK_APPROVE")) {
        std::ofstream(page, std::ios::binary) << text.substr(0, begin) + expected + text.substr(end);
        return;
    }
    EXPECT_EQ(text.substr(begin, end - begin), expected);
}

} // namespace
} // namespace headmark
