// A site made ready: its errors, its tree, the parameters of its uncertainty.

#include "analysis/duty/site_model.h"

#include "support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace headmark {
namespace {

using namespace testing;
using Kind = SiteParameter::Kind;

CaseSetting opened(std::vector<bool> open) {
    CaseSetting s;
    s.open = std::move(open);
    return s;
}

Site threeZones() {
    Site site = siteOf(sourceAt(-2.0, -1.0, 0.5));
    site.suction = {pipe(60.0, 5.0)};
    site.delivery = {fitting(2.0, 50.0), pipe(50.0, 40.0), TakeoffItem{"A"}, pipe(50.0, 30.0),
                     pipe(40.0, 20.0)};
    site.zones = {zoneOf("One", 3.0, 1.0, "A"), zoneOf("Two", 2.0, 2.0), zoneOf("Three", 2.0, 3.0, "A")};
    site.zones[1].branch = {regulator(150.0), pipe(25.0, 10.0)};
    return site;
}

long count(const SiteModel& model, Kind kind) {
    const auto& all = model.parameters();
    return std::count_if(all.begin(), all.end(), [&](const SiteParameter& p) { return p.kind == kind; });
}

std::size_t parameter(const SiteModel& model, Kind kind, const std::string& of) {
    const auto& all = model.parameters();
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const SiteParameter& p) { return p.kind == kind && p.of == of; });
    return static_cast<std::size_t>(found - all.begin());
}

TEST(SiteModel, PlacesErrorsInsideTheSite) {
    Site site = threeZones();
    site.suction = {TakeoffItem{"X"}};
    const auto takeoff = SiteModel::make(site, {}, {});
    ASSERT_FALSE(takeoff.ok());
    EXPECT_EQ(takeoff.error().code, "not-on-suction");
    EXPECT_EQ(takeoff.error().place, "site.suction[0]");
    site.suction = {regulator(100.0)};
    EXPECT_EQ(SiteModel::make(site, {}, {}).error().code, "not-on-suction");
}

TEST(SiteModel, PlacesAFittingWithoutBoreInItsRun) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    FittingItem k;
    k.k = 2.0;
    site.zones = {zoneOf("One", 3.0, 1.0)};
    site.zones[0].branch = {k};
    const auto made = SiteModel::make(site, {}, {});
    ASSERT_FALSE(made.ok());
    EXPECT_EQ(made.error().code, "no-bore");
    EXPECT_EQ(made.error().place.rfind("site.zones[0].branch[0]", 0), 0U) << made.error().place;
}

TEST(SiteModel, GrowsOnlyTheOpenZones) {
    const SiteModel model = modelOf(threeZones());
    EXPECT_EQ(model.tree(opened({true, true, true})).outflows.size(), 3U);
    const SiteTree one = model.tree(opened({false, false, true}));
    ASSERT_EQ(one.outflows.size(), 1U);
    EXPECT_EQ(one.outflows[0].zone, 2U);
    EXPECT_DOUBLE_EQ(one.tree.outflows[0].level_m, 3.0);
    EXPECT_TRUE(model.tree(opened({false, false, false})).tree.outflows.empty());
}

// The way from the pump to a zone holds the main's items up to its take-off and its branch, each once.
TEST(SiteModel, LeadsEveryZoneThroughItsOwnItems) {
    const SiteModel model = modelOf(threeZones());
    const SiteTree site = model.tree(opened({true, true, true}));
    for (std::size_t i = 0; i < site.outflows.size(); ++i) {
        double pipe_m = 0.0;
        for (int e = site.tree.outflows[i].edge; e >= 0;
             e = site.tree.edges[static_cast<std::size_t>(e)].parent) {
            for (const EdgeElement& which : site.edgeElements[static_cast<std::size_t>(e)]) {
                pipe_m += model.element(which).length_m;
            }
        }
        EXPECT_DOUBLE_EQ(pipe_m, site.outflows[i].zone == 1 ? 40.0 + 30.0 + 20.0 + 10.0 : 40.0);
    }
}

// Set pressure 150 kPa at the zone's level of 2 m: 2 + 150000/(999.1026 9.80665) = 17.309496 m.
TEST(SiteModel, SetsARegulatorAtTheLevelOfItsZone) {
    const SiteModel model = modelOf(threeZones());
    const SiteTree site = model.tree(opened({false, true, false}));
    const auto edge = std::find_if(site.tree.edges.begin(), site.tree.edges.end(),
                                   [](const TreeEdge& e) { return e.regulator.has_value(); });
    ASSERT_NE(edge, site.tree.edges.end());
    EXPECT_NEAR(edge->regulator->setLevel_m, 17.309496, 2e-5);
}

TEST(SiteModel, TakesTheLevelOfTheCase) {
    const SiteModel model = modelOf(threeZones());
    EXPECT_DOUBLE_EQ(model.sourceLevel_m(WaterLevel::low), -2.0);
    EXPECT_DOUBLE_EQ(model.sourceLevel_m(WaterLevel::usual), -1.0);
    EXPECT_DOUBLE_EQ(model.sourceLevel_m(WaterLevel::high), 0.5);
}

