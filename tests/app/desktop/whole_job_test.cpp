// The whole job, from nothing or from a site to the answer, through the real window by real input alone; how
// many actions it takes; and the saved file answered by the command line, to the last bit as on the desk.
#include "charts_chart_page.h"
#include "whole_window.h"

#include "app/desktop/duty/duty_plot.h"

#include <QApplication>
#include <QFile>
#include <QProcess>
#include <QTest>

#include <gtest/gtest.h>

#include <cmath>

namespace headmark::whole_window {
namespace {

// The promises: from a blank job, and from the sample's page with its site.
constexpr int kMostFromBlank = 25, kMostFromSite = 12;

// The garden of these tests: water 3.5 m below the pump, 85 m of pipe, 2.4 m3/h at 1.5 bar, 6 m above.
const QString kAnswers[] = {QStringLiteral("3.5"), QStringLiteral("50 pe100"), QStringLiteral("85"),
                            QStringLiteral("2,4"), QStringLiteral("1.5"),      QStringLiteral("6")};

class WholeJob : public testing::Test {
  protected:
    void typeAnswers() {
        for (const QString& answer : kAnswers) {
            hand.type(answer);
            ASSERT_TRUE(desk.active());
        }
        const Site& site = desk.job().site;
        ASSERT_TRUE(site.source);
        EXPECT_DOUBLE_EQ(site.source->usual.inMetres(), -3.5);
        const auto& pipe = std::get<PipeItem>(site.delivery.front());
        EXPECT_EQ(pipe.kind.code.rfind("pe100", 0), 0U) << pipe.kind.code;
        EXPECT_DOUBLE_EQ(pipe.length.inMetres(), 85.0);
        const Zone& zone = site.zones.front();
        EXPECT_NEAR(zone.emitters.law.nominal.inCubicMetresPerHour(), 2.4, 1e-12);
        EXPECT_NEAR(zone.emitters.law.at.inKilopascals(), 150.0, 1e-9);
        EXPECT_DOUBLE_EQ(zone.level.inMetres(), 6.0);
    }

    void clickRail(const QString& place) {
        for (auto* button : desk.window().findChildren<RailButton*>()) {
            if (button->accessibleName().startsWith(place)) return hand.click(*button);
        }
        FAIL() << "no such place: " << place.toStdString();
    }

    // The crossing of the grid nearby is taken, as it is shown to be.
    void clickCrossing(PixelPoint at) {
        const QPoint beside = desk.onScreen(at) + QPoint(2, 1);
        QTest::mouseMove(desk.view().viewport(), beside);
        ASSERT_TRUE(QTest::qWaitFor([this] { return desk.view().crossing().has_value(); }, kPatience_ms));
        hand.click(*desk.view().viewport(), beside);
        expectPinForm();
    }
    void expectPinForm() {
        ASSERT_TRUE(desk.view().pinForm().isVisible());
        ASSERT_TRUE(QTest::qWaitFor(
            [] { return QApplication::focusWidget()->objectName() == QStringLiteral("pinFlow"); }, 5000))
            << QApplication::focusWidget()->metaObject()->className();
    }

    // Both figures, typed one after the other: two actions.
    void typePin(const QString& flow, const QString& value) {
        QTest::keyClicks(QApplication::focusWidget(), flow);
        hand.press(Qt::Key_Tab);
        hand.type(value);
        ASSERT_FALSE(desk.view().pinForm().isVisible())
            << QApplication::focusWidget()->objectName().toStdString() << " has the keys; pins "
            << desk.charts().session().reading()->pins.size();
    }

    // The origin and one corner in line with others are offered; the far corner is typed.
    void pinThreeCorners(PixelPoint origin, PixelPoint far, const QString& flow, const QString& value,
                         PixelPoint third) {
        clickCrossing(origin);
        hand.press(Qt::Key_Return);
        clickCrossing(far);
        typePin(flow, value);
        clickCrossing(third);
        hand.press(Qt::Key_Return);
    }

    void clickLine(PixelPoint at, const QString& quantity) {
        hand.click(*desk.view().viewport(), desk.onScreen(at));
        ASSERT_TRUE(desk.view().lineChoice().isVisible());
        hand.click(desk.view().lineChoice(), quantity);
    }

    // The duty on the screen lies on the pump's true curve.
    void expectDutyOn(double (*head_m)(double), double within_m) {
        ASSERT_TRUE(desk.answeredInFull());
        ASSERT_TRUE(QTest::qWaitFor([this] { return desk.duty().isVisible(); }, kPatience_ms));
        ASSERT_TRUE(QTest::qWaitFor([this] { return desk.duty().plot().picture().answer.has_value(); },
                                    kPatience_ms));
        const auto& duty = desk.duty().plot().picture().answer->duty;
        ASSERT_TRUE(duty);
        EXPECT_NEAR(duty->head.inMetres(), head_m(duty->flow.inCubicMetresPerHour()), within_m);
    }

