// Every finding about the run: a site that raises it and one that just does not.
#include "sheet_sites.h"

namespace headmark {
namespace {

using namespace testing;

const Run kTank{fitting("tank_connector", "2"), fitting("ball_valve_full_bore", "2"),
                pipe("suction_hose_51", 2), fitting("union", "2")};
const Run kLift{fitting("foot_valve_poppet_strainer", "2"), pipe("suction_hose_51", 6),
                fitting("union", "2")};

Run without(Run run, std::size_t index) {
    run.erase(run.begin() + static_cast<std::ptrdiff_t>(index));
    return run;
}

Run with(Run run, std::size_t before, RunItem item) {
    run.insert(run.begin() + static_cast<std::ptrdiff_t>(before), std::move(item));
    return run;
}

bool raises(const char* code, const Site& site, const Variant& variant = {}) {
    return hasFinding(sheetOf(site, variant), code);
}

TEST(SheetFindings, AGoodRunRaisesNothingButUncountedLosses) {
    for (const Site& site : {siteOf("raised_tank", kTank, fullDelivery()),
                             siteOf("well_shallow", kLift, fullDelivery(), -3.0)}) {
        for (const Caution& finding : sheetOf(site).findings)
            EXPECT_EQ(finding.code, "losses-not-in-run") << finding.place;
    }
}

TEST(SheetFindings, AsksForADryRunDeviceThatSuitsTheSource) {
    Site site = siteOf("well_shallow", kLift, fullDelivery(), -3.0); // electrode or float
    site.source->dryRunDevice.clear();
    EXPECT_TRUE(raises("dry-run-device-not-said", site));
    site.source->dryRunDevice = "flow-switch";
    EXPECT_TRUE(raises("dry-run-device-unsuitable", site));
    EXPECT_FALSE(raises("dry-run-device-not-said", site));
    site.source->dryRunDevice = "float";
    EXPECT_FALSE(raises("dry-run-device-unsuitable", site));
    site.source->stopLevel.reset();
    EXPECT_TRUE(raises("stop-level-not-said", site));
    site.source->stopLevel = Level::fromMetres(-4.0);
    EXPECT_FALSE(raises("stop-level-not-said", site));
}

TEST(SheetFindings, PutsTheDeviceThatTheJobSaysOnTheSheet) {
    Site site = siteOf("well_shallow", kLift, fullDelivery(), -3.0);
    const auto has = [](const ConnectionSheet& sheet, const char* part) {
        return std::any_of(sheet.parts.begin(), sheet.parts.end(),
                           [&](const PlacedPart& placed) { return placed.part == part; });
    };
    site.source->dryRunDevice = "electrode";
    EXPECT_TRUE(has(sheetOf(site), "level_electrodes"));
    site.source->dryRunDevice = "float";
    EXPECT_TRUE(has(sheetOf(site), "level_switch_float"));
    EXPECT_FALSE(has(sheetOf(site), "level_electrodes"));
}

TEST(SheetFindings, KeepsThePlantsWaterOutOfTheMains) {
    Site tank = siteOf("mains_break_tank", kTank, fullDelivery());
    EXPECT_TRUE(raises("air-gap-at-break-tank", tank));
    EXPECT_FALSE(raises("air-gap-at-break-tank", siteOf("raised_tank", kTank, fullDelivery())));
    Site direct = siteOf("mains_direct_boost",
                         {fitting("double_check_valve", "2"), pipe("pe100_sdr11_63", 3)}, fullDelivery());
    EXPECT_FALSE(raises("return-into-the-mains", direct));
    direct.tankReturn = TankReturn{};
    direct.tankReturn->pipe = pipe("pe100_sdr11_20", 5);
    EXPECT_TRUE(raises("return-into-the-mains", direct));
    tank.tankReturn = direct.tankReturn;
    EXPECT_FALSE(raises("return-into-the-mains", tank));
}

TEST(SheetFindings, MissesTheFootValveOfALift) {
    const Site good = siteOf("well_shallow", kLift, fullDelivery(), -3.0);
    EXPECT_FALSE(raises("no-foot-valve", good));
    EXPECT_TRUE(raises("no-foot-valve", siteOf("well_shallow", without(kLift, 0), fullDelivery(), -3.0)));
    // A basket alone holds no water; with a check valve behind it, it does.
    const headmark::Run basket = with(without(kLift, 0), 0, fitting("suction_strainer_basket", "2"));
    EXPECT_TRUE(raises("no-foot-valve", siteOf("open_channel", basket, fullDelivery(), -2.0)));
    EXPECT_FALSE(raises("no-foot-valve", siteOf("open_channel", with(basket, 2, fitting("check_swing", "2")),
                                                fullDelivery(), -2.0)));
    EXPECT_TRUE(raises("no-strainer-at-inlet",
                       siteOf("well_shallow", with(without(kLift, 0), 1, fitting("check_swing", "2")),
                              fullDelivery(), -3.0)));
    EXPECT_FALSE(raises("no-strainer-at-inlet", good));
}

TEST(SheetFindings, MissesUnionsValvesAndTheSuctionPipe) {
    const Site good = siteOf("raised_tank", kTank, fullDelivery());
    for (const char* code :
         {"no-union-at-inlet", "no-union-at-outlet", "no-check-valve", "no-isolating-valve-on-suction",
          "no-isolating-valve-on-delivery", "no-suction-pipe"})
        EXPECT_FALSE(raises(code, good)) << code;
    EXPECT_TRUE(raises("no-union-at-inlet", siteOf("raised_tank", without(kTank, 3), fullDelivery())));
    EXPECT_TRUE(
        raises("no-isolating-valve-on-suction", siteOf("raised_tank", without(kTank, 1), fullDelivery())));
    EXPECT_TRUE(raises("no-union-at-outlet", siteOf("raised_tank", kTank, without(fullDelivery(), 0))));
    EXPECT_TRUE(raises("no-check-valve", siteOf("raised_tank", kTank, without(fullDelivery(), 1))));
    EXPECT_TRUE(
        raises("no-isolating-valve-on-delivery", siteOf("raised_tank", kTank, without(fullDelivery(), 2))));
    EXPECT_TRUE(raises("no-suction-pipe", siteOf("well_shallow", without(kLift, 1), fullDelivery(), -3.0)));
}

// A loose nut on a parallel male port opens like a union.
TEST(SheetFindings, ANutOnAMalePortServesAsAUnion) {
    const Site site = siteOf("raised_tank", without(kTank, 3), without(fullDelivery(), 0));
    Variant male;
    male.inlet = "G 2 A";
    male.outlet = "G 1-1/2 B";
    EXPECT_FALSE(raises("no-union-at-inlet", site, male));
    EXPECT_FALSE(raises("no-union-at-outlet", site, male));
    EXPECT_TRUE(raises("no-union-at-outlet", site));
}

TEST(SheetFindings, RefusesPlainHoseOnSuction) {
    EXPECT_TRUE(raises(
        "plain-hose-on-suction",
        siteOf("well_shallow", with(without(kLift, 1), 1, pipe("layflat_51", 6)), fullDelivery(), -3.0)));
    EXPECT_FALSE(raises("plain-hose-on-suction", siteOf("well_shallow", kLift, fullDelivery(), -3.0)));
}

TEST(SheetFindings, RefusesReducedBoreAndThrottlingOnSuction) {
    const auto valve = [](const char* code) {
        return siteOf("raised_tank", with(without(kTank, 1), 1, fitting(code, "2")), fullDelivery());
    };
    EXPECT_TRUE(raises("reduced-bore-on-suction", valve("ball_valve_reduced_bore")));
    EXPECT_FALSE(raises("reduced-bore-on-suction", valve("ball_valve_full_bore")));
    EXPECT_TRUE(raises("throttling-on-suction", valve("globe_valve")));
    EXPECT_FALSE(raises("throttling-on-suction", valve("gate_valve")));
}

TEST(SheetFindings, WarnsOfAValveInASuctionLift) {
    EXPECT_TRUE(raises(
        "valve-on-suction-lift",
        siteOf("well_shallow", with(kLift, 2, fitting("ball_valve_full_bore", "2")), fullDelivery(), -3.0)));
    EXPECT_FALSE(raises("valve-on-suction-lift", siteOf("raised_tank", kTank, fullDelivery())));
}

TEST(SheetFindings, WarnsOfAFineFilterBeforeThePumpButNotOfACoarseStrainer) {
    EXPECT_TRUE(raises("fine-filter-on-suction",
                       siteOf("raised_tank", with(kTank, 2, filter("disc_2")), fullDelivery())));
    EXPECT_FALSE(
        raises("fine-filter-on-suction",
               siteOf("raised_tank", with(kTank, 2, filter("suction_strainer_coarse")), fullDelivery())));
}

TEST(SheetFindings, SparesAPlasticTankARigidPipe) {
    const headmark::Run rigid = with(without(kTank, 2), 2, pipe("pe100_sdr11_63", 2));
    EXPECT_TRUE(raises("rigid-pipe-on-plastic-tank", siteOf("raised_tank", rigid, fullDelivery())));
    EXPECT_FALSE(raises("rigid-pipe-on-plastic-tank", siteOf("raised_tank", kTank, fullDelivery())));
    EXPECT_FALSE(raises(
        "rigid-pipe-on-plastic-tank",
        siteOf("raised_tank", with(rigid, 2, fitting("flexible_pump_connector", "2")), fullDelivery())));
    Variant steel;
    steel.choices.plasticTank = false;
    EXPECT_FALSE(raises("rigid-pipe-on-plastic-tank", siteOf("raised_tank", rigid, fullDelivery()), steel));
}

TEST(SheetFindings, FindsACheckValveTwice) {
    EXPECT_TRUE(raises(
        "check-valve-twice",
        siteOf("well_shallow", with(kLift, 2, fitting("check_spring_inline", "2")), fullDelivery(), -3.0)));
    EXPECT_TRUE(
        raises("check-valve-twice",
               siteOf("raised_tank", kTank, with(fullDelivery(), 2, fitting("check_swing", "1-1/2")))));
    // One at the foot and one on the delivery are both wanted.
    EXPECT_FALSE(raises("check-valve-twice", siteOf("well_shallow", kLift, fullDelivery(), -3.0)));
}

TEST(SheetFindings, MovesACheckValveOffAFloodedSuctionUnlessWaterFallsBelowThePump) {
    const headmark::Run check = with(kTank, 3, fitting("check_swing", "2"));
    EXPECT_TRUE(raises("check-valve-on-flooded-suction", siteOf("raised_tank", check, fullDelivery(), 1.0)));
    EXPECT_FALSE(raises("check-valve-on-flooded-suction",
                        siteOf("tank_drawn_below_pump", check, fullDelivery(), -0.5)));
    EXPECT_TRUE(
        raises("no-check-valve-where-water-falls-below", siteOf("raised_tank", kTank, fullDelivery(), -0.1)));
    EXPECT_FALSE(
        raises("no-check-valve-where-water-falls-below", siteOf("raised_tank", kTank, fullDelivery(), 0.0)));
    EXPECT_FALSE(
        raises("no-check-valve-where-water-falls-below", siteOf("raised_tank", check, fullDelivery(), -0.1)));
}

TEST(SheetFindings, KnowsWhatPressureHeldControlNeeds) {
    Site site = siteOf("raised_tank", kTank, fullDelivery());
    EXPECT_FALSE(raises("no-vessel", site));
    site.control = ControlKind::pressureHeld;
    EXPECT_TRUE(raises("no-vessel", site));
    site.vessel = Vessel{};
    EXPECT_FALSE(raises("no-vessel", site));
    EXPECT_FALSE(raises("return-on-pressure-held", site));
    site.tankReturn = TankReturn{pipe("pe100_sdr11_20", 6), {}, {}, {}};
    EXPECT_TRUE(raises("return-on-pressure-held", site));
    site.control = ControlKind::withZones;
    EXPECT_FALSE(raises("return-on-pressure-held", site));
}

TEST(SheetFindings, AsksForTheSourceAndThePumpsThreads) {
    const Site site = siteOf("raised_tank", kTank, fullDelivery());
    Variant silent;
    silent.inlet = "";
    EXPECT_TRUE(raises("pump-thread-not-said", site, silent));
    EXPECT_FALSE(raises("pump-thread-not-said", site));
    EXPECT_TRUE(raises("source-kind-not-said", Site{}));
    EXPECT_FALSE(raises("source-kind-not-said", site));
}

TEST(SheetFindings, FindsASuctionNarrowerThanThePumpsInlet) {
    const Site site = siteOf("raised_tank", kTank, fullDelivery()); // 2 in hose
    Variant wide, equal;
    wide.inlet = "G 2-1/2";
    equal.inlet = "G 2";
    EXPECT_TRUE(raises("suction-narrower-than-pump", site, wide));
    EXPECT_FALSE(raises("suction-narrower-than-pump", site, equal));
}

TEST(SheetFindings, RefusesASurfacePumpOnADeepWell) {
    EXPECT_TRUE(raises("surface-pump-beyond-lift", siteOf("well_deep", kLift, fullDelivery(), -9.0)));
    EXPECT_FALSE(raises("surface-pump-beyond-lift", siteOf("well_deep", {}, fullDelivery(), 3.0)));
}

TEST(SheetFindings, WantsBackflowProtectionOnTheMains) {
    const headmark::Run run{fitting("double_check_valve", "1-1/4"), fitting("ball_valve_full_bore", "1-1/4"),
                            fitting("union", "1-1/4")};
    EXPECT_FALSE(raises("no-backflow-preventer", siteOf("mains_direct_boost", run, fullDelivery())));
    EXPECT_TRUE(
        raises("no-backflow-preventer", siteOf("mains_direct_boost", without(run, 0), fullDelivery())));
}

TEST(SheetFindings, RefusesWormDriveClampsWithThePlace) {
    const Site site = siteOf("raised_tank", kTank, fullDelivery());
    Variant worm;
    worm.choices.clamp = Clamp::wormDrive;
    EXPECT_TRUE(hasFinding(sheetOf(site, worm), "worm-clamp-on-suction", "suction[2]"));
    EXPECT_FALSE(raises("worm-clamp-on-suction", site));
    headmark::Run hose = fullDelivery();
    hose[5] = pipe("layflat_51", 40);
    EXPECT_TRUE(raises("worm-clamp-under-pressure", siteOf("raised_tank", kTank, hose), worm));
    EXPECT_FALSE(raises("worm-clamp-under-pressure", site, worm)); // PE main: no hose under pressure
    Variant bare;
    bare.choices.clamp = Clamp::none;
    EXPECT_TRUE(raises("hose-without-clamp", site, bare));
    EXPECT_FALSE(raises("hose-without-clamp", site));
}

TEST(SheetFindings, JudgesRatingsAgainstTheGreatestPressure) {
    const Site site = siteOf("raised_tank", kTank, fullDelivery());
    SheetInput input;
    input.site = &site;
    input.inletThread = input.outletThread = "G 1-1/2";
    input.greatestPressure = GaugePressure::fromBars(8.1); // the disc filter's rating is 8 bar
    EXPECT_TRUE(hasFinding(*connectionSheet(input), "part-rating-exceeded", "delivery[3]"));
    input.greatestPressure = GaugePressure::fromBars(7.9);
    EXPECT_FALSE(hasFinding(*connectionSheet(input), "part-rating-exceeded"));
}

// The same filter 10 m higher sees 8.1 - 0.98 bar.
TEST(SheetFindings, JudgesAPartByThePressureAtItsOwnLevel) {
    headmark::Run climbing = fullDelivery();
    PipeItem up = pipe("pe100_sdr17_63", 8);
    up.riseTo = Level::fromMetres(10.0);
    climbing.insert(climbing.begin() + 3, up);
    const Site site = siteOf("raised_tank", kTank, climbing);
    SheetInput input;
    input.site = &site;
    input.inletThread = input.outletThread = "G 1-1/2";
    input.greatestPressure = GaugePressure::fromBars(8.1);
    const auto filterIsWeak = [&] {
        const ConnectionSheet sheet = *connectionSheet(input);
        for (const Caution& c : sheet.findings) {
            const Fact* part = findFact(c.values, "part");
            if (c.code == "part-rating-exceeded" && std::get<std::string>(part->value) == "filter_disc")
                return true;
        }
        return false;
    };
    EXPECT_FALSE(filterIsWeak());
    input.greatestPressure = GaugePressure::fromBars(9.1);
    EXPECT_TRUE(filterIsWeak());
}

// Mains of 6.5 bar before the pump, on a low-pressure switch of 6 bar.
TEST(SheetFindings, JudgesTheInletByThePressureOfItsSource) {
    const Site site = sitesOfEveryKind()[10].site;
    ASSERT_EQ(site.source->kind, "mains_direct_boost");
    SheetInput input;
    input.site = &site;
    input.inletThread = input.outletThread = "G 1-1/2";
    input.greatestInletPressure = GaugePressure::fromBars(6.5);
    EXPECT_TRUE(hasFinding(*connectionSheet(input), "part-rating-exceeded"));
    input.greatestInletPressure = GaugePressure::fromBars(5.9);
    EXPECT_FALSE(hasFinding(*connectionSheet(input), "part-rating-exceeded"));
}

TEST(SheetFindings, SaysThatAChosenPartIsNotUsed) {
    Variant variant;
    variant.inlet = variant.outlet = "G 1-1/2";
    variant.choices.parts = {{"delivery[2]", "check_swing"}}; // a ball valve stands there
    const Site site = siteOf("raised_tank", kTank, fullDelivery());
    EXPECT_TRUE(hasFinding(sheetOf(site, variant), "choice-not-used", "delivery[2]"));
    variant.choices.parts = {{"delivery[1]", "check_spring"}};
    EXPECT_FALSE(hasFinding(sheetOf(site, variant), "choice-not-used"));
}

TEST(SheetFindings, AsksForTheRiserOfAPumpInTheWater) {
    EXPECT_TRUE(raises("no-riser", siteOf("well_deep", {}, fullDelivery(), 5.0)));
    EXPECT_FALSE(raises("no-riser", siteOf("well_deep", {}, deliveryWithRiser(), 5.0)));
    EXPECT_FALSE(raises("no-riser", siteOf("raised_tank", kTank, fullDelivery())));
}

TEST(SheetFindings, SaysWhatTheRunListsAndTheSheetDoesNotNeed) {
    headmark::Run extra = fullDelivery();
    extra[4] = fitting("pe_compression_adaptor", "", 3);
    EXPECT_TRUE(
        hasFinding(sheetOf(siteOf("raised_tank", kTank, extra)), "listed-part-without-place", "delivery[4]"));
    EXPECT_FALSE(raises("listed-part-without-place", siteOf("raised_tank", kTank, fullDelivery())));
}

TEST(SheetFindings, SaysWhichLossesTheRunDoesNotCount) {
    Site site = siteOf("raised_tank", kTank, fullDelivery());
    const ConnectionSheet sheet = sheetOf(site);
    EXPECT_TRUE(hasFinding(sheet, "losses-not-in-run"));
    EXPECT_FALSE(raises("losses-not-in-run", withSheetLosses(site, sheet)));
    site.fittingsAllowanceShare = 0.1;
    EXPECT_TRUE(raises("losses-in-allowance", site));
    EXPECT_FALSE(raises("losses-not-in-run", site));
}

TEST(SheetFindings, SaysWhereAPartDoesNotComeInItsSize) {
    headmark::Run large = fullDelivery();
    large[1] = fitting("check_spring_inline", "4"); // listed to 3 in
    EXPECT_TRUE(hasFinding(sheetOf(siteOf("raised_tank", kTank, large)), "part-not-in-size", "delivery[1]"));
    large[1] = fitting("check_spring_inline", "3");
    EXPECT_FALSE(raises("part-not-in-size", siteOf("raised_tank", kTank, large)));
}

TEST(SheetFindings, CarryASourceEach) {
    for (const NamedSite& named : sitesOfEveryKind()) {
        for (const Caution& finding : sheetOf(named.site).findings)
            EXPECT_FALSE(finding.source.empty()) << finding.code;
    }
}

} // namespace
} // namespace headmark
