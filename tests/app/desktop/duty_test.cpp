// The place Duty by mouse and by keyboard: the plot, the cases, what is tried, the working and the cautions.
#include "app/desktop/duty/duty_place.h"

#include "app/desktop/duty/cases_card.h"
#include "app/desktop/duty/cautions_card.h"
#include "app/desktop/duty/curve_reading.h"
#include "app/desktop/duty/duty_plot.h"
#include "app/desktop/duty/duty_words.h"
#include "app/desktop/duty/interval_card.h"
#include "app/desktop/duty/label_places.h"
#include "app/desktop/duty/what_if_card.h"
#include "app/desktop/duty/working_card.h"
#include "app/desktop/duty/zones_card.h"
#include "app/desktop/frame/dialogs.h"
#include "app/desktop/frame/theme.h"

#include <QApplication>
#include <QClipboard>
#include <QFile>
#include <QImageReader>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace headmark {
namespace {

constexpr int kPatience_ms = 30000; // of a machine that is busy with other tests

// An invented pump: H = shut-off - 0.5 m/(m3/h)^2 Q^2, typed.
Pump typedPump(const std::string& name, double shutOff_m) {
    Pump pump;
    pump.name = name;
    CurvePoints head;
    for (const double q : {0.0, 2.0, 4.0, 6.0, 7.0})
        head.points.push_back({Flow::fromCubicMetresPerHour(q), shutOff_m - 0.5 * q * q});
    head.degree = 2;
    pump.curves[CurveQuantity::head] = head;
    return pump;
}

class AnsweringDialogs : public Dialogs {
  public:
    QString path, name;
    QString exportPath(QWidget*, const QString&, const QString&) override { return path; }
    QString askText(QWidget*, const QString&, const QString&, const QString&) override { return name; }
};

class DutyPlaceTest : public testing::Test {
  protected:
    DutyPlaceTest() : answers_(document_), desk_(document_, answers_) {
        useDialogs(&dialogs_);
        QObject::connect(&desk_, &Desk::said, &desk_, [this](const QString& sentence, bool isError) {
            said_ = sentence;
            saidError_ = isError;
        });
    }
    ~DutyPlaceTest() override { useDialogs(nullptr); }

    void start(int pumps) {
        Workspace w = blankWorkspace();
        Zone second = w.job.site.zones.front();
        second.name = "Zone 2";
        w.job.site.zones.push_back(second);
        w.job.site.source->low = Level::fromMetres(-3.0);
        w.job.site.source->high = Level::fromMetres(-1.0);
        for (int i = 0; i < pumps; ++i)
            w.job.pumps.push_back(typedPump("Pump " + std::to_string(i + 1), 40.0 - 5.0 * i));
        document_.startNew(w);
        place_ = std::make_unique<DutyPlace>(desk_, nullptr);
        place_->resize(1280, 720);
        place_->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(place_.get()));
        ASSERT_TRUE(settled());
    }

    bool settled() {
        return QTest::qWaitFor(
            [&] {
                const auto answer = answers_.latest();
                const auto index = static_cast<std::size_t>(desk_.shown().caseIndex);
                if (!answer->prepared || answer->stale || answers_.isBusy()) return false;
                if (index >= answer->prepared->cases().size()) return false;
                const DutyPicture& drawn = place_->plot().picture();
                return !drawn.systems.empty() &&
                       drawn.systems.front().name == answer->prepared->cases()[index].setting.name;
            },
            kPatience_ms);
    }

    std::vector<CaseCard*> cards() {
        std::vector<CaseCard*> all;
        for (CaseCard* card : place_->cases().findChildren<CaseCard*>()) {
            if (card->isVisible()) all.push_back(card);
        }
        return all;
    }

    Document document_;
    AnswerService answers_;
    Desk desk_;
    AnsweringDialogs dialogs_;
    std::unique_ptr<DutyPlace> place_;
    QString said_;
    bool saidError_ = false;
};

