// The connection sheet of a job's pump, and the figures its commissioning sheet expects.
#include "analysis/job/connection_finding.h"

#include "analysis/job/analyse.h"
#include "analysis/job/job_reader.h"
#include "analysis/job/job_writer.h"
#include "tests/support/no_pages.h"
#include "tests/support/plain_wording.h"
#include "tests/support/replaced_text.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace headmark {
namespace {

using test::with;

// A tank whose usual water stands 1.5 m above the pump; bores of 50 mm before and 40 mm behind it.
const char* const kJob = R"({
  "format": "headmark-job", "version": 1,
  "pumps": [{
    "name": "A", "inlet_thread": "G 2", "outlet_thread": "G 1-1/2",
    "motor": {"rated_kW": 1.5, "efficiency_share": 0.8, "supply": "400 V three-phase"},
    "motor_plate": {"amps": 3.4},
    "curves": {
      "head": {"points": [{"flow_m3_h": 0, "head_m": 40}, {"flow_m3_h": 6, "head_m": 34}, {"flow_m3_h": 12, "head_m": 18}]},
      "power": {"points": [{"flow_m3_h": 0, "power_kW": 0.6}, {"flow_m3_h": 6, "power_kW": 0.9}, {"flow_m3_h": 12, "power_kW": 1.1}]}
    }
  }],
  "site": {
    "source": {"kind": "raised_tank", "levels_m": {"low": 0.6, "usual": 1.5, "high": 2.0}},
    "suction": [{"pipe": {"bore_mm": 50, "roughness_mm": 0.007}, "length_m": 2}],
    "delivery": [{"pipe": {"bore_mm": 40, "roughness_mm": 0.007}, "length_m": 60}],
    "zones": [{"name": "Beds", "level_m": 2, "emitters": {"total_m3_h": 6, "at_kPa": 150}}]
  }
})";

Job jobOf(const std::string& text) {
    JobReading read = readJobText(text, "job.json");
    EXPECT_TRUE(read.job.has_value()) << (read.errors.empty() ? "" : read.errors.front().code);
    return std::move(*read.job);
}

PumpFindings pumpOf(const std::string& text) {
    auto findings = test::analyseTyped(jobOf(text));
    EXPECT_TRUE(findings);
    return findings->pumps.at(0);
}

const CommissioningRow& row(const PumpFindings& pump, const std::string& code) {
    const auto& rows = pump.connections->commissioning;
    const auto found =
        std::find_if(rows.begin(), rows.end(), [&](const CommissioningRow& r) { return r.code == code; });
    EXPECT_NE(found, rows.end()) << code;
    return *found;
}

double expected(const PumpFindings& pump, const std::string& code, const std::string& key) {
    const Fact* fact = findFact(row(pump, code).expected, key);
    EXPECT_NE(fact, nullptr) << code << " " << key;
    return fact ? std::get<double>(fact->value) : std::nan("");
}

// Density of water at 15 C 999.10 kg/m3 (IAPWS SR6-08), gravity 9.80665 m/s2.
constexpr double kPascalsPerMetre = 999.10 * 9.80665;

TEST(ConnectionFinding, FloodedInletShowsTheWaterAboveThePump) {
    EXPECT_NEAR(expected(pumpOf(kJob), "inlet-standing", "pressure_kPa"), 1.5 * kPascalsPerMetre / 1e3, 0.01);
}

// A lift just filled stands under the air's pressure, its foot valve carrying the column.
TEST(ConnectionFinding, ALiftShowsNothingOnceItIsFilled) {
    std::string text = with(kJob, "\"raised_tank\"", "\"well_shallow\"");
    text =
        with(text, R"({"low": 0.6, "usual": 1.5, "high": 2.0})", R"({"low": -3, "usual": -2.5, "high": -2})");
    EXPECT_EQ(expected(pumpOf(text), "inlet-standing", "pressure_kPa"), 0.0);
}

