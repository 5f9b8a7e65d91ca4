#pragma once
// Invented sites for the tests of the connection sheet.

#include "analysis/connections/connection_sheet.h"
#include "analysis/pipework/catalogue.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace headmark::testing {

inline PipeItem pipe(const char* code, double length_m) {
    PipeItem item;
    item.kind = findPipe(code)->kind;
    item.length = Length::fromMetres(length_m);
    return item;
}

inline FittingItem fitting(const char* code, const char* size = "", int count = 1) {
    FittingItem item;
    item.code = code;
    item.size = size;
    item.count = count;
    return item;
}

inline FilterItem filter(const char* code) { return findFilter(code)->item; }

inline Site siteOf(const char* kind, Run suction, Run delivery, double low_m = 1.0) {
    Site site;
    site.source = WaterSource{};
    site.source->kind = kind;
    // A device that suits, and its level, so that only what a test is about is missing.
    const std::string_view source = kind;
    site.source->dryRunDevice = source == "open_channel"                            ? "flow-switch"
                                : source == "mains_direct_boost"                    ? "pressure-switch"
                                : source == "well_deep" || source == "well_shallow" ? "electrode"
                                                                                    : "float";
    site.source->stopLevel = Level::fromMetres(low_m - 0.5);
    site.source->low = site.source->usual = site.source->high = Level::fromMetres(low_m);
    site.suction = std::move(suction);
    site.delivery = std::move(delivery);
    return site;
}

// A complete run of every source kind of water_sources.csv.
struct NamedSite {
    std::string name;
    Site site;
};

inline Run fullDelivery() {
    return {fitting("union", "1-1/2"),
            fitting("check_spring_inline", "1-1/2"),
            fitting("ball_valve_full_bore", "1-1/2"),
            filter("disc_2"),
            fitting("pe_compression_adaptor"),
            pipe("pe100_sdr17_63", 45),
            TakeoffItem{"lower"},
            fitting("pe_compression_elbow_90", "", 2),
            pipe("pe100_sdr17_50", 70),
            TakeoffItem{"upper"}};
}

// Of a pump 36 m down: its check valve and riser first, the head works up at the well.
inline Run deliveryWithRiser() {
    Run run = fullDelivery();
    run.erase(run.begin() + 1);
    PipeItem riser = pipe("pe100_sdr17_63", 36);
    riser.riseTo = Level::fromMetres(36.0);
    run.insert(run.begin(), {fitting("check_spring_inline", "2"), riser});
    return run;
}

inline std::vector<NamedSite> sitesOfEveryKind() {
    const Run tank{fitting("tank_connector", "2"), fitting("ball_valve_full_bore", "2"),
                   pipe("suction_hose_51", 2), fitting("union", "2")};
    const Run lift{fitting("foot_valve_poppet_strainer", "2"), pipe("suction_hose_51", 6),
                   fitting("elbow_90_long", "2"), fitting("union", "2")};
    const Run basket{fitting("suction_strainer_basket", "2"), pipe("pe100_sdr11_63", 6),
                     fitting("check_swing", "2"), fitting("union", "2")};
    std::vector<NamedSite> sites;
    for (const char* kind : {"raised_tank", "mains_break_tank", "rain_butts"})
        sites.push_back({kind, siteOf(kind, tank, fullDelivery())});
    sites.push_back({"tank_drawn_below_pump", siteOf("tank_drawn_below_pump", tank, fullDelivery(), -0.5)});
    for (const char* kind : {"buried_tank", "well_shallow"})
        sites.push_back({kind, siteOf(kind, lift, fullDelivery(), -3.0)});
    sites.push_back({"open_channel", siteOf("open_channel", basket, fullDelivery(), -2.0)});
    sites.push_back({"pond_lake", siteOf("pond_lake",
                                         {fitting("floating_inlet_check"), pipe("suction_hose_51", 9),
                                          fitting("union", "2")},
                                         fullDelivery(), -2.0)});
    sites.push_back(
        {"buried_tank_submersible",
         siteOf("buried_tank_submersible", {fitting("suction_strainer_basket", "2")}, fullDelivery())});
    sites.push_back({"well_deep", siteOf("well_deep", {}, deliveryWithRiser(), 5.0)});
    sites.push_back({"mains_direct_boost",
                     siteOf("mains_direct_boost",
                            {fitting("ball_valve_full_bore", "1-1/4"), fitting("double_check_valve", "1-1/4"),
                             pipe("galv_medium_dn32", 2), fitting("union", "1-1/4")},
                            fullDelivery())});
    sites.push_back({"blank tank", siteOf("raised_tank", {}, {})});
    sites.push_back({"blank well", siteOf("well_shallow", {}, {}, -4.0)});
    sites.push_back({"blank pond", siteOf("pond_lake", {}, {}, -1.0)});
    sites.push_back({"nothing said", Site{}});
    sites.push_back({"tank to be filled", siteOf("raised_tank", tank, fullDelivery())});
    sites.back().site.end = OutletEnd{};
    sites.push_back(
        {"PVC and copper",
         siteOf("raised_tank", {pipe("pvcu_pn10_50", 3), fitting("elbow_90_standard", "1-1/2")},
                {fitting("check_swing", "1"), fitting("water_meter", "25 mm"), pipe("copper_r250_28", 20)})});
    return sites;
}