TEST_F(DutyPlaceTest, MarksTheDutyPointWhereBothCurvesCross) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    const DutyPicture& drawn = place_->plot().picture();
    ASSERT_TRUE(drawn.answer && drawn.answer->duty);
    const double flow = drawn.answer->duty->flow.inCubicMetresPerSecond();
    // By hand: the pump's parabola at that flow; the system curve by straight lines between its points.
    const double q_m3_h = drawn.answer->duty->flow.inCubicMetresPerHour();
    const double head = drawn.answer->duty->head.inMetres();
    EXPECT_NEAR(head, 40.0 - 0.5 * q_m3_h * q_m3_h, 0.01);
    ASSERT_TRUE(valueAt(drawn.systems.front().curve, flow));
    EXPECT_NEAR(*valueAt(drawn.systems.front().curve, flow), head, 0.1);
    // The dot is there, in the theme's text colour.
    const QImage picture = place_->plot().grab().toImage();
    const QPointF at = place_->plot().pixelOf(flow, head);
    EXPECT_EQ(picture.pixelColor(at.toPoint()), theme().text);
}

TEST_F(DutyPlaceTest, SaysWhatTheSiteAsksWhileThereIsNoPump) {
    ASSERT_NO_FATAL_FAILURE(start(0));
    EXPECT_EQ(place_->mark(), PlaceMark::empty);
    EXPECT_FALSE(place_->plot().picture().needs.empty());
    EXPECT_FALSE(place_->plot().picture().systems.empty());
    QSignalSpy asked(&desk_, &Desk::placeAsked);
    const auto buttons = place_->findChildren<QPushButton*>();
    const auto main = std::find_if(buttons.begin(), buttons.end(), [](QPushButton* b) {
        return b->isVisible() && b->objectName() == QLatin1String("main");
    });
    ASSERT_NE(main, buttons.end());
    QTest::mouseClick(*main, Qt::LeftButton);
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked.front().front().value<PlaceId>(), PlaceId::charts);
}

TEST_F(DutyPlaceTest, ShowsTheCaseThatIsClicked) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    ASSERT_GE(cards().size(), 3U);
    QTest::mouseClick(cards()[1], Qt::LeftButton);
    EXPECT_EQ(desk_.shown().caseIndex, 1);
    ASSERT_TRUE(settled());
    EXPECT_TRUE(place_->plot().picture().systems.front().shown);
    EXPECT_TRUE(cards()[1]->isChecked());
}

TEST_F(DutyPlaceTest, DrawsTickedCasesBesideTheShownOne) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    for (QCheckBox* tick : place_->cases().findChildren<QCheckBox*>()) {
        if (!tick->isVisible() || !tick->isEnabled()) continue;
        QTest::keyClick(tick, Qt::Key_Space);
        break;
    }
    ASSERT_TRUE(QTest::qWaitFor([&] { return place_->plot().picture().systems.size() == 2; }, kPatience_ms));
    EXPECT_TRUE(place_->plot().picture().systems[0].shown);
    EXPECT_FALSE(place_->plot().picture().systems[1].shown);
}

TEST_F(DutyPlaceTest, ClosesTheTriedValveAndLeavesTheJobAsItIs) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    const Flow before = place_->plot().picture().answer->duty->flow;
    QSignalSpy tried(place_.get(), &DutyPlace::triedShown);
    QTest::keyClick(place_->whatIf().valveSlider(), Qt::Key_End);
    ASSERT_TRUE(tried.count() > 0 || tried.wait(kPatience_ms));
    ASSERT_TRUE(place_->plot().picture().answer->duty);
    EXPECT_LT(place_->plot().picture().answer->duty->flow, before);
    EXPECT_EQ(document_.undoStack().count(), 0);
    for (QPushButton* button : place_->whatIf().findChildren<QPushButton*>())
        QTest::mouseClick(button, Qt::LeftButton);
    ASSERT_TRUE(place_->plot().picture().answer->duty);
    EXPECT_EQ(place_->plot().picture().answer->duty->flow, before);
}