// A motor of 0.5 kW is overloaded in every case: a danger of the cases that the fitter must see.
TEST(ConnectionFinding, DangersOfTheCasesStandOnTheSheetOnce) {
    const auto overloads = [](const PumpFindings& pump) {
        const Cautions& said = pump.connections->sheet.findings;
        return std::count_if(said.begin(), said.end(),
                             [](const Caution& c) { return c.code == "motor-overload"; });
    };
    EXPECT_EQ(overloads(pumpOf(kJob)), 0);
    EXPECT_EQ(overloads(pumpOf(with(kJob, R"("rated_kW": 1.5)", R"("rated_kW": 0.5)"))), 1);
}

// The pump bears too little against shut valves, a pipe behind its zone's valve too little while it is open:
// two dangers, of which the study says the one and the case the other.
TEST(ConnectionFinding, ADangerOfOneItemDoesNotHideThatOfAnother) {
    std::string text = with(kJob, R"("outlet_thread": "G 1-1/2",)",
                            R"("outlet_thread": "G 1-1/2", "max_pressure_kPa": 200,)");
    text = with(
        text, R"("level_m": 2,)",
        R"("level_m": 2, "branch": [{"fitting": "solenoid_valve", "size": "1-1/2"}, {"pipe": "ldpe_pn2.5_32", "length_m": 10}],)");
    const PumpFindings pump = pumpOf(text);
    const auto dangersOf = [&](const std::string& place) {
        const Cautions& found = pump.connections->sheet.findings;
        return std::count_if(found.begin(), found.end(), [&](const Caution& c) {
            return c.severity == Severity::danger && c.place == place;
        });
    };
    EXPECT_GE(dangersOf("pump"), 1);
    EXPECT_EQ(dangersOf("zones[0].branch[1]"), 1);
}

// IEC 60038: 230 V on one phase, 400 V on three.
TEST(ConnectionFinding, APlateThatSaysThePhasesOnlyHasTheUsualVoltage) {
    std::string text = with(kJob, R"(, "supply": "400 V three-phase")", "");
    text = with(text, R"("motor_plate": {"amps": 3.4})", R"("motor_plate": {"amps": 3.4, "phases": 1})");
    EXPECT_EQ(expected(pumpOf(text), "voltage-one-phase", "volts"), 230.0);
    EXPECT_EQ(expected(pumpOf(with(text, R"("phases": 1)", R"("phases": 3)")), "voltage", "volts"), 400.0);
}

TEST(ConnectionFinding, ShutOffReadingIsTheInletsWaterAndTheShutOffHead) {
    EXPECT_NEAR(expected(pumpOf(kJob), "shut-off", "pressure_kPa"), (1.5 + 40.0) * kPascalsPerMetre / 1e3,
                0.05);
}

// ISO 9906: total head is the difference of the gauges with that of the velocity heads, both at one level.
TEST(ConnectionFinding, GaugesDifferByTheTotalHeadLessTheVelocityHeads) {
    const PumpFindings pump = pumpOf(kJob);
    const double flow_m3_s = expected(pump, "outlet-running", "flow_m3_h") / 3600.0;
    const auto velocityHead_m = [&](double bore_m) {
        const double v = flow_m3_s / (std::numbers::pi / 4.0 * bore_m * bore_m);
        return v * v / (2.0 * 9.80665);
    };
    // The curve through the three points, by hand: 40 - q/6 - 5 q^2/36 (34 at 6, 18 at 12).
    const double q = flow_m3_s * 3600.0;
    const double head_m = 40.0 - q / 6.0 - 5.0 * q * q / 36.0;
    const double difference_m =
        (expected(pump, "outlet-running", "pressure_kPa") - expected(pump, "inlet-running", "pressure_kPa")) *
        1e3 / kPascalsPerMetre;
    EXPECT_GT(q, 4.0);
    EXPECT_NEAR(difference_m, head_m + velocityHead_m(0.05) - velocityHead_m(0.04), 0.005);
}

