// The place Shifts: the day chart to scale with the plan, the table for the controller, files, what is
// missing.
#include "app/desktop/shifts/shifts_place.h"

#include "analysis/job/shift_finding.h"
#include "app/desktop/frame/dialogs.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/site/site_place.h"
#include "app/desktop/site/window_edit.h"
#include "app/desktop/site/zone_pairs_edit.h"

#include <QApplication>
#include <QClipboard>
#include <QFile>
#include <QMimeData>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

constexpr int kPatience_ms = 60000; // of a machine that is busy with other tests

// An invented night by hand: three shifts of four zones, a window of 6 h, a tank that runs dry.
ShiftNight handMadeNight() {
    ShiftNight night;
    night.pump = "invented";
    night.zones = {"Rose beds", "Lower hedge", "Seedlings", "Orchard with a name of some length", "Lawn"};
    night.idle = {{}, {}, {}, {}, QStringLiteral("no need stated")};
    night.begin_min = 22 * 60;
    night.window_min = 6 * 60;
    night.high = Level::fromMetres(-1.0);
    night.stop = Level::fromMetres(-3.0);
    night.dry_min = 190.0;
    const auto shift = [&](int begin, int minutes, std::vector<int> stations) {
        ShiftPlanFinding::Shift made;
        made.beginMinute = begin;
        made.minutes = minutes;
        made.start = timeOfMinutes(22 * 60 + begin);
        for (const int s : stations) {
            made.zones.push_back(night.zones[static_cast<std::size_t>(s - 1)]);
            made.stations.push_back({s, Flow::fromCubicMetresPerHour(2.0)});
        }
        made.flow = Flow::fromCubicMetresPerHour(2.0 * static_cast<double>(stations.size()));
        night.plan.shifts.push_back(made);
    };
    shift(0, 120, {1, 2});
    shift(122, 60, {3});
    shift(184, 15, {4});
    night.plan.total = Duration::fromMinutes(199.0);
    for (const auto& [minute, level_m] : {std::pair{0.0, -2.0}, {120.0, -2.6}, {122.0, -2.6}, {190.0, -3.0}})
        night.plan.tank.push_back({minute, Volume::fromCubicMetres(10.0 * (level_m + 3.0)),
                                   Level::fromMetres(level_m), timeOfMinutes(22 * 60 + minute)});
    return night;
}

TEST(ShiftLayout, DrawsEveryMinuteAsWideAsAnyOther) {
    const ShiftNight night = handMadeNight();
    const ShiftLayout l = layOut(night, {900, 520}, QApplication::font());
    ASSERT_EQ(l.bars.size(), 4U);
    const double minute = l.bars[0].box.width() / 120.0; // by hand: the first bar lasts 120 minutes
    ASSERT_GT(minute, 0.5);
    EXPECT_NEAR(l.bars[1].box.width(), 120.0 * minute, 1e-9);
    EXPECT_NEAR(l.bars[2].box.width(), 60.0 * minute, 1e-9);
    EXPECT_NEAR(l.bars[3].box.width(), 15.0 * minute, 1e-9);
    EXPECT_NEAR(l.bars[2].box.left() - l.bars[0].box.left(), 122.0 * minute, 1e-9);
    EXPECT_NEAR(l.bars[3].box.left() - l.bars[0].box.left(), 184.0 * minute, 1e-9);
    ASSERT_TRUE(l.window);
    EXPECT_NEAR(l.window->width(), 360.0 * minute, 1e-9);
    EXPECT_NEAR(l.window->left(), l.bars[0].box.left(), 1e-9);
    ASSERT_EQ(l.delays.size(), 2U);
    EXPECT_NEAR(l.delays[0].width(), 2.0 * minute, 1e-9);
    // The level on the same axis: where it runs dry, 190 minutes after the beginning.
    ASSERT_TRUE(l.dry);
    EXPECT_NEAR(l.dry->x1() - l.bars[0].box.left(), 190.0 * minute, 1e-9);
    EXPECT_NEAR(l.water.back().x(), l.dry->x1(), 1e-9);
    // Heights: -2.6 m stands a fifth of the way from -3 to -1 m up.
    const double depth = l.stopLine->y1() - l.highLine->y1();
    EXPECT_NEAR(l.stopLine->y1() - l.water[1].y(), 0.2 * depth, 1e-9);
    EXPECT_NEAR(l.water.back().y(), l.stopLine->y1(), 1e-9);
}

