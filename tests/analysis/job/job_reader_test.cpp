#include "analysis/job/job_reader.h"

#include "analysis/job/error_codes.h"
#include "job_documents.h"

#include <algorithm>

namespace headmark {
namespace {

std::string brokenPath(const std::string& name) {
    return std::string(HEADMARK_TESTS_DIR "/jobs/broken/") + name;
}

Job readWhole(const std::string& name) {
    auto reading = readJobFile(jobPath(name));
    EXPECT_TRUE(reading.job) << name << listed(reading);
    return reading.job ? std::move(*reading.job) : Job{};
}

std::vector<std::string> listFact(const Error& error, std::string_view key) {
    const Fact* fact = findFact(error.facts, key);
    if (!fact || !std::holds_alternative<std::vector<std::string>>(fact->value)) return {};
    return std::get<std::vector<std::string>>(fact->value);
}

// The full job with `value` at `place` (a new key as well as an old one).
JobReading readWith(const std::string& place, const Json& value, const std::string& file = "full.job.json") {
    Json document = jobJson(file);
    document[pointerOf(place)] = value;
    return readJobDocument(document, "job.json");
}

// The error of that code and place, or one without a code (and a failed test).
Error errorAt(const JobReading& reading, std::string_view code, const std::string& place) {
    for (const Error& error : reading.errors) {
        if (error.code == code && error.place == place) return error;
    }
    ADD_FAILURE() << "no " << code << " at " << place << listed(reading);
    return {};
}

TEST(JobReader, ReadsWaterEnergyLimitsAndUncertainty) {
    const Job job = readWhole("full.job.json");
    EXPECT_EQ(job.title, "Orchard above the mill pond");
    EXPECT_EQ(job.madeBy, "written by hand");
    EXPECT_NEAR(job.water.temperature.inCelsius(), 12.0, 1e-9);
    EXPECT_EQ(job.water.altitude.inMetres(), 340.0);
    EXPECT_EQ(job.energy.pricePerKilowattHour, 0.28);
    EXPECT_EQ(job.energy.currency, "EUR");
    EXPECT_FALSE(job.limits.asDelivered);
    EXPECT_EQ(job.limits.npshMargin.inMetres(), 0.8);
    EXPECT_EQ(job.limits.npshMarginShare, 0.15);
    EXPECT_TRUE(job.limits.npshMarginOwn);
    EXPECT_TRUE(job.limits.preferredBandOnly);
    EXPECT_EQ(job.uncertainty.level.inMetres(), 0.2);
    EXPECT_EQ(job.uncertainty.lengthShare, 0.04);
    EXPECT_EQ(job.uncertainty.roughnessShare, 0.25);
    EXPECT_EQ(job.uncertainty.kShare, 0.1);
    EXPECT_EQ(job.uncertainty.emitterShare, 0.05);
}

TEST(JobReader, ReadsPumps) {
    const Job job = readWhole("full.job.json");
    ASSERT_EQ(job.pumps.size(), 2u);
    const Pump& first = job.pumps[0];
    ASSERT_EQ(first.readings.size(), 2u);
    EXPECT_EQ(first.readings[0].path, "north.reading.json");
    EXPECT_EQ(first.readings[0].lines.at(CurveQuantity::efficiency), "dashed");
    EXPECT_EQ(first.readings[1].lines.at(CurveQuantity::npshRequired), "lower");
    EXPECT_NEAR(first.chartSpeed->inRevolutionsPerMinute(), 2900.0, 1e-9);
    EXPECT_NEAR(first.runSpeed->inRevolutionsPerMinute(), 2750.0, 1e-9);
    EXPECT_EQ(first.motor->rated->inWatts(), 3000.0);
    EXPECT_EQ(first.motor->efficiency->inPercent(), 84.5);
    EXPECT_EQ(first.outletThread, "G 1-1/2");
    EXPECT_EQ(first.greatestPressure->inKilopascals(), 800.0);
    EXPECT_EQ(first.deliveredHeadShare, 0.06);
    EXPECT_EQ(first.allowableShare, std::pair(0.4, 1.3));
    const Pump& second = job.pumps[1];
    const CurvePoints& head = second.curves.at(CurveQuantity::head);
    ASSERT_EQ(head.points.size(), 4u);
    EXPECT_NEAR(head.points[3].flow.inCubicMetresPerSecond(), 0.005, 1e-15); // 18 m3/h
    EXPECT_EQ(head.points[3].value, 26.0);
    EXPECT_EQ(head.degree, 2);
    EXPECT_EQ(head.sigmaShare, 0.01);
    EXPECT_EQ(second.curves.at(CurveQuantity::power).points[1].value, 3100.0); // watts
    EXPECT_TRUE(second.powerAtMotorInput);
    EXPECT_FALSE(first.powerAtMotorInput);
}

TEST(JobReader, ReadsRunsInOrder) {
    const Site site = readWhole("full.job.json").site;
    ASSERT_EQ(site.suction.size(), 2u);
    const auto& hose = std::get<PipeItem>(site.suction[1]);
    EXPECT_EQ(hose.kind.code, "suction_hose_51");
    EXPECT_TRUE(hose.kind.mayBeSuction);
    EXPECT_EQ(hose.riseTo->inMetres(), 0.3);
    ASSERT_EQ(site.delivery.size(), 12u);
    EXPECT_EQ(std::get<FittingItem>(site.delivery[0]).size, "1-1/2");
    EXPECT_EQ(std::get<FittingItem>(site.delivery[1]).count, 3);
    EXPECT_EQ(std::get<FittingItem>(site.delivery[2]).angle_deg, 30.0);
    EXPECT_EQ(std::get<FittingItem>(site.delivery[3]).k, 2.5);
    EXPECT_NEAR(std::get<FittingItem>(site.delivery[3]).bore->inMetres(), 0.050, 1e-15);
    EXPECT_EQ(std::get<FittingItem>(site.delivery[4]).kv_m3_h, 30.0);
    // filters.csv, disc_1_1_2: 12 kPa at 8 m3/h, exponent 1.9, cleaned at 40 kPa, at most 12 m3/h.
    const auto& disc = std::get<FilterItem>(site.delivery[5]);
    EXPECT_EQ(disc.loss.inKilopascals(), 12.0);
    EXPECT_EQ(disc.exponent, 1.9);
    EXPECT_EQ(disc.service.inKilopascals(), 40.0);
    const auto& spelled = std::get<FilterItem>(site.delivery[6]);
    EXPECT_EQ(spelled.code, "");
    EXPECT_EQ(spelled.exponent, 1.8);
    EXPECT_NEAR(spelled.greatestFlow->inCubicMetresPerHour(), 14.0, 1e-12);
    // pipes.csv, pe100_sdr17_63: mean bore, roughness 0.007 mm.
    EXPECT_NEAR(std::get<PipeItem>(site.delivery[7]).kind.roughness.inMillimetres(), 0.007, 1e-12);
    EXPECT_EQ(std::get<TakeoffItem>(site.delivery[8]).name, "lower terrace");
    const auto& own = std::get<PipeItem>(site.delivery[9]).kind;
    EXPECT_NEAR(own.bore.inMillimetres(), 55.4, 1e-12);
    EXPECT_EQ(own.hazenWilliamsC, 140.0);
    EXPECT_EQ(own.rating->inKilopascals(), 1000.0);
    EXPECT_EQ(std::get<RegulatorItem>(site.delivery[11]).set.inKilopascals(), 420.0);
    EXPECT_EQ(std::get<RegulatorItem>(site.delivery[11]).leastLoss.inPascals(), 0.0);
}

TEST(JobReader, TurnsTheFixedRegulatorFittingIntoARegulator) {
    const Site site = readWhole("full.job.json").site;
    const auto& regulator = std::get<RegulatorItem>(site.zones[0].branch[1]);
    EXPECT_EQ(regulator.code, "pressure_regulator_fixed");
    EXPECT_EQ(regulator.set.inKilopascals(), 150.0);
    EXPECT_EQ(regulator.leastLoss.inKilopascals(), 35.0); // fittings.csv: outlet = min(set; inlet - 35 kPa)
}

TEST(JobReader, ReadsSourceReturnAndControl) {
    const Site site = readWhole("full.job.json").site;
    EXPECT_EQ(site.source->kind, "pond_lake");
    EXPECT_EQ(site.source->low.inMetres(), -2.6);
    EXPECT_EQ(site.source->usual.inMetres(), -1.9);
    EXPECT_EQ(site.source->high.inMetres(), -1.1);
    EXPECT_EQ(site.source->stopLevel->inMetres(), -2.7);
    EXPECT_EQ(site.source->volume->inCubicMetres(), 420.0);
    EXPECT_EQ(site.pumpLevel.inMetres(), 0.3);
    EXPECT_NEAR(site.tankReturn->setFlow->inCubicMetresPerHour(), 0.3, 1e-15);
    EXPECT_EQ(site.tankReturn->outletLevel->inMetres(), -1.0);
    EXPECT_EQ(site.control, ControlKind::pressureHeld);
    EXPECT_EQ(site.controller->stations, 8);
    EXPECT_EQ(site.controller->valvesAtOnce, 2);
    EXPECT_EQ(site.controller->window, std::pair(std::string("21:00"), std::string("05:30")));
    EXPECT_EQ(site.controller->startDelay->inSeconds(), 5.0);
    EXPECT_NEAR(site.vessel->volume.inLitres(), 60.0, 1e-12);
    EXPECT_EQ(site.vessel->cutOut.inKilopascals(), 350.0);
    EXPECT_EQ(site.hold->inKilopascals(), 300.0);
    EXPECT_EQ(site.fittingsAllowanceShare, 0.05);
}

TEST(JobReader, ReadsEveryFormOfEmitters) {
    const auto zones = readWhole("full.job.json").site.zones;
    ASSERT_EQ(zones.size(), 6u);
    const Emitters& trees = zones[0].emitters;
    EXPECT_EQ(trees.count, 600);
    EXPECT_NEAR(trees.law.nominal.inLitresPerHour(), 2.3, 1e-12);
    EXPECT_EQ(trees.law.exponent, 0.48);
    EXPECT_TRUE(trees.limitsGiven);
    EXPECT_EQ(trees.greatest->inKilopascals(), 220.0);
    const Emitters& compensating = zones[1].emitters;
    EXPECT_TRUE(compensating.law.compensating());
    EXPECT_FALSE(compensating.limitsGiven);
    EXPECT_EQ(compensating.least->inKilopascals(), 100.0);
    EXPECT_EQ(compensating.greatest->inKilopascals(), 350.0);
    // emitters.csv, dripline_pc_2_3: 2.3 l/h, 70 to 350 kPa.
    const Emitters& dripline = zones[2].emitters;
    EXPECT_EQ(dripline.type, "dripline_pc_2_3");
    EXPECT_NEAR(dripline.law.nominal.inLitresPerHour(), 2.3, 1e-12);
    EXPECT_EQ(dripline.least->inKilopascals(), 70.0);
    EXPECT_FALSE(dripline.limitsGiven);
    EXPECT_NEAR(dripline.spacing->inMetres(), 0.3, 1e-15);
    EXPECT_EQ(zones[3].emitters.metres->inMetres(), 50.0);
    EXPECT_TRUE(zones[4].emitters.whole);
    EXPECT_NEAR(zones[4].emitters.law.nominal.inCubicMetresPerHour(), 3.6, 1e-12);
    EXPECT_EQ(zones[4].emitters.law.exponent, 0.5);
    EXPECT_EQ(zones[4].emitters.least, std::nullopt);
    const auto& laterals = zones[5].laterals;
    ASSERT_TRUE(laterals);
    EXPECT_EQ(laterals->count, 8);
    EXPECT_TRUE(laterals->firstAtHalf);
    EXPECT_EQ(laterals->slopeShare, 0.02);
    EXPECT_EQ(laterals->pipe.code, "ldpe_pn4_16");
    EXPECT_EQ(zones[0].needPerDay->inCubicMetres(), 4.2);
    EXPECT_EQ(zones[1].area->inSquareMetres(), 1800.0);
    EXPECT_NEAR(zones[1].needDepthPerDay->inMillimetres(), 3.5, 1e-12);
    EXPECT_EQ(zones[1].takeoff, "upper terrace");
    EXPECT_EQ(zones[2].takeoff, "");
}

TEST(JobReader, ReadsCasesAndFieldCheck) {
    const Job job = readWhole("full.job.json");
    ASSERT_TRUE(job.casesGiven);
    EXPECT_EQ(job.cases[0].zonesOpen, (std::vector<std::string>{"Young trees", "Old trees"}));
    EXPECT_EQ(job.cases[0].level, WaterLevel::low);
    EXPECT_EQ(job.cases[0].filter, FilterState::service);
    EXPECT_EQ(job.cases[0].speedShare, 0.95);
    EXPECT_TRUE(job.cases[1].zonesOpen.empty());
    const FieldCheck& check = *job.fieldCheck;
    EXPECT_EQ(check.pump, "From a brochure");
    EXPECT_NEAR(check.speed->inRevolutionsPerMinute(), 2880.0, 1e-9);
    EXPECT_EQ(check.inlet.level.inMetres(), 0.1);
    EXPECT_NEAR(check.outlet.bore.inMillimetres(), 40.0, 1e-12);
    ASSERT_EQ(check.points.size(), 3u);
    EXPECT_TRUE(check.points[0].zonesShut);
    EXPECT_NEAR(check.points[1].volume->inLitres(), 200.0, 1e-12);
    EXPECT_EQ(check.points[1].time->inSeconds(), 91.0);
    EXPECT_EQ(check.points[2].phases, 3);
    EXPECT_EQ(check.points[2].powerFactor, 0.82);
    EXPECT_EQ(check.sigmaPressure.inKilopascals(), 3.0);
    EXPECT_EQ(check.guarantee->second.inMetres(), 36.0);
    EXPECT_NEAR(check.perYear->inHours(), 900.0, 1e-12);
}

TEST(JobReader, FillsInTheDefaultsOfTheFormat) {
    const Job job = readWhole("known-system.job.json");
    EXPECT_NEAR(job.water.temperature.inCelsius(), 15.0, 1e-9);
    EXPECT_EQ(job.water.altitude.inMetres(), 0.0);
    EXPECT_FALSE(job.energy.pricePerKilowattHour);
    EXPECT_TRUE(job.limits.asDelivered);
    EXPECT_EQ(job.limits.npshMargin.inMetres(), 0.6);
    EXPECT_EQ(job.limits.npshMarginShare, 0.1);
    EXPECT_FALSE(job.limits.npshMarginOwn);
    EXPECT_FALSE(job.limits.preferredBandOnly);
    EXPECT_EQ(job.uncertainty.level.inMetres(), 0.1);
    EXPECT_EQ(job.uncertainty.lengthShare, 0.05);
    EXPECT_EQ(job.uncertainty.roughnessShare, 0.3);
    EXPECT_EQ(job.uncertainty.kShare, 0.2);
    EXPECT_EQ(job.uncertainty.emitterShare, 0.03);
    EXPECT_FALSE(job.site.source);
    EXPECT_EQ(job.site.control, ControlKind::withZones);
    EXPECT_EQ(job.site.system->staticHead->inMetres(), 80.772);
    EXPECT_EQ(job.site.system->resistance_m_per_m3_h_2, 0.00458);
    EXPECT_FALSE(job.casesGiven);
    EXPECT_FALSE(job.fieldCheck);
}

TEST(JobReader, GivesNamesToTheNameless) {
    EXPECT_EQ(readWhole("outlet.job.json").pumps[0].name, "Pump 1");
    Json document = jobJson();
    document["pumps"][0].erase("name");
    document["pumps"][1]["name"] = "Pump 1";
    document["field_check"]["pump"] = "Pump 1";
    const auto reading = readJobDocument(document, "job.json");
    ASSERT_TRUE(reading.job) << listed(reading);
    EXPECT_EQ(reading.job->pumps[0].name, "Pump 2");
}

TEST(JobReader, FillsMissingLevelsFromTheUsualOrTheNearest) {
    const auto levels = [](const Json& given) {
        const auto reading = readWith("site.source.levels_m", given, "outlet.job.json");
        EXPECT_TRUE(reading.job) << listed(reading);
        const WaterSource& source = *reading.job->site.source;
        return std::array{source.low.inMetres(), source.usual.inMetres(), source.high.inMetres()};
    };
    EXPECT_EQ(levels({{"usual", -1}}), (std::array{-1.0, -1.0, -1.0}));
    EXPECT_EQ(levels({{"low", -2}}), (std::array{-2.0, -2.0, -2.0}));
    EXPECT_EQ(levels({{"high", 3}}), (std::array{3.0, 3.0, 3.0}));
    EXPECT_EQ(levels({{"low", -2}, {"usual", -1}}), (std::array{-2.0, -1.0, -1.0}));
    EXPECT_EQ(levels({{"low", -2}, {"high", 1}}), (std::array{-2.0, -2.0, 1.0}));
}

TEST(JobReader, ReadsTheSameJobWithAByteOrderMark) {
    const auto bytes = readRegularFile(jobPath("full.job.json"));
    const auto reading = readJobText("\xEF\xBB\xBF" + *bytes, "job.json");
    ASSERT_TRUE(reading.job) << listed(reading);
    EXPECT_EQ(reading.job->pumps.size(), 2u);
}

TEST(JobReader, ChecksFormatAndVersionBeforeAnythingElse) {
    const std::tuple<const char*, std::string_view, const char*> expected[] = {
        {"newer-version.job.json", code::kNewerVersion, "version"},
        {"version-zero.job.json", code::kUnknownVersion, "version"},
        {"another-format.job.json", code::kWrongFormat, "format"},
        {"no-version.job.json", code::kMissingKey, "version"},
        {"a-list.job.json", code::kWrongType, ""},
        {"cut-off.job.json", code::kBrokenJson, ""},
        {"empty.job.json", code::kEmptyFile, ""},
    };
    for (const auto& [name, code, place] : expected) {
        const auto reading = readJobFile(brokenPath(name));
        EXPECT_FALSE(reading.job) << name;
        ASSERT_EQ(reading.errors.size(), 1u) << name << listed(reading);
        EXPECT_EQ(reading.errors[0].code, code) << name;
        EXPECT_EQ(reading.errors[0].place, place) << name;
        EXPECT_EQ(reading.errors[0].file, brokenPath(name));
    }
    EXPECT_EQ(readWith("version", 1.5).errors.front().code, code::kWrongType);
}

TEST(JobReader, CollectsEveryMistakeUpToAHundred) {
    Json document = jobJson();
    document["water"]["temperature_C"] = 99;
    document["site"]["zones"][2]["emitters"]["metre"] = 3;
    document["cases"][0]["level"] = "empty";
    auto reading = readJobDocument(document, "job.json");
    EXPECT_EQ(reading.errors.size(), 3u) << listed(reading);
    document["site"]["suction"] = Json(std::vector<int>(500, 1));
    reading = readJobDocument(document, "job.json");
    EXPECT_EQ(reading.errors.size(), 100u);
}

TEST(JobReader, NamesTheNearestKnownKeys) {
    const auto reading = readWith("site.zones[2].emitters.coun", 3);
    const Error error = errorAt(reading, code::kUnknownKey, "site.zones[2].emitters.coun");
    const auto nearest = listFact(error, "nearest");
    ASSERT_FALSE(nearest.empty());
    EXPECT_EQ(nearest.front(), "count");
}

TEST(JobReader, NamesUpToThreeNearestCodes) {
    const std::tuple<const char*, const char*, const char*> wrong[] = {
        {"site.suction[1].pipe", "suction_hos_51", "suction_hose_51"},
        {"site.delivery[1].fitting", "elbow_90_standrad", "elbow_90_standard"},
        {"site.delivery[5].filter", "disc_1_1_3", "disc_1_1_2"},
        {"site.zones[2].emitters.type", "dripline_pc_23", "dripline_pc_2_3"},
        {"site.source.kind", "pond", "pond_lake"},
        {"site.zones[5].laterals.pipe", "ldpe_pn4_61", "ldpe_pn4_16"},
    };
    for (const auto& [place, code, meant] : wrong) {
        const Error error = errorAt(readWith(place, code), code::kUnknownCode, place);
        const auto nearest = listFact(error, "nearest");
        EXPECT_LE(nearest.size(), 3u);
        EXPECT_NE(std::find(nearest.begin(), nearest.end(), meant), nearest.end()) << code;
    }
}

TEST(JobReader, ChecksSizesAgainstTheKnownOnes) {
    // solenoid_valve has a table from 3/4 to 3; an elbow takes any thread size.
    const std::string place = "site.zones[0].branch[0].size";
    const Error error = errorAt(readWith(place, "1/2"), code::kNoSuchSize, place);
    EXPECT_EQ(listFact(error, "sizes"), (std::vector<std::string>{"3/4", "1", "1-1/4", "1-1/2", "2", "3"}));
    EXPECT_TRUE(readWith("site.delivery[1].size", "1/2").job);
    errorAt(readWith("site.delivery[1].size", "1 1/2"), code::kNoSuchSize, "site.delivery[1].size");
    errorAt(readWith("site.zones[0].branch[1].size", "7"), code::kNoSuchSize, "site.zones[0].branch[1].size");
}

TEST(JobReader, TellsHowAPercentageIsWrittenAsAShare) {
    const Error error = errorAt(readWith("pumps[0].motor.efficiency_share", 84.5), code::kShareNotPercent,
                                "pumps[0].motor.efficiency_share");
    EXPECT_DOUBLE_EQ(std::get<double>(findFact(error.facts, "suggested")->value), 0.845);
    errorAt(readWith("site.fittings_allowance_share", 101), code::kOutOfRange,
            "site.fittings_allowance_share");
}

struct Mistake {
    const char* place; // what is set in the full job
    const char* value; // as JSON text
    std::string_view code;
    const char* errorPlace;
};

void PrintTo(const Mistake& mistake, std::ostream* out) { *out << mistake.place << " = " << mistake.value; }

class JobMistake : public testing::TestWithParam<Mistake> {};

TEST_P(JobMistake, IsRefusedAtItsPlace) {
    const Mistake& mistake = GetParam();
    const auto reading = readWith(mistake.place, Json::parse(mistake.value));
    EXPECT_FALSE(reading.job);
    errorAt(reading, mistake.code, mistake.errorPlace);
}

INSTANTIATE_TEST_SUITE_P(
    Names, JobMistake,
    testing::Values(
        Mistake{"pumps[1].name", R"("From a brochure")", code::kDuplicateName, "pumps[1].name"},
        Mistake{"site.zones[3].name", R"("Hedge")", code::kDuplicateName, "site.zones[3].name"},
        Mistake{"cases[1].name", R"("trees, low water")", code::kDuplicateName, "cases[1].name"},
        Mistake{"site.delivery[10].takeoff", R"("lower terrace")", code::kDuplicateName,
                "site.delivery[10].takeoff"},
        Mistake{"pumps[1].name", R"("  ")", code::kEmptyText, "pumps[1].name"},
        Mistake{"site.zones[0].takeoff", R"("middle")", code::kUnknownTakeoff, "site.zones[0].takeoff"},
        Mistake{"site.suction[0]", R"({"takeoff": "T"})", code::kTakeoffMisplaced, "site.suction[0].takeoff"},
        Mistake{"site.zones[0].branch[0]", R"({"takeoff": "T"})", code::kTakeoffMisplaced,
                "site.zones[0].branch[0].takeoff"},
        Mistake{"cases[0].zones_open[1]", R"("Vineyard")", code::kUnknownZone, "cases[0].zones_open[1]"},
        Mistake{"cases[0].zones_open[1]", R"("Young trees")", code::kRepeatedEntry, "cases[0].zones_open[1]"},
        Mistake{"field_check.pump", R"("Third")", code::kUnknownPump, "field_check.pump"}));

INSTANTIATE_TEST_SUITE_P(
    Choices, JobMistake,
    testing::Values(
        Mistake{"limits.pump", R"("delivered")", code::kUnknownChoice, "limits.pump"},
        Mistake{"limits.band", R"("best")", code::kUnknownChoice, "limits.band"},
        Mistake{"site.control", R"("always")", code::kUnknownChoice, "site.control"},
        Mistake{"site.friction", R"("chezy")", code::kUnknownChoice, "site.friction"},
        Mistake{"cases[0].filter", R"("dirty")", code::kUnknownChoice, "cases[0].filter"},
        Mistake{"pumps[1].curves.power.power_at", R"("coupling")", code::kUnknownChoice,
                "pumps[1].curves.power.power_at"},
        Mistake{"site.zones[5].laterals.first_at", R"("middle")", code::kUnknownChoice,
                "site.zones[5].laterals.first_at"},
        Mistake{"field_check.points[2].phases", "2", code::kUnknownChoice, "field_check.points[2].phases"},
        Mistake{"site.controller.window[0]", R"("25:00")", code::kBadTime, "site.controller.window[0]"},
        Mistake{"site.controller.window[1]", R"("5:30")", code::kBadTime, "site.controller.window[1]"},
        Mistake{"site.controller.window[1]", R"("21:00")", code::kEmptyWindow, "site.controller.window"},
        Mistake{"site.controller.window", R"(["21:00"])", code::kWrongLength, "site.controller.window"},
        Mistake{"site.controller.stations", "2.5", code::kWrongType, "site.controller.stations"}));

INSTANTIATE_TEST_SUITE_P(
    Pumps, JobMistake,
    testing::Values(
        Mistake{"pumps", "[]", code::kEmptyList, "pumps"},
        Mistake{"pumps[0]", R"({"name": "P"})", code::kPumpWithoutHead, "pumps[0]"},
        Mistake{"pumps[0].readings", "[]", code::kEmptyList, "pumps[0].readings"},
        Mistake{"pumps[0].curves",
                R"({"head": {"points": [{"flow_m3_h": 0, "head_m": 9}, {"flow_m3_h": 5, "head_m": 7}]}})",
                code::kQuantityTwice, "pumps[0].curves.head"},
        Mistake{"pumps[0].readings[1].lines.head", R"("again")", code::kQuantityTwice,
                "pumps[0].readings[1].lines.head"},
        Mistake{"pumps[1].curves.head.points", R"([{"flow_m3_h": 0, "head_m": 9}])", code::kTooFewPoints,
                "pumps[1].curves.head.points"},
        Mistake{"pumps[1].curves.head.points[2].flow_m3_h", "6", code::kRepeatedFlow,
                "pumps[1].curves.head.points[2].flow_m3_h"},
        Mistake{"pumps[1].curves.head.points[2].flow_m3_h", "-6", code::kOutOfRange,
                "pumps[1].curves.head.points[2].flow_m3_h"},
        Mistake{"pumps[1].curves.head.degree", "4", code::kDegreeTooHigh, "pumps[1].curves.head.degree"},
        Mistake{"pumps[0].allowable_share", "[1.3, 0.4]", code::kNotAscending, "pumps[0].allowable_share"},
        Mistake{"pumps[0].allowable_share", "[0.4]", code::kWrongLength, "pumps[0].allowable_share"},
        Mistake{"pumps[0].readings[0].lines.flow", R"("a")", code::kUnknownKey,
                "pumps[0].readings[0].lines.flow"}));

INSTANTIATE_TEST_SUITE_P(
    Site, JobMistake,
    testing::Values(
        Mistake{"site.end", R"({"level_m": 3})", code::kOnlyOneOf, "site"},
        Mistake{"site.zones", "[]", code::kEmptyList, "site.zones"},
        Mistake{"site", R"({"source": {"levels_m": {"usual": 0}}})", code::kOneOfNeeded, "site"},
        Mistake{"site.source.levels_m", "{}", code::kOneOfNeeded, "site.source.levels_m"},
        Mistake{"site.source.levels_m.usual", "-2.7", code::kNotAscending, "site.source.levels_m.usual"},
        Mistake{"site.source.levels_m.high", "-2", code::kNotAscending, "site.source.levels_m.high"},
        Mistake{"site.source.levels_m", R"({"low": 1, "high": 0})", code::kNotAscending,
                "site.source.levels_m.high"},
        Mistake{"site.tank_return.valve_kv_m3_h", "1", code::kOnlyOneOf, "site.tank_return"},
        Mistake{"site.vessel.cut_in_kPa", "350", code::kNotAscending, "site.vessel.cut_out_kPa"},
        Mistake{"site.suction[0]", R"({"size": "2"})", code::kOneOfNeeded, "site.suction[0]"},
        Mistake{"site.delivery[7].fitting", R"("union")", code::kOnlyOneOf, "site.delivery[7]"},
        Mistake{"site.delivery[3].fitting", "{}", code::kOneOfNeeded, "site.delivery[3].fitting"},
        Mistake{"site.delivery[3].fitting.kv_m3_h", "4", code::kOnlyOneOf, "site.delivery[3].fitting"},
        Mistake{"site.delivery[0].set_kPa", "100", code::kExcludedBy, "site.delivery[0].set_kPa"},
        Mistake{"site.zones[0].branch[1].count", "2", code::kExcludedBy, "site.zones[0].branch[1].count"},
        Mistake{"site.delivery[9].pipe.bore_mm", "0", code::kOutOfRange, "site.delivery[9].pipe.bore_mm"}));

INSTANTIATE_TEST_SUITE_P(
    Zones, JobMistake,
    testing::Values(
        Mistake{"site.zones[0].emitters.metres", "40", code::kOnlyOneOf, "site.zones[0].emitters"},
        Mistake{"site.zones[0].emitters.spacing_m", "1", code::kExcludedBy,
                "site.zones[0].emitters.spacing_m"},
        Mistake{"site.zones[0].emitters.type", R"("drip_npc_2")", code::kOnlyOneOf, "site.zones[0].emitters"},
        Mistake{"site.zones[0].emitters.total_m3_h", "4", code::kOnlyOneOf, "site.zones[0].emitters"},
        Mistake{"site.zones[0].emitters", R"({"count": 3})", code::kOneOfNeeded, "site.zones[0].emitters"},
        Mistake{"site.zones[0].emitters", R"({"flow_l_h": 3, "at_kPa": 9})", code::kOneOfNeeded,
                "site.zones[0].emitters"},
        Mistake{"site.zones[4].emitters.count", "3", code::kExcludedBy, "site.zones[4].emitters.count"},
        Mistake{"site.zones[5].emitters.count", "3", code::kExcludedBy, "site.zones[5].emitters.count"},
        Mistake{"site.zones[2].emitters.exponent", "0.4", code::kExcludedBy,
                "site.zones[2].emitters.exponent"},
        Mistake{"site.zones[1].emitters.exponent", "0.4", code::kExcludedBy,
                "site.zones[1].emitters.exponent"},
        Mistake{"site.zones[1].emitters.regulated_to_kPa", "90", code::kNotAscending,
                "site.zones[1].emitters.regulated_to_kPa"},
        Mistake{"site.zones[0].emitters.min_kPa", "220", code::kNotAscending,
                "site.zones[0].emitters.max_kPa"},
        Mistake{"site.zones[2].emitters.min_kPa", "360", code::kOutOfRange, "site.zones[2].emitters.min_kPa"},
        Mistake{"site.zones[2].emitters.max_kPa", "60", code::kOutOfRange, "site.zones[2].emitters.max_kPa"},
        Mistake{"site.zones[2].emitters.spacing_m", "121", code::kSpacingBeyondLength,
                "site.zones[2].emitters.spacing_m"},
        Mistake{"site.zones[3].emitters.spacing_m", "0.5", code::kExcludedBy,
                "site.zones[3].emitters.spacing_m"},
        Mistake{"site.zones[5].laterals.spacing_m", "41", code::kSpacingBeyondLength,
                "site.zones[5].laterals.spacing_m"},
        Mistake{"site.zones[0].area_m2", "100", code::kExcludedBy, "site.zones[0].area_m2"}));

INSTANTIATE_TEST_SUITE_P(
    FieldCheck, JobMistake,
    testing::Values(
        Mistake{"field_check.points", "[]", code::kEmptyList, "field_check.points"},
        Mistake{"field_check.points[0].flow_m3_h", "1", code::kOnlyOneOf, "field_check.points[0]"},
        Mistake{"field_check.points[1].zones_shut", "true", code::kOnlyOneOf, "field_check.points[1]"},
        Mistake{"field_check.points[0].zones_shut", "false", code::kOneOfNeeded, "field_check.points[0]"}));

TEST(JobReader, RefusesZonesOpenWhereThereAreNoZones) {
    for (const char* file : {"outlet.job.json", "known-system.job.json"}) {
        const auto reading = readWith("cases", Json::parse(R"([{"zones_open": []}])"), file);
        errorAt(reading, code::kZonesWithoutZones, "cases[0].zones_open");
    }
}

TEST(JobReader, NeedsAVesselOrASetPointToHoldThePressure) {
    const auto reading = readWith("site.control", "pressure-held", "outlet.job.json");
    errorAt(reading, code::kPressureHeldNeeds, "site.control");
    Json document = jobJson("outlet.job.json");
    document["site"]["control"] = "pressure-held";
    document["site"]["hold_kPa"] = 250;
    EXPECT_TRUE(readJobDocument(document, "job.json").job);
}

TEST(JobReader, TakesTheOnlyPumpForAFieldCheckThatNamesNone) {
    Json document = jobJson();
    document["pumps"].erase(1);
    document["field_check"].erase("pump");
    const auto reading = readJobDocument(document, "job.json");
    ASSERT_TRUE(reading.job) << listed(reading);
    EXPECT_EQ(reading.job->fieldCheck->pump, "From a brochure");
}

} // namespace
} // namespace headmark
