// Whose line is it: the pumps' readings follow the lines of the charts.
#include "app/desktop/charts/line_owners.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

constexpr const char* kSheet = "page.reading.json";

Workspace withSheet() {
    Workspace workspace;
    Reading reading;
    reading.printedUnits.flow = "m3/h";
    workspace.charts.push_back({kSheet, std::make_shared<const Reading>(reading)});
    return workspace;
}

ChartLine line(const char* name, LineQuantity quantity) {
    ChartLine made;
    made.name = name;
    made.quantity = quantity;
    made.followFrom.push_back({10.0, 10.0});
    return made;
}

const std::string& taken(const Workspace& workspace, std::size_t pump, CurveQuantity quantity) {
    return workspace.job.pumps.at(pump).readings.at(0).lines.at(quantity);
}

TEST(LineOwners, AFirstHeadLineMakesAPumpAndOtherLinesJoinIt) {
    Workspace workspace = withSheet();
    addLine(workspace, kSheet, line("head", LineQuantity::head), 0, "Blue 5");
    addLine(workspace, kSheet, line("efficiency", LineQuantity::efficiency), 0, "Blue 5");
    ASSERT_EQ(workspace.job.pumps.size(), 1U);
    EXPECT_EQ(workspace.job.pumps[0].name, "Blue 5");
    EXPECT_EQ(taken(workspace, 0, CurveQuantity::head), "head");
    EXPECT_EQ(taken(workspace, 0, CurveQuantity::efficiency), "efficiency");
}

TEST(LineOwners, ASecondPageCompletesTheShownPump) {
    Workspace workspace = withSheet();
    addLine(workspace, kSheet, line("head", LineQuantity::head), 0, "Blue 5");
    workspace.charts.push_back({"second.reading.json", workspace.charts[0].reading});
    changeReading(workspace, "second.reading.json", [](Reading& r) { r.lines.clear(); });
    addLine(workspace, "second.reading.json", line("power", LineQuantity::power), 0, "x");
    ASSERT_EQ(workspace.job.pumps.size(), 1U);
    ASSERT_EQ(workspace.job.pumps[0].readings.size(), 2U);
    EXPECT_EQ(workspace.job.pumps[0].readings[1].lines.at(CurveQuantity::power), "power");
}

TEST(LineOwners, AFurtherHeadLineWaitsForItsPumpAndLeavesTheFirstAlone) {
    Workspace workspace = withSheet();
    addLine(workspace, kSheet, line("head", LineQuantity::head), 0, "Blue 5");
    addLine(workspace, kSheet, line("head", LineQuantity::head), 0, "Blue 5");
    EXPECT_EQ(workspace.charts[0].reading->lines[1].name, "head 2");
    EXPECT_EQ(workspace.job.pumps.size(), 1U);
    EXPECT_TRUE(ownersOf(workspace, kSheet, 1).empty());
    EXPECT_EQ(makePumpsOfHeadLines(workspace, kSheet), 1U);
    EXPECT_EQ(taken(workspace, 0, CurveQuantity::head), "head");
    EXPECT_EQ(taken(workspace, 1, CurveQuantity::head), "head 2");
}

TEST(LineOwners, ARenamedLineStaysItsPumps) {
    Workspace workspace = withSheet();
    addLine(workspace, kSheet, line("head", LineQuantity::head), 0, "Blue 5");
    renameLine(workspace, kSheet, 0, "upper");
    EXPECT_EQ(taken(workspace, 0, CurveQuantity::head), "upper");
    EXPECT_EQ(ownersOf(workspace, kSheet, 0), std::vector<std::size_t>{0});
}

TEST(LineOwners, AnotherQuantityMovesWithTheLine) {
    Workspace workspace = withSheet();
    addLine(workspace, kSheet, line("head", LineQuantity::head), 0, "Blue 5");
    addLine(workspace, kSheet, line("second", LineQuantity::efficiency), 0, "Blue 5");
    changeQuantity(workspace, kSheet, 1, LineQuantity::power);
    EXPECT_EQ(taken(workspace, 0, CurveQuantity::power), "second");
    EXPECT_FALSE(workspace.job.pumps[0].readings[0].lines.contains(CurveQuantity::efficiency));
}

TEST(LineOwners, APumpLeftWithNothingGoesWithItsLine) {
    Workspace workspace = withSheet();
    addLine(workspace, kSheet, line("head", LineQuantity::head), 0, "Blue 5");
    removeLine(workspace, kSheet, 0);
    EXPECT_TRUE(workspace.job.pumps.empty());
    EXPECT_TRUE(workspace.charts[0].reading->lines.empty());
}

TEST(LineOwners, ALineTakenForGrantedIsNamedBeforeASecondComes) {
    Workspace workspace = withSheet();
    changeReading(workspace, kSheet, [](Reading& r) { r.lines.push_back(line("head", LineQuantity::head)); });
    Pump pump;
    pump.name = "Old";
    pump.readings.push_back({kSheet, {}}); // as a file may leave it
    workspace.job.pumps.push_back(pump);
    EXPECT_EQ(ownersOf(workspace, kSheet, 0), std::vector<std::size_t>{0});
    addLine(workspace, kSheet, line("other", LineQuantity::head), 0, "x");
    EXPECT_EQ(taken(workspace, 0, CurveQuantity::head), "head");
}

TEST(LineOwners, RemovingASheetLeavesPumpsWithOtherCurves) {
    Workspace workspace = withSheet();
    addLine(workspace, kSheet, line("head", LineQuantity::head), 0, "Blue 5");
    workspace.job.pumps[0].curves[CurveQuantity::power] = {};
    removeSheet(workspace, kSheet);
    EXPECT_TRUE(workspace.charts.empty());
    ASSERT_EQ(workspace.job.pumps.size(), 1U);
    EXPECT_TRUE(workspace.job.pumps[0].readings.empty());
}

} // namespace
} // namespace headmark
