// The place "Site", by real input.
#include "app/desktop/site/catalogue_choices.h"
#include "app/desktop/site/emitter_forms.h"
#include "app/desktop/site/item_words.h"
#include "app/desktop/site/run_edits.h"
#include "app/desktop/site/site_place.h"

#include "analysis/job/job_reader.h"
#include "analysis/job/job_writer.h"

#include <QAbstractItemModelTester>
#include <QMimeData>
#include <QTest>

#include <gtest/gtest.h>

namespace headmark {
namespace {

constexpr int kPatience_ms = 20'000; // a condition, not a pause: machines that build in parallel are slow

// The offscreen platform warns whenever a list drops down; other warnings go on to fail the test.
class ListsMayDrop {
  public:
    ListsMayDrop() { before() = qInstallMessageHandler(pass); }
    ~ListsMayDrop() { qInstallMessageHandler(before()); }
    ListsMayDrop(const ListsMayDrop&) = delete;
    ListsMayDrop& operator=(const ListsMayDrop&) = delete;

  private:
    static QtMessageHandler& before() {
        static QtMessageHandler handler = nullptr;
        return handler;
    }
    static void pass(QtMsgType type, const QMessageLogContext& context, const QString& text) {
        if (!text.startsWith(QStringLiteral("This plugin does not support")) && before())
            before()(type, context, text);
    }
};

class SiteTest : public testing::Test {
  protected:
    void SetUp() override { document.startNew(blankWorkspace()); }

    // The place on the screen, its answer made.
    SitePlace& shown(bool questions = false) {
        place = std::make_unique<SitePlace>(desk);
        place->setAsksQuestions(questions);
        place->resize(1290, 770);
        place->show();
        EXPECT_TRUE(QTest::qWaitForWindowExposed(place.get()));
        EXPECT_TRUE(QTest::qWaitFor([&] { return answers.latest()->prepared != nullptr; }, kPatience_ms));
        return *place;
    }

    Site& siteOf(Workspace& workspace) { return workspace.job.site; }
    [[nodiscard]] const Site& site() const { return document.job().site; }
    [[nodiscard]] const PipeItem& main() const { return std::get<PipeItem>(site().delivery.front()); }

    static void type(QWidget& field, const QString& text) {
        field.setFocus();
        QTest::keyClick(&field, Qt::Key_A, Qt::ControlModifier);
        QTest::keyClicks(&field, text);
        QTest::keyClick(&field, Qt::Key_Return);
    }

    void addTwoItems() {
        insertItem(document, {RunPart::delivery, -1, 0}, TakeoffItem{"T1"});
        insertItem(document, {RunPart::delivery, -1, 1}, FittingItem{"union", "1", {}, {}, {}, {}, 1});
    }

