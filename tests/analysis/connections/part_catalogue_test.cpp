#include "analysis/connections/part_catalogue.h"

#include "analysis/connections/symbols.h"
#include "analysis/pipework/catalogue.h"

#include <gtest/gtest.h>

#include <set>

namespace headmark {
namespace {

TEST(PartCatalogue, HasUniqueCodesSourcesAndDrawnSymbols) {
    std::set<std::string> codes;
    for (const PartRow& part : partRows()) {
        EXPECT_TRUE(codes.insert(part.code).second) << part.code;
        EXPECT_FALSE(part.source.empty()) << part.code;
        EXPECT_TRUE(part.confidence == "practice" || part.confidence == "memory" || part.confidence == "seen")
            << part.code;
        EXPECT_TRUE(knownSymbol(part.symbol)) << part.code << ": " << part.symbol;
        EXPECT_TRUE(part.exposure == "any" || part.exposure == "open" || part.exposure == "sheltered");
    }
    EXPECT_GT(codes.size(), 80u);
}

TEST(PartCatalogue, MakesTheEndsOfEveryPartInEverySize) {
    for (const PartRow& part : partRows()) {
        const std::vector<PartSize> sizes = part.sizes.empty() ? std::vector<PartSize>(1) : part.sizes;
        for (const PartSize& size : sizes) {
            for (const End& end : endsOf(part, size)) {
                const bool threaded = end.kind == EndKind::thread || end.kind == EndKind::flange;
                const bool sizeless =
                    end.kind == EndKind::wall || end.kind == EndKind::water || end.kind == EndKind::any;
                EXPECT_TRUE(!threaded || threadSizeIndex(end.size) >= 0) << part.code << " " << size.text();
                EXPECT_TRUE(threaded || sizeless || end.diameter_mm > 5.0) << part.code << " " << size.text();
            }
        }
    }
}

// fittings.csv and this catalogue must not drift apart: a loss without a part could not be built.
TEST(PartCatalogue, HasAPartForEveryFittingThatIsOne) {
    for (const FittingRow& fitting : fittingRows())
        EXPECT_TRUE(isLossOnly(fitting.code) || !partsForFitting(fitting.code).empty()) << fitting.code;
    for (const PartRow& part : partRows()) {
        for (const std::string& code : part.fittings)
            EXPECT_NE(findFitting(code), nullptr) << part.code << " carries " << code;
    }
}

TEST(PartCatalogue, KnowsWhatNeverStandsOnSuction) {
    EXPECT_EQ(findPart("ball_valve_reduced_bore")->suction, SuctionUse::no);
    EXPECT_EQ(findPart("clamp_worm_drive")->suction, SuctionUse::no);
    EXPECT_EQ(findPart("gate_valve")->suction, SuctionUse::floodedOnly);
    EXPECT_EQ(findPart("hose_tail_nut")->suction, SuctionUse::yes);
}

TEST(PartCatalogue, FindsSizesAndGivesNullForOthers) {
    const PartRow* bush = findPart("bush_galv");
    ASSERT_NE(bush, nullptr);
    EXPECT_NE(findSize(*bush, "2", "1-1/2"), nullptr);
    EXPECT_EQ(findSize(*bush, "1-1/2", "2"), nullptr);
    EXPECT_EQ(findPart("no_such_part"), nullptr);
}

} // namespace
} // namespace headmark