// Whether the drawn curve becomes the core's for those zones, to the last bit.
bool drawsCurveOf(const DutyPlace& place, const PreparedJob& job, const Case& setting) {
    const CurvePlot own = job.systemCurve(setting, place.plot().picture().greatest_m3_s);
    return QTest::qWaitFor(
        [&] {
            const CurvePlot& drawn = place.plot().picture().systems.front().curve;
            return drawn.flow_m3_s == own.flow_m3_s && drawn.value == own.value;
        },
        kPatience_ms);
}

TEST_F(DutyPlaceTest, TurningAZoneMovesTheSystemCurveAtOnce) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    const PreparedJob& job = *answers_.latest()->prepared;
    const Case shown = job.cases()[0].setting;
    ASSERT_EQ(shown.zonesOpen, std::vector<std::string>{"Zone 1"});
    const CurvePlot before = place_->plot().picture().systems.front().curve;
    const Flow flowBefore = place_->plot().picture().answer->duty->flow;
    ASSERT_EQ(place_->zones().rows().size(), 2U);
    ZoneRow* second = place_->zones().rows()[1];
    QTest::mouseClick(second, Qt::LeftButton);
    EXPECT_TRUE(second->isChecked());
    Case both = shown;
    both.zonesOpen = {"Zone 1", "Zone 2"};
    ASSERT_TRUE(drawsCurveOf(*place_, job, both));
    EXPECT_NE(place_->plot().picture().systems.front().curve.value, before.value);
    EXPECT_GT(place_->plot().picture().answer->duty->flow, flowBefore);
    EXPECT_TRUE(second->flow().contains(QStringLiteral("m³/h"))) << second->flow().toStdString();
    EXPECT_TRUE(place_->zones().verdict().startsWith(QStringLiteral("2 zones open")));
    EXPECT_EQ(document_.undoStack().count(), 0);

    // By keyboard, the first one shut: the second alone.
    place_->zones().rows()[0]->setFocus();
    QTest::keyClick(place_->zones().rows()[0], Qt::Key_Space);
    both.zonesOpen = {"Zone 2"};
    ASSERT_TRUE(drawsCurveOf(*place_, job, both));

    // Back to the case: nothing is tried any more.
    QTest::mouseClick(place_->zones().backButton(), Qt::LeftButton);
    EXPECT_EQ(place_->plot().picture().systems.size(), 1U);
    EXPECT_EQ(place_->plot().picture().systems.front().curve.value, before.value);
}

TEST_F(DutyPlaceTest, KeepsASetAsACaseThatTheCoreAnswersEqually) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    QSignalSpy tried(place_.get(), &DutyPlace::triedShown);
    EXPECT_FALSE(place_->zones().keepButton()->isEnabled());
    QTest::mouseClick(place_->zones().rows()[1], Qt::LeftButton);
    ASSERT_TRUE(tried.count() > 0 || tried.wait(kPatience_ms));
    const DutyPoint duty = *place_->plot().picture().answer->duty;
    const std::vector<ZoneAnswer> zones = place_->plot().picture().answer->zones;
    const std::size_t made = answers_.latest()->prepared->cases().size();
    QTest::keyClick(place_->zones().keepButton(), Qt::Key_Space);
    EXPECT_EQ(document_.undoStack().count(), 1);
    ASSERT_TRUE(document_.job().casesGiven);
    EXPECT_EQ(document_.job().cases.back().zonesOpen, (std::vector<std::string>{"Zone 1", "Zone 2"}));
    EXPECT_FALSE(document_.undoStack().undoText().isEmpty());
    ASSERT_TRUE(settled());
    EXPECT_GE(made, 1U);
    const auto answer = answers_.latest();
    const CaseAnswer& kept = answer->findings->pumps[0].cases.back();
    EXPECT_EQ(kept.duty->flow, duty.flow);
    EXPECT_EQ(kept.duty->head, duty.head);
    ASSERT_EQ(kept.zones.size(), zones.size());
    for (std::size_t z = 0; z < zones.size(); ++z)
        EXPECT_EQ(kept.zones[z].lowest, zones[z].lowest);
    EXPECT_FALSE(place_->zones().tried().has_value()); // it is the case shown
    document_.undoStack().undo();
    EXPECT_FALSE(document_.job().casesGiven);
}

