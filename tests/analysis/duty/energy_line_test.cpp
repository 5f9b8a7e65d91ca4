// At which levels the items of the way stand, and so what pressure is in them. Water of 999.1 kg/m3.

#include "analysis/duty/energy_line.h"
#include "tests/support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <memory>

namespace headmark {
namespace {

using namespace testing;

std::vector<EnergyLineItem> lineOf(const Site& site) {
    static std::vector<std::unique_ptr<SiteModel>> kept; // the items point into their model
    kept.push_back(std::make_unique<SiteModel>(modelOf(site)));
    const CaseSolver solver(*kept.back(), pumpOf(parabola(60.0, 0.0, -0.25, 0.0, 12.0)), asPrinted());
    const Case open = caseOf({"Beds"});
    const auto duty = solver.duty(open);
    EXPECT_TRUE(duty.crossing);
    return energyLine(*kept.back(), kept.back()->tree(solver.settingOf(open)), duty.crossing->solution,
                      FilterState::clean);
}

EnergyLineItem at(const std::vector<EnergyLineItem>& line, const std::string& place) {
    const auto found =
        std::find_if(line.begin(), line.end(), [&](const EnergyLineItem& i) { return i.place == place; });
    EXPECT_NE(found, line.end()) << place;
    return found == line.end() ? EnergyLineItem{} : *found;
}

Site climbing() {
    Site site = siteOf(sourceAt(-2.0, -1.5, -1.0));
    site.suction = {pipe(50.0, 5.0)};
    site.delivery = {pipe(50.0, 100.0)};
    site.zones = {zoneOf("Beds", 6.0, 30.0)};
    site.zones[0].branch = {fitting(5.0, 32.0), pipe(32.0, 40.0), fitting(1.0, 32.0)};
    return site;
}

TEST(EnergyLine, ABranchBeginsAtItsTakeoffWhereTheMainSaysIt) {
    Site site = climbing();
    std::get<PipeItem>(site.delivery[0]).riseTo = Level::fromMetres(8.0);
    const auto line = lineOf(site);
    EXPECT_EQ(at(line, "zones[0].branch[0]").levelAfter_m, 8.0); // the valve at the take-off
    EXPECT_EQ(at(line, "zones[0].branch[1]").levelBefore_m, 8.0);
    EXPECT_EQ(at(line, "zones[0].branch[1]").levelAfter_m, 30.0);
    EXPECT_EQ(at(line, "zones[0].branch[2]").levelBefore_m, 30.0);
}

TEST(EnergyLine, ElseItLiesAtTheZonesLevel) {
    const auto line = lineOf(climbing());
    EXPECT_EQ(at(line, "delivery[0]").levelAfter_m, 0.0); // the pump's
    EXPECT_EQ(at(line, "zones[0].branch[0]").levelBefore_m, 30.0);
    EXPECT_EQ(at(line, "zones[0].branch[1]").levelBefore_m, 30.0);
}

// The solver takes a regulator without a pipe before it at the zone's level: so does the line.
TEST(EnergyLine, ARegulatorStandsAtTheZonesLevel) {
    Site site = climbing();
    std::get<PipeItem>(site.delivery[0]).riseTo = Level::fromMetres(8.0);
    site.zones[0].branch = {regulator(100.0), pipe(32.0, 40.0)};
    const EnergyLineItem& item = at(lineOf(site), "zones[0].branch[0]");
    EXPECT_NEAR((item.energyAfter_m - item.levelAfter_m) * 999.1 * 9.80665e-3, 100.0, 0.1);
}

// Under the pressure of mains or a tank above it the suction lies at the pump, not at the surface.
TEST(EnergyLine, TheSuctionLiesAtThePumpWhereTheSourceStandsAboveIt) {
    Site site = climbing();
    EXPECT_EQ(at(lineOf(site), "suction[0]").levelBefore_m, -1.5);
    site.source = sourceAt(20.0, 20.0, 20.0);
    const EnergyLineItem& item = at(lineOf(site), "suction[0]");
    EXPECT_EQ(item.levelBefore_m, 0.0);
    EXPECT_EQ(item.energyBefore_m, 20.0);
}

} // namespace
} // namespace headmark