struct Variant {
    std::string name;
    SheetChoices choices;
    bool tankReturn = false, held = false, speed = false;
    std::string inlet = "G 1-1/2", outlet = "G 1-1/4";
};

inline std::vector<Variant> outletVariants() {
    std::vector<Variant> variants(6);
    variants[0].name = "with zones and return, plastic";
    variants[0].tankReturn = true;
    variants[1].name = "with zones and return, galvanised";
    variants[1].tankReturn = true;
    variants[1].choices.exposure = Exposure::open;
    variants[2].name = "pressure-held without return";
    variants[2].held = true;
    variants[3].name = "variable speed";
    variants[3].speed = true;
    variants[4].name = "temporary";
    variants[4].choices.temporary = true;
    variants[4].inlet = variants[4].outlet = "G 1-1/2 A";
    variants[5].name = "plastic ports";
    variants[5].choices.plasticPumpPorts = true;
    variants[5].choices.exposure = Exposure::open;
    return variants;
}

inline Site withVariant(Site site, const Variant& variant) {
    if (variant.tankReturn) site.tankReturn = TankReturn{pipe("pe100_sdr11_20", 6), {}, {}, {}};
    if (variant.held || variant.speed) site.control = ControlKind::pressureHeld;
    if (variant.held) site.vessel = Vessel{};
    if (variant.speed) site.hold = GaugePressure::fromKilopascals(300.0);
    return site;
}

inline ConnectionSheet sheetOf(const Site& site, const Variant& variant = {}) {
    SheetInput input;
    input.site = &site;
    input.inletThread = variant.inlet;
    input.outletThread = variant.outlet;
    input.choices = variant.choices;
    const auto sheet = connectionSheet(input);
    EXPECT_TRUE(sheet.ok());
    return sheet.ok() ? *sheet : ConnectionSheet{};
}

inline bool hasFinding(const ConnectionSheet& sheet, const std::string& code,
                       const std::string& place = "*") {
    for (const Caution& finding : sheet.findings) {
        if (finding.code == code && (place == "*" || finding.place == place)) return true;
    }
    return false;
}

inline std::vector<std::size_t> withPurpose(const ConnectionSheet& sheet, const std::string& purpose) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < sheet.parts.size(); ++i) {
        if (sheet.parts[i].purpose == purpose) found.push_back(i);
    }
    return found;
}

inline std::vector<std::size_t> withPart(const ConnectionSheet& sheet, const std::string& code) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < sheet.parts.size(); ++i) {
        if (sheet.parts[i].part == code) found.push_back(i);
    }
    return found;
}

} // namespace headmark::testing
