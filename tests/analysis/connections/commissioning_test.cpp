#include "analysis/connections/commissioning.h"

#include "sheet_sites.h"

namespace headmark {
namespace {

using namespace testing;

const CommissioningRow* rowOf(const std::vector<CommissioningRow>& rows, const std::string& code) {
    for (const CommissioningRow& row : rows) {
        if (row.code == code) return &row;
    }
    return nullptr;
}

double valueOf(const CommissioningRow* row, const char* key) {
    const Fact* fact = row ? findFact(row->expected, key) : nullptr;
    return fact ? std::get<double>(fact->value) : -1.0;
}

// Of a tank beside the pump, by the number of its variant in sheet_sites.h.
ConnectionSheet tankSheet(std::size_t number) {
    const Variant variant = outletVariants()[number];
    return sheetOf(withVariant(sitesOfEveryKind()[0].site, variant), variant);
}

TEST(Commissioning, HasABlankOrATickForEveryReadingOfEveryPlant) {
    for (const NamedSite& named : sitesOfEveryKind()) {
        for (const Variant& variant : outletVariants()) {
            SCOPED_TRACE(named.name + ", " + variant.name);
            const ConnectionSheet sheet = sheetOf(withVariant(named.site, variant), variant);
            const auto rows = commissioningOf(sheet, {});
            for (const char* code : {"dry-run-device", "fill-slowly", "flush-main", "outlet-running", "amps"})
                EXPECT_NE(rowOf(rows, code), nullptr) << code;
            EXPECT_EQ(rowOf(rows, "vent") != nullptr, !sheet.submersible);
            EXPECT_EQ(rowOf(rows, "vent-line") != nullptr, sheet.submersible);
            EXPECT_EQ(rowOf(rows, "fill-through-plug") != nullptr, sheet.lift);
            EXPECT_EQ(rowOf(rows, "return-setting") != nullptr, variant.tankReturn);
            EXPECT_EQ(rowOf(rows, "switch-cut-in") != nullptr, variant.held);
            EXPECT_EQ(rowOf(rows, "held-pressure") != nullptr, variant.speed);
            EXPECT_EQ(rowOf(rows, "relief-set") != nullptr, variant.held || variant.speed);
            EXPECT_EQ(rowOf(rows, "overload-set") != nullptr, !variant.speed); // a drive has its own
            EXPECT_EQ(rowOf(rows, "low-switch-set") != nullptr, sheet.sourceKind == "mains_direct_boost");
            EXPECT_EQ(rows.back().code, "frost");
            EXPECT_EQ(rows.back().parts, withPurpose(sheet, "drain"));
            EXPECT_EQ(rowOf(rows, "direction-submersed") != nullptr, sheet.submersible);
            EXPECT_EQ(rowOf(rows, "direction-of-rotation") != nullptr, !sheet.submersible);
            // A switch or a drive stops it before.
            const bool free = !variant.held && !variant.speed;
            EXPECT_EQ(rowOf(rows, "shut-off") != nullptr, free && !variant.tankReturn);
            EXPECT_EQ(rowOf(rows, "shut-off-with-return") != nullptr, free && variant.tankReturn);
            EXPECT_EQ(rowOf(rows, "start-order") != nullptr, free && named.name != "tank to be filled");
            EXPECT_EQ(rowOf(rows, "filter-difference") != nullptr,
                      !withPurpose(sheet, "gauge-after-filter").empty());
        }
    }
}

// By hand: 0.5 m3/h fill a bucket of 10 l in 10 / (500/3600) = 72 s.
TEST(Commissioning, TimesTheReturnByTheBucket) {
    const ConnectionSheet sheet = tankSheet(0);
    ExpectedFigures expected;
    expected.returnFlow = Flow::fromCubicMetresPerHour(0.5);
    const auto rows = commissioningOf(sheet, expected);
    EXPECT_NEAR(valueOf(rowOf(rows, "return-setting"), "time_s"), 72.0, 1e-6);
    EXPECT_NEAR(valueOf(rowOf(rows, "return-setting"), "bucket_l"), 10.0, 1e-9);
    expected.bucket = Volume::fromLitres(20.0);
    EXPECT_NEAR(valueOf(rowOf(commissioningOf(sheet, expected), "return-setting"), "time_s"), 144.0, 1e-6);
    EXPECT_EQ(rowOf(rows, "return-setting")->parts, withPurpose(sheet, "return-valve"));
}

// A pre-charge read with water in the vessel is false.
TEST(Commissioning, ReadsThePreChargeBeforeAnyWater) {
    const ConnectionSheet sheet = tankSheet(2);
    const auto rows = commissioningOf(sheet, {});
    EXPECT_EQ(rows.front().code, "vessel-precharge");
}

TEST(Commissioning, CarriesTheExpectedFiguresAndLeavesUnknownOnesBlank) {
    const ConnectionSheet sheet = tankSheet(2);
    ExpectedFigures expected;
    expected.shutOffPressure = GaugePressure::fromKilopascals(420.0);
    expected.cutIn = GaugePressure::fromKilopascals(200.0);
    expected.dutyAmps = 3.6;
    expected.filterClean = Pressure::fromKilopascals(9.0);
    const auto rows = commissioningOf(sheet, expected);
    const ConnectionSheet withZones = tankSheet(0);
    EXPECT_NEAR(valueOf(rowOf(commissioningOf(withZones, expected), "shut-off-with-return"), "pressure_kPa"),
                420.0, 1e-9);
    EXPECT_NEAR(valueOf(rowOf(rows, "switch-cut-in"), "pressure_kPa"), 200.0, 1e-9);
    EXPECT_TRUE(rowOf(rows, "switch-cut-out")->expected.empty());
    EXPECT_EQ(rowOf(rows, "switch-cut-out")->unitKey, "reading_kPa");
    EXPECT_NEAR(valueOf(rowOf(rows, "amps"), "current_A"), 3.6, 1e-9);
    EXPECT_NEAR(valueOf(rowOf(rows, "filter-difference"), "difference_kPa"), 9.0, 1e-9);
}

TEST(Commissioning, SetsTheReliefValveBetweenCutOutAndTheWeakestPart) {
    const ConnectionSheet sheet = tankSheet(2);
    ExpectedFigures expected;
    expected.cutOut = GaugePressure::fromKilopascals(350.0);
    expected.weakestRating = GaugePressure::fromKilopascals(600.0);
    const auto rows = commissioningOf(sheet, expected);
    EXPECT_NEAR(valueOf(rowOf(rows, "relief-set"), "pressure_kPa"), 350.0, 1e-9);
    EXPECT_NEAR(valueOf(rowOf(rows, "relief-set"), "limit_kPa"), 600.0, 1e-9);
}

// Until the return is set, the gauge shows what it pleases.
TEST(Commissioning, ReadsShutOffOnceTheReturnIsSet) {
    const ConnectionSheet sheet = tankSheet(0);
    const auto rows = commissioningOf(sheet, {});
    EXPECT_LT(rowOf(rows, "return-setting"), rowOf(rows, "shut-off-with-return"));
}

TEST(Commissioning, AsksATankToBeFilledForItsLevelSwitchNotForZones) {
    Site site = sitesOfEveryKind()[0].site;
    site.end = OutletEnd{};
    site.end->level = Level::fromMetres(12.0);
    const ConnectionSheet sheet = sheetOf(site);
    const auto rows = commissioningOf(sheet, {});
    EXPECT_EQ(rowOf(rows, "start-order"), nullptr);
    ASSERT_NE(rowOf(rows, "fill-level"), nullptr);
    EXPECT_EQ(withPurpose(sheet, "start-relay-fill").size(), 1u);
    // Into a pipe under pressure no level calls.
    site.end->pressure = GaugePressure::fromKilopascals(100.0);
    const ConnectionSheet pressed = sheetOf(site);
    EXPECT_EQ(rowOf(commissioningOf(pressed, {}), "fill-level"), nullptr);
    EXPECT_EQ(withPurpose(pressed, "start-relay-hand").size(), 1u);
}

TEST(Commissioning, MeasuresVoltageAndCurrentAsTheSupplyHasPhases) {
    const ConnectionSheet sheet = sheetOf(sitesOfEveryKind()[0].site);
    ExpectedFigures expected;
    expected.phases = 1;
    expected.ratedVolts = 230.0;
    const auto rows = commissioningOf(sheet, expected);
    EXPECT_NEAR(valueOf(rowOf(rows, "voltage-one-phase"), "volts"), 230.0, 1e-9);
    EXPECT_NE(rowOf(rows, "amps-one-phase"), nullptr);
    EXPECT_EQ(rowOf(rows, "amps"), nullptr);
}

TEST(Commissioning, SaysWhyAFigureIsMissing) {
    const ConnectionSheet sheet = tankSheet(0);
    ExpectedFigures expected;
    expected.whyNoDuty = "no-case-may-run";
    expected.whyNoShutOff = "levels-not-given";
    const auto rows = commissioningOf(sheet, expected);
    EXPECT_EQ(rowOf(rows, "inlet-running")->why, "no-case-may-run");
    EXPECT_EQ(rowOf(rows, "outlet-running")->why, "no-case-may-run");
    EXPECT_EQ(rowOf(rows, "amps")->why, "no-case-may-run");
    EXPECT_EQ(rowOf(rows, "shut-off-with-return")->why, "levels-not-given");
    expected.dutyFlow = Flow::fromCubicMetresPerHour(6.0);
    expected.dutyPressure = GaugePressure::fromKilopascals(300.0);
    const auto known = commissioningOf(sheet, expected);
    EXPECT_EQ(rowOf(known, "outlet-running")->why, "");
    EXPECT_EQ(rowOf(known, "amps")->why, "motor-not-known");
}

} // namespace
} // namespace headmark
