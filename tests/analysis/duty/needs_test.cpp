// Flow and head a case asks of any pump, by hand. Water at 15 C weighs 999.1026 kg/m3 (IAPWS SR6-08):
// 100 kPa are 100000/(999.1026 9.80665) = 10.206331 m.

#include "analysis/duty/needs.h"

#include "support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using namespace testing;

constexpr double k100kPa_m = 10.206331;
constexpr double kHead_m = 2e-5; // the density's last figure
// Velocity head of 50 mm bore, m per (m3/h)^2: 1/(2 9.80665 (pi/4 0.05^2)^2 3600^2).
constexpr double k50mm = 1.020440e-3;

CaseSetting opened(std::vector<bool> open, WaterLevel level = WaterLevel::usual) {
    CaseSetting s;
    s.open = std::move(open);
    s.level = level;
    return s;
}

Site twoZones() {
    Site site = siteOf(sourceAt(-2.0, -1.0, 0.0));
    site.suction = {fitting(3.0, 50.0)};
    site.delivery = {fitting(5.0, 50.0), TakeoffItem{"T1"}, fitting(4.0, 50.0)};
    site.zones = {zoneOf("Near", 6.0, 1.0, "T1"), zoneOf("Far", 4.0, 6.0)};
    site.zones[0].emitters.least = GaugePressure::fromKilopascals(81.0);
    site.zones[1].branch = {fitting(2.0, 50.0)};
    return site;
}

// Near alone at its limit of 81 kPa: 6 sqrt 0.81 = 5.4 m3/h; head 0.81 of 10.2063 + 1 (level) + 1 (source) +
// (5 + 3) 50 mm heads of 29.16.
TEST(Need, IsTheWorstEmittersLowerLimitCarriedToThePump) {
    const SiteModel model = modelOf(twoZones());
    const auto need = needOf(model, opened({true, false}), "near");
    ASSERT_TRUE(need);
    EXPECT_EQ(need->caseName, "near");
    EXPECT_NEAR(need->flow.inCubicMetresPerHour(), 5.4, 1e-9);
    EXPECT_NEAR(need->head.inMetres(), 0.81 * k100kPa_m + 2.0 + 8.0 * k50mm * 5.4 * 5.4, kHead_m);
}

// Far has no limit: its nominal pressure counts. Both: 5.4 + 4 = 9.4 m3/h; Near needs 0.81 10.2063 + 1, Far
// 10.2063 + 6 + (4 + 2) heads of 16, which is more; main and suction 8 heads of 88.36; source 1 m below.
TEST(Need, IsTheGreatestAnyZoneAsksAtTheSumOfAllFlows) {
    const SiteModel model = modelOf(twoZones());
    const auto need = needOf(model, opened({true, true}), "both");
    ASSERT_TRUE(need);
    EXPECT_NEAR(need->flow.inCubicMetresPerHour(), 9.4, 1e-9);
    EXPECT_NEAR(need->head.inMetres(), k100kPa_m + 6.0 + 6.0 * k50mm * 16.0 + 1.0 + 8.0 * k50mm * 88.36,
                kHead_m);
}

TEST(Need, RisesAsTheWaterFalls) {
    const SiteModel model = modelOf(twoZones());
    const auto low = needOf(model, opened({true, true}, WaterLevel::low), "");
    const auto high = needOf(model, opened({true, true}, WaterLevel::high), "");
    ASSERT_TRUE(low && high);
    EXPECT_NEAR(low->head.inMetres() - high->head.inMetres(), 2.0, 1e-9);
}

TEST(Need, TakesTheStartOfTheRangeOfCompensatingEmitters) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.zones = {zoneOf("Drip", 3.0, 0.0)};
    site.zones[0].emitters.law.regulatedFrom = Pressure::fromKilopascals(60.0);
    site.zones[0].emitters.law.regulatedTo = Pressure::fromKilopascals(400.0);
    const auto need = needOf(modelOf(site), opened({true}), "");
    ASSERT_TRUE(need);
    EXPECT_NEAR(need->flow.inCubicMetresPerHour(), 3.0, 1e-9);
    EXPECT_NEAR(need->head.inMetres(), 0.6 * k100kPa_m, kHead_m);
}

// A regulator costs its least loss of 20 kPa on the way, wherever it is set.
TEST(Need, CountsTheLeastLossOfARegulator) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.zones = {zoneOf("Lawn", 3.0, 0.0)};
    site.zones[0].branch = {regulator(150.0, 20.0)};
    const auto need = needOf(modelOf(site), opened({true}), "");
    ASSERT_TRUE(need);
    EXPECT_NEAR(need->head.inMetres(), 1.2 * k100kPa_m, kHead_m);
}

// The return's valve, Kv 0.5 at 1 bar as 1000 kg/m3 (10.197162 m): at the pump's outlet stand 10.2063 m
// (outlet and source at 0): 0.5 sqrt(10.2063/10.1972) = 0.50022 m3/h less what a short wide pipe takes.
TEST(Need, AddsWhatTheTankReturnPasses) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.zones = {zoneOf("Lawn", 3.0, 0.0)};
    TankReturn back;
    back.pipe = pipe(100.0, 0.1);
    back.valveKv_m3_h = 0.5;
    site.tankReturn = back;
    const auto need = needOf(modelOf(site), opened({true}), "", 0.5);
    ASSERT_TRUE(need);
    EXPECT_NEAR(need->flow.inCubicMetresPerHour(), 3.50022, 2e-5);
}

TEST(Need, IsEmptyWithEveryZoneShut) {
    EXPECT_FALSE(needOf(modelOf(twoZones()), opened({false, false}), "shut"));
}

} // namespace
} // namespace headmark