TEST_F(DutyPlaceTest, TakesASetThatIsKnownToWork) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    const auto answer = answers_.latest();
    ASSERT_TRUE(answer->findings->pumps[0].zonesAtOnce);
    const auto& best = answer->findings->pumps[0].zonesAtOnce->bestSets;
    ASSERT_FALSE(best.empty());
    const auto actions = place_->zones().setsButton()->menu()->actions();
    ASSERT_GE(actions.size(), static_cast<qsizetype>(best.size()));
    actions.front()->trigger();
    for (std::size_t z = 0; z < place_->zones().rows().size(); ++z) {
        const std::string name = document_.job().site.zones[z].name;
        const bool inSet = std::find(best[0].begin(), best[0].end(), name) != best[0].end();
        EXPECT_EQ(place_->zones().rows()[z]->isChecked(), inSet) << name;
    }
}

TEST(DutyWords, SayThatTheListedSetsAreSomeOfTooManyToCount) {
    ZonesAtOnceFinding sets;
    sets.bestSet = sets.bestSetAtMost = 2;
    sets.bestSets = {{"A", "B"}, {"A", "C"}};
    sets.bestSetsCount = 2;
    EXPECT_FALSE(zonesAtOnceWords(sets, screenPhrasing()).contains(QStringLiteral("too many to count")));
    sets.bestSetsCounted = false;
    EXPECT_TRUE(zonesAtOnceWords(sets, screenPhrasing())
                    .contains(QStringLiteral("too many to count, at least 2 in all")));
}

TEST_F(DutyPlaceTest, SlowerPumpsAndLowerWaterGiveLess) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    for (QSlider* slider : {place_->whatIf().speedSlider(), place_->whatIf().waterSlider()}) {
        const Flow before = place_->plot().picture().answer->duty->flow;
        QTest::keyClick(slider, Qt::Key_PageDown);
        EXPECT_TRUE(QTest::qWaitFor(
            [&] {
                const auto& answer = place_->plot().picture().answer;
                return answer && answer->duty && answer->duty->flow < before;
            },
            kPatience_ms));
    }
}

TEST_F(DutyPlaceTest, AddsACaseByKeyboardAndMakesTheMadeOnesTheJobs) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    const auto made = answers_.latest()->prepared->cases();
    const auto buttons = place_->cases().findChildren<QToolButton*>();
    QTest::keyClick(buttons.front(), Qt::Key_Space);
    auto* form = place_->cases().findChild<CaseForm*>();
    ASSERT_TRUE(form->isVisible());
    auto* name = form->findChild<QLineEdit*>();
    name->selectAll();
    QTest::keyClicks(name, QStringLiteral("both beds"));
    for (QCheckBox* zone : form->findChildren<QCheckBox*>()) {
        if (!zone->isChecked()) QTest::keyClick(zone, Qt::Key_Space);
    }
    auto* speed = form->findChild<NumberEntry*>();
    speed->selectAll();
    QTest::keyClicks(speed, QStringLiteral("97,5"));
    QTest::keyClick(name, Qt::Key_Return);
    const Job& job = document_.job();
    ASSERT_TRUE(job.casesGiven);
    const auto filling = static_cast<std::size_t>(
        std::count_if(made.begin(), made.end(), [](const MadeCase& m) { return m.fillingEmptyMain; }));
    ASSERT_EQ(job.cases.size(), made.size() - filling + 1);
    EXPECT_EQ(job.cases.back().name, "both beds");
    EXPECT_EQ(job.cases.back().zonesOpen, (std::vector<std::string>{"Zone 1", "Zone 2"}));
    EXPECT_DOUBLE_EQ(job.cases.back().speedShare, 0.975);
    ASSERT_TRUE(settled());
    EXPECT_EQ(place_->plot().picture().systems.front().name, "both beds");
    document_.undoStack().undo();
    EXPECT_FALSE(document_.job().casesGiven);
    EXPECT_TRUE(document_.job().cases.empty());
}