TEST(ShiftLayout, PutsEachBarInTheRowOfItsZone) {
    const ShiftLayout l = layOut(handMadeNight(), {900, 520}, QApplication::font());
    ASSERT_EQ(l.rows.size(), 5U);
    for (const ShiftBar& bar : l.bars)
        EXPECT_TRUE(l.rows[bar.zone].contains(bar.box)) << bar.zone;
    EXPECT_EQ(l.barAt(l.bars[2].box.center()), 2U);
    EXPECT_FALSE(l.barAt(l.rows[4].center()));
}

TEST(ShiftLayout, NeverLaysWordsOverWords) {
    const ShiftNight night = handMadeNight();
    for (const double scale : {1.0, 1.5, 2.0}) {
        QFont font = QApplication::font();
        font.setPointSizeF(font.pointSizeF() * scale);
        const QSizeF least = leastSize(night, font);
        for (const QSizeF& size :
             {least, QSizeF(900, 520).expandedTo(least), QSizeF(1400, 800).expandedTo(least)}) {
            const ShiftLayout l = layOut(night, size, font);
            for (std::size_t i = 0; i < l.texts.size(); ++i) {
                EXPECT_TRUE(QRectF(QPointF(), size).adjusted(-1, -1, 1, 1).contains(l.texts[i].box))
                    << l.texts[i].text.toStdString() << " at " << scale;
                for (std::size_t k = i + 1; k < l.texts.size(); ++k)
                    EXPECT_FALSE(l.texts[i].box.adjusted(1, 1, -1, -1).intersects(l.texts[k].box))
                        << l.texts[i].text.toStdString() << " over " << l.texts[k].text.toStdString();
            }
        }
    }
}

TEST(ShiftLayout, SaysWhenTheSourceRunsDry) {
    const ShiftLayout l = layOut(handMadeNight(), {900, 520}, QApplication::font());
    bool said = false;
    for (const ChartText& text : l.texts)
        said = said || (text.role == ChartText::Role::dry && text.text.contains(QStringLiteral("01:10")));
    EXPECT_TRUE(said); // 22:00 and 190 minutes
}

TEST(WindowTimes, AreReadAsPeopleWriteThem) {
    EXPECT_EQ(parsedTime(QStringLiteral("21:00")), "21:00");
    EXPECT_EQ(parsedTime(QStringLiteral(" 5.30 ")), "05:30");
    EXPECT_EQ(parsedTime(QStringLiteral("7")), "07:00");
    EXPECT_EQ(parsedTime(QStringLiteral("2145")), "21:45");
    EXPECT_FALSE(parsedTime(QStringLiteral("24:00")));
    EXPECT_FALSE(parsedTime(QStringLiteral("12:61")));
    EXPECT_FALSE(parsedTime(QStringLiteral("late")));
    EXPECT_FALSE(parsedTime({}));
}

class AnsweringDialogs : public Dialogs {
  public:
    QString path;
    QString exportPath(QWidget*, const QString&, const QString&) override { return path; }
};

class ShiftsPlaceTest : public testing::Test {
  protected:
    ShiftsPlaceTest() : answers_(document_), desk_(document_, answers_) { useDialogs(&dialogs_); }
    ~ShiftsPlaceTest() override { useDialogs(nullptr); }

    void open(const std::function<void(Job&)>& change = {}) {
        const QString sample = QStringLiteral(HEADMARK_TESTS_DIR "/../samples/terrace-nursery.job.json");
        const auto errors = document_.open(sample);
        ASSERT_TRUE(errors.empty());
        if (change) document_.edit(QStringLiteral("for the test"), [&](Workspace& w) { change(w.job); });
        place_ = std::make_unique<ShiftsPlace>(desk_, nullptr);
        place_->resize(1280, 720);
        place_->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(place_.get()));
        ASSERT_TRUE(settled());
    }
    bool settled() {
        return QTest::qWaitFor([&] { return !answers_.isBusy() && !answers_.latest()->stale; }, kPatience_ms);
    }
    const ShiftPlanFinding& plan(std::size_t pump = 0) {
        return *answers_.latest()->findings->pumps[pump].shiftPlan;
    }
    // One quick pump only: the plan of three is worked out anew after every edit.
    static void onePump(Job& job) { job.pumps.resize(1); }

    Document document_;
    AnswerService answers_;
    Desk desk_;
    AnsweringDialogs dialogs_;
    std::unique_ptr<ShiftsPlace> place_;
};

