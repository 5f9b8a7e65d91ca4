// What is typed of the pump and at its source: lands in the job, and is what a job file may hold.
#include "guards_on_screen.h"

#include "analysis/job/job_reader.h"
#include "app/desktop/installation/guards_ranges.h"
#include "app/desktop/installation/ordered_pair_edit.h"
#include "app/desktop/installation/pump_facts_form.h"
#include "app/desktop/installation/source_facts_form.h"
#include "app/desktop/installation/thread_edit.h"
#include "app/desktop/site/site_ranges.h"

#include <QSignalSpy>

#include <gtest/gtest.h>

#include <algorithm>

namespace headmark {
namespace {

using GuardsFacts = GuardsOnScreen;

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

TEST_F(GuardsFacts, EveryFigureOfThePumpLandsInTheJobByOneStepAndGoesWhenCleared) {
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

TEST_F(GuardsFacts, AFigureOutOfRangeIsMarkedAndNotTaken) {
    ASSERT_NO_FATAL_FAILURE(open());
    const int before = steps();
    auto* entry = named<NumberEntry>(view_->pumpForm(), QStringLiteral("Power factor"));
    type(*entry, QStringLiteral("1.2"));
    EXPECT_FALSE(entry->complaint().isEmpty());
    EXPECT_EQ(steps(), before);
    EXPECT_FALSE(pump().plate.powerFactor);
}

TEST_F(GuardsFacts, ChoicesAndTextsLandInTheJobByOneStepEach) {
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

TEST_F(GuardsFacts, AThreadThatCannotBeReadIsSaidInPlace) {
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

TEST_F(GuardsFacts, TheMouthStaysAboveTheFloorAndABandHasTwoEnds) {
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

TEST_F(GuardsFacts, FiguresFollowTheUnitsShown) {
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
    std::string pumpKeys, siteKeys, rules, water = R"("end": {"level_m": 1, "pressure_kPa": 0})";
    if (where == "pump")
        pumpKeys = ", " + pair;
    else if (where == "motor" || where == "motor_plate" || where == "delivered")
        pumpKeys = ", \"" + where + "\": {" + pair + "}";
    else if (where == "source")
        siteKeys = R"(, "source": {"levels_m": {"usual": 0}, )" + pair + "}";
    else if (where == "emitters")
        water = R"("zones": [{"name": "Z", "emitters": {"count": 1, "flow_l_h": 2, "at_kPa": 100, )" + pair +
                "}}]";
    else if (where == "site")
        siteKeys = ", " + pair;
    else
        rules = pair;
    const std::string text =
        R"({"format": "headmark-job", "version": 1, "pumps": [{"name": "P", "curves": {"head": {"points": [)"
        R"({"flow_m3_h": 0, "head_m": 40}, {"flow_m3_h": 10, "head_m": 20}]}})" +
        pumpKeys + R"(}], "site": {)" + water + siteKeys + R"(}, "limits": {"rules": {)" + rules + "}}}";
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
        {"emitters", "passage_mm", range::kPassage_mm},
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

} // namespace
} // namespace headmark