TEST_F(DutyPlaceTest, UnfoldsTheWorkingThatTheStripAsksFor) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    EXPECT_FALSE(place_->working().text().contains(QStringLiteral("H = H_pump(Q)")));
    emit desk_.workingAsked(QStringLiteral("duty"));
    EXPECT_TRUE(place_->working().text().contains(QStringLiteral("H = H_pump(Q)")))
        << place_->working().text().toStdString();
}

TEST_F(DutyPlaceTest, ListsCautionsWorstFirst) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    const auto answer = answers_.latest();
    ASSERT_TRUE(answer->findings);
    const auto& cautions = answer->findings->pumps[0].cases[0].cautions;
    const std::vector<QString> shown = place_->cautions().sentences();
    EXPECT_EQ(shown.size(), cautions.size() + answer->findings->pumps[0].cautions.size());
    std::vector<Sign> signs;
    for (SignMark* mark : place_->cautions().findChildren<SignMark*>()) {
        if (mark->isVisible()) signs.push_back(mark->sign());
    }
    EXPECT_TRUE(std::is_sorted(signs.begin(), signs.end(), [](Sign a, Sign b) { return a > b; }));
}

TEST_F(DutyPlaceTest, KeepsTheReadingsIntervalApartFromWhatTheMakerMayDeliver) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    const auto answer = answers_.latest();
    const CaseAnswer& whole = answer->findings->pumps[0].cases[0];
    ASSERT_TRUE(whole.duty && whole.deliveredLow && whole.deliveredHigh);
    const QString low = figureText(whole.deliveredLow->flow.inCubicMetresPerHour());
    EXPECT_TRUE(place_->intervals().deliveredWords().contains(low));
    if (whole.duty->flow95) {
        EXPECT_TRUE(place_->intervals().readingWords().contains(
            figureText(whole.duty->flow95->low.inCubicMetresPerHour())));
    }
    EXPECT_NE(place_->intervals().readingWords(), place_->intervals().deliveredWords());
}

TEST_F(DutyPlaceTest, PlacesNoLabelOverAnother) {
    ASSERT_NO_FATAL_FAILURE(start(3));
    for (QCheckBox* tick : place_->cases().findChildren<QCheckBox*>()) {
        if (tick->isVisible() && tick->isEnabled()) QTest::mouseClick(tick, Qt::LeftButton);
    }
    const std::size_t all = answers_.latest()->prepared->cases().size();
    ASSERT_TRUE(
        QTest::qWaitFor([&] { return place_->plot().picture().systems.size() == all; }, kPatience_ms));
    for (const QSize size : {QSize(1280, 720), QSize(1440, 900)}) {
        place_->resize(size);
        place_->plot().grab();
        const std::vector<QRectF> boxes = place_->plot().labelBoxes();
        EXPECT_GE(boxes.size(), 4U);
        for (std::size_t i = 0; i < boxes.size(); ++i) {
            for (std::size_t k = i + 1; k < boxes.size(); ++k)
                EXPECT_FALSE(boxes[i].intersects(boxes[k])) << i << " over " << k;
        }
    }
}

TEST_F(DutyPlaceTest, ZoomsWithTheWheelAndShowsAllOnADoubleClick) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    const auto whole = place_->plot().flowRange_m3_s();
    QWidget* canvas = place_->plot().canvas();
    const QPointF middle(canvas->width() / 2.0, canvas->height() / 4.0);
    QWheelEvent wheel(middle, canvas->mapToGlobal(middle), {}, {0, 120}, Qt::NoButton, Qt::NoModifier,
                      Qt::NoScrollPhase, false);
    QApplication::sendEvent(canvas, &wheel);
    const auto zoomed = place_->plot().flowRange_m3_s();
    EXPECT_LT(zoomed.second - zoomed.first, whole.second - whole.first);
    QTest::mouseDClick(canvas, Qt::LeftButton, {}, middle.toPoint());
    EXPECT_EQ(place_->plot().flowRange_m3_s(), whole);
    QTest::keyClick(&place_->plot(), Qt::Key_Plus);
    EXPECT_NE(place_->plot().flowRange_m3_s(), whole);
    QTest::keyClick(&place_->plot(), Qt::Key_Home);
    EXPECT_EQ(place_->plot().flowRange_m3_s(), whole);
}