// Pipes of one bore and wall share their wall's error (60, 50, 40, 25 mm: four kinds), not their lengths'
// (five pipes).
TEST(SiteModel, SharesTheErrorOfAKindOfPipe) {
    const SiteModel model = modelOf(threeZones());
    EXPECT_EQ(count(model, Kind::sourceLevel), 1);
    EXPECT_EQ(count(model, Kind::outletLevel), 3);
    EXPECT_EQ(count(model, Kind::emitter), 3);
    EXPECT_EQ(count(model, Kind::length), 5);
    EXPECT_EQ(count(model, Kind::roughness), 4);
    EXPECT_EQ(count(model, Kind::loss), 1);
    Uncertainty sure;
    sure.level = Head{};
    sure.lengthShare = sure.roughnessShare = sure.kShare = sure.emitterShare = 0.0;
    EXPECT_TRUE(modelOf(threeZones(), sure).parameters().empty());
}

TEST(SiteModel, DrawsSourceOutletLengthLossAndEmitters) {
    Site plain = siteOf(sourceAt(0.0, 0.0, 0.0));
    plain.delivery = {fitting(10.0, 50.0)};
    plain.zones = {zoneOf("One", 3.0, 1.0)};
    const SiteModel model = modelOf(plain);
    const std::size_t n = model.parameters().size();
    const auto drawn = [&](Kind kind, const std::string& of, double sigmas) {
        SiteDraw draw(n, 0.0);
        draw.at(parameter(model, kind, of)) = sigmas;
        return model.tree(opened({true}), {}, draw).tree;
    };
    const PipeTree described = model.tree(opened({true})).tree;
    // Defaults, one sigma: level 0.1 m, K 20 %, emitters 3 %.
    EXPECT_NEAR(drawn(Kind::sourceLevel, "", 2.0).sourceLevel_m, 0.2, 1e-12);
    EXPECT_NEAR(drawn(Kind::outletLevel, "One", -1.0).outflows[0].level_m, 0.9, 1e-12);
    const double q = 5.0 * kM3_h;
    EXPECT_NEAR(drawn(Kind::loss, "delivery[0]", 1.0).edges[0].chain.at(q).loss_m,
                1.2 * described.edges[0].chain.at(q).loss_m, 1e-12);
    EXPECT_NEAR(drawn(Kind::emitter, "One", 1.0).outflows[0].law.flowAtHead_m3_s(8.0),
                1.03 * described.outflows[0].law.flowAtHead_m3_s(8.0), 1e-15);
}

// Length 5 %: the loss of one pipe at a flow goes with its length. A rougher wall loses more.
TEST(SiteModel, DrawsLengthsAndWalls) {
    Site plain = siteOf(sourceAt(0.0, 0.0, 0.0));
    plain.delivery = {pipe(50.0, 80.0, 0.1)};
    plain.end = OutletEnd{Level::fromMetres(3.0), GaugePressure::fromKilopascals(0.0)};
    const SiteModel model = modelOf(plain);
    const double q = 8.0 * kM3_h;
    const double described = model.tree({}).tree.edges[0].chain.at(q).loss_m;
    const auto drawn = [&](Kind kind) {
        SiteDraw draw(model.parameters().size(), 0.0);
        const auto& all = model.parameters();
        const auto found =
            std::find_if(all.begin(), all.end(), [&](const SiteParameter& p) { return p.kind == kind; });
        draw.at(static_cast<std::size_t>(found - all.begin())) = 1.0;
        return model.tree({}, {}, draw).tree.edges[0].chain.at(q).loss_m;
    };
    EXPECT_NEAR(drawn(Kind::length), 1.05 * described, 1e-12);
    EXPECT_GT(drawn(Kind::roughness), 1.01 * described);
    EXPECT_LT(drawn(Kind::roughness), 1.15 * described);
}

// 30 kPa at an end 12 m up: the flow begins at 12 + 30000/(999.1026 9.80665) = 15.061899 m; its velocity head
// in 50 mm bore is 1.020440e-3 m per (m3/h)^2.
TEST(SiteModel, EndsAtLevelPressureAndVelocityHead) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.delivery = {pipe(50.0, 20.0)};
    site.end = OutletEnd{Level::fromMetres(12.0), GaugePressure::fromKilopascals(30.0)};
    const SiteTree tree = modelOf(site).tree({});
    ASSERT_EQ(tree.tree.outflows.size(), 1U);
    EXPECT_NEAR(tree.tree.outflows[0].level_m, 15.061899, 1e-5);
    EXPECT_NEAR(tree.tree.outflows[0].law.at(10.0 * kM3_h).loss_m, 0.1020440, 1e-6);
}

// Points 10, 14, 30 m at 0, 10, 20 m3/h: the curve passes them; a curve from 5 m3/h on is drawn down to zero
// flow.
TEST(SiteModel, PassesThroughThePointsOfAKnownSystem) {
    Site site;
    KnownSystem known;
    for (const auto& [q, h] :
         std::vector<std::pair<double, double>>{{0.0, 10.0}, {10.0, 14.0}, {20.0, 30.0}}) {
        known.points.push_back({Flow::fromCubicMetresPerHour(q), Head::fromMetres(h)});
    }
    site.system = known;
    const PipeTree tree = modelOf(site).tree({}).tree;
    for (const auto& p : known.points) {
        EXPECT_NEAR(tree.outflows[0].level_m +
                        tree.outflows[0].law.at(p.flow.inCubicMetresPerSecond()).loss_m,
                    p.head.inMetres(), 1e-9);
    }
    // Between two points no lower and no higher than both.
    const double between = 10.0 + tree.outflows[0].law.at(15.0 * kM3_h).loss_m;
    EXPECT_GT(between, 14.0);
    EXPECT_LT(between, 30.0);
}

} // namespace
} // namespace headmark
