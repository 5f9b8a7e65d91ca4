#include "analysis/irrigation/emitter_catalogue.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <iterator>
#include <set>

namespace headmark::embedded {
std::string_view emitters_csv();
}

namespace headmark {
namespace {

TEST(EmitterCatalogue, IsEmbeddedLetterByLetter) {
    std::ifstream file(std::string(HEADMARK_TESTS_DIR) + "/../analysis/irrigation/data/emitters.csv",
                       std::ios::binary);
    EXPECT_EQ(embedded::emitters_csv(), std::string(std::istreambuf_iterator<char>(file), {}));
}

// Counted in the table by hand.
TEST(EmitterCatalogue, LoadsEveryRowUnderItsOwnCode) {
    EXPECT_EQ(emitterRows().size(), 46U);
    std::set<std::string> codes;
    for (const EmitterRow& row : emitterRows()) {
        EXPECT_TRUE(codes.insert(row.code).second) << row.code;
        EXPECT_EQ(findEmitterType(row.code), &row);
        EXPECT_FALSE(row.name.empty()) << row.code;
        EXPECT_FALSE(row.source.empty()) << row.code;
        EXPECT_GT(row.law.nominal, Flow{}) << row.code;
        EXPECT_GT(row.law.at, Pressure{}) << row.code;
        EXPECT_GT(row.law.exponent, 0.0) << row.code;
        EXPECT_LT(row.least, row.greatest) << row.code;
        EXPECT_GT(row.filtration_micron, 0.0) << row.code;
    }
    EXPECT_EQ(findEmitterType("drip"), nullptr);
}

// By hand: 10 m of water is 98.0665 kPa; the row's figures as they stand in the table.
TEST(EmitterCatalogue, ReadsAPowerLaw) {
    const EmitterRow* row = findEmitterType("dripline_npc_1_6");
    ASSERT_NE(row, nullptr);
    EXPECT_FALSE(row->law.compensating());
    EXPECT_DOUBLE_EQ(row->law.nominal.inLitresPerHour(), 1.6);
    EXPECT_DOUBLE_EQ(row->law.at.inKilopascals(), 98.0665);
    EXPECT_EQ(row->law.exponent, 0.48);
    EXPECT_DOUBLE_EQ(row->least.inKilopascals(), 50.0);
    EXPECT_DOUBLE_EQ(row->greatest.inKilopascals(), 200.0);
    EXPECT_EQ(row->filtration_micron, 130.0);
    EXPECT_FALSE(row->perMetre);
}

TEST(EmitterCatalogue, ReadsACompensatingLaw) {
    const EmitterRow* row = findEmitterType("dripline_pc_2_3");
    ASSERT_NE(row, nullptr);
    ASSERT_TRUE(row->law.compensating());
    EXPECT_DOUBLE_EQ(row->law.nominal.inLitresPerHour(), 2.3);
    EXPECT_DOUBLE_EQ(row->law.regulatedFrom->inKilopascals(), 70.0);
    EXPECT_DOUBLE_EQ(row->law.regulatedTo->inKilopascals(), 350.0);
    EXPECT_EQ(row->law.exponent, 0.5);
}

TEST(EmitterCatalogue, KnowsWhatIsRatedPerMetre) {
    for (const EmitterRow& row : emitterRows()) {
        EXPECT_EQ(row.perMetre, row.code == "seep_hose" || row.code == "sprayline_hose") << row.code;
    }
}

// Orifice of Cd 0.90, 1.0 mm: q = 0.9 * 7.85398e-7 * sqrt(2 * 9.80665 * 15) = 43.65 l/h at 15 m of water, by
// hand.
TEST(EmitterCatalogue, NozzleRowsFollowTheOrificeEquation) {
    EXPECT_NEAR(findEmitterType("microsprinkler_1_0")->law.nominal.inLitresPerHour(), 43.65, 0.1);
}

TEST(Outlets, AreTheCountWhereOneIsGiven) {
    Emitters emitters;
    emitters.count = 1200;
    EXPECT_EQ(emitters.outlets(), 1200.0);
}

TEST(Outlets, AreWholeSpacingsInTheLength) {
    Emitters emitters;
    emitters.type = "dripline_pc_2_3";
    emitters.metres = Length::fromMetres(30.0);
    emitters.spacing = Length::fromMetres(0.3); // 30/0.3 is 100, however it rounds
    EXPECT_EQ(emitters.outlets(), 100.0);
    emitters.spacing = Length::fromMetres(0.7); // 42.86
    EXPECT_EQ(emitters.outlets(), 42.0);
    for (int n = 1; n < 500; ++n) {
        emitters.spacing = Length::fromMetres(0.1);
        emitters.metres = Length::fromMetres(n / 10.0);
        EXPECT_EQ(emitters.outlets(), n);
    }
}

TEST(Outlets, AreMetresForHoseRatedByTheMetre) {
    Emitters emitters;
    emitters.type = "seep_hose";
    emitters.metres = Length::fromMetres(42.5);
    EXPECT_EQ(emitters.outlets(), 42.5);
    emitters.spacing = Length::fromMetres(0.5); // says nothing for such hose
    EXPECT_EQ(emitters.outlets(), 42.5);
}

TEST(Outlets, AreOneForAWholeZone) {
    Emitters emitters;
    emitters.whole = true;
    emitters.count = 7;
    EXPECT_EQ(emitters.outlets(), 1.0);
}

} // namespace
} // namespace headmark
