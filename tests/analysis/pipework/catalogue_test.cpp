#include "analysis/pipework/catalogue.h"

#include "analysis/core/csv.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <set>

namespace headmark::embedded {
std::string_view pipes_csv();
std::string_view fittings_csv();
std::string_view filters_csv();
std::string_view ft_turbulent_csv();
std::string_view threads_csv();
std::string_view velocities_and_limits_csv();
std::string_view water_sources_csv();
} // namespace headmark::embedded

namespace headmark {
namespace {

std::string fileText(const std::string& name) {
    std::ifstream file(std::string(HEADMARK_TESTS_DIR) + "/../analysis/pipework/data/" + name,
                       std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

template <class Rows, class Key>
void expectUniqueKeys(const Rows& rows, Key key) {
    std::set<std::string> seen;
    for (const auto& row : rows) {
        const std::string name = key(row);
        EXPECT_FALSE(name.empty());
        EXPECT_TRUE(seen.insert(name).second) << name << " stands twice";
    }
}

TEST(Catalogue, IsEmbeddedLetterByLetter) {
    EXPECT_EQ(embedded::pipes_csv(), fileText("pipes.csv"));
    EXPECT_EQ(embedded::fittings_csv(), fileText("fittings.csv"));
    EXPECT_EQ(embedded::filters_csv(), fileText("filters.csv"));
    EXPECT_EQ(embedded::ft_turbulent_csv(), fileText("ft_turbulent.csv"));
    EXPECT_EQ(embedded::threads_csv(), fileText("threads.csv"));
    EXPECT_EQ(embedded::velocities_and_limits_csv(), fileText("velocities_and_limits.csv"));
    EXPECT_EQ(embedded::water_sources_csv(), fileText("water_sources.csv"));
}

// Counted in the tables by hand.
TEST(Catalogue, LoadsEveryRow) {
    EXPECT_EQ(pipeRows().size(), 115U);
    EXPECT_EQ(threadRows().size(), 15U);
    EXPECT_EQ(fittingRows().size(), 117U);
    EXPECT_EQ(filterRows().size(), 22U);
    EXPECT_EQ(sourceKindRows().size(), 11U);
    EXPECT_EQ(limitRows().size(), 112U);
}

TEST(Catalogue, HasUniqueKeys) {
    expectUniqueKeys(pipeRows(), [](const PipeRow& r) { return r.kind.code; });
    expectUniqueKeys(fittingRows(), [](const FittingRow& r) { return r.code + " " + r.size; });
    expectUniqueKeys(filterRows(), [](const FilterRow& r) { return r.item.code; });
    expectUniqueKeys(threadRows(), [](const ThreadRow& r) { return r.designation; });
    expectUniqueKeys(sourceKindRows(), [](const SourceKindRow& r) { return r.code; });
}

TEST(Catalogue, TellsSourceAndConfidenceOfEveryRow) {
    const auto known = [](const std::string& confidence) {
        return confidence == "seen" || confidence == "memory" || confidence == "practice";
    };
    const auto expectTold = [&](const std::string& code, const std::string& confidence,
                                const std::string& source) {
        EXPECT_TRUE(known(confidence)) << code << ": " << confidence;
        EXPECT_FALSE(source.empty()) << code;
    };
    for (const PipeRow& row : pipeRows()) {
        expectTold(row.kind.code, row.confidence, row.source);
    }
    for (const FittingRow& row : fittingRows()) {
        expectTold(row.code, row.confidence, row.source);
    }
    for (const FilterRow& row : filterRows()) {
        expectTold(row.item.code, row.confidence, row.source);
    }
    for (const LimitRow& row : limitRows()) {
        expectTold(row.code, row.confidence, row.source);
    }
}

TEST(Catalogue, PipeBoresFollowFromDiameterAndWall) {
    const CsvTable table(embedded::pipes_csv());
    for (std::size_t i = 0; i < table.rows(); ++i) {
        const PipeRow& row = pipeRows()[i];
        const double bore_mm = table.number(i, "id_mm");
        EXPECT_NEAR(row.outerDiameter_mm - 2.0 * row.wall_mm, bore_mm, 1e-9) << row.kind.code;
        // The mean bore lies up to 2 % below that of the least wall; tubes given by mean limits lie on it.
        EXPECT_GE(row.kind.bore.inMillimetres(), 0.98 * bore_mm) << row.kind.code;
        EXPECT_LE(row.kind.bore.inMillimetres(), 1.005 * bore_mm) << row.kind.code;
    }
}

TEST(Catalogue, PipesCarryPlausibleFigures) {
    for (const PipeRow& row : pipeRows()) {
        EXPECT_GT(row.kind.rating->inBars(), 2.0) << row.kind.code;
        EXPECT_LT(row.kind.roughness.inMillimetres(), 0.2) << row.kind.code;
        EXPECT_GT(row.kind.roughness.inMillimetres(), 0.001) << row.kind.code;
        EXPECT_GE(*row.kind.hazenWilliamsC, 120.0) << row.kind.code;
        EXPECT_LE(*row.kind.hazenWilliamsC, 150.0) << row.kind.code;
        EXPECT_GT(row.waveSpeed_m_s, 100.0) << row.kind.code;
    }
}

// The row as it stands in pipes.csv.
TEST(Catalogue, ReadsAPipeWithItsUnits) {
    const PipeRow* pipe = findPipe("pe100_sdr17_63");
    ASSERT_NE(pipe, nullptr);
    EXPECT_DOUBLE_EQ(pipe->kind.bore.inMillimetres(), 55.1);
    EXPECT_DOUBLE_EQ(pipe->kind.roughness.inMillimetres(), 0.007);
    EXPECT_DOUBLE_EQ(pipe->kind.rating->inPascals(), 1e6);
    EXPECT_EQ(pipe->kind.hazenWilliamsC, 150.0);
    EXPECT_TRUE(pipe->kind.mayBeSuction);
    EXPECT_EQ(pipe->material, "PE100");
    EXPECT_FALSE(findPipe("layflat_51")->kind.mayBeSuction);
    EXPECT_TRUE(findPipe("suction_hose_51")->kind.mayBeSuction);
    EXPECT_EQ(findPipe("PE100_sdr17_63"), nullptr);
    EXPECT_EQ(findPipe(""), nullptr);
}

// The row as it stands in filters.csv.
TEST(Catalogue, ReadsAFilterWithItsUnits) {
    const FilterRow* filter = findFilter("disc_1_1_2");
    ASSERT_NE(filter, nullptr);
    EXPECT_DOUBLE_EQ(filter->item.loss.inKilopascals(), 12.0);
    EXPECT_DOUBLE_EQ(filter->item.at.inCubicMetresPerHour(), 8.0);
    EXPECT_DOUBLE_EQ(filter->item.exponent, 1.9);
    EXPECT_DOUBLE_EQ(filter->item.service.inKilopascals(), 40.0);
    EXPECT_DOUBLE_EQ(filter->item.greatestFlow->inCubicMetresPerHour(), 12.0);
    EXPECT_EQ(filter->size, "1-1/2");
    EXPECT_EQ(filter->micron, 130.0);
    EXPECT_FALSE(findFilter("suction_strainer_coarse")->item.greatestFlow.has_value());
}

TEST(Catalogue, FiltersTakeLessThanTheirServiceLossAtTheGreatestFlow) {
    for (const FilterRow& row : filterRows()) {
        if (row.item.greatestFlow && row.item.service > Pressure{}) {
            const double share = *row.item.greatestFlow / row.item.at;
            EXPECT_LT(row.item.loss * std::pow(share, row.item.exponent), row.item.service) << row.item.code;
        }
    }
}

TEST(Catalogue, FittingsHaveTheFiguresTheirModelNeeds) {
    for (const FittingRow& row : fittingRows()) {
        switch (row.model) {
        case LossModel::kConstant:
            EXPECT_GT(row.k, 0.0) << row.code;
            break;
        case LossModel::ldMultiple:
            EXPECT_GT(row.ld, 0.0) << row.code;
            break;
        case LossModel::darby3k:
            EXPECT_GT(row.k1 * row.ki * row.kd, 0.0) << row.code;
            break;
        case LossModel::kvTable:
            EXPECT_GT(row.kv_m3_h, 0.0) << row.code << " " << row.size;
            EXPECT_FALSE(row.size.empty()) << row.code;
            break;
        case LossModel::formula:
            EXPECT_FALSE(row.notes.empty()) << row.code;
            break;
        }
        EXPECT_GE(row.crackHead_m, 0.0) << row.code;
        EXPECT_FALSE(row.velocityBasis.empty()) << row.code;
    }
}

TEST(Catalogue, WaterSourcesNameFittingsThatExist) {
    const CsvTable table(embedded::water_sources_csv());
    for (std::size_t i = 0; i < table.rows(); ++i) {
        for (const char* column : {"suction_fittings", "delivery_fittings"}) {
            std::string list = table.text(i, column) + ";";
            for (std::size_t from = 0, to = 0; (to = list.find_first_of(";|+", from)) != std::string::npos;
                 from = to + 1) {
                const std::string code = list.substr(from, to - from);
                EXPECT_TRUE(code.empty() || findFitting(code) != nullptr) << code;
            }
        }
    }
    ASSERT_NE(findSourceKind("buried_tank"), nullptr);
    EXPECT_EQ(findSourceKind("buried tank"), nullptr);
}

TEST(Catalogue, LimitsMayHaveNoValueAndAreChosenByWhatTheyApplyTo) {
    ASSERT_NE(findLimit("v_suction_max"), nullptr);
    EXPECT_EQ(findLimit("v_suction_max")->value, 1.5);
    EXPECT_EQ(findLimit("v_suction_max", "suction"), findLimit("v_suction_max"));
    EXPECT_EQ(findLimit("v_suction_max", "delivery"), nullptr);
    const LimitRow* rule = findLimit("submergence_hi");
    ASSERT_NE(rule, nullptr);
    EXPECT_FALSE(rule->value.has_value());
    EXPECT_FALSE(rule->formula.empty());
}

// ISO 228-1: 2-1/2 thread 75.184 mm; EN 10255 medium tube of that size 68.9 mm bore.
TEST(Catalogue, ReadsThreads) {
    for (const ThreadRow& row : threadRows()) {
        if (row.designation == "2-1/2") {
            EXPECT_EQ(row.dn, 65);
            EXPECT_EQ(row.steelTubeBore_mm, 68.9);
            EXPECT_EQ(row.majorDiameter_mm, 75.184);
            return;
        }
    }
    FAIL() << "no 2-1/2 thread";
}

// Crane TP-410, fully turbulent friction factors.
TEST(Catalogue, GivesTheTurbulentFrictionFactorBySize) {
    EXPECT_EQ(turbulentFrictionFactor("1/2"), 0.027);
    EXPECT_EQ(turbulentFrictionFactor("2"), 0.019);
    EXPECT_EQ(turbulentFrictionFactor("5"), 0.0);
}

TEST(NearestCodes, FindsTheCodeBehindASlip) {
    const std::vector<std::string> codes = {"gate_valve", "globe_valve", "ball_valve_full_bore", "tee_branch",
                                            "union"};
    EXPECT_EQ(nearestCodes("gate_vlave", codes).front(), "gate_valve");
    EXPECT_EQ(nearestCodes("Union", codes).front(), "union");
    EXPECT_EQ(nearestCodes("valve gate", codes).front(), "gate_valve");
    EXPECT_EQ(nearestCodes("ball_valve", codes).front(), "ball_valve_full_bore");
}

TEST(NearestCodes, NamesNothingWhenNothingIsNear) {
    const std::vector<std::string> codes = {"gate_valve", "tee_branch"};
    EXPECT_THAT(nearestCodes("zzzzzzzz", codes), testing::IsEmpty());
    EXPECT_THAT(nearestCodes("gate_valve", {}), testing::IsEmpty());
}

TEST(NearestCodes, NamesEachCodeOnceAndNoMoreThanAsked) {
    const std::vector<std::string> codes = {"elbow_45", "elbow_45", "elbow_90_long", "elbow_90_square",
                                            "elbow_90_street"};
    EXPECT_THAT(nearestCodes("elbow_46", codes), testing::SizeIs(testing::Le(3U)));
    EXPECT_THAT(nearestCodes("elbow_45", codes, 5), testing::Contains("elbow_45").Times(1));
    EXPECT_THAT(nearestCodes("elbow_45", codes, 1), testing::ElementsAre("elbow_45"));
}

} // namespace
} // namespace headmark
