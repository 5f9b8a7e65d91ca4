#include "analysis/connections/bill.h"

#include "sheet_sites.h"

#include "analysis/connections/schematic.h"

#include <map>
#include <set>

namespace headmark {
namespace {

using namespace testing;

const BillRow* rowOf(const std::vector<BillRow>& rows, const std::string& part,
                     const std::string& size = "") {
    for (const BillRow& row : rows) {
        if (row.part == part && (size.empty() || row.size.a == size)) return &row;
    }
    return nullptr;
}

TEST(Bill, CountsEveryPartOfTheSheetOnce) {
    for (const NamedSite& named : sitesOfEveryKind()) {
        for (const Variant& variant : outletVariants()) {
            SCOPED_TRACE(named.name + ", " + variant.name);
            const ConnectionSheet sheet = sheetOf(withVariant(named.site, variant), variant);
            std::set<std::size_t> seen;
            for (const BillRow& row : billOf(sheet)) {
                int count = 0;
                for (std::size_t number : row.numbers) {
                    EXPECT_TRUE(seen.insert(number).second);
                    EXPECT_EQ(sheet.parts[number].part, row.part);
                    count += sheet.parts[number].count;
                }
                EXPECT_TRUE(row.numbers.empty() || count == row.count) << row.part;
            }
            EXPECT_EQ(seen.size(), sheet.parts.size());
        }
    }
}

// What is drawn is what is ordered, but for what seals and for the main beyond the sheet.
TEST(Bill, CountsWhatTheDrawingShows) {
    const Variant variant = outletVariants()[0];
    const ConnectionSheet sheet = sheetOf(withVariant(sitesOfEveryKind()[4].site, variant), variant);
    std::map<std::string, int> drawn, billed;
    for (const SchematicSymbol& symbol : schematicOf(sheet).symbols)
        ++drawn[sheet.parts[symbol.part].part + " " + sheet.parts[symbol.part].size.text()];
    for (const BillRow& row : billOf(sheet)) {
        if (!row.main && !row.numbers.empty()) billed[row.part + " " + row.size.text()] += row.count;
    }
    EXPECT_EQ(drawn, billed);
}

// By hand: valve 2 in - nipple - union 2 in - nipple - tee: the tape is 8 turns of pi x 59.614 mm a joint.
TEST(Bill, MeasuresTapeByTurnsAndDiameter) {
    Site site = siteOf("raised_tank", {pipe("galv_medium_dn50", 1.0)}, {pipe("galv_medium_dn50", 20.0)});
    Variant variant;
    variant.inlet = variant.outlet = "G 2";
    variant.choices.exposure = Exposure::open;
    const ConnectionSheet sheet = sheetOf(site, variant);
    double expected_m = 0.0;
    for (const PlacedJoint& joint : sheet.joints) {
        const End& end = sheet.parts[joint.before].ends[joint.endBefore];
        if (joint.verdict.seal != "tape") continue;
        // Major diameters of ISO 228-1.
        const double d = end.size == "2" ? 0.059614 : end.size == "1/2" ? 0.020955 : 0.013157;
        expected_m += 8.0 * 3.14159265 * d;
    }
    const std::vector<BillRow> rows = billOf(sheet);
    const BillRow* tape = rowOf(rows, "tape_ptfe");
    ASSERT_NE(tape, nullptr);
    EXPECT_NEAR(tape->length->inMetres(), expected_m, 1e-6);
    EXPECT_GT(expected_m, 10.0);
}

TEST(Bill, ListsClampsWashersAndMetresOfHose) {
    headmark::Run suction{fitting("foot_valve_poppet_strainer", "2"), pipe("suction_hose_51", 6),
                          fitting("union", "2")};
    Variant variant;
    variant.choices.exposure = Exposure::open;
    const std::vector<BillRow> rows =
        billOf(sheetOf(siteOf("well_shallow", suction, fullDelivery(), -3.0), variant));
    ASSERT_NE(rowOf(rows, "clamp_heavy_band", "51"), nullptr);
    EXPECT_EQ(rowOf(rows, "clamp_heavy_band", "51")->count, 2); // both ends of the one hose
    EXPECT_EQ(rowOf(rows, "face_washer", "2")->count, 1);       // flat seat of the union
    EXPECT_EQ(rowOf(rows, "face_washer", "1-1/2")->count, 1);
    EXPECT_NEAR(rowOf(rows, "hose")->length->inMetres(), 6.0, 1e-9);
    EXPECT_EQ(rowOf(rows, "clamp_worm_drive"), nullptr);
}

TEST(Bill, OrdersCementForSolventJointsOnly) {
    EXPECT_NE(rowOf(billOf(sheetOf(siteOf("raised_tank", {pipe("pvcu_pn10_50", 3)}, fullDelivery()))),
                    "solvent_cement"),
              nullptr);
    EXPECT_EQ(rowOf(billOf(sheetOf(siteOf("raised_tank", {pipe("suction_hose_38", 3)}, fullDelivery()))),
                    "solvent_cement"),
              nullptr);
}

} // namespace
} // namespace headmark