TEST_F(ShiftsPlaceTest, ShowsThePlanOfTheShownPumpToScale) {
    ASSERT_NO_FATAL_FAILURE(open());
    const ShiftLayout& l = place_->chart().layoutNow();
    std::size_t stations = 0;
    for (const auto& shift : plan().shifts)
        stations += shift.stations.size();
    ASSERT_EQ(l.bars.size(), stations);
    ASSERT_GT(stations, 0U);
    for (const ShiftBar& bar : l.bars) {
        const auto& shift = plan().shifts[bar.shift];
        EXPECT_NEAR(bar.box.width() / l.plan.width(), shift.minutes / (l.to_min - l.from_min), 1e-9);
    }
    ASSERT_EQ(place_->table().rowCount(), static_cast<int>(stations));
    EXPECT_EQ(place_->table().item(0, 2)->text().toStdString(), plan().shifts[0].zones[0]);
    EXPECT_EQ(place_->table().item(0, 3)->text(), QStringLiteral("21:00"));
    EXPECT_EQ(place_->table().item(0, 4)->text(), QString::number(plan().shifts[0].minutes));
    EXPECT_TRUE(place_->totals().text().contains(QStringLiteral("EUR")));
    EXPECT_EQ(place_->cautions().size(), plan().cautions.size());
    // The bar is there, in the theme's colour.
    const QImage picture = place_->chart().grab().toImage();
    const QRectF bar = l.bars.front().box;
    EXPECT_EQ(picture.pixelColor((bar.topLeft() + QPointF(8, 4)).toPoint()), theme().accent);

    Shown other;
    other.pump = 2;
    desk_.show(other);
    ASSERT_TRUE(settled());
    EXPECT_EQ(place_->chart().night()->pump, document_.job().pumps[2].name);
}

TEST_F(ShiftsPlaceTest, GoesFromShiftToShiftByKeyAndMarksTheRows) {
    ASSERT_NO_FATAL_FAILURE(open(onePump));
    QTest::keyClick(&place_->chart(), Qt::Key_Right);
    EXPECT_EQ(place_->chart().selected(), 0U);
    EXPECT_FALSE(place_->table().selectedItems().isEmpty());
    const ShiftBar last = place_->chart().layoutNow().bars.back();
    QTest::mouseClick(&place_->chart(), Qt::LeftButton, {}, last.box.center().toPoint());
    EXPECT_EQ(place_->chart().selected(), last.shift);
    QTest::keyClick(&place_->table(), Qt::Key_Home, Qt::ControlModifier);
    EXPECT_EQ(place_->chart().selected(), 0U);
}

TEST_F(ShiftsPlaceTest, WritesTheCsvOfTheCommandLine) {
    ASSERT_NO_FATAL_FAILURE(open(onePump));
    QTemporaryDir folder;
    dialogs_.path = folder.filePath(QStringLiteral("night.csv"));
    QTest::mouseClick(place_->exportButton(), Qt::LeftButton);
    QFile csv(dialogs_.path);
    ASSERT_TRUE(csv.open(QIODevice::ReadOnly));
    EXPECT_EQ(csv.readAll().toStdString(), shiftsCsv(*answers_.latest()->findings));
    const std::pair<const char*, QByteArray> kinds[] = {
        {"night.png", "\x89PNG"}, {"night.svg", "<?xml"}, {"night.pdf", "%PDF"}};
    for (const auto& [name, begins] : kinds) {
        dialogs_.path = folder.filePath(QString::fromLatin1(name));
        QTest::mouseClick(place_->exportButton(), Qt::LeftButton);
        QFile file(dialogs_.path);
        ASSERT_TRUE(file.open(QIODevice::ReadOnly)) << name;
        EXPECT_TRUE(file.readAll().startsWith(begins)) << name;
    }
    QTest::mouseClick(place_->copyButton(), Qt::LeftButton);
    const QMimeData* copied = QGuiApplication::clipboard()->mimeData();
    EXPECT_TRUE(copied->hasImage());
    EXPECT_EQ(copied->text().count(QLatin1Char('\n')), place_->table().rowCount());
}