    ListsMayDrop listsMayDrop;
    Document document;
    AnswerService answers{document};
    Desk desk{document, answers};
    std::unique_ptr<SitePlace> place;
};

TEST(RunSpotText, PlacesOfErrorsAndCautionsNameTheirItem) {
    EXPECT_EQ(spotOf("suction[1]"), (RunSpot{RunPart::suction, -1, 1}));
    EXPECT_EQ(spotOf("site.suction[1].fitting"), (RunSpot{RunPart::suction, -1, 1}));
    EXPECT_EQ(spotOf("zones[2].branch[10]"), (RunSpot{RunPart::branch, 2, 10}));
    EXPECT_EQ(spotOf("site.zones[2].emitters.count"), (RunSpot{RunPart::zone, 2, -1}));
    EXPECT_EQ(spotOf("tank_return"), (RunSpot{RunPart::tankReturn, -1, -1}));
    EXPECT_EQ(spotOf("pump"), (RunSpot{RunPart::pump, -1, -1}));
    EXPECT_FALSE(spotOf("pumps[0].motor"));
    EXPECT_FALSE(spotOf("cases[1]"));
    EXPECT_EQ(placeOf({RunPart::branch, 2, 10}), "zones[2].branch[10]");
}

TEST(CatalogueSearch, EveryTypedWordCountsAndAnExactSizeComesFirst) {
    const auto& choices = catalogueChoices();
    const auto first = [&](const QString& typed) {
        const auto found = matching(choices, typed);
        return found.empty() ? QString() : choices[static_cast<std::size_t>(found.front())].words;
    };
    EXPECT_TRUE(first(QStringLiteral("63 pe100 sdr17")).contains(QStringLiteral("OD 63 SDR17")));
    const auto solenoids = matching(choices, QStringLiteral("solenoid 1"));
    ASSERT_FALSE(solenoids.empty());
    const auto& solenoid = std::get<FittingItem>(choices[static_cast<std::size_t>(solenoids.front())].item);
    EXPECT_EQ(solenoid.code, "solenoid_valve");
    EXPECT_EQ(solenoid.size, "1");
    EXPECT_TRUE(matching(choices, QStringLiteral("solenoid submarine")).empty());
}

TEST(CatalogueSearch, EverythingItOffersCanBeSavedAndOpenedAgain) {
    Workspace workspace = blankWorkspace();
    workspace.job.site.delivery.clear();
    int takeoffs = 0;
    for (const CatalogueChoice& choice : catalogueChoices()) {
        RunItem item = choice.item;
        if (auto* takeoff = std::get_if<TakeoffItem>(&item)) takeoff->name += std::to_string(++takeoffs);
        workspace.job.site.delivery.push_back(item);
    }
    Pump pump;
    pump.name = "P";
    pump.curves[CurveQuantity::head].points = {{Flow(), 40.0}, {Flow::fromCubicMetresPerHour(8.0), 20.0}};
    workspace.job.pumps.push_back(pump);
    const JobReading back = readJobText(writeJob(workspace.job), "catalogue.job.json");
    for (const Error& error : back.errors)
        ADD_FAILURE() << error.code << " at " << error.place;
    ASSERT_TRUE(back.job);
    EXPECT_EQ(back.job->site.delivery.size(), workspace.job.site.delivery.size());
}

TEST(Figures, AreShownWithTheDecimalsTheyWereTypedWith) {
    EXPECT_EQ(enoughDecimals(60.0), 0);
    EXPECT_EQ(enoughDecimals(12.25), 2);
    EXPECT_EQ(enoughDecimals(0.007), 3);
    EXPECT_EQ(enoughDecimals(0.1 + 0.2), 1);
}

TEST_F(SiteTest, RunModelKeepsTheRulesOfModelsThroughEditsAndUndo) {
    RunModel model(desk);
    QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Warning);
    QObject::connect(&document, &Document::workspaceChanged, &model, &RunModel::refresh);
    const int before = model.rowCount();
    addTwoItems();
    EXPECT_EQ(model.rowCount(), before + 2);
    const int row = model.rowOf({RunPart::delivery, -1, 0});
    ASSERT_GE(row, 0);
    EXPECT_TRUE(model.setData(model.index(row, RunModel::kSetting), 75.0, Qt::EditRole));
    EXPECT_DOUBLE_EQ(main().length.inMetres(), 75.0);
    addZone(document);
    document.undoStack().setIndex(0);
    EXPECT_EQ(model.rowCount(), before);
    EXPECT_DOUBLE_EQ(main().length.inMetres(), 60.0);
}

TEST_F(SiteTest, TypingALengthInTheTableTakesPointAndCommaAndNamesTheStep) {
    SitePlace& site = shown();
    QTableView& table = site.run().table();
    const int row = site.run().model().rowOf({RunPart::delivery, -1, 0});
    for (const char* typed : {"82.5", "97,25"}) {
        table.setFocus();
        table.setCurrentIndex(site.run().model().index(row, RunModel::kSetting));
        QTest::keyClick(&table, Qt::Key_F2);
        auto* entry = table.findChild<NumberEntry*>();
        ASSERT_NE(entry, nullptr);
        QTest::keyClick(entry, Qt::Key_A, Qt::ControlModifier);
        QTest::keyClicks(entry, QString::fromLatin1(typed));
        QTest::keyClick(entry, Qt::Key_Return);
        ASSERT_TRUE(
            QTest::qWaitFor([&] { return table.findChild<NumberEntry*>() == nullptr; }, kPatience_ms));
    }
    EXPECT_DOUBLE_EQ(main().length.inMetres(), 97.25);
    EXPECT_TRUE(document.undoStack().undoText().startsWith(QStringLiteral("Change the length of")));
    document.undoStack().undo();
    EXPECT_DOUBLE_EQ(main().length.inMetres(), 82.5);
}

TEST_F(SiteTest, TheFirstEditDoesNotBringTheQuestionsBack) {
    SitePlace& site = shown();
    ASSERT_TRUE(site.run().isVisible());
    document.edit(QStringLiteral("Rename"), [](Workspace& w) { w.job.title = "Another title"; });
    EXPECT_TRUE(site.run().isVisible());
}

TEST_F(SiteTest, ItemsAreInsertedBySearchDuplicatedMovedAndRemovedByKeyboard) {
    SitePlace& site = shown();
    RunCard& run = site.run();
    run.select({RunPart::delivery, -1, 0});
    run.table().setFocus();
    QTest::keyClick(&run.table(), Qt::Key_Insert);
    ASSERT_TRUE(QTest::qWaitFor([&] { return run.search().hasFocus(); }, kPatience_ms));
    QTest::keyClicks(&run.search(), QStringLiteral("union 1"));
    QTest::keyClick(&run.search(), Qt::Key_Return);
    ASSERT_EQ(this->site().delivery.size(), 2U);
    EXPECT_EQ(std::get<FittingItem>(this->site().delivery[1]).code, "union");
    run.table().setFocus();
    QTest::keyClick(&run.table(), Qt::Key_D, Qt::ControlModifier);
    EXPECT_EQ(this->site().delivery.size(), 3U);
    QTest::keyClick(&run.table(), Qt::Key_Up, Qt::AltModifier);
    QTest::keyClick(&run.table(), Qt::Key_Up, Qt::AltModifier);
    EXPECT_TRUE(std::holds_alternative<FittingItem>(this->site().delivery[0]));
    QTest::keyClick(&run.table(), Qt::Key_Down, Qt::AltModifier);
    EXPECT_TRUE(std::holds_alternative<PipeItem>(this->site().delivery[0]));
    QTest::keyClick(&run.table(), Qt::Key_Delete);
    EXPECT_EQ(this->site().delivery.size(), 2U);
    document.undoStack().setIndex(0);
    EXPECT_EQ(this->site().delivery.size(), 1U);
}

TEST_F(SiteTest, DroppingARowMovesTheItem) {
    addTwoItems();
    RunModel model(desk);
    const std::unique_ptr<QMimeData> data(
        model.mimeData({model.index(model.rowOf({RunPart::delivery, -1, 2}), 0)}));
    const int before = model.rowOf({RunPart::delivery, -1, 0});
    model.dropMimeData(data.get(), Qt::MoveAction, before, 0, {});
    EXPECT_TRUE(std::holds_alternative<FittingItem>(site().delivery[0]));
    EXPECT_TRUE(std::holds_alternative<PipeItem>(site().delivery[1]));
}

TEST_F(SiteTest, QuestionsFillTheJob) {
    SitePlace& site = shown(true);
    ASSERT_TRUE(site.asksQuestions());
    type(site.questions().water(), QStringLiteral("3,5"));
    type(site.questions().length(), QStringLiteral("85"));
    type(site.questions().flow(), QStringLiteral("2.4"));
    type(site.questions().pressure(), QStringLiteral("1.5"));
    type(site.questions().height(), QStringLiteral("6"));
    EXPECT_DOUBLE_EQ(this->site().source->usual.inMetres(), -3.5);
    EXPECT_DOUBLE_EQ(main().length.inMetres(), 85.0);
    const Zone& zone = this->site().zones.front();
    EXPECT_NEAR(zone.emitters.law.nominal.inCubicMetresPerHour(), 2.4, 1e-12);
    EXPECT_NEAR(zone.emitters.law.at.inKilopascals(), 150.0, 1e-9);
    EXPECT_DOUBLE_EQ(zone.level.inMetres(), 6.0);
    EXPECT_EQ(document.undoStack().count(), 5);
    site.questions().pipe().setFocus();
    QTest::keyClick(&site.questions().pipe(), Qt::Key_A, Qt::ControlModifier);
    QTest::keyClicks(&site.questions().pipe(), QStringLiteral("63 pe100 sdr17"));
    QTest::keyClick(&site.questions().pipe(), Qt::Key_Return);
    EXPECT_EQ(main().kind.code, "pe100_sdr17_63");
}

TEST_F(SiteTest, AnImpossibleFigureIsMarkedInPlaceAndNotTaken) {
    SitePlace& site = shown(true);
    NumberEntry& length = site.questions().length();
    type(length, QStringLiteral("-4"));
    EXPECT_FALSE(length.complaint().isEmpty());
    EXPECT_EQ(length.toolTip(), length.complaint());
    EXPECT_DOUBLE_EQ(main().length.inMetres(), 60.0);
    EXPECT_EQ(document.undoStack().count(), 0);
}

TEST_F(SiteTest, AnErrorOfTheSiteIsShownAtItsItemWithTheSentenceWhy) {
    SitePlace& site = shown();
    EXPECT_NE(site.mark(), PlaceMark::empty);
    document.edit(QStringLiteral("x"), [](Workspace& w) { w.job.site.zones.front().takeoff = "nowhere"; });
    ASSERT_TRUE(QTest::qWaitFor([&] { return !site.complaint().isEmpty(); }, kPatience_ms));
    EXPECT_TRUE(site.complaint().contains(QStringLiteral("nowhere")));
    EXPECT_EQ(site.mark(), PlaceMark::attention);
    RunModel& model = site.run().model();
    const int row = model.rowOf({RunPart::zone, 0, -1});
    EXPECT_EQ(model.index(row, RunModel::kNote).data().toString(), QStringLiteral("impossible"));
}

TEST_F(SiteTest, ClickingTheDrawingChoosesTheRowAndItsForm) {
    SitePlace& site = shown();
    for (const RunSpot& spot : {RunSpot{RunPart::pump, -1, -1}, RunSpot{RunPart::zone, 0, -1}}) {
        const QRectF where = site.section().rectOf(spot);
        ASSERT_FALSE(where.isEmpty());
        QTest::mouseClick(&site.section(), Qt::LeftButton, {}, where.center().toPoint());
        EXPECT_EQ(site.run().selected(), spot);
        EXPECT_EQ(site.run().table().currentIndex().row(), site.run().model().rowOf(spot));
    }
}

TEST_F(SiteTest, LabelsOfTheDrawingNeverCoverEachOther) {
    for (int i = 0; i < 11; ++i)
        addZone(document);
    SitePlace& site = shown();
    for (const QSize size : {QSize(1290, 770), QSize(1130, 590), QSize(900, 560)}) {
        site.resize(size);
        QCoreApplication::processEvents();
        const auto& labels = site.section().labels();
        ASSERT_GE(labels.size(), 5U);
        for (std::size_t i = 0; i < labels.size(); ++i) {
            for (std::size_t k = 0; k < i; ++k)
                EXPECT_FALSE(labels[i].where.intersects(labels[k].where))
                    << labels[i].text.toStdString() << " and " << labels[k].text.toStdString();
        }
    }
}

TEST_F(SiteTest, BeforeAnyPumpTheDrawingSaysWhatIsNeeded) {
    SitePlace& site = shown();
    const auto& labels = site.section().labels();
    EXPECT_TRUE(std::any_of(labels.begin(), labels.end(), [](const PlacedLabel& label) {
        return label.text.contains(QStringLiteral("needed:"));
    }));
}

TEST_F(SiteTest, RenamingAZoneRenamesItInTheCasesAndATakeoffInItsZones) {
    addTwoItems();
    document.edit(QStringLiteral("x"), [](Workspace& w) {
        w.job.site.zones.front().takeoff = "T1";
        Case setting;
        setting.name = "c";
        setting.zonesOpen = {"Zone 1"};
        w.job.cases.push_back(setting);
        w.job.casesGiven = true;
    });
    EXPECT_TRUE(renameZone(document, 0, QStringLiteral("Roses")));
    EXPECT_EQ(document.job().cases.front().zonesOpen.front(), "Roses");
    EXPECT_TRUE(renameTakeoff(document, {RunPart::delivery, -1, 1}, QStringLiteral("gate")));
    EXPECT_EQ(site().zones.front().takeoff, "gate");
    EXPECT_FALSE(renameZone(document, 0, QStringLiteral("  ")));
    addZone(document);
    EXPECT_FALSE(renameZone(document, 1, QStringLiteral("Roses")));
}

TEST_F(SiteTest, EveryFormOfEmittersCanBeSavedAndOpenedAgain) {
    Pump pump;
    pump.name = "P";
    pump.curves[CurveQuantity::head].points = {{Flow(), 40.0}, {Flow::fromCubicMetresPerHour(8.0), 20.0}};
    for (const EmitterForm form :
         {EmitterForm::typed, EmitterForm::powerLaw, EmitterForm::compensating, EmitterForm::wholeZone}) {
        for (const bool laterals : {false, true}) {
            if (laterals && form == EmitterForm::wholeZone) continue;
            Workspace w = blankWorkspace();
            w.job.pumps = {pump};
            Zone& zone = w.job.site.zones.front();
            setForm(zone, form);
            setLaterals(zone, laterals);
            EXPECT_EQ(formOf(zone.emitters), form);
            const JobReading back = readJobText(writeJob(w.job), "forms.job.json");
            for (const Error& error : back.errors)
                ADD_FAILURE() << error.code << " at " << error.place;
        }
    }
}

} // namespace
} // namespace headmark