// A drive holds its own gauge; flow and current are those of the speed that does it.
TEST(ConnectionFinding, UnderADriveTheOutletShowsTheSetPoint) {
    const auto held = [](const char* hold) {
        return pumpOf(
            with(kJob, "\"zones\":",
                 std::string(R"("control": "pressure-held", "hold_kPa": )") + hold + R"(, "zones":)"));
    };
    const PumpFindings pump = held("250"), full = pumpOf(kJob);
    EXPECT_EQ(expected(pump, "outlet-running", "pressure_kPa"), 250.0);
    EXPECT_GT(expected(full, "outlet-running", "pressure_kPa"), 300.0);
    EXPECT_LT(expected(pump, "outlet-running", "flow_m3_h"), expected(full, "outlet-running", "flow_m3_h"));
    EXPECT_LT(expected(pump, "amps", "current_A"), expected(full, "amps", "current_A"));
    // Out of reach: full speed.
    EXPECT_NEAR(expected(held("390"), "outlet-running", "pressure_kPa"),
                expected(full, "outlet-running", "pressure_kPa"), 1e-6);
}

TEST(ConnectionFinding, InletShowsLessThanTheWaterAboveWhenItRuns) {
    const PumpFindings pump = pumpOf(kJob);
    EXPECT_LT(expected(pump, "inlet-running", "pressure_kPa"),
              expected(pump, "inlet-standing", "pressure_kPa") - 1.0);
}

// 10 l at 0.5 m3/h: 72 s.
TEST(ConnectionFinding, ReturnIsTimedWithABucket) {
    const PumpFindings pump = pumpOf(
        with(kJob, "\"zones\":",
             R"("tank_return": {"pipe": "ldpe_pn4_20", "length_m": 5, "set_flow_m3_h": 0.5}, "zones":)"));
    EXPECT_NEAR(expected(pump, "return-setting", "time_s"), 72.0, 0.1);
    // With the return open the pump passes 0.5 m3/h at shut zones: 40 - 0.083 - 0.035 m.
    EXPECT_NEAR(expected(pump, "shut-off-with-return", "pressure_kPa"),
                (1.5 + 39.882) * kPascalsPerMetre / 1e3, 0.3);
}

TEST(ConnectionFinding, CurrentGoesWithTheInputPower) {
    const PumpFindings pump = pumpOf(kJob);
    const double amps = expected(pump, "amps", "current_A");
    EXPECT_GT(amps, 1.0);
    EXPECT_LT(amps, 3.4);
    EXPECT_EQ(expected(pump, "amps", "limit_A"), 3.4);
    EXPECT_EQ(expected(pump, "overload-set", "limit_A"), 3.4);
    EXPECT_EQ(expected(pump, "voltage", "volts"), 400.0);
    const PumpFindings single = pumpOf(with(kJob, "400 V three-phase", "230 V, 1 phase"));
    EXPECT_EQ(expected(single, "voltage-one-phase", "volts"), 230.0);
    EXPECT_GT(expected(single, "amps-one-phase", "current_A"), amps);
}

// A case that overloads the motor must not be run to read a gauge by.
TEST(ConnectionFinding, GivesNoRunningFigureWhereNoCaseMayRun) {
    const PumpFindings pump = pumpOf(with(kJob, R"("rated_kW": 1.5)", R"("rated_kW": 0.5)"));
    for (const char* code : {"inlet-running", "outlet-running", "amps"}) {
        EXPECT_EQ(row(pump, code).why, "no-case-may-run") << code;
        EXPECT_EQ(findFact(row(pump, code).expected, "pressure_kPa"), nullptr) << code;
    }
    EXPECT_EQ(row(pumpOf(kJob), "outlet-running").why, "");
}

// The pump hangs 20 m below the gauge: 5 m of water over it and 40 m of head leave 25 m up there.
TEST(ConnectionFinding, OutletGaugeOfAPumpInTheWaterStandsBehindItsRiser) {
    std::string text = with(kJob, "\"raised_tank\"", "\"well_deep\"");
    text = with(text, R"({"low": 0.6, "usual": 1.5, "high": 2.0})",
                R"({"low": -16, "usual": -15, "high": -14})");
    text = with(text, R"("suction": [{"pipe": {"bore_mm": 50, "roughness_mm": 0.007}, "length_m": 2}])",
                R"("pump_level_m": -20)");
    text = with(
        text, R"("delivery": [)",
        R"("delivery": [{"fitting": "check_spring_inline", "size": "1-1/2"}, {"pipe": {"bore_mm": 40, "roughness_mm": 0.007}, "length_m": 20, "rise_to_m": 0}, )");
    const PumpFindings pump = pumpOf(text);
    EXPECT_NEAR(expected(pump, "shut-off", "pressure_kPa"), 25.0 * kPascalsPerMetre / 1e3, 0.05);
    EXPECT_LT(expected(pump, "outlet-running", "pressure_kPa"), 25.0 * kPascalsPerMetre / 1e3);
}

