#include "analysis/connections/connection_sheet.h"

#include "analysis/pipework/element.h"
#include "sheet_sites.h"

#include <map>

namespace headmark {
namespace {

using namespace testing;

template <class Check>
void onEverySheet(Check check) {
    for (const NamedSite& named : sitesOfEveryKind()) {
        for (const Variant& variant : outletVariants()) {
            SCOPED_TRACE(named.name + ", " + variant.name);
            const Site site = withVariant(named.site, variant);
            check(site, sheetOf(site, variant), variant);
        }
    }
}

// The line that the water takes, without what hangs on tees.
std::vector<std::size_t> throughLine(const ConnectionSheet& sheet) {
    std::vector<std::size_t> line;
    for (std::size_t i = 0; i < sheet.parts.size(); ++i) {
        if (!sheet.parts[i].branchOf && sheet.parts[i].line != SheetLine::control) line.push_back(i);
    }
    return line;
}

TEST(ConnectionSheet, MakesEveryJointRightForEverySourceAndOutlet) {
    onEverySheet([](const Site&, const ConnectionSheet& sheet, const Variant&) {
        EXPECT_GT(sheet.joints.size(), 4u);
        for (const PlacedJoint& joint : sheet.joints) {
            const PlacedPart &a = sheet.parts[joint.before], &b = sheet.parts[joint.after];
            EXPECT_TRUE(joint.verdict.right)
                << a.part << " " << endText(a.ends[joint.endBefore]) << " | " << b.part << " "
                << endText(b.ends[joint.endAfter]) << ": " << joint.verdict.code;
        }
        EXPECT_TRUE(withPart(sheet, "adaptor_to_suit").empty());
        EXPECT_TRUE(withPart(sheet, "fitting_to_suit").empty());
    });
}

// Judged anew by the public rules, so that a joint left out of the list is found too.
TEST(ConnectionSheet, JoinsEveryConsecutivePairOfTheLine) {
    onEverySheet([](const Site&, const ConnectionSheet& sheet, const Variant&) {
        const auto line = throughLine(sheet);
        for (std::size_t i = 1; i < line.size(); ++i) {
            const PlacedPart &a = sheet.parts[line[i - 1]], &b = sheet.parts[line[i]];
            EXPECT_TRUE(judgedJoint(a.ends.at(1), b.ends.at(0)).right) << a.part << " | " << b.part;
        }
        // One joint for every part but the first of the inlet, the controls and none twice.
        std::map<std::size_t, int> after;
        for (const PlacedJoint& joint : sheet.joints)
            ++after[joint.after];
        for (std::size_t i = 0; i < sheet.parts.size(); ++i) {
            if (sheet.parts[i].line == SheetLine::control) continue;
            EXPECT_EQ(after[i], i == line.front() ? 0 : 1) << sheet.parts[i].part;
        }
    });
}

int itemCount(const RunItem& item) {
    if (std::holds_alternative<TakeoffItem>(item)) return 0;
    const auto* fitting = std::get_if<FittingItem>(&item);
    return fitting ? fitting->count : 1;
}

TEST(ConnectionSheet, HoldsEveryRunItemExactlyOnce) {
    onEverySheet([](const Site& site, const ConnectionSheet& sheet, const Variant&) {
        std::map<std::string, int> stands;
        for (const PlacedPart& part : sheet.parts) {
            if (!part.place.empty()) stands[part.place] += part.count;
        }
        for (const bool suction : {true, false}) {
            const headmark::Run& run = suction ? site.suction : site.delivery;
            for (std::size_t i = 0; i < run.size(); ++i) {
                const std::string place = (suction ? "suction[" : "delivery[") + std::to_string(i) + "]";
                if (hasFinding(sheet, "listed-part-without-place", place)) continue;
                EXPECT_EQ(stands[place], itemCount(run[i])) << place;
                stands.erase(place);
            }
        }
        stands.erase("tank_return");
        EXPECT_TRUE(stands.empty()) << stands.begin()->first;
    });
}

TEST(ConnectionSheet, KeepsTheOrderInWhichTheWaterMeetsTheRun) {
    onEverySheet([](const Site&, const ConnectionSheet& sheet, const Variant&) {
        int lastSuction = -1, lastDelivery = -1;
        for (std::size_t i : throughLine(sheet)) {
            const std::string& place = sheet.parts[i].place;
            if (place.empty() || sheet.parts[i].row().adapterCost) continue;
            const bool suction = place.starts_with("suction[");
            EXPECT_EQ(suction, i < sheet.pump) << place;
            int& last = suction ? lastSuction : lastDelivery;
            const int index = std::stoi(place.substr(place.find('[') + 1));
            EXPECT_GE(index, last) << place;
            last = index;
        }
    });
}

TEST(ConnectionSheet, ReducesExactlyWhereSizesChange) {
    onEverySheet([](const Site&, const ConnectionSheet& sheet, const Variant&) {
        const auto line = throughLine(sheet);
        std::optional<End> from;
        int reducers = 0;
        for (std::size_t i : line) {
            const PlacedPart& part = sheet.parts[i];
            if (part.row().adapterCost) {
                if (part.row().group == "reducer") {
                    ++reducers;
                    EXPECT_NE(part.size.a, part.size.b) << part.part;
                }
                continue;
            }
            const End& to = part.ends[0];
            if (from && from->kind == EndKind::thread && to.kind == EndKind::thread) {
                EXPECT_EQ(reducers > 0, from->size != to.size) << part.part << " " << part.size.text();
            }
            from = part.ends.at(1);
            reducers = 0;
        }
    });
}

TEST(ConnectionSheet, GivesThePumpItsOwnThreadsAndAWayToComeOut) {
    onEverySheet([](const Site&, const ConnectionSheet& sheet, const Variant& variant) {
        EXPECT_EQ(sheet.parts[sheet.pump].ends[0].size, "1-1/2");
        const auto opens = [&](std::size_t i) {
            const PlacedPart& part = sheet.parts[i];
            const std::string& group = part.row().group;
            return group == "union" || group == "coupler" || group == "flexible" || group == "nut-adaptor" ||
                   part.part == "hose_tail_nut";
        };
        bool inlet = false, outlet = false;
        for (std::size_t i : throughLine(sheet)) {
            if (i < sheet.pump) inlet = inlet || opens(i);
            if (i > sheet.pump && sheet.parts[i].line == SheetLine::outlet) outlet = outlet || opens(i);
        }
        EXPECT_TRUE(inlet || sheet.submersible);
        EXPECT_TRUE(outlet) << variant.outlet;
    });
}

// The tapping order asked of a plant with return: pump, gauge, return tee, check valve, isolating valve.
TEST(ConnectionSheet, PutsGaugeAndReturnBetweenPumpAndCheckValve) {
    onEverySheet([](const Site& site, const ConnectionSheet& sheet, const Variant&) {
        const auto line = throughLine(sheet);
        const auto positionOf = [&](const auto& wanted) {
            for (std::size_t i : line) {
                if (i > sheet.pump && wanted(sheet.parts[i])) return i;
            }
            return sheet.parts.size();
        };
        const std::size_t gauge =
            positionOf([](const PlacedPart& p) { return p.purpose == "tee-for-gauge-outlet"; });
        const std::size_t check =
            positionOf([](const PlacedPart& p) { return p.row().group == "check-valve"; });
        const std::size_t valve =
            positionOf([](const PlacedPart& p) { return p.row().group == "isolating-valve"; });
        ASSERT_LT(check, sheet.parts.size());
        // Down the well nobody reads a gauge: there it is the isolating valve that may shut.
        const std::size_t split = sheet.parts[check].hangs ? valve : check;
        EXPECT_LT(gauge, split);
        EXPECT_LT(check, valve);
        EXPECT_LT(valve, sheet.parts.size());
        const auto returns = withPurpose(sheet, "tee-for-tank-return");
        ASSERT_EQ(returns.size(), site.tankReturn ? 1u : 0u);
        for (std::size_t tee : returns)
            EXPECT_LT(tee, split);
        EXPECT_EQ(withPurpose(sheet, "return-valve").size(), returns.size());
    });
}

TEST(ConnectionSheet, GaugesInletOutletAndBothSidesOfTheFilter) {
    onEverySheet([](const Site&, const ConnectionSheet& sheet, const Variant&) {
        EXPECT_EQ(withPurpose(sheet, "gauge-inlet").size(), sheet.submersible ? 0u : 1u);
        EXPECT_EQ(withPurpose(sheet, "gauge-outlet").size(), 1u);
        std::size_t filters = 0;
        for (std::size_t i : throughLine(sheet)) {
            if (sheet.parts[i].row().group != "filter") continue;
            ++filters;
            const auto before = withPurpose(sheet, "tee-for-gauge-before-filter");
            const auto after = withPurpose(sheet, "tee-for-gauge-after-filter");
            ASSERT_EQ(before.size(), 1u);
            ASSERT_EQ(after.size(), 1u);
            EXPECT_LT(before[0], i);
            EXPECT_GT(after[0], i);
        }
        EXPECT_EQ(withPurpose(sheet, "gauge-after-filter").size(), filters);
    });
}

TEST(ConnectionSheet, GivesALiftItsFillingPlugAndKeepsTheVentBehindTheCheckValve) {
    onEverySheet([](const Site&, const ConnectionSheet& sheet, const Variant&) {
        EXPECT_EQ(withPurpose(sheet, "filling-plug").size(), sheet.lift ? 1u : 0u);
        ASSERT_EQ(withPurpose(sheet, "air-vent").size(), 1u);
        std::size_t check = sheet.pump;
        while (sheet.parts[check].row().group != "check-valve")
            ++check;
        const std::size_t vent = withPurpose(sheet, "tee-for-air-vent")[0];
        EXPECT_EQ(vent > check, sheet.lift || sheet.submersible);
        EXPECT_EQ(withPurpose(sheet, "drain").size(), 1u);
    });
}

TEST(ConnectionSheet, HoldsPressureWithSwitchVesselAndGauge) {
    const Variant held = outletVariants()[2], speed = outletVariants()[3], zones = outletVariants()[0];
    const Site tank = sitesOfEveryKind()[0].site;
    const ConnectionSheet sheet = sheetOf(withVariant(tank, held), held);
    for (const char* purpose : {"pressure-switch", "vessel", "gauge-held", "start-relay-pressure"})
        EXPECT_EQ(withPurpose(sheet, purpose).size(), 1u) << purpose;
    const ConnectionSheet driven = sheetOf(withVariant(tank, speed), speed);
    for (const char* purpose : {"pressure-sensor", "vessel", "variable-speed-drive"})
        EXPECT_EQ(withPurpose(driven, purpose).size(), 1u) << purpose;
    EXPECT_TRUE(withPurpose(driven, "pressure-switch").empty());
    const ConnectionSheet plain = sheetOf(withVariant(tank, zones), zones);
    EXPECT_TRUE(withPurpose(plain, "vessel").empty());
    EXPECT_EQ(withPurpose(plain, "start-relay-zones").size(), 1u);
}

// A switch that sticks, a drive that fails: common practice, no source.
TEST(ConnectionSheet, GivesWhatIsHeldByPressureAReliefValveWithNoValveBeforeIt) {
    const Site tank = sitesOfEveryKind()[0].site;
    for (const std::size_t i : {2u, 3u}) {
        const Variant held = outletVariants()[i];
        const ConnectionSheet sheet = sheetOf(withVariant(tank, held), held);
        ASSERT_EQ(withPurpose(sheet, "relief-valve").size(), 1u);
        const std::size_t tee = withPurpose(sheet, "tee-for-relief-valve").at(0);
        EXPECT_GT(tee, withPurpose(sheet, "check-valve").at(0));
        EXPECT_LT(tee, withPurpose(sheet, "isolating-valve").back());
        EXPECT_EQ(sheet.parts[withPurpose(sheet, "vessel-valve").at(0)].part, "vessel_valve_drain");
    }
    const Variant zones = outletVariants()[0];
    EXPECT_TRUE(withPurpose(sheetOf(withVariant(tank, zones), zones), "relief-valve").empty());
}

TEST(ConnectionSheet, StandsWhatMustBeReachedBehindTheRiserOfAPumpInTheWater) {
    const Site site = siteOf("well_deep", {}, deliveryWithRiser(), 5.0);
    for (const std::size_t i : {0u, 2u}) {
        const Variant variant = outletVariants()[i];
        const ConnectionSheet sheet = sheetOf(withVariant(site, variant), variant);
        std::size_t riser = sheet.pump;
        while (!sheet.parts[riser].length)
            ++riser;
        EXPECT_EQ(sheet.parts[riser].place, "delivery[1]");
        for (std::size_t k = sheet.pump + 1; k < sheet.parts.size(); ++k)
            EXPECT_EQ(sheet.parts[k].hangs, k <= riser) << sheet.parts[k].part;
        EXPECT_LT(withPurpose(sheet, "check-valve").at(0), riser);
        for (const char* purpose : {"union", "gauge-outlet", "isolating-valve", "air-vent", "drain",
                                    "gauge-before-filter", "gauge-after-filter"}) {
            ASSERT_EQ(withPurpose(sheet, purpose).size(), 1u) << purpose;
            EXPECT_GT(withPurpose(sheet, purpose)[0], riser) << purpose;
        }
        for (const char* purpose : {"tank-return", "vessel", "relief-valve"}) {
            for (const std::size_t part : withPurpose(sheet, std::string("tee-for-") + purpose)) {
                EXPECT_GT(part, riser) << purpose;
                EXPECT_LT(part, withPurpose(sheet, "isolating-valve")[0]) << purpose;
            }
        }
    }
}

// A filter in a shed down the line, behind 15 m of pipe.
TEST(ConnectionSheet, GivesAFilterItsGaugesWhereverItStands) {
    headmark::Run far = fullDelivery();
    far.erase(far.begin() + 3);
    far.insert(far.begin() + 5, filter("disc_2"));
    const ConnectionSheet sheet = sheetOf(siteOf("raised_tank", {}, far));
    for (const char* purpose : {"gauge-before-filter", "gauge-after-filter"})
        EXPECT_EQ(withPurpose(sheet, purpose).size(), 1u) << purpose;
}

// By hand: 12 bar at the pump are 12 - 36 * 0.0981 = 8.5 bar 36 m higher.
TEST(ConnectionSheet, ChoosesPartsThatBearThePressureWhereTheyStand) {
    const Site site = siteOf("well_deep", {}, deliveryWithRiser(), 5.0);
    SheetInput input;
    input.site = &site;
    input.inletThread = input.outletThread = "G 2";
    input.greatestPressure = GaugePressure::fromBars(12.0);
    const ConnectionSheet sheet = *connectionSheet(input);
    for (const PlacedPart& part : sheet.parts) {
        // Compression adaptors are listed in one rating only.
        const bool only = part.row().group == "pe-adaptor";
        if (part.line != SheetLine::outlet || part.origin == PartOrigin::run || !part.row().rating || only)
            continue;
        EXPECT_GE(part.row().rating->inBars(), part.hangs ? 12.0 : 8.5) << part.part;
    }
    // Where it is not asked for, plastic is taken as in any shed.
    input.greatestPressure = GaugePressure::fromBars(4.0);
    const ConnectionSheet mild = *connectionSheet(input);
    EXPECT_GT(withPart(mild, "hex_nipple_plastic").size(), withPart(sheet, "hex_nipple_plastic").size());
}

// The valve at the inlet holds the main as well.
TEST(ConnectionSheet, NeedsOneCheckValveForAFloodedPump) {
    const headmark::Run tank{fitting("tank_connector", "2"), fitting("ball_valve_full_bore", "2"),
                             fitting("check_swing", "2"), pipe("suction_hose_51", 2), fitting("union", "2")};
    headmark::Run open = fullDelivery();
    open.erase(open.begin() + 1);
    const ConnectionSheet atInlet = sheetOf(siteOf("raised_tank", tank, open));
    EXPECT_FALSE(hasFinding(atInlet, "no-check-valve"));
    EXPECT_TRUE(withPurpose(atInlet, "check-valve").size() == 1);
    EXPECT_LT(withPurpose(atInlet, "check-valve")[0], atInlet.pump);
    headmark::Run none = tank;
    none.erase(none.begin() + 2);
    EXPECT_TRUE(hasFinding(sheetOf(siteOf("raised_tank", none, open)), "no-check-valve"));
}

// Where the pump lifts, the open end of the return would let air in.
TEST(ConnectionSheet, KeepsAirOutOfTheReturnOfALift) {
    const Variant variant = outletVariants()[0];
    for (const NamedSite& named : sitesOfEveryKind()) {
        const ConnectionSheet sheet = sheetOf(withVariant(named.site, variant), variant);
        EXPECT_EQ(withPurpose(sheet, "return-check").size(), sheet.lift ? 1u : 0u) << named.name;
    }
}

// Every device that may stop the pump, at every source: on the sheet exactly once.
TEST(ConnectionSheet, PlacesTheDryRunDeviceThatTheJobNames) {
    const std::pair<const char*, const char*> devices[] = {{"float", "level_switch_float"},
                                                           {"electrode", "level_electrodes"},
                                                           {"under-current", "under_current_relay"},
                                                           {"flow-switch", "flow_switch"},
                                                           {"pressure-switch", "pressure_switch_low"}};
    for (const NamedSite& named : sitesOfEveryKind()) {
        // A tank to be filled has a level switch of its own.
        if (!named.site.source || named.site.source->kind.empty() || named.site.end) continue;
        for (const auto& [device, part] : devices) {
            Site site = named.site;
            site.source->dryRunDevice = device;
            const ConnectionSheet sheet = sheetOf(site);
            // A pump in the water has no inlet line for a switch to stand in.
            if (sheet.submersible && std::string(device) == "pressure-switch") continue;
            for (const auto& [other, its] : devices)
                EXPECT_EQ(withPart(sheet, its).size(), device == other ? 1u : 0u)
                    << named.name << ' ' << device << ' ' << its;
        }
    }
}

TEST(ConnectionSheet, HangsAPumpInTheWaterOnARopeNotOnItsCable) {
    onEverySheet([](const Site&, const ConnectionSheet& sheet, const Variant&) {
        for (const char* purpose : {"lifting-rope", "submersible-cable"})
            EXPECT_EQ(withPurpose(sheet, purpose).size(), sheet.submersible ? 1u : 0u) << purpose;
    });
}

TEST(ConnectionSheet, CouplesATemporarySetByHand) {
    const Variant temporary = outletVariants()[4];
    const ConnectionSheet sheet = sheetOf(sitesOfEveryKind()[0].site, temporary);
    EXPECT_EQ(withPurpose(sheet, "coupler-outlet").size(), 1u);
}

TEST(ConnectionSheet, ChoosesMaterialsByExposure) {
    const Site site = sitesOfEveryKind()[0].site;
    Variant open;
    open.choices.exposure = Exposure::open;
    const ConnectionSheet plastic = sheetOf(site), galvanised = sheetOf(site, open);
    EXPECT_FALSE(withPart(plastic, "hex_nipple_plastic").empty());
    EXPECT_TRUE(withPart(plastic, "hex_nipple_galv").empty());
    EXPECT_FALSE(withPart(galvanised, "hex_nipple_galv").empty());
    EXPECT_TRUE(withPart(galvanised, "hex_nipple_plastic").empty());
}

// water_sources.csv, column dry_run_protection.
TEST(ConnectionSheet, NamesTheDryRunDeviceOfTheSource) {
    const auto deviceOf = [](const char* kind) {
        Site site = siteOf(kind, {}, fullDelivery(), -2.0);
        site.source->dryRunDevice.clear();
        const ConnectionSheet sheet = sheetOf(site);
        const auto found = withPurpose(sheet, "dry-run");
        return found.empty() ? std::string() : sheet.parts[found[0]].part;
    };
    EXPECT_EQ(deviceOf("buried_tank"), "level_switch_float");
    EXPECT_EQ(deviceOf("well_shallow"), "level_electrodes");
    EXPECT_EQ(deviceOf("well_deep"), "level_electrodes");
    const ConnectionSheet channel = sheetOf(siteOf("open_channel", {}, fullDelivery(), -2.0));
    EXPECT_EQ(withPurpose(channel, "flow-switch").size(), 1u);
    const ConnectionSheet mains = sheetOf(siteOf("mains_direct_boost", {}, fullDelivery()));
    EXPECT_EQ(withPurpose(mains, "pressure-switch-low").size(), 1u);
}

// What the sheet adds with a loss of its own must come back as an item of the run, and the sheet of that run
// is the same sheet.
TEST(ConnectionSheet, LetsTheLossModelFollowTheSheet) {
    onEverySheet([](const Site& site, const ConnectionSheet& sheet, const Variant& variant) {
        const Site counted = withSheetLosses(site, sheet);
        EXPECT_EQ(counted.suction.size() + counted.delivery.size(),
                  site.suction.size() + site.delivery.size() + sheet.uncounted.size());
        const ConnectionSheet again = sheetOf(counted, variant);
        if (sheet.submersible || !site.source || site.suction.empty() || site.delivery.empty()) return;
        EXPECT_TRUE(again.uncounted.empty()) << again.parts[again.uncounted[0].part].part;
        ASSERT_EQ(again.parts.size(), sheet.parts.size());
        for (std::size_t i = 0; i < sheet.parts.size(); ++i)
            EXPECT_EQ(again.parts[i].part + again.parts[i].size.text(),
                      sheet.parts[i].part + sheet.parts[i].size.text());
    });
}

// The items it hands over must be ones that the loss model can compute, and none without a bore.
TEST(ConnectionSheet, HandsOverOnlyItemsThatTheLossModelKnows) {
    const ElementContext water{Density::fromKilogramsPerCubicMetre(999.0),
                               KinematicViscosity::fromSquareMetresPerSecond(1.14e-6)};
    onEverySheet([&](const Site& site, const ConnectionSheet& sheet, const Variant&) {
        const Site counted = withSheetLosses(site, sheet);
        for (const headmark::Run* run : {&counted.suction, &counted.delivery}) {
            const auto elements = elementsOf(*run, water, std::nullopt, std::nullopt);
            EXPECT_TRUE(elements.ok()) << elements.error().code << " at " << elements.error().place;
        }
    });
}

TEST(ConnectionSheet, RefusesThreadsAndPartsItDoesNotKnow) {
    const Site site = sitesOfEveryKind()[0].site;
    SheetInput input;
    input.site = &site;
    input.inletThread = "one and a half";
    const auto wrong = connectionSheet(input);
    ASSERT_FALSE(wrong.ok());
    EXPECT_EQ(wrong.error().code, "thread-unreadable");
    EXPECT_EQ(wrong.error().place, "inlet_thread");
    input.inletThread = "G 1";
    input.choices.parts["outlet.check-valve"] = "no_such_part";
    EXPECT_EQ(connectionSheet(input).error().code, "unknown-part");
}

TEST(ConnectionSheet, StandsInForWhatNoListedAdaptorReaches) {
    PipeItem spelled;
    spelled.kind.bore = Length::fromMillimetres(44.0);
    spelled.length = Length::fromMetres(30.0);
    const ConnectionSheet sheet = sheetOf(siteOf("raised_tank", {pipe("suction_hose_38", 2)}, {spelled}));
    EXPECT_EQ(withPart(sheet, "adaptor_to_suit").size(), 1u);
    EXPECT_TRUE(hasFinding(sheet, "no-listed-adaptor", "delivery[0]"));
}

} // namespace
} // namespace headmark
