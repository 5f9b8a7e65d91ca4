#include "analysis/core/csv.h"

#include "analysis/core/assertion.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

TEST(CsvTable, ReadsFieldsByColumnName) {
    const CsvTable table("code,k,notes\nbend,0.5,round\ntee,1.25,\n");
    ASSERT_EQ(table.rows(), 2U);
    EXPECT_EQ(table.text(0, "code"), "bend");
    EXPECT_EQ(table.text(0, "notes"), "round");
    EXPECT_EQ(table.number(1, "k"), 1.25);
    EXPECT_EQ(table.text(1, "notes"), "");
}

TEST(CsvTable, GivesTheStandInForAnEmptyNumber) {
    const CsvTable table("code,k\nbend,\n");
    EXPECT_TRUE(table.empty(0, "k"));
    EXPECT_EQ(table.number(0, "k"), 0.0);
    EXPECT_EQ(table.number(0, "k", 2.0), 2.0);
}

TEST(CsvTable, SkipsCommentsAndBlankLinesAndTakesBothLineEnds) {
    const CsvTable table("# heading\r\ncode,k\r\n\r\n# remark, with a comma\r\nbend,3\r\nelbow # 2,4");
    ASSERT_EQ(table.rows(), 2U);
    EXPECT_EQ(table.number(0, "k"), 3.0);
    EXPECT_EQ(table.text(1, "code"), "elbow # 2");
    EXPECT_EQ(table.number(1, "k"), 4.0);
}

TEST(CsvTable, KeepsEmptyFieldsAtBothEnds) {
    const CsvTable table("a,b,c\n,x,\n");
    EXPECT_TRUE(table.empty(0, "a"));
    EXPECT_EQ(table.text(0, "b"), "x");
    EXPECT_TRUE(table.empty(0, "c"));
}

TEST(CsvTable, RefusesARowOfAnotherWidth) {
    EXPECT_THROW(CsvTable("a,b\n1\n"), InternalError);
    EXPECT_THROW(CsvTable("a,b\n1,2,3\n"), InternalError);
    EXPECT_THROW(CsvTable("# nothing else\n"), InternalError);
}

TEST(CsvTable, RefusesUnknownColumnsRowsAndTextForNumbers) {
    const CsvTable table("a,b\n1,2x\n");
    EXPECT_THROW(static_cast<void>(table.text(0, "c")), InternalError);
    EXPECT_THROW(static_cast<void>(table.text(1, "a")), InternalError);
    EXPECT_THROW(static_cast<void>(table.number(0, "b")), InternalError);
}

} // namespace
} // namespace headmark