    // Saved, answered by the program as a process, and opened again: three times the same bytes.
    void expectSameFromTheCommandLine() {
        desk.dialogs.save = desk.path(QStringLiteral("garden.job.json"));
        hand.press(Qt::Key_S, Qt::ControlModifier);
        ASSERT_TRUE(QFile::exists(desk.dialogs.save));
        ASSERT_TRUE(desk.answeredInFull());
        const std::string onTheDesk = desk.findings();
        QProcess program;
        program.start(QStringLiteral(HEADMARK_CLI), {QStringLiteral("duty"), desk.dialogs.save});
        ASSERT_TRUE(program.waitForFinished(kPatience_ms));
        EXPECT_EQ(program.exitCode(), 0) << program.readAllStandardError().toStdString();
        EXPECT_TRUE(program.readAllStandardOutput().toStdString() == onTheDesk);
        hand.press(Qt::Key_W, Qt::ControlModifier);
        ASSERT_FALSE(desk.desk().document.isOpen());
        desk.dialogs.open = desk.dialogs.save;
        hand.press(Qt::Key_O, Qt::ControlModifier);
        ASSERT_TRUE(desk.desk().document.isOpen());
        ASSERT_TRUE(desk.answeredInFull());
        EXPECT_TRUE(desk.findings() == onTheDesk);
    }

    QString drawnPage() {
        const QString path = desk.path(QStringLiteral("brochure.png"));
        EXPECT_TRUE(chart_page::drawn().save(path));
        return path;
    }

