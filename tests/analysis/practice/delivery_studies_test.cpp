// Filling, ratings, filter and surge.

#include "tests/analysis/practice/study_site.h"

#include <gtest/gtest.h>

#include <numbers>

namespace headmark {
namespace {

using namespace testing;

constexpr double kWeight_kPa_m = 999.10 * 9.80665 / 1e3; // of water at 15 C

// 100 m of 50 mm: 0.19635 m3; at 0.3 m/s, 2.1206 m3/h: 5.556 minutes.
TEST(FillingStudy, TheMainFillsSlowly) {
    const Study study = StudySite().ask(fillingStudy);
    EXPECT_NEAR(resultOf(study, "main-volume"), 100.0 * std::numbers::pi / 4.0 * 0.0025, 1e-9);
    EXPECT_NEAR(resultOf(study, "filling-slowly"), 100.0 / 0.3 / 60.0, 1e-6);
}

TEST(FillingStudy, TheLeastTimeIsAtRunOut) {
    StudySite s;
    s.pump = pumpOf(parabola(40.0, 0.0, -0.35, 0.0, 10.6));
    s.fillsMain = true;
    const Study study = s.ask(fillingStudy);
    const WorkingStep* f = figureIn(study, "filling-least-time");
    ASSERT_NE(f, nullptr);
    EXPECT_NEAR(std::get<double>(f->result.value),
                60.0 * resultOf(study, "main-volume") / factOf(f->with, "flow_m3_h"), 1e-9);
}

// 40 m of pump and water at -1 m on a pump at 0: 39 m of water.
TEST(RatingsStudy, ShutOffStandsWithHighWater) {
    EXPECT_NEAR(resultOf(StudySite().ask(ratingsStudy), "shut-off-pressure"), 39.0 * kWeight_kPa_m, 0.05);
}

TEST(RatingsStudy, TheStrongestPumpDeliveredCounts) {
    StudySite s;
    s.limits.asDelivered = true;
    s.pump.deliveredShare = 0.08;
    EXPECT_NEAR(resultOf(s.ask(ratingsStudy), "shut-off-pressure"), (40.0 * 1.08 - 1.0) * kWeight_kPa_m,
                0.05);
}

TEST(RatingsStudy, APipeTooWeakIsADangerWithItsRating) {
    StudySite s;
    PipeItem weak = pipe(50.0, 100.0);
    weak.kind.rating = Pressure::fromKilopascals(39.0 * kWeight_kPa_m - 1.0);
    s.site.delivery = {weak};
    const Study study = s.ask(ratingsStudy);
    const Caution* c = cautionIn(study, "shut-off-above-rating");
    ASSERT_NE(c, nullptr);
    EXPECT_EQ(c->place, "delivery[0]");
    weak.kind.rating = Pressure::fromKilopascals(39.0 * kWeight_kPa_m + 1.0);
    s.site.delivery = {weak};
    const Study holds = s.ask(ratingsStudy);
    EXPECT_EQ(cautionIn(holds, "shut-off-above-rating"), nullptr);
    EXPECT_NE(cautionIn(holds, "no-spare-for-60-hz"), nullptr);
}

// A pump of 40 m at 50 Hz gives 57.6 m at 60 Hz (affinity laws).
TEST(RatingsStudy, SpareFor60HertzIsLookedAt) {
    StudySite s;
    PipeItem strong = pipe(50.0, 100.0);
    strong.kind.rating = Pressure::fromKilopascals((57.6 - 1.0) * kWeight_kPa_m + 1.0);
    s.site.delivery = {strong};
    EXPECT_EQ(cautionIn(s.ask(ratingsStudy), "no-spare-for-60-hz"), nullptr);
    strong.kind.rating = Pressure::fromKilopascals((57.6 - 1.0) * kWeight_kPa_m - 1.0);
    s.site.delivery = {strong};
    EXPECT_NE(cautionIn(s.ask(ratingsStudy), "no-spare-for-60-hz"), nullptr);
}

FilterItem filterOf(const char* code, double clean_kPa, double service_kPa) {
    FilterItem f;
    f.code = code;
    f.loss = Pressure::fromKilopascals(clean_kPa);
    f.at = Flow::fromCubicMetresPerHour(6.0);
    f.service = Pressure::fromKilopascals(service_kPa);
    return f;
}

TEST(FilterStudy, CleanLossAboveTheServiceReadingIsSaid) {
    StudySite s;
    s.site.delivery = {filterOf("", 60.0, 35.0), pipe(50.0, 100.0)};
    EXPECT_NE(cautionIn(s.ask(filterStudy), "filter-small"), nullptr);
    s.site.delivery = {filterOf("", 10.0, 35.0), pipe(50.0, 100.0)};
    const Study study = s.ask(filterStudy);
    EXPECT_EQ(cautionIn(study, "filter-small"), nullptr);
    EXPECT_NEAR(resultOf(study, "filter-service"), 35.0, 0.05);
}

// filters.csv: disc_1_1_2 has 130 micron; emitters.csv asks 130 for button drippers.
TEST(FilterStudy, DrippersWithoutAFilterAreSaid) {
    StudySite s;
    s.site.zones[0].emitters.type = "drip_npc_2";
    EXPECT_NE(cautionIn(s.ask(filterStudy), "no-filter"), nullptr);
    s.site.delivery = {filterOf("disc_1_1_2", 10.0, 35.0), pipe(50.0, 100.0)};
    const Study study = s.ask(filterStudy);
    EXPECT_EQ(cautionIn(study, "no-filter"), nullptr);
    EXPECT_EQ(cautionIn(study, "filter-too-coarse"), nullptr);
}

PipeItem plastic(double length_m, double rating_kPa) {
    PipeItem item = pipe(55.4, length_m);
    item.kind.code = "pe100_sdr17_63";
    item.kind.rating = Pressure::fromKilopascals(rating_kPa);
    return item;
}

// The remedy's closing time, put in, brings the peak just to the rating.
TEST(SurgeStudy, ASlowerValveCuresTheJump) {
    StudySite s;
    s.site.delivery = {plastic(300.0, 480.0)};
    s.facts.valveClosing = Duration::fromSeconds(0.1);
    const Study study = s.ask(surgeStudy);
    const Caution* c = cautionIn(study, "surge-above-rating");
    ASSERT_NE(c, nullptr);
    const double seconds = factOf(c->remedyValues, "seconds");
    s.facts.valveClosing = Duration::fromSeconds(seconds * 1.001);
    const Study cured = s.ask(surgeStudy);
    EXPECT_EQ(cautionIn(cured, "surge-above-rating"), nullptr);
    EXPECT_NEAR(resultOf(cured, "surge-peak"), 480.0, 0.5);
    s.facts.valveClosing = Duration::fromSeconds(seconds * 0.99);
    EXPECT_NE(cautionIn(s.ask(surgeStudy), "surge-above-rating"), nullptr);
}

TEST(SurgeStudy, AWallThatIsNotKnownCountsAsUnyielding) {
    const Study unknown = StudySite().ask(surgeStudy);
    EXPECT_NE(cautionIn(unknown, "wall-not-known"), nullptr);
    const WorkingStep* f = figureIn(unknown, "valve-shuts");
    ASSERT_NE(f, nullptr);
    // 100 m at the speed of sound at 15 C, 1466 m/s (IAPWS SR6-08; from memory of its table): 0.1364 s.
    EXPECT_NEAR(factOf(f->with, "critical_s"), 200.0 / 1466.0, 1e-3);
    StudySite named;
    named.site.delivery = {plastic(100.0, 1000.0)};
    EXPECT_EQ(cautionIn(named.ask(surgeStudy), "wall-not-known"), nullptr);
}

TEST(SurgeStudy, AFastColumnPartsWhenThePumpStops) {
    StudySite s;
    s.site.zones[0].level = Level::fromMetres(-12.0);
    s.site.delivery = {pipe(32.0, 200.0)};
    s.pump = pumpOf(parabola(40.0, 0.0, -0.25, 0.0, 12.0));
    EXPECT_NE(cautionIn(s.ask(surgeStudy), "column-parts"), nullptr);
    StudySite flooded = s; // the tank's water follows through the stopped pump
    flooded.site.source = sourceAt(0.0, 0.5, 1.0);
    EXPECT_EQ(cautionIn(flooded.ask(surgeStudy), "column-parts"), nullptr);
    s.site.delivery = {plastic(200.0, 1000.0)};
    s.site.zones = {zoneOf("Beds", 3.0, 2.0)};
    EXPECT_EQ(cautionIn(s.ask(surgeStudy), "column-parts"), nullptr);
}

} // namespace
} // namespace headmark