TEST_F(ShiftsPlaceTest, AsksForNeedsWhereNoneAreStated) {
    ASSERT_NO_FATAL_FAILURE(open([](Job& job) {
        onePump(job);
        for (Zone& zone : job.site.zones) {
            zone.needPerDay.reset();
            zone.area.reset();
            zone.needDepthPerDay.reset();
        }
    }));
    EXPECT_FALSE(place_->chart().isVisible());
    EXPECT_TRUE(place_->notice().contains(QStringLiteral("needs")));
    EXPECT_EQ(place_->mark(), PlaceMark::empty);
    SitePlace site(desk_, nullptr);
    site.show();
    QSignalSpy asked(&desk_, &Desk::placeAsked);
    QTest::mouseClick(place_->noticeButton(), Qt::LeftButton);
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked.front().front().value<PlaceId>(), PlaceId::site);
    EXPECT_EQ(site.forms().currentIndex(), static_cast<int>(SiteForm::zones));
}

TEST_F(ShiftsPlaceTest, SaysInWordsThatTheWindowIsTooShortAndTheSourceRunsDry) {
    ASSERT_NO_FATAL_FAILURE(open([](Job& job) {
        onePump(job);
        job.site.controller->window = std::pair<std::string, std::string>{"21:00", "22:00"};
        job.site.source->volume = Volume::fromCubicMetres(12.0);
    }));
    EXPECT_EQ(place_->mark(), PlaceMark::attention);
    QStringList said;
    for (const QString& sentence : place_->cautions())
        said << sentence;
    EXPECT_TRUE(said.join(QLatin1Char(' ')).contains(QStringLiteral("do not fit the window")));
    ASSERT_TRUE(place_->chart().night()->dry_min);
    const QString dry = place_->chart().night()->timeOf(*place_->chart().night()->dry_min);
    EXPECT_TRUE(said.join(QLatin1Char(' ')).contains(QStringLiteral("runs dry at %1").arg(dry)))
        << said.join(QLatin1Char('\n')).toStdString();
}

TEST_F(ShiftsPlaceTest, ShowsThePlanOfBeforeWhileANewOneIsWorkedOut) {
    ASSERT_NO_FATAL_FAILURE(open(onePump));
    document_.edit(QStringLiteral("water more"),
                   [](Workspace& w) { w.job.site.zones[0].needPerDay = Volume::fromCubicMetres(3.5); });
    ASSERT_TRUE(QTest::qWaitFor([&] { return answers_.latest()->stale; }, kPatience_ms));
    EXPECT_TRUE(place_->chart().isVisible());
    EXPECT_FALSE(place_->exportButton()->isEnabled());
    ASSERT_TRUE(settled());
    EXPECT_TRUE(place_->exportButton()->isEnabled());
}

TEST_F(ShiftsPlaceTest, AimWindowAndPairsAreEditsThatSurviveSavingAndReopening) {
    ASSERT_NO_FATAL_FAILURE(open(onePump));
    SitePlace site(desk_, nullptr);
    site.show();
    site.resize(1280, 720);
    site.forms().setCurrentIndex(static_cast<int>(SiteForm::control));
    site.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&site));
    ControlForm& form = site.controlForm();
    const int steps = document_.undoStack().count();
    QComboBox* aim = nullptr;
    for (QComboBox* box : form.findChildren<QComboBox*>()) {
        if (box->accessibleName() == QStringLiteral("Aims at")) aim = box;
    }
    ASSERT_TRUE(aim);
    aim->setFocus();
    QTest::keyClick(aim, Qt::Key_Down);
    EXPECT_EQ(document_.job().site.controller->objective, ShiftObjective::energy);

    ZonePairsEdit& pairs = form.pairs();
    pairs.second().setFocus();
    QTest::keyClick(&pairs.second(), Qt::Key_Up); // the first zone with itself
    EXPECT_FALSE(pairs.addButton().isEnabled());
    EXPECT_FALSE(pairs.complaint().isEmpty());
    QTest::keyClick(&pairs.second(), Qt::Key_Down);
    QTest::keyClick(&pairs.relation(), Qt::Key_Down); // never together
    QTest::keyClick(&pairs.addButton(), Qt::Key_Space);
    const std::vector<std::string> pair{"Propagation house", "Sprinkler beds"};
    ASSERT_EQ(document_.job().site.controller->apart.size(), 1U);
    EXPECT_EQ(document_.job().site.controller->apart[0], pair);
    EXPECT_FALSE(pairs.addButton().isEnabled()); // it is there already

    QLineEdit& from = form.window().from();
    from.setFocus();
    from.selectAll();
    QTest::keyClicks(&from, QStringLiteral("25"));
    QTest::keyClick(&from, Qt::Key_Return);
    EXPECT_FALSE(form.window().complaint().isEmpty());
    EXPECT_EQ(document_.job().site.controller->window->first, "21:00");
    from.selectAll();
    QTest::keyClicks(&from, QStringLiteral("20.30"));
    QTest::keyClick(&from, Qt::Key_Return);
    EXPECT_TRUE(form.window().complaint().isEmpty());
    EXPECT_EQ(document_.job().site.controller->window->first, "20:30");
    EXPECT_EQ(document_.undoStack().count(), steps + 3);

    QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("again.job.json"));
    ASSERT_TRUE(document_.saveAs(path).empty());
    Document again;
    ASSERT_TRUE(again.open(path).empty());
    const Controller& c = *again.job().site.controller;
    EXPECT_EQ(c.objective, ShiftObjective::energy);
    ASSERT_EQ(c.apart.size(), 1U);
    EXPECT_EQ(c.apart[0], pair);
    EXPECT_EQ(c.window->first, "20:30");
    for (int i = 0; i < 3; ++i)
        document_.undoStack().undo();
    EXPECT_EQ(document_.job().site.controller->objective, ShiftObjective::time);
    EXPECT_TRUE(document_.job().site.controller->apart.empty());
    EXPECT_EQ(document_.job().site.controller->window->first, "21:00");
}

