#include "analysis/connections/bridge.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

End endOf(const char* part, const char* a, const char* b, std::size_t index) {
    const PartRow* row = findPart(part);
    return endsOf(*row, *findSize(*row, a, b)).at(index);
}

std::vector<std::string> codesOf(const Bridge& bridge) {
    std::vector<std::string> codes;
    for (const Adapter& adapter : bridge.adapters)
        codes.push_back(adapter.part->code);
    return codes;
}

End sized(EndKind kind, double diameter_mm) {
    End end;
    end.kind = kind;
    end.diameter_mm = diameter_mm;
    return end;
}

const End kValve2 = endOf("ball_valve_full_bore", "2", "", 1);
const End kValve1 = endOf("ball_valve_full_bore", "1", "", 0);

BridgeUse galvanised() {
    BridgeUse use;
    use.exposure = Exposure::open;
    return use;
}

using Codes = std::vector<std::string>;

TEST(Bridge, PutsNothingBetweenEndsThatJoin) {
    EXPECT_TRUE(bridgeBetween(kValve2, endOf("filter_disc", "2", "", 0), {}).adapters.empty());
}

TEST(Bridge, JoinsTwoFemalesByANippleAndTwoMalesByASocket) {
    EXPECT_EQ(codesOf(bridgeBetween(kValve2, kValve2, galvanised())), Codes{"hex_nipple_galv"});
    EXPECT_EQ(codesOf(bridgeBetween(kValve2, kValve2, {})), Codes{"hex_nipple_plastic"});
    const End male = endOf("filter_disc", "2", "", 1);
    EXPECT_EQ(codesOf(bridgeBetween(male, male, galvanised())), Codes{"socket_galv"});
}

TEST(Bridge, ReducesInOnePartWhereOneExists) {
    EXPECT_EQ(codesOf(bridgeBetween(kValve2, kValve1, galvanised())), Codes{"reducing_nipple_galv"});
}

TEST(Bridge, LeadsFromHoseAndPipesToThreads) {
    EXPECT_EQ(codesOf(bridgeBetween(sized(EndKind::hose, 51), kValve2, galvanised())),
              Codes{"hose_tail_male_brass"});
    EXPECT_EQ(codesOf(bridgeBetween(kValve2, sized(EndKind::pePipe, 63), {})), Codes{"pe_adaptor_male"});
    EXPECT_EQ(codesOf(bridgeBetween(sized(EndKind::pvcPipe, 63), kValve2, {})), Codes{"pvc_adaptor_male"});
    EXPECT_EQ(codesOf(bridgeBetween(sized(EndKind::tube, 28), kValve1, {})), Codes{"copper_adaptor_male"});
    EXPECT_EQ(codesOf(bridgeBetween(sized(EndKind::pePipe, 63), sized(EndKind::pePipe, 50), {})),
              Codes{"pe_reducing_coupling"});
}

TEST(Bridge, MakesEveryJointOnTheWayRight) {
    const End pipe = sized(EndKind::pePipe, 110), hose = sized(EndKind::hose, 25);
    const Bridge bridge = bridgeBetween(pipe, hose, {});
    ASSERT_TRUE(bridge.found);
    End from = pipe;
    for (const Adapter& adapter : bridge.adapters) {
        EXPECT_TRUE(joins(from, adapter.in)) << adapter.part->code;
        from = adapter.out;
    }
    EXPECT_TRUE(joins(from, hose));
}

TEST(Bridge, NeverPutsAMetalMaleIntoAPlainPlasticFemale) {
    End port = kValve1;
    port.body = Body::plastic;
    const Bridge bridge = bridgeBetween(kValve1, port, galvanised());
    ASSERT_EQ(bridge.adapters.size(), 1u);
    EXPECT_EQ(bridge.adapters.front().part->material, "plastic");
}

TEST(Bridge, MeetsAParallelMalePortWithANutAndWasher) {
    End port;
    port.kind = EndKind::thread;
    port.male = true;
    port.form = ThreadForm::parallelG;
    port.size = "2";
    port.face = Face::flat;
    EXPECT_EQ(codesOf(bridgeBetween(sized(EndKind::hose, 51), port, {})), Codes{"hose_tail_nut"});
    EXPECT_EQ(codesOf(bridgeBetween(kValve2, port, {})), Codes{"nut_adaptor"});
}

TEST(Bridge, SaysWhenNoListedAdaptorLeadsThere) {
    const Bridge bridge = bridgeBetween(sized(EndKind::plain, 44.0), kValve2, {});
    EXPECT_FALSE(bridge.found);
    EXPECT_EQ(codesOf(bridge), Codes{"adaptor_to_suit"});
}

TEST(Bridge, TakesThePreferredAdapter) {
    BridgeUse use;
    use.preferred["pe-adaptor"] = "pe_adaptor_female";
    EXPECT_EQ(codesOf(bridgeBetween(endOf("filter_disc", "2", "", 1), sized(EndKind::pePipe, 63), use)),
              Codes{"pe_adaptor_female"});
}

} // namespace
} // namespace headmark
