// What guards the pump: the studies' figures and cautions, the facts typed beside them, the rules they are
// judged by.
#include "app/desktop/installation/guards_view.h"
#include "text_fit.h"

#include "analysis/core/assertion.h"
#include "analysis/job/job_reader.h"
#include "analysis/pipework/rule_list.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/installation/guards_ranges.h"
#include "app/desktop/installation/ordered_pair_edit.h"
#include "app/desktop/installation/pump_facts_form.h"
#include "app/desktop/installation/rules_card.h"
#include "app/desktop/installation/source_facts_form.h"
#include "app/desktop/installation/study_card.h"
#include "app/desktop/installation/study_words.h"
#include "app/desktop/installation/thread_edit.h"
#include "app/words/caution_words.h"
#include "app/words/working_words.h"

#include <QScrollBar>
#include <QSignalSpy>
#include <QTest>

#include <gtest/gtest.h>

#include <algorithm>

namespace headmark {
namespace {

constexpr int kPatience_ms = 60000; // of a machine that is busy with other tests

void type(QWidget& field, const QString& text) {
    field.setFocus();
    QTest::keyClick(&field, Qt::Key_A, Qt::ControlModifier);
    QTest::keyClick(&field, Qt::Key_Delete);
    QTest::keyClicks(&field, text);
    QTest::keyClick(&field, Qt::Key_Return);
}

template <class Field>
Field* named(const QWidget& form, const QString& name) {
    for (Field* field : form.findChildren<Field*>()) {
        if (field->accessibleName() == name) return field;
    }
    ADD_FAILURE() << "no field " << name.toStdString();
    return nullptr;
}

class GuardsTest : public testing::Test {
  protected:
    GuardsTest() : answers_(document_), desk_(document_, answers_) {}

    // The sample with its first pump alone, changed before it is shown.
    void open(const std::function<void(Job&)>& change = {}) {
        const QString sample = QStringLiteral(HEADMARK_TESTS_DIR "/../samples/terrace-nursery.job.json");
        ASSERT_TRUE(document_.open(sample).empty());
        document_.edit(QStringLiteral("for the test"), [&](Workspace& w) {
            w.job.pumps.resize(1);
            w.job.site.controller.reset(); // no shifts to be planned
            if (change) change(w.job);
        });
        show();
        ASSERT_TRUE(settled());
        ASSERT_FALSE(view_->studies().empty());
    }
    void show() {
        view_ = std::make_unique<GuardsView>(desk_);
        view_->resize(1280, 720);
        view_->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(view_.get()));
    }
    bool settled() {
        return QTest::qWaitFor([&] { return !answers_.isBusy() && !answers_.latest()->stale; }, kPatience_ms);
    }
    [[nodiscard]] const std::vector<Study>& found() {
        return answers_.latest()->findings->pumps.front().installation;
    }
    [[nodiscard]] const Study& found(const std::string& topic) {
        return *std::ranges::find(found(), topic, &Study::topic);
    }
    [[nodiscard]] const Pump& pump() const { return document_.job().pumps.front(); }
    [[nodiscard]] int steps() { return document_.undoStack().index(); }
    [[nodiscard]] int rowOf(const std::string& code) {
        RulesModel& model = view_->rules().model();
        for (int row = 0; row < model.rowCount(); ++row) {
            if (model.rowAt(row).code == code) return row;
        }
        ADD_FAILURE() << code;
        return 0;
    }
    void typeRule(const std::string& code, const QString& text) {
        QTableView& table = view_->rules().table();
        if (!table.isVisible()) QTest::keyClick(&view_->rules().showButton(), Qt::Key_Space);
        table.setFocus();
        table.setCurrentIndex(view_->rules().model().index(rowOf(code), RulesModel::kValue));
        QTest::keyClick(&table, Qt::Key_F2);
        auto* entry = table.findChild<NumberEntry*>();
        ASSERT_TRUE(entry);
        type(*entry, text);
        ASSERT_TRUE(QTest::qWaitFor([&] { return !table.findChild<NumberEntry*>(); }, kPatience_ms));
    }