TEST_F(ShiftsPlaceTest, PairsFollowTheNamesOfTheirZones) {
    ASSERT_NO_FATAL_FAILURE(open([](Job& job) {
        onePump(job);
        job.site.controller->apart = {{"Propagation house", "Hedge stock"}};
    }));
    SitePlace site(desk_, nullptr);
    site.show();
    EXPECT_TRUE(site.controlForm().pairs().lists().join(QString()).contains(QStringLiteral("Hedge stock")));
    site.zonesForm().setZone(3);
    QLineEdit* name = nullptr;
    for (QLineEdit* line : site.zonesForm().findChildren<QLineEdit*>()) {
        if (line->accessibleName() == QStringLiteral("Name")) name = line;
    }
    ASSERT_TRUE(name);
    name->selectAll();
    QTest::keyClicks(name, QStringLiteral("Yew stock"));
    QTest::keyClick(name, Qt::Key_Return);
    EXPECT_EQ(document_.job().site.controller->apart[0][1], "Yew stock");
    for (QPushButton* button : site.zonesForm().findChildren<QPushButton*>()) {
        if (button->accessibleName() == QStringLiteral("Remove the zone"))
            QTest::mouseClick(button, Qt::LeftButton);
    }
    EXPECT_TRUE(document_.job().site.controller->apart.empty());
}

TEST_F(ShiftsPlaceTest, TheZonesTableSaysWhatAnAdviserScansFor) {
    ASSERT_NO_FATAL_FAILURE(open(onePump));
    SitePlace site(desk_, nullptr);
    site.show();
    const QTableWidget& table = site.zoneTable().table();
    ASSERT_EQ(table.rowCount(), 5);
    const auto row = [&](int r) {
        QStringList cells;
        for (int c = 0; c < table.columnCount(); ++c)
            cells << table.item(r, c)->text();
        return cells.join(QLatin1Char('|'));
    };
    // The shown case opens the fruit trees alone.
    EXPECT_TRUE(row(4).startsWith(QStringLiteral("Fruit trees|open|"))) << row(4).toStdString();
    const auto answer = answers_.latest();
    ASSERT_TRUE(answer->shownCase);
    const ZoneAnswer& trees = answer->shownCase->zones.front();
    EXPECT_TRUE(row(4).contains(figureText(trees.flow.inCubicMetresPerHour())));
    EXPECT_TRUE(row(1).contains(QStringLiteral("shut")));
    EXPECT_TRUE(row(1).contains(QStringLiteral("4.5 mm on 1150 m²"))) << row(1).toStdString();
    EXPECT_TRUE(row(0).contains(QStringLiteral("3 m³"))) << row(0).toStdString();
}

} // namespace
} // namespace headmark
