#include "app/document/document.h"

#include "document_fixtures.h"

#include <QSignalSpy>

#include <gtest/gtest.h>

namespace headmark::test {
namespace {

void setTitle(Document& document, const std::string& title, int drag = 0) {
    document.edit(
        QStringLiteral("Name the site"), [&](Workspace& w) { w.job.title = title; }, drag);
}

TEST(Document, IsClosedUntilSomethingIsStarted) {
    Document document;
    EXPECT_FALSE(document.isOpen());
    EXPECT_FALSE(document.isChanged());
    document.startNew(blankWorkspace());
    EXPECT_TRUE(document.isOpen());
    EXPECT_FALSE(document.isChanged()); // nothing of the user's in it
    document.close();
    EXPECT_FALSE(document.isOpen());
    EXPECT_TRUE(document.job().site.zones.empty());
}

TEST(Document, NamesEachStepAndGivesBackTheSameJob) {
    Document document;
    document.startNew(blankWorkspace());
    const std::string before = textOf(document.workspace());
    setTitle(document, "Upper garden");
    const std::string after = textOf(document.workspace());
    EXPECT_EQ(document.undoStack().undoText(), QStringLiteral("Name the site"));
    EXPECT_TRUE(document.isChanged());
    document.undoStack().undo();
    EXPECT_EQ(textOf(document.workspace()), before);
    EXPECT_FALSE(document.isChanged());
    document.undoStack().redo();
    EXPECT_EQ(textOf(document.workspace()), after);
}

TEST(Document, AddsNoStepForAChangeThatChangesNothing) {
    Document document;
    document.startNew(blankWorkspace());
    QSignalSpy changes(&document, &Document::workspaceChanged);
    setTitle(document, "");
    document.edit(QStringLiteral("Type the level"), [](Workspace& w) {
        w.job.site.zones[0].level = Level::fromMetres(3.0 + 1e-14); // below what a file holds
    });
    EXPECT_EQ(document.undoStack().count(), 0);
    EXPECT_EQ(changes.count(), 0);
}

TEST(Document, MakesADragOneStep) {
    Document document;
    document.startNew(chartedWorkspace("page.png"));
    const std::string before = textOf(document.workspace());
    const int drag = document.newDrag();
    const auto pull = [&](double x_px, int which) {
        document.edit(
            QStringLiteral("Move the pin"),
            [&](Workspace& w) {
                Reading reading = *w.charts[0].reading;
                reading.pins[0].at.x_px = x_px;
                w.charts[0].reading = std::make_shared<const Reading>(reading);
            },
            which);
    };
    for (int i = 1; i <= 20; ++i)
        pull(60.0 + 0.37 * i, drag);
    EXPECT_EQ(document.undoStack().count(), 1);
    pull(30.0, document.newDrag());
    EXPECT_EQ(document.undoStack().count(), 2);
    document.undoStack().undo();
    document.undoStack().undo();
    EXPECT_EQ(textOf(document.workspace()), before);
}

TEST(Document, ForgetsADragThatEndsWhereItBegan) {
    Document document;
    document.startNew(blankWorkspace());
    const int drag = document.newDrag();
    for (const double level_m : {3.5, 4.0, 3.5, 3.0}) {
        document.edit(
            QStringLiteral("Move the zone"),
            [&](Workspace& w) { w.job.site.zones[0].level = Level::fromMetres(level_m); }, drag);
    }
    EXPECT_EQ(document.undoStack().count(), 0);
    EXPECT_FALSE(document.isChanged());
}

// 2 ft is 0.6096 m exactly; 30 psi is 206.842718795 kPa (NIST SP 811) and has more digits than a file.
TEST(Document, HoldsFiguresAsTheFileWill) {
    Document document;
    document.startNew(blankWorkspace());
    document.edit(QStringLiteral("Type"), [](Workspace& w) {
        w.job.site.zones[0].level = Level::fromMetres(2.0 * 0.3048);
        w.job.site.zones[0].emitters.law.at = Pressure::fromPsi(30.0);
    });
    EXPECT_EQ(document.job().site.zones[0].level, Level::fromMetres(0.6096));
    EXPECT_EQ(document.job().site.zones[0].emitters.law.at, Pressure::fromKilopascals(206.842718795));
}

TEST(Document, PlacesNewPinsToAHundredthOfAPixelAndLeavesOldOnes) {
    Document document;
    Workspace start = chartedWorkspace("page.png");
    document.startNew(start);
    document.edit(QStringLiteral("Add a pin"), [](Workspace& w) {
        Reading reading = *w.charts[0].reading;
        reading.pins.push_back({{100.123456, 50.987654}, 1.0, {}, ValueAxis::left, {}});
        w.charts[0].reading = std::make_shared<const Reading>(reading);
    });
    const Pin& placed = document.workspace().charts[0].reading->pins.back();
    EXPECT_EQ(placed.at, (PixelPoint{100.12, 50.99}));
}

TEST(Document, LeavesAnUnreadableValueToBeSaidAndKeepsTheRest) {
    Document document;
    document.startNew(blankWorkspace());
    document.edit(QStringLiteral("Type"), [](Workspace& w) {
        w.job.title = "Odd";
        w.job.water.temperature = Temperature::fromCelsius(900.0); // no water
    });
    EXPECT_EQ(document.job().title, "Odd");
    document.undoStack().undo();
    EXPECT_EQ(document.job().title, "");
}

} // namespace
} // namespace headmark::test