    DeskWindow desk;
    Hand hand;
};

TEST_F(WholeJob, ByMouseFromBlankThroughAPageWithTwoLinesInTheActionsPromised) {
    desk.dialogs.page = drawnPage();
    hand.click(desk.window(), QStringLiteral("New site"));
    ASSERT_TRUE(QTest::qWaitFor([this] { return desk.site().questions().water().hasFocus(); }, kPatience_ms));
    ASSERT_NO_FATAL_FAILURE(typeAnswers());
    clickRail(QStringLiteral("Charts"));
    hand.click(desk.charts(), QStringLiteral("Open a page"));
    ASSERT_TRUE(desk.pageShown());
    pinThreeCorners(chart_page::at(0, 0), chart_page::at(14, 50), QStringLiteral("14"), QStringLiteral("50"),
                    chart_page::at(14, 0));
    hand.click(desk.charts(), QStringLiteral("Read a line  L"));
    clickLine(chart_page::at(5, chart_page::upperHead(5)), QStringLiteral("Head"));
    ASSERT_TRUE(desk.lineRead(0));
    clickLine(chart_page::at(5, chart_page::lowerHead(5)), QStringLiteral("Head"));
    ASSERT_TRUE(desk.lineRead(1));
    hand.click(desk.charts(), QStringLiteral("Make a pump of each head line"));
    clickRail(QStringLiteral("Duty"));
    RecordProperty("actions", hand.actions() + 1); // and the file, chosen in its box
    EXPECT_LE(hand.actions() + 1, kMostFromBlank);
    ASSERT_EQ(desk.job().pumps.size(), 2U);
    expectDutyOn(chart_page::upperHead, 0.2); // two pixels
    expectSameFromTheCommandLine();
}

TEST_F(WholeJob, ByKeyboardAloneFromBlankPinsIncluded) {
    desk.dialogs.page = drawnPage();
    hand.press(Qt::Key_N, Qt::ControlModifier);
    ASSERT_TRUE(QTest::qWaitFor([this] { return desk.site().questions().water().hasFocus(); }, kPatience_ms));
    ASSERT_NO_FATAL_FAILURE(typeAnswers());
    hand.press(Qt::Key_2, Qt::AltModifier);
    ASSERT_TRUE(QTest::qWaitFor([this] { return desk.charts().isAncestorOf(QApplication::focusWidget()); },
                                kPatience_ms));
    hand.press(Qt::Key_Space); // "Open a page"
    ASSERT_TRUE(desk.pageShown());
    ASSERT_TRUE(desk.view().hasFocus());
    std::optional<PixelPoint> crossHair; // starts in the middle of what is seen
    const auto goTo = [&](PixelPoint to) {
        if (!crossHair)
            crossHair = desk.view().pixelFromView(QRectF(desk.view().viewport()->rect()).center());
        const auto along = [&](double way_px, int less, int more) {
            for (const auto& [step_px, modifier] :
                 {std::pair{100, Qt::ControlModifier}, {10, Qt::ShiftModifier}, {1, Qt::NoModifier}}) {
                const int times = static_cast<int>(std::floor((std::abs(way_px) + 0.5) / step_px));
                hand.hold(way_px < 0 ? less : more, modifier, times);
                way_px -= (way_px < 0 ? -1.0 : 1.0) * times * step_px;
            }
        };
        along(to.x_px - crossHair->x_px, Qt::Key_Left, Qt::Key_Right);
        along(to.y_px - crossHair->y_px, Qt::Key_Up, Qt::Key_Down);
        crossHair = to;
    };
    const auto takeCrossing = [this] {
        ASSERT_TRUE(QTest::qWaitFor([this] { return desk.view().crossing().has_value(); }, kPatience_ms));
        hand.press(Qt::Key_Return);
        expectPinForm();
    };
    goTo(chart_page::at(0, 0));
    takeCrossing();
    hand.press(Qt::Key_Return); // as offered
    goTo(chart_page::at(14, 50));
    takeCrossing();
    typePin(QStringLiteral("14"), QStringLiteral("50"));
    ASSERT_EQ(desk.charts().session().reading()->pins.size(), 2U);
    hand.press(Qt::Key_L); // the cross hair stays where it was
    goTo(chart_page::at(5, chart_page::upperHead(5)));
    hand.press(Qt::Key_Return);
    ASSERT_TRUE(desk.view().lineChoice().isVisible());
    hand.press(Qt::Key_Return);
    ASSERT_TRUE(desk.lineRead(0));
    ASSERT_TRUE(desk.active());
    hand.press(Qt::Key_3, Qt::AltModifier);
    RecordProperty("actions_with_held_keys", hand.actions() + 1);
    expectDutyOn(chart_page::upperHead, 0.2);
    expectSameFromTheCommandLine();
}

TEST_F(WholeJob, FromBlankThroughATypedTableOfSixPointsInTheActionsPromised) {
    hand.click(desk.window(), QStringLiteral("New site"));
    ASSERT_TRUE(QTest::qWaitFor([this] { return desk.site().questions().water().hasFocus(); }, kPatience_ms));
    ASSERT_NO_FATAL_FAILURE(typeAnswers());
    clickRail(QStringLiteral("Charts"));
    hand.click(desk.charts(), QStringLiteral("Type a table instead"));
    // The upper curve of the drawn page, by hand: 40 - 0.2 Q^2.
    for (const char* figure : {"0", "40", "2", "39.2", "4", "36,8", "6", "32.8", "8", "27.2", "10", "20"})
        hand.type(QString::fromLatin1(figure));
    const auto& head = desk.job().pumps.at(0).curves.at(CurveQuantity::head);
    ASSERT_EQ(head.points.size(), 6U);
    EXPECT_DOUBLE_EQ(head.points[2].value, 36.8);
    clickRail(QStringLiteral("Duty"));
    RecordProperty("actions", hand.actions());
    EXPECT_LE(hand.actions(), kMostFromBlank);
    expectDutyOn(chart_page::upperHead, 1e-6); // a parabola through points of a parabola
    expectSameFromTheCommandLine();
}

// The page's own pins, rounded to whole pixels as a hand hits them, see samples/pages.
TEST_F(WholeJob, FromTheSamplesPageWithItsSiteInTheActionsPromised) {
    const QString page = desk.path(QStringLiteral("pump-a.jpg"));
    ASSERT_TRUE(QFile::copy(sampleFile(QStringLiteral("pages/pump-a.jpg")), page));
    desk.window().openPath(sampleFile(QStringLiteral("terrace-nursery.job.json")));
    ASSERT_TRUE(desk.answeredInFull());
    const Flow true_ = desk.desk().answers.latest()->findings->pumps.at(0).cases.at(0).duty->flow;
    Workspace site = desk.desk().document.workspace();
    site.job.pumps.clear();
    site.charts.clear();
    site.job.folder = QFileInfo(page).path().toStdString();
    desk.desk().document.startNew(site);
    clickRail(QStringLiteral("Site"));
    hand.startCounting();
    hand.drop(desk.window(), desk.window().rect().center(), page);
    ASSERT_TRUE(desk.charts().isVisible());
    ASSERT_TRUE(desk.pageShown());
    pinThreeCorners({242, 1406}, {1392, 711}, QStringLiteral("14"), QStringLiteral("60"), {1382, 1422});
    hand.click(desk.charts(), QStringLiteral("Read a line  L"));
    clickLine({781, 891}, QStringLiteral("Head"));
    ASSERT_TRUE(desk.lineRead(0));
    clickRail(QStringLiteral("Duty"));
    RecordProperty("actions", hand.actions());
    EXPECT_LE(hand.actions(), kMostFromSite);
    ASSERT_TRUE(desk.answeredInFull());
    const auto& found = desk.desk().answers.latest()->findings->pumps.at(0).cases.at(0);
    ASSERT_TRUE(found.duty);
    // Three pins instead of the sample's six; its own chart speed and motor are not known here.
    EXPECT_NEAR(found.duty->flow / true_, 1.0, 0.02);
    expectSameFromTheCommandLine();
}

} // namespace
} // namespace headmark::whole_window