TEST_F(DutyPlaceTest, ExportsEveryKindOfFile) {
    ASSERT_NO_FATAL_FAILURE(start(1));
    QTemporaryDir folder;
    const std::pair<const char*, QByteArray> kinds[] = {
        {"plot.png", "\x89PNG"}, {"plot.svg", "<?xml"}, {"plot.pdf", "%PDF"}, {"plot.csv", "quantity,of"}};
    for (const auto& [name, begins] : kinds) {
        const QString path = folder.filePath(QString::fromLatin1(name));
        EXPECT_TRUE(place_->plot().writeTo(path)) << name;
        QFile file(path);
        ASSERT_TRUE(file.open(QIODevice::ReadOnly)) << name;
        EXPECT_TRUE(file.readAll().startsWith(begins)) << name;
    }
    for (QPushButton* button : place_->findChildren<QPushButton*>()) {
        if (button->text() != QStringLiteral("Export…")) continue;
        dialogs_.path = folder.filePath(QStringLiteral("no-ending"));
        QTest::mouseClick(button, Qt::LeftButton);
        EXPECT_TRUE(saidError_);
        dialogs_.path = folder.filePath(QStringLiteral("again.csv"));
        QTest::mouseClick(button, Qt::LeftButton);
        EXPECT_FALSE(saidError_);
        EXPECT_TRUE(QFile::exists(dialogs_.path));
    }
}

TEST(CurveReading, ReadsStraightLinesBetweenPointsAndNothingBeyond) {
    const CurvePlot curve{{0.0, 0.002, 0.004}, {20.0, 18.0, 12.0}, {}};
    EXPECT_DOUBLE_EQ(*valueAt(curve, 0.001), 19.0);
    EXPECT_DOUBLE_EQ(*valueAt(curve, 0.003), 15.0);
    EXPECT_DOUBLE_EQ(*valueAt(curve, 0.004), 12.0);
    EXPECT_FALSE(valueAt(curve, 0.0041));
    EXPECT_FALSE(valueAt(curve, -0.001));
}

TEST(CurveReading, GivesTheBandsByHand) {
    PumpPlot plot;
    plot.head = {{0.0, 0.001}, {50.0, 40.0}, {0.5, 1.0}};
    plot.deliveredShare = 0.08;
    EXPECT_DOUBLE_EQ(deliveredEdges(plot).low[0], 46.0);
    EXPECT_DOUBLE_EQ(deliveredEdges(plot).high[1], 43.2);
    // 97.5 % point of the normal distribution: 1.959964 (NIST/SEMATECH e-Handbook, table 1.3.6.7.1: 1.96).
    EXPECT_NEAR(readingEdges(plot.head).low[1], 40.0 - 1.96, 1e-3);
}

TEST(LabelPlaces, KeepsClearOfLinesWhereItCanAndOfLabelsAlways) {
    LabelPlaces places;
    places.addLine(QPolygonF({{0, 5}, {100, 5}}));
    const QRectF area(0, 0, 100, 100);
    const auto first = places.place({20, 10}, area, {{0, 0}, {0, 40}});
    ASSERT_TRUE(first);
    EXPECT_EQ(first->topLeft(), QPointF(0, 40));
    const auto second = places.place({20, 10}, area, {{5, 42}, {0, 0}});
    ASSERT_TRUE(second);
    EXPECT_EQ(second->topLeft(), QPointF(0, 0));
    EXPECT_FALSE(places.place({20, 10}, area, {{5, 42}, {95, 50}}));
}

} // namespace
} // namespace headmark