TEST(ConnectionFinding, SaysThatTheCurveIsNotReadDownToNoFlow) {
    const PumpFindings pump =
        pumpOf(with(kJob, R"({"flow_m3_h": 0, "head_m": 40})", R"({"flow_m3_h": 1, "head_m": 39.7})"));
    EXPECT_EQ(row(pump, "shut-off").why, "curve-not-to-no-flow");
    EXPECT_EQ(row(pumpOf(kJob), "shut-off").why, "");
}

// A 2 in thread's tube has a bore of 53 mm; without a suction run the gauge stands in the pump's own thread.
TEST(ConnectionFinding, InletGaugeWithoutASuctionRunSeesTheBoreOfThePumpsThread) {
    const std::string bare =
        with(kJob, R"([{"pipe": {"bore_mm": 50, "roughness_mm": 0.007}, "length_m": 2}])", "[]");
    const PumpFindings pump = pumpOf(bare);
    const double v =
        expected(pump, "outlet-running", "flow_m3_h") / 3600.0 / (std::numbers::pi / 4.0 * 0.053 * 0.053);
    EXPECT_NEAR(expected(pump, "inlet-running", "pressure_kPa"),
                (1.5 - v * v / (2.0 * 9.80665)) * kPascalsPerMetre / 1e3, 0.05);
}

bool saysSourceIsEnough(const std::string& text) {
    const PumpFindings pump = pumpOf(text);
    return std::any_of(pump.cases.begin(), pump.cases.end(), [](const CaseAnswer& a) {
        return std::any_of(a.cautions.begin(), a.cautions.end(),
                           [](const Caution& c) { return c.code == "source-alone-enough"; });
    });
}

// The zone asks for 2 m and 150 kPa (15.31 m) and what 60 m of 40 mm take at 6 m3/h; by hand with f = 0.02:
// v 1.33 m/s, 0.02 * 60/0.04 * 0.09 = 2.7 m; near 20 m in all.
TEST(ConnectionFinding, NeedsNoPumpWhereTheSourceBringsThePressure) {
    const auto standing = [](const char* low, const char* usual, const char* high) {
        return with(kJob, R"({"low": 0.6, "usual": 1.5, "high": 2.0})",
                    std::string(R"({"low": )") + low + R"(, "usual": )" + usual + R"(, "high": )" + high +
                        "}");
    };
    EXPECT_TRUE(saysSourceIsEnough(standing("23", "24", "25")));
    EXPECT_FALSE(saysSourceIsEnough(standing("15", "16", "17")));
}

bool sheetSays(const PumpFindings& pump, const char* code) {
    const Cautions& found = pump.connections->sheet.findings;
    return std::any_of(found.begin(), found.end(), [&](const Caution& c) { return c.code == code; });
}

// 12 l/min are 0.72 m3/h (Water Supply (Water Fittings) Regulations 1999, regulation 5).
TEST(ConnectionFinding, AsksForConsentWhereAPumpDrawsMuchFromTheMains) {
    const std::string mains = with(kJob, "\"raised_tank\"", "\"mains_direct_boost\"");
    EXPECT_TRUE(sheetSays(pumpOf(mains), "supplier-consent"));
    EXPECT_FALSE(sheetSays(pumpOf(kJob), "supplier-consent"));
    const std::string little = with(mains, R"("total_m3_h": 6)", R"("total_m3_h": 0.4)");
    EXPECT_FALSE(sheetSays(pumpOf(little), "supplier-consent"));
}

