#include "analysis/connections/swap.h"

#include "sheet_sites.h"

#include <algorithm>

namespace headmark {
namespace {

using namespace testing;

struct Bench {
    Site site;
    SheetInput input;
    ConnectionSheet sheet;

    explicit Bench(Site made) : site(std::move(made)) {
        input.site = &site;
        input.inletThread = "G 1-1/2";
        input.outletThread = "G 1-1/4";
        sheet = *connectionSheet(input);
    }
    Bench(const Bench&) = delete;

    Result<Swap> swap(std::size_t part, const char* code) const { return replaced(input, sheet, part, code); }
    std::size_t at(const char* place) const {
        for (std::size_t i = 0; i < sheet.parts.size(); ++i) {
            if (sheet.parts[i].place == place) return i;
        }
        ADD_FAILURE() << place;
        return 0;
    }
};

Site lift() {
    return siteOf(
        "well_shallow",
        {fitting("foot_valve_poppet_strainer", "2"), pipe("suction_hose_51", 6), fitting("union", "2")},
        fullDelivery(), -3.0);
}

TEST(Swap, ChangesTheRunItemWhereTheLossIsAnother) {
    const Bench bench(lift());
    const auto swap = bench.swap(bench.at("delivery[1]"), "check_swing");
    ASSERT_TRUE(swap.ok());
    ASSERT_TRUE(swap->item.has_value());
    EXPECT_FALSE(swap->item->suction);
    EXPECT_EQ(swap->item->index, 1u);
    const auto& fittingItem = std::get<FittingItem>(swap->item->item);
    EXPECT_EQ(fittingItem.code, "check_swing");
    EXPECT_EQ(fittingItem.size, "1-1/2");
    EXPECT_EQ(withPart(swap->sheet, "check_swing").size(), 1u);
}

TEST(Swap, ChangesOnlyAChoiceWhereTheLossStays) {
    const Bench bench(lift());
    const auto swap = bench.swap(bench.at("delivery[0]"), "union_conical_galv");
    ASSERT_TRUE(swap.ok());
    EXPECT_FALSE(swap->item.has_value());
    EXPECT_EQ(swap->choices.parts.at("delivery[0]"), "union_conical_galv");
    EXPECT_EQ(withPart(swap->sheet, "union_conical_galv").size(), 1u);
}

TEST(Swap, PutsAnotherAdapterWhereItLeadsToo) {
    const Bench bench(lift());
    const std::size_t adaptor = withPart(bench.sheet, "pe_adaptor_male").at(0);
    const auto swap = bench.swap(adaptor, "pe_adaptor_female");
    ASSERT_TRUE(swap.ok());
    EXPECT_FALSE(withPart(swap->sheet, "pe_adaptor_female").empty());
    for (const PlacedJoint& joint : swap->sheet.joints)
        EXPECT_TRUE(joint.verdict.right) << joint.verdict.code;
}

TEST(Swap, RefusesWithTheReason) {
    const Bench bench(lift());
    EXPECT_EQ(bench.swap(bench.at("delivery[1]"), "no_such_part").error().code, "unknown-part");
    EXPECT_EQ(bench.swap(bench.at("delivery[1]"), "ball_valve_full_bore").error().code,
              "swap-of-another-kind");
    EXPECT_EQ(bench.swap(bench.sheet.pump, "check_swing").error().code, "nothing-to-swap");
    const Bench tank(siteOf("raised_tank", {fitting("ball_valve_full_bore", "2"), pipe("suction_hose_51", 2)},
                            fullDelivery()));
    EXPECT_EQ(tank.swap(tank.at("suction[0]"), "ball_valve_reduced_bore").error().code,
              "part-not-on-suction");
    EXPECT_TRUE(tank.swap(tank.at("suction[0]"), "gate_valve").ok());
    headmark::Run large = fullDelivery();
    large[2] = fitting("ball_valve_full_bore", "1-1/4");
    const Bench small(siteOf("raised_tank", {}, large));
    const auto refused = small.swap(small.at("delivery[2]"), "butterfly_valve"); // listed from 2 in
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, "part-not-in-size");
    EXPECT_EQ(refused.error().place, "delivery[2]");
}

TEST(Swap, OffersOnlyPartsThatThenStandThere) {
    const Bench bench(lift());
    const std::size_t check = bench.at("delivery[1]");
    const std::vector<std::string> codes = alternativesTo(bench.input, bench.sheet, check);
    EXPECT_NE(std::find(codes.begin(), codes.end(), "check_swing"), codes.end());
    EXPECT_EQ(std::find(codes.begin(), codes.end(), "check_spring"), codes.end()); // stands there already
    for (const std::string& code : codes)
        EXPECT_TRUE(bench.swap(check, code.c_str()).ok()) << code;
    EXPECT_TRUE(alternativesTo(bench.input, bench.sheet, bench.sheet.pump).empty());
}

TEST(Swap, PassesOverChoicesThatNoLongerFit) {
    Bench bench(lift());
    bench.input.choices.parts = {{"delivery[1]", "union_plastic"}, {"outlet.drain", "check_swing"}};
    const auto sheet = connectionSheet(bench.input);
    ASSERT_TRUE(sheet.ok());
    EXPECT_EQ(withPart(*sheet, "check_spring").size(), 1u);
    EXPECT_EQ(withPart(*sheet, "drain_cock").size(), 1u);
}

TEST(Swap, KeepsASpelledOutLossFromOverrulingTheNewPart) {
    Site site = lift();
    std::get<FittingItem>(site.delivery[1]).k = 7.0;
    const Bench bench(site);
    const auto swap = bench.swap(bench.at("delivery[1]"), "check_swing");
    ASSERT_TRUE(swap.ok());
    EXPECT_FALSE(std::get<FittingItem>(swap->item->item).k.has_value());
}

} // namespace
} // namespace headmark
