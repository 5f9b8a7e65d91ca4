#include "analysis/units/unit_table.h"

#include <gtest/gtest.h>

#include <set>
#include <string>
#include <utility>

namespace headmark {
namespace {

TEST(UnitTable, HoldsEveryPrintedUnitOfTheReadingFile) {
    for (const auto* symbol : {"m3/h", "l/s", "l/min", "US gal/min", "imp gal/min"}) {
        EXPECT_NE(findUnit(Dimension::flow, symbol), nullptr) << symbol;
    }
    for (const auto* symbol : {"m", "ft", "kPa", "bar", "psi"}) {
        EXPECT_NE(findUnit(Dimension::head, symbol), nullptr) << symbol;
    }
    EXPECT_NE(findUnit(Dimension::power, "kW"), nullptr);
    EXPECT_NE(findUnit(Dimension::power, "hp"), nullptr);
    EXPECT_NE(findUnit(Dimension::efficiency, "%"), nullptr);
}

TEST(UnitTable, NamesEachUnitOnceAndItsSource) {
    std::set<std::pair<Dimension, std::string>> seen;
    for (const Unit& unit : unitTable()) {
        EXPECT_TRUE(seen.emplace(unit.dimension, unit.symbol).second) << unit.symbol;
        EXPECT_GT(unit.inSi, 0.0) << unit.symbol;
        EXPECT_FALSE(unit.source.empty()) << unit.symbol;
    }
}

TEST(UnitTable, GuessesNoSymbol) {
    EXPECT_EQ(findUnit(Dimension::flow, "gal/min"), nullptr);
    EXPECT_EQ(findUnit(Dimension::flow, "M3/H"), nullptr);
    EXPECT_EQ(findUnit(Dimension::flow, "m"), nullptr);
    EXPECT_EQ(findUnit(Dimension::head, ""), nullptr);
}

TEST(UnitTable, KeepsTheTwoGallonsApart) {
    // By hand: 4.54609 l / 3.785411784 l = 1.2009499255.
    EXPECT_NEAR(findUnit(Dimension::flow, "imp gal/min")->inSi /
                    findUnit(Dimension::flow, "US gal/min")->inSi,
                1.2009499255, 1e-10);
}

} // namespace
} // namespace headmark