// 20 m3 a day (the AHDB's page on water licensing).
TEST(ConnectionFinding, AsksForALicenceWhereMuchIsDrawnFromOpenWater) {
    const auto asking = [](const char* kind, const char* need) {
        const std::string text = with(kJob, "\"raised_tank\"", std::string("\"") + kind + '"');
        return pumpOf(
            with(text, R"("level_m": 2,)", std::string(R"("level_m": 2, "need_m3_per_day": )") + need + ","));
    };
    EXPECT_TRUE(sheetSays(asking("pond_lake", "20.5"), "abstraction-licence"));
    EXPECT_FALSE(sheetSays(asking("pond_lake", "19.5"), "abstraction-licence"));
    EXPECT_FALSE(sheetSays(asking("raised_tank", "20.5"), "abstraction-licence"));
}

double valveCost_m(const std::string& text) {
    const PumpFindings pump = pumpOf(text);
    for (const Study& study : pump.installation) {
        for (const WorkingStep& step : study.figures) {
            if (step.code == "check-valve-place") return std::get<double>(step.result.value);
        }
    }
    return std::nan("");
}

// A swing check valve of 2 in, bore 53 mm: K = 50 f_T with f_T = 0.019 (Crane TP-410), and 0.05 m to lift its
// flap (common practice, no source).
TEST(ConnectionFinding, ShowsWhatACheckValveBeforeTheFloodedPumpCosts) {
    const char* const valve = R"({"fitting": "check_swing", "size": "2"})";
    const std::string behind = with(kJob, R"("delivery": [)", std::string(R"("delivery": [)") + valve + ", ");
    const std::string before = with(kJob, R"("suction": [)", std::string(R"("suction": [)") + valve + ", ");
    const double flow_m3_s = expected(pumpOf(before), "outlet-running", "flow_m3_h") / 3600.0;
    const double v = flow_m3_s / (std::numbers::pi / 4.0 * 0.053 * 0.053);
    EXPECT_NEAR(valveCost_m(before), 50.0 * 0.019 * v * v / (2.0 * 9.80665) + 0.05, 0.01);
    EXPECT_NEAR(valveCost_m(behind), valveCost_m(before), 0.02); // there in the pipe of 50 mm
    EXPECT_TRUE(std::isnan(valveCost_m(kJob)));                  // no such valve listed
    for (const char* kind : {"well_deep", "mains_direct_boost"})
        EXPECT_TRUE(std::isnan(valveCost_m(with(behind, "raised_tank", kind)))) << kind;
    const std::string sunken = with(behind, R"("low": 0.6)", R"("low": -0.6)");
    EXPECT_TRUE(std::isnan(valveCost_m(sunken)));
}

bool saysThreadUnreadable(const PumpFindings& pump) {
    const Cautions& found = pump.connections->sheet.findings;
    return std::any_of(found.begin(), found.end(),
                       [](const Caution& c) { return c.code == "pump-thread-unreadable"; });
}

TEST(ConnectionFinding, AnUnreadableThreadIsACautionAndTheRunsSizeStandsIn) {
    EXPECT_TRUE(saysThreadUnreadable(pumpOf(with(kJob, "G 1-1/2", "two inch or so"))));
    EXPECT_FALSE(saysThreadUnreadable(pumpOf(kJob)));
}

TEST(ConnectionFinding, AKnownSystemCurveHasNoSheet) {
    std::string text = kJob;
    text = text.substr(0, text.find("\"site\":")) +
           R"("site": {"system": {"static_head_m": 10, "resistance_m_per_m3_h_2": 0.2}}})";
    EXPECT_FALSE(pumpOf(text).connections);
}

TEST(ConnectionFinding, ChoicesOfTheJobReachTheSheetAndAreWrittenBack) {
    const std::string text = with(
        kJob, "\"site\":",
        R"("connections": {"exposure": "open", "parts": [{"slot": "outlet.check-valve", "part": "check_swing"}]}, "site":)");
    const PumpFindings pump = pumpOf(text);
    const auto& parts = pump.connections->sheet.parts;
    EXPECT_TRUE(std::any_of(parts.begin(), parts.end(),
                            [](const PlacedPart& part) { return part.part == "check_swing"; }));
    const Job again = jobOf(writeJob(jobOf(text)));
    EXPECT_EQ(again.connections, jobOf(text).connections);
    EXPECT_EQ(writeJob(jobOf(kJob)).find("connections"), std::string::npos);
}

} // namespace
} // namespace headmark