    Document document_;
    AnswerService answers_;
    Desk desk_;
    std::unique_ptr<GuardsView> view_;
};

TEST_F(GuardsTest, ShowsEveryStudyInTheFindingsWords) {
    ASSERT_NO_FATAL_FAILURE(open());
    const Phrasing phrasing = screenPhrasing(document_.job().site);
    std::size_t shown = 0;
    for (const Study& study : found()) {
        if (study.cautions.empty() && study.figures.empty()) continue;
        ASSERT_LT(shown, view_->studies().size());
        const StudyCard& card = *view_->studies()[shown++];
        EXPECT_EQ(card.topic(), study.topic);
        EXPECT_EQ(card.title(), topicTitle(study.topic, phrasing));
        std::vector<QString> said = card.cautions(), wanted;
        for (const Caution& caution : study.cautions)
            wanted.push_back(cautionSentence(caution, phrasing));
        EXPECT_TRUE(std::ranges::is_permutation(said, wanted)) << study.topic;
        const QString text = card.figures().toPlainText();
        for (const WorkingStep& step : study.figures) {
            const WorkingWords words = workingWords(step, phrasing);
            const auto alike = std::ranges::count(study.figures, step.code, &WorkingStep::code);
            // As the table of findings has it: tests/golden quotes "Greatest lift that still works: 5.4 m".
            const QString line = QStringLiteral("%1: %2").arg(words.title, figureWords(step, phrasing));
            EXPECT_EQ(text.contains(line), alike < 3) << line.toStdString() << "\n" << text.toStdString();
        }
    }
    EXPECT_EQ(shown, view_->studies().size());
    EXPECT_GE(shown, 6U); // suction, shut valves, filling, ratings, filter, surge, motor of the sample
    EXPECT_TRUE(view_->notice().isEmpty());
    EXPECT_TRUE(view_->state().isEmpty());
}

TEST_F(GuardsTest, TheWorstCautionStandsFirst) {
    ASSERT_NO_FATAL_FAILURE(open());
    StudyCard card;
    Study study;
    study.topic = "suction";
    study.cautions = {{"mouth-near-the-floor", Severity::note, "", {}, "", {}, "", false},
                      {"air-pocket", Severity::danger, "", {}, "", {}, "", false}};
    card.show(study, document_.job().site);
    const Phrasing phrasing = screenPhrasing(document_.job().site);
    ASSERT_EQ(card.cautions().size(), 2U);
    EXPECT_EQ(card.cautions()[0], cautionSentence(study.cautions[1], phrasing));
    EXPECT_EQ(card.cautions()[1], cautionSentence(study.cautions[0], phrasing));
}

TEST_F(GuardsTest, UnfoldsAFiguresWorkingByKeyboardAndKeepsItOpen) {
    ASSERT_NO_FATAL_FAILURE(open());
    StudyCard& card = *view_->study("motor");
    const WorkingWords first =
        workingWords(found("motor").figures.front(), screenPhrasing(document_.job().site));
    FlowText& text = card.figures();
    EXPECT_FALSE(text.toPlainText().contains(first.source));
    text.setFocus();
    QTest::keyClick(&text, Qt::Key_Tab);
    QTest::keyClick(&text, Qt::Key_Return);
    for (const QString& part : {first.formula, first.with, first.result, first.source})
        EXPECT_TRUE(text.toPlainText().contains(part)) << part.toStdString();
    document_.edit(QStringLiteral("a longer main"),
                   [](Workspace& w) { w.job.site.fittingsAllowanceShare = 0.05; });
    ASSERT_TRUE(settled());
    EXPECT_TRUE(text.toPlainText().contains(first.source));
    text.setFocus();
    QTest::keyClick(&text, Qt::Key_Tab);
    QTest::keyClick(&text, Qt::Key_Return);
    EXPECT_FALSE(text.toPlainText().contains(first.source));
}

TEST_F(GuardsTest, FoldsFiguresOfOneKindBehindTheirRange) {
    ASSERT_NO_FATAL_FAILURE(open());
    const Phrasing phrasing = screenPhrasing(document_.job().site);
    std::vector<const WorkingStep*> shares;
    for (const WorkingStep& step : found("shut-in").figures) {
        if (step.code == "return-share") shares.push_back(&step);
    }
    ASSERT_GE(shares.size(), 3U);
    FlowText& text = view_->study("shut-in")->figures();
    const QString title = groupTitle(*shares.front(), phrasing);
    EXPECT_TRUE(text.toPlainText().contains(title));
    EXPECT_TRUE(
        text.toPlainText().contains(groupRange(shares, phrasing).replace(QChar::Nbsp, QLatin1Char(' '))));
    const int top = text.topOf(QStringLiteral("all@return-share"));
    ASSERT_GE(top, 0);
    QTest::mouseClick(text.viewport(), Qt::LeftButton, {}, QPoint(40, top + 8));
    for (const WorkingStep* step : shares)
        EXPECT_TRUE(text.toPlainText().contains(workingWords(*step, phrasing).title));
}

TEST(GroupRange, NamesTheLeastAndTheGreatest) {
    const WorkingStep a{"return-share", "a", {}, {"share", 0.21}},
        b{"return-share", "b", {}, {"share", 0.05}}, c{"return-share", "c", {}, {"share", 0.07}};
    const Phrasing phrasing = englishPhrasing();
    const auto spaced = [](QString text) { return text.replace(QChar::Nbsp, QLatin1Char(' ')); };
    EXPECT_EQ(spaced(groupRange({&a, &b, &c}, phrasing)), QStringLiteral("5 % to 21 %"));
    EXPECT_EQ(spaced(groupRange({&b, &b}, phrasing)), QStringLiteral("5 %"));
}

TEST(GroupRange, EveryKindWithWordsIsAWorking) {
    const auto known = wordedWorkingCodes();
    for (const std::string_view code : groupedCodes())
        EXPECT_NE(std::ranges::find(known, code), known.end()) << code;
}

// A field by its name, what is typed, and what must then stand in the job, in base units.
struct Typed {
    const char* field;
    const char* text;
    double figure;
    std::function<std::optional<double>(const Job&)> read;
};

template <class T, class Of>
std::optional<double> in(const std::optional<T>& fact, Of of) {
    return fact ? std::optional<double>((*fact.*of)()) : std::nullopt;
}

std::vector<Typed> pumpFigures() {
    const auto p = [](const Job& job) -> const Pump& { return job.pumps.front(); };
    return {
        {"Of the chart", "2850", 2850,
         [p](const Job& j) { return in(p(j).chartSpeed, &RotationalSpeed::inRevolutionsPerMinute); }},
        {"On site", "2610,5", 2610.5,
         [p](const Job& j) { return in(p(j).runSpeed, &RotationalSpeed::inRevolutionsPerMinute); }},
        {"Rated", "3.7", 3.7, [p](const Job& j) { return in(p(j).motor->rated, &Power::inKilowatts); }},
        {"Efficiency", "84,5", 0.845,
         [p](const Job& j) { return in(p(j).motor->efficiency, &Efficiency::inShare); }},
        {"Input", "2,6", 2.6, [p](const Job& j) { return in(p(j).plate.input, &Power::inKilowatts); }},
        {"Current", "4.85", 4.85, [p](const Job& j) { return p(j).plate.amps; }},
        {"Voltage", "400", 400, [p](const Job& j) { return p(j).plate.volts; }},
        {"Power factor", "0,83", 0.83, [p](const Job& j) { return p(j).plate.powerFactor; }},
        {"Highest pressure", "7,5", 750, // bar to kPa
         [p](const Job& j) { return in(p(j).greatestPressure, &GaugePressure::inKilopascals); }},
        {"Water inside", "1.8", 1.8, [p](const Job& j) { return in(p(j).casing, &Volume::inLitres); }},
        {"Primes itself to", "6,5", 6.5, [p](const Job& j) { return in(p(j).primesTo, &Head::inMetres); }},
        {"Head, give or take", "6.5", 0.065, [p](const Job& j) { return p(j).deliveredHeadShare; }},
    };
}

TEST_F(GuardsTest, EveryFigureOfThePumpLandsInTheJobByOneStepAndGoesWhenCleared) {
    ASSERT_NO_FATAL_FAILURE(open());
    const int before = steps();
    int done = before;
    for (const Typed& t : pumpFigures()) {
        auto* entry = named<NumberEntry>(view_->pumpForm(), QString::fromLatin1(t.field));
        ASSERT_TRUE(entry);
        type(*entry, QString::fromLatin1(t.text));
        ASSERT_TRUE(t.read(document_.job())) << t.field;
        EXPECT_NEAR(*t.read(document_.job()), t.figure, 1e-9 * t.figure) << t.field;
        EXPECT_EQ(steps(), ++done) << t.field;
        EXPECT_FALSE(document_.undoStack().undoText().isEmpty());
    }
    EXPECT_EQ(pump().motor->supply, "400 V three-phase"); // untouched by its neighbours
    for (const Typed& t : pumpFigures()) {
        if (t.field == std::string("Rated") || t.field == std::string("Efficiency")) continue;
        type(*named<NumberEntry>(view_->pumpForm(), QString::fromLatin1(t.field)), {});
        EXPECT_FALSE(t.read(document_.job())) << t.field;
        EXPECT_EQ(steps(), ++done) << t.field;
    }
    type(*named<NumberEntry>(view_->pumpForm(), QStringLiteral("Rated")), {});
    type(*named<NumberEntry>(view_->pumpForm(), QStringLiteral("Efficiency")), {});
    ASSERT_TRUE(pump().motor);
    type(*named<QLineEdit>(view_->pumpForm(), QStringLiteral("Supply")), {});
    EXPECT_FALSE(pump().motor); // of which nothing is known
    document_.undoStack().setIndex(before);
    EXPECT_DOUBLE_EQ(pump().motor->rated->inKilowatts(), 2.2); // as in the sample's file
    EXPECT_DOUBLE_EQ(named<NumberEntry>(view_->pumpForm(), QStringLiteral("Rated"))->figure().value_or(0),
                     2.2);
}

TEST_F(GuardsTest, AFigureOutOfRangeIsMarkedAndNotTaken) {
    ASSERT_NO_FATAL_FAILURE(open());
    const int before = steps();
    auto* entry = named<NumberEntry>(view_->pumpForm(), QStringLiteral("Power factor"));
    type(*entry, QStringLiteral("1.2"));
    EXPECT_FALSE(entry->complaint().isEmpty());
    EXPECT_EQ(steps(), before);
    EXPECT_FALSE(pump().plate.powerFactor);
}

TEST_F(GuardsTest, ChoicesAndTextsLandInTheJobByOneStepEach) {
    ASSERT_NO_FATAL_FAILURE(open());
    const int before = steps();
    type(*named<QLineEdit>(view_->pumpForm(), QStringLiteral("Supply")),
         QStringLiteral("230 V single-phase"));
    EXPECT_EQ(pump().motor->supply, "230 V single-phase");
    auto* phases = named<QComboBox>(view_->pumpForm(), QStringLiteral("Phases"));
    phases->setFocus();
    QTest::keyClick(phases, Qt::Key_Down);
    EXPECT_EQ(pump().plate.phases, 1);
    QTest::keyClick(phases, Qt::Key_Down);
    EXPECT_EQ(pump().plate.phases, 3);
    auto* device = named<QComboBox>(view_->sourceForm(), QStringLiteral("Against dry running"));
    device->setFocus();
    QTest::keyClick(device, Qt::Key_Home); // the sample says a float
    for (const std::string_view code : dryRunDevices()) {
        QTest::keyClick(device, Qt::Key_Down);
        EXPECT_EQ(document_.job().site.source->dryRunDevice, code);
    }
    QTest::keyClick(device, Qt::Key_Home);
    EXPECT_TRUE(document_.job().site.source->dryRunDevice.empty());
    type(*named<NumberEntry>(view_->sourceForm(), QStringLiteral("A zone valve shuts in")),
         QStringLiteral("0,8"));
    EXPECT_DOUBLE_EQ(document_.job().site.valveClosing->inSeconds(), 0.8);
    EXPECT_EQ(steps(), before + 11);
}

TEST_F(GuardsTest, AThreadThatCannotBeReadIsSaidInPlace) {
    ASSERT_NO_FATAL_FAILURE(open());
    const int before = steps();
    ThreadEdit& inlet = view_->pumpForm().inlet();
    type(inlet.field(), QStringLiteral("1.5 inch BSP"));
    EXPECT_TRUE(inlet.complaint().contains(QStringLiteral("1.5 inch BSP")))
        << inlet.complaint().toStdString();
    EXPECT_EQ(steps(), before);
    type(inlet.field(), QStringLiteral(" Rp 2 "));
    EXPECT_TRUE(inlet.complaint().isEmpty());
    EXPECT_EQ(pump().inletThread, "Rp 2");
    type(inlet.field(), {});
    EXPECT_TRUE(pump().inletThread.empty());
    type(view_->pumpForm().outlet().field(), QStringLiteral("DN 40"));
    EXPECT_EQ(pump().outletThread, "DN 40");
    EXPECT_EQ(steps(), before + 3);
    // One that came with a file is shown with what is wrong; an undo of the typed takes the complaint away.
    document_.edit(QStringLiteral("as in a file"), [](Workspace& w) { w.job.pumps[0].outletThread = "odd"; });
    EXPECT_FALSE(view_->pumpForm().outlet().complaint().isEmpty());
    document_.undoStack().undo();
    EXPECT_TRUE(view_->pumpForm().outlet().complaint().isEmpty());
}

TEST_F(GuardsTest, TheMouthStaysAboveTheFloorAndABandHasTwoEnds) {
    ASSERT_NO_FATAL_FAILURE(open());
    const int before = steps();
    OrderedPairEdit& levels = view_->sourceForm().levels();
    type(levels.entry(0), QStringLiteral("-3,4"));
    EXPECT_DOUBLE_EQ(document_.job().site.source->floor->inMetres(), -3.4);
    type(levels.entry(1), QStringLiteral("-3.5"));
    EXPECT_FALSE(levels.complaint().isEmpty());
    EXPECT_FALSE(document_.job().site.source->mouth);
    EXPECT_EQ(levels.entry(1).figure(), -3.5); // stands there to be mended
    type(levels.entry(1), QStringLiteral("-3.1"));
    EXPECT_TRUE(levels.complaint().isEmpty());
    EXPECT_DOUBLE_EQ(document_.job().site.source->mouth->inMetres(), -3.1);
    EXPECT_EQ(steps(), before + 2);

    OrderedPairEdit& band = view_->pumpForm().allowable();
    type(band.entry(0), QStringLiteral("40"));
    EXPECT_FALSE(band.complaint().isEmpty());
    EXPECT_FALSE(pump().allowableShare);
    type(band.entry(1), QStringLiteral("130"));
    EXPECT_TRUE(band.complaint().isEmpty());
    ASSERT_TRUE(pump().allowableShare);
    EXPECT_NEAR(pump().allowableShare->first, 0.4, 1e-12);
    EXPECT_NEAR(pump().allowableShare->second, 1.3, 1e-12);
    EXPECT_EQ(steps(), before + 3);
}

TEST_F(GuardsTest, FiguresFollowTheUnitsShown) {
    ASSERT_NO_FATAL_FAILURE(open());
    DisplayUnits units = desk_.units();
    units.head = HeadUnit::feet;
    units.pressure = PressureUnit::kilopascals;
    desk_.setUnits(units);
    auto* rating = named<NumberEntry>(view_->pumpForm(), QStringLiteral("Highest pressure"));
    EXPECT_DOUBLE_EQ(rating->figure().value_or(0), 800.0); // the sample's file
    type(*named<NumberEntry>(view_->pumpForm(), QStringLiteral("Primes itself to")), QStringLiteral("10"));
    EXPECT_NEAR(pump().primesTo->inMetres(), 3.048, 1e-9); // ten feet
}

// ---- what may be typed is what a file may hold

struct KeyRange {
    const char* where; // "pump", "motor", "motor_plate", "delivered", "source", "site", "rules"
    const char* key;
    FigureRange figures;
    double perUnit = 1.0; // of the file's unit
};

bool readable(const KeyRange& r, double figure) {
    const std::string pair =
        '"' + std::string(r.key) + "\": " + QString::number(figure * r.perUnit, 'g', 15).toStdString();
    const std::string where = r.where;
    std::string pumpKeys, siteKeys, rules;
    if (where == "pump")
        pumpKeys = ", " + pair;
    else if (where == "motor" || where == "motor_plate" || where == "delivered")
        pumpKeys = ", \"" + where + "\": {" + pair + "}";
    else if (where == "source")
        siteKeys = R"(, "source": {"levels_m": {"usual": 0}, )" + pair + "}";
    else if (where == "site")
        siteKeys = ", " + pair;
    else
        rules = pair;
    const std::string text =
        R"({"format": "headmark-job", "version": 1, "pumps": [{"name": "P", "curves": {"head": {"points": [)"
        R"({"flow_m3_h": 0, "head_m": 40}, {"flow_m3_h": 10, "head_m": 20}]}})" +
        pumpKeys + R"(}], "site": {"end": {"level_m": 1, "pressure_kPa": 0})" + siteKeys +
        R"(}, "limits": {"rules": {)" + rules + "}}}";
    return readJobText(text, "made.job.json").errors.empty();
}

TEST(GuardsRanges, AreThoseOfTheJobFile) {
    const KeyRange all[] = {
        {"pump", "chart_speed_rpm", range::kSpeed_rpm},
        {"pump", "run_speed_rpm", range::kSpeed_rpm},
        {"motor", "rated_kW", range::kRated_kW},
        {"motor", "efficiency_share", range::kMotorEfficiency_percent, 0.01},
        {"motor_plate", "input_kW", range::kRated_kW},
        {"motor_plate", "amps", range::kAmps},
        {"motor_plate", "volts", range::kVolts},
        {"motor_plate", "power_factor", range::kPowerFactor},
        {"pump", "casing_l", range::kCasing_l},
        {"pump", "primes_to_m", range::kPrimes_m},
        {"pump", "max_pressure_kPa", range::kPumpRating_kPa},
        {"delivered", "head_share", range::kDelivered_percent, 0.01},
        {"source", "mouth_level_m", range::kLevel_m},
        {"source", "floor_level_m", range::kLevel_m},
        {"site", "valve_closing_s", range::kValveClosing_s},
        {"rules", "v_suction_max", range::kRule},
    };
    for (const KeyRange& r : all) {
        EXPECT_TRUE(readable(r, r.figures.least)) << r.key;
        EXPECT_TRUE(readable(r, r.figures.greatest)) << r.key;
        const double below = r.figures.least - 1e-3 * std::abs(r.figures.least) - 1e-7;
        EXPECT_FALSE(readable(r, below)) << r.key;
        EXPECT_FALSE(readable(r, 1.001 * r.figures.greatest)) << r.key;
    }
}

TEST(GuardsRanges, DevicesAgainstDryRunningAreThoseOfTheJobFile) {
    const auto reading = readJobText(
        R"({"format": "headmark-job", "version": 1, "pumps": [{"name": "P", "curves": {"head": {"points": [)"
        R"({"flow_m3_h": 0, "head_m": 40}, {"flow_m3_h": 10, "head_m": 20}]}}}],)"
        R"("site": {"end": {"level_m": 1, "pressure_kPa": 0}, "source": {"dry_run_device": "a cork"}}})",
        "made.job.json");
    ASSERT_EQ(reading.errors.size(), 1U);
    const Fact* allowed = findFact(reading.errors[0].facts, "allowed");
    ASSERT_TRUE(allowed);
    const std::vector<std::string> shown(dryRunDevices().begin(), dryRunDevices().end());
    EXPECT_EQ(std::get<std::vector<std::string>>(allowed->value), shown);
}

// ---- rules of the trade

TEST_F(GuardsTest, RulesStayFoldedUntilAskedForAndShowTheTable) {
    ASSERT_NO_FATAL_FAILURE(open());
    RulesCard& rules = view_->rules();
    EXPECT_FALSE(rules.table().isVisible());
    QTest::mouseClick(&rules.showButton(), Qt::LeftButton);
    EXPECT_TRUE(rules.table().isVisible());
    ASSERT_EQ(rules.model().rowCount(), static_cast<int>(judgingRows().size()));
    const int row = rowOf("floor_clearance_foot_valve"); // 0.3 m, practice: the row of the table
    const auto cell = [&](int column) { return rules.model().index(row, column).data().toString(); };
    EXPECT_EQ(cell(RulesModel::kRule), QStringLiteral("Clearance of foot valve from the floor or bed"));
    EXPECT_EQ(cell(RulesModel::kValue), QStringLiteral("0.3 m"));
    EXPECT_EQ(cell(RulesModel::kHoldsFor), QStringLiteral("foot valves"));
    EXPECT_EQ(cell(RulesModel::kSource), QStringLiteral("common practice, no source"));
}

TEST_F(GuardsTest, ARuleIsSetByPointOrCommaMarkedAndGivenBack) {
    ASSERT_NO_FATAL_FAILURE(open());
    RulesModel& model = view_->rules().model();
    const auto own = [&] { return document_.job().limits.rules.own(); };
    const int before = steps();
    ASSERT_NO_FATAL_FAILURE(typeRule("return_rise", QStringLiteral("7,5")));
    EXPECT_DOUBLE_EQ(own().at("return_rise"), 7.5);
    ASSERT_NO_FATAL_FAILURE(typeRule("return_rise", QStringLiteral("6.5")));
    EXPECT_DOUBLE_EQ(own().at("return_rise"), 6.5);
    EXPECT_EQ(steps(), before + 2);
    const int row = rowOf("return_rise");
    EXPECT_TRUE(model.isSet(row));
    EXPECT_EQ(model.index(row, RulesModel::kSource).data().toString(), QStringLiteral("set in the job"));
    EXPECT_TRUE(view_->rules().summary().contains(QLatin1Char('1')));
    ASSERT_NO_FATAL_FAILURE(typeRule("return_rise", QStringLiteral("6.5"))); // nothing new
    EXPECT_EQ(steps(), before + 2);
    QSignalSpy said(&desk_, &Desk::said);
    ASSERT_NO_FATAL_FAILURE(typeRule("return_rise", QStringLiteral("0")));
    EXPECT_EQ(said.count(), 1);
    EXPECT_DOUBLE_EQ(own().at("return_rise"), 6.5);
    ASSERT_NO_FATAL_FAILURE(typeRule("return_rise", {}));
    EXPECT_TRUE(own().empty());
    document_.undoStack().undo();
    QTableView& table = view_->rules().table();
    table.setCurrentIndex(model.index(row, RulesModel::kValue));
    EXPECT_TRUE(view_->rules().backButton().isEnabled());
    table.setFocus();
    QTest::keyClick(&table, Qt::Key_Delete);
    EXPECT_TRUE(own().empty());
    EXPECT_FALSE(view_->rules().backButton().isEnabled());
}

TEST_F(GuardsTest, ARuleThatGoesByPowerIsSetForAllOfThem) {
    ASSERT_NO_FATAL_FAILURE(open());
    RulesModel& model = view_->rules().model();
    ASSERT_NO_FATAL_FAILURE(typeRule("starts_per_hour_pump", QStringLiteral("12")));
    int rows = 0;
    for (int row = 0; row < model.rowCount(); ++row) {
        if (model.rowAt(row).code != "starts_per_hour_pump") continue;
        ++rows;
        EXPECT_EQ(model.index(row, RulesModel::kValue).data().toString(), QStringLiteral("12 an hour"));
    }
    EXPECT_EQ(rows, 5);
    EXPECT_TRUE(view_->rules().summary().contains(QLatin1Char('1')));
}

TEST_F(GuardsTest, ARuleSetInTheJobBecomesItsCautionsSource) {
    // The mouth 0.2 m above the floor, where the table asks for 0.3 m.
    ASSERT_NO_FATAL_FAILURE(open([](Job& job) {
        job.site.source->floor = Level::fromMetres(-3.4);
        job.site.source->mouth = Level::fromMetres(-3.2);
    }));
    const auto caution = [&]() -> const Caution* {
        for (const Caution& c : found("suction").cautions) {
            if (c.code.find("floor") != std::string::npos) return &c;
        }
        return nullptr;
    };
    ASSERT_TRUE(caution());
    EXPECT_EQ(caution()->source, "common practice, no source");
    const auto shown = [&] { // its words, of the answer as it is
        const auto said = view_->study("suction")->cautions();
        return caution() &&
               std::ranges::find(said, cautionSentence(*caution(), screenPhrasing(document_.job().site))) !=
                   said.end();
    };
    EXPECT_TRUE(shown());
    ASSERT_NO_FATAL_FAILURE(typeRule("floor_clearance_foot_valve", QStringLiteral("0.25")));
    ASSERT_TRUE(settled());
    ASSERT_TRUE(caution());
    EXPECT_EQ(caution()->source, "set in the job");
    EXPECT_TRUE(shown());
    bool said = false;
    for (const QLabel* label : view_->study("suction")->findChildren<QLabel*>())
        said = said || (label->isVisible() && label->text().contains(QStringLiteral("set in the job")));
    EXPECT_TRUE(said);
    ASSERT_NO_FATAL_FAILURE(typeRule("floor_clearance_foot_valve", QStringLiteral("0,15")));
    ASSERT_TRUE(settled());
    EXPECT_FALSE(caution());
    EXPECT_EQ(view_->study("suction")->cautions().size(), found("suction").cautions.size());
}

// ---- states

TEST_F(GuardsTest, KeepsTheOldFiguresWhileNewOnesAreWorkedOut) {
    ASSERT_NO_FATAL_FAILURE(open());
    const QString before = view_->study("ratings")->figures().toPlainText();
    document_.edit(QStringLiteral("a stronger motor"), [](Workspace& w) {
        w.job.site.source->high = Level::fromMetres(1.0);
        w.job.pumps[0].deliveredHeadShare = 0.02;
    });
    ASSERT_TRUE(QTest::qWaitFor([&] { return answers_.latest()->stale; }, kPatience_ms));
    EXPECT_FALSE(view_->state().isEmpty());
    ASSERT_TRUE(view_->study("ratings"));
    EXPECT_EQ(view_->study("ratings")->figures().toPlainText(), before);
    ASSERT_TRUE(settled());
    EXPECT_TRUE(view_->state().isEmpty());
    EXPECT_NE(view_->study("ratings")->figures().toPlainText(), before);
}

TEST_F(GuardsTest, WithoutAPumpItSaysSoAndLeadsThere) {
    document_.startNew(blankWorkspace());
    document_.edit(QStringLiteral("one zone"), [](Workspace& w) {
        w.job.pumps.clear();
        Zone zone;
        zone.name = "Beds";
        w.job.site.zones = {zone};
    });
    ASSERT_NO_FATAL_FAILURE(show());
    ASSERT_TRUE(QTest::qWaitFor([&] { return !answers_.isBusy(); }, kPatience_ms));
    EXPECT_TRUE(view_->studies().empty());
    EXPECT_FALSE(view_->pumpForm().isVisible());
    EXPECT_TRUE(view_->sourceForm().isVisible());
    EXPECT_FALSE(view_->notice().isEmpty());
    QSignalSpy asked(&desk_, &Desk::placeAsked);
    QSignalSpy form(&desk_, &Desk::siteFormAsked);
    QTest::mouseClick(&view_->noticeButton(), Qt::LeftButton);
    EXPECT_EQ(asked.count() + form.count(), 1);
}

TEST_F(GuardsTest, SaysWhyTheJobCannotBeAnswered) {
    ASSERT_NO_FATAL_FAILURE(open());
    document_.edit(QStringLiteral("break it"),
                   [](Workspace& w) { w.job.site.zones.front().takeoff = "nowhere"; });
    ASSERT_TRUE(QTest::qWaitFor([&] { return !answers_.latest()->errors.empty(); }, kPatience_ms));
    EXPECT_TRUE(view_->notice().contains(QStringLiteral("nowhere"))) << view_->notice().toStdString();
    QSignalSpy form(&desk_, &Desk::siteFormAsked);
    QTest::mouseClick(&view_->noticeButton(), Qt::LeftButton);
    EXPECT_EQ(form.count(), 1);
}

TEST_F(GuardsTest, WaitsOutOfSightAndShowsTheLatestWhenSeenAgain) {
    ASSERT_NO_FATAL_FAILURE(open());
    view_->hide();
    document_.edit(QStringLiteral("a motor"), [](Workspace& w) { w.job.pumps[0].plate.amps = 5.5; });
    ASSERT_TRUE(settled());
    view_->show();
    EXPECT_DOUBLE_EQ(named<NumberEntry>(view_->pumpForm(), QStringLiteral("Current"))->figure().value_or(0),
                     5.5);
}

// ---- room for the text

class GuardsTextTest : public GuardsTest {
  protected:
    ~GuardsTextTest() override {
        QApplication::setFont(usual_);
        applyTheme(*qApp, ThemeChoice::light);
    }
    void scaled(double factor) {
        QFont font = usual_;
        font.setPointSizeF(font.pointSizeF() * factor);
        QApplication::setFont(font);
    }
    // Every part of the page, scrolled into sight; kept as pictures for people where HEADMARK_PICTURES says.
    void look(const QString& what) {
        QTest::qWait(0);
        QApplication::sendPostedEvents();
        QCoreApplication::processEvents();
        for (const QString& misfit : textMisfits(*view_))
            ADD_FAILURE() << what.toStdString() << ": " << misfit.toStdString();
        const QString pictures = qEnvironmentVariable("HEADMARK_PICTURES");
        if (!pictures.isEmpty())
            view_->page().widget()->grab().save(QStringLiteral("%1/guards-%2.png").arg(pictures, what));
    }
    void unfoldAll() {
        for (StudyCard* card : view_->studies()) {
            card->figures().setFocus();
            QTest::keyClick(&card->figures(), Qt::Key_Tab);
            QTest::keyClick(&card->figures(), Qt::Key_Return);
        }
        if (!view_->rules().table().isVisible()) QTest::keyClick(&view_->rules().showButton(), Qt::Key_Space);
    }
    const QFont usual_ = QApplication::font();
};

TEST_F(GuardsTextTest, AllTextFitsAtEveryWidthAndTextSize) {
    scaled(1.5);
    ASSERT_NO_FATAL_FAILURE(open([](Job& job) {
        job.site.source->floor = Level::fromMetres(-3.4);
        job.site.source->mouth = Level::fromMetres(-3.2);
        job.pumps[0].inletThread = "1.5 inch of some kind";
    }));
    for (const int width : {653, 1100, 1700}) {
        view_->resize(width, 720);
        look(QStringLiteral("%1-150").arg(width));
    }
    unfoldAll();
    for (const int width : {653, 1100}) {
        view_->resize(width, 720);
        look(QStringLiteral("%1-150-open").arg(width));
    }
}

TEST_F(GuardsTextTest, AllTextFitsInBothThemes) {
    for (const ThemeChoice choice : {ThemeChoice::light, ThemeChoice::dark}) {
        applyTheme(*qApp, choice);
        ASSERT_NO_FATAL_FAILURE(open());
        const QString theme = choice == ThemeChoice::dark ? QStringLiteral("dark") : QStringLiteral("light");
        look(theme);
        unfoldAll();
        view_->rules().model().setData(view_->rules().model().index(rowOf("return_rise"), RulesModel::kValue),
                                       8.0);
        ASSERT_TRUE(settled());
        look(theme + QStringLiteral("-open"));
        view_.reset();
    }
}

TEST_F(GuardsTextTest, AllTextFitsWithoutAPump) {
    scaled(1.5);
    document_.startNew(blankWorkspace());
    ASSERT_NO_FATAL_FAILURE(show());
    ASSERT_TRUE(QTest::qWaitFor([&] { return !answers_.isBusy(); }, kPatience_ms));
    view_->resize(653, 720);
    look(QStringLiteral("empty"));
}

} // namespace
} // namespace headmark
