#include "analysis/pipework/element.h"

#include "analysis/pipework/catalogue.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace headmark {
namespace {

using Items = Run; // inside a test, Run is the test's own

// Water of 998.2065 kg/m3 (20 C) and a round 1e-6 m2/s.
const ElementContext kWater{Density::fromKilogramsPerCubicMetre(998.2065),
                            KinematicViscosity::fromSquareMillimetresPerSecond(1.0), FrictionMethod::darcy};

PipeItem pipe(const std::string& code, double length_m = 10.0) {
    return {findPipe(code)->kind, Length::fromMetres(length_m), std::nullopt};
}

PipeItem bore(double bore_mm) {
    PipeItem item;
    item.kind.bore = Length::fromMillimetres(bore_mm);
    item.length = Length::fromMetres(1.0);
    return item;
}

FittingItem fitting(const std::string& code, const std::string& size = "") {
    FittingItem item;
    item.code = code;
    item.size = size;
    return item;
}

Element elementIn(const Run& run, std::size_t index, std::optional<Length> before = {},
                  std::optional<Length> after = {}) {
    const auto elements = elementsOf(run, kWater, before, after);
    EXPECT_TRUE(elements.ok()) << elements.error().code << " " << elements.error().place;
    EXPECT_EQ(elements->size(), run.size());
    return elements->at(index);
}

Error errorOf(const Run& run) {
    const auto elements = elementsOf(run, kWater);
    EXPECT_FALSE(elements.ok());
    return elements.ok() ? Error{} : elements.error();
}

// The loss as element.h defines its terms.
double lossAt(const Element& e, double flow_m3_s) {
    return e.quadratic_s2_m5 * flow_m3_s * flow_m3_s + e.linear_s_m2 * flow_m3_s + e.crack_m;
}

constexpr double kEightPerHour_m3_s = 8.0 / 3600.0;
// Rounding only.
#define EXPECT_CLOSE(made, expected) EXPECT_NEAR(made, expected, std::abs(expected) * 1e-9)

// Rule of element.h: nearest steel tube bore of EN 10255 by ratio.
TEST(NominalSize, IsTheSteelTubeNearestByRatio) {
    EXPECT_EQ(nominalSizeOfBore(Length::fromMillimetres(55.2)), "2");    // 53.1
    EXPECT_EQ(nominalSizeOfBore(Length::fromMillimetres(20.15)), "3/4"); // 21.7
    EXPECT_EQ(nominalSizeOfBore(Length::fromMillimetres(18.0)), "1/2");  // 16.1 * 1.118; 21.7 / 1.206
    EXPECT_EQ(nominalSizeOfBore(Length::fromMillimetres(19.0)), "3/4");  // 16.1 * 1.180; 21.7 / 1.142
    EXPECT_EQ(nominalSizeOfBore(Length::fromMillimetres(2.0)), "1/8");   // below the table
    EXPECT_EQ(nominalSizeOfBore(Length::fromMillimetres(500.0)), "6");   // above it
}

TEST(NominalSize, OfEverySteelTubeIsItsOwn) {
    for (const ThreadRow& thread : threadRows()) {
        if (thread.steelTubeBore_mm > 0.0) {
            EXPECT_EQ(nominalSizeOfBore(Length::fromMillimetres(thread.steelTubeBore_mm)),
                      thread.designation);
        }
    }
}

TEST(PipeElement, CarriesTheFiguresOfItsKind) {
    PipeItem item = pipe("pe100_sdr17_63", 140.0);
    item.riseTo = Level::fromMetres(3.5);
    const Element e = elementIn({item}, 0);
    EXPECT_EQ(e.kind, ElementKind::pipe);
    EXPECT_EQ(e.code, "pe100_sdr17_63");
    EXPECT_CLOSE(e.bore_m, 0.0551);
    EXPECT_CLOSE(e.roughness_m, 7e-6);
    EXPECT_EQ(e.length_m, 140.0);
    EXPECT_EQ(e.hazenWilliamsC, 150.0);
    EXPECT_EQ(e.riseTo, Level::fromMetres(3.5));
    EXPECT_CLOSE(e.rating->inPascals(), 1e6);
    EXPECT_TRUE(e.mayBeSuction);
    EXPECT_EQ(e.quadratic_s2_m5, 0.0);
    EXPECT_FALSE(elementIn({pipe("layflat_51")}, 0).mayBeSuction);
    EXPECT_EQ(elementIn({bore(50)}, 0).hazenWilliamsC, 0.0);
}

TEST(TakeoffElement, KeepsNameAndPlace) {
    const Element e = elementIn({pipe("pe100_sdr17_63"), TakeoffItem{"T1"}}, 1);
    EXPECT_EQ(e.kind, ElementKind::takeoff);
    EXPECT_EQ(e.takeoff, "T1");
    EXPECT_EQ(e.item, 1U);
}

// By hand: K 2 at 2 l/s in 50 mm: v = 1.0185916 m/s, v2/2g = 0.0528993 m.
TEST(FreeFitting, LosesKVelocityHeads) {
    FittingItem item;
    item.k = 2.0;
    item.bore = Length::fromMillimetres(50);
    const Element e = elementIn({item}, 0);
    EXPECT_CLOSE(e.bore_m, 0.050);
    EXPECT_CLOSE(lossAt(e, 0.002), 0.10579850616648284);
    EXPECT_EQ(e.linear_s_m2, 0.0);
    EXPECT_EQ(e.crack_m, 0.0);
}

// By hand: Kv 8 at 4 m3/h: 0.25 bar = 25000/9806.65 m.
TEST(FreeFitting, WithKvNeedsNoBore) {
    FittingItem item;
    item.kv_m3_h = 8.0;
    const Element e = elementIn({item}, 0);
    EXPECT_EQ(e.bore_m, 0.0);
    EXPECT_CLOSE(lossAt(e, 4.0 / 3600.0), 2.5492905324448207);
    EXPECT_CLOSE(elementIn({item, bore(40)}, 0).bore_m, 0.040);
}

TEST(FreeFitting, WithKTakesTheBoreByTheSameRules) {
    FittingItem item;
    item.k = 1.0;
    EXPECT_CLOSE(elementIn({bore(80), item, bore(40)}, 1).bore_m, 0.040);
    EXPECT_CLOSE(elementIn({bore(80), item}, 1).bore_m, 0.080);
    item.size = "2";
    EXPECT_CLOSE(elementIn({bore(80), item}, 1).bore_m, 0.0531);
    item.bore = Length::fromMillimetres(44);
    EXPECT_CLOSE(elementIn({bore(80), item}, 1).bore_m, 0.044);
    item = {};
    item.k = 1.0;
    const Error error = errorOf({TakeoffItem{"T1"}, item});
    EXPECT_EQ(error.code, "no-bore");
    EXPECT_EQ(error.place, "[1].fitting");
}

// By hand: union K 0.04 at 1 l/s in 40 mm.
TEST(ConstantK, UsesTheNeighbouringBore) {
    const Element e = elementIn({bore(90), fitting("union"), TakeoffItem{"T"}, bore(40), bore(20)}, 1);
    EXPECT_CLOSE(e.bore_m, 0.040);
    EXPECT_CLOSE(lossAt(e, 0.001), 0.0012914856709775736);
    EXPECT_EQ(e.nominalSize, "");
}

TEST(ConstantK, LooksOutsideTheRunOnlyWhenTheRunHasNoPipe) {
    const Length before = Length::fromMillimetres(70);
    const Length after = Length::fromMillimetres(30);
    EXPECT_CLOSE(elementIn({bore(50), fitting("union")}, 1, before, after).bore_m, 0.050);
    EXPECT_CLOSE(elementIn({fitting("union")}, 0, before, after).bore_m, 0.030);
    EXPECT_CLOSE(elementIn({fitting("union")}, 0, before).bore_m, 0.070);
    const Error error = errorOf({fitting("union")});
    EXPECT_EQ(error.code, "no-bore");
    EXPECT_EQ(error.place, "[0].fitting");
    ASSERT_NE(findFact(error.facts, "code"), nullptr);
    EXPECT_EQ(std::get<std::string>(findFact(error.facts, "code")->value), "union");
}

// Crane TP-410: L/D 30 times fT 0.019 of size 2 = 0.57; the velocity in EN 10255 medium tube, 53.1 mm, at 8
// m3/h.
TEST(LengthMultiple, UsesTheFrictionFactorAndTubeBoreOfItsSize) {
    const Element e = elementIn({fitting("elbow_90_standard", "2")}, 0);
    EXPECT_CLOSE(e.bore_m, 0.0531);
    EXPECT_EQ(e.nominalSize, "2");
    EXPECT_CLOSE(lossAt(e, kEightPerHour_m3_s), 0.029264513575701312);
}

TEST(LengthMultiple, TakesTheNominalSizeOfTheNeighbourWithoutASize) {
    // 55.1 mm counts as size 2, 0.57 again, on the wider bore: (53.1/55.1)^4 of the loss.
    const Element e = elementIn({fitting("elbow_90_standard"), pipe("pe100_sdr17_63")}, 0);
    EXPECT_EQ(e.nominalSize, "2");
    EXPECT_CLOSE(lossAt(e, kEightPerHour_m3_s), 0.029264513575701312 * std::pow(53.1 / 55.1, 4));
}

TEST(LengthMultiple, UsesTheNearestListedSizeWhereTheTableHasNone) {
    // DN 125 lies as far from 100 as from 150: the smaller, fT 0.017. DN 10 takes that of DN 15, 0.027.
    const double five = elementIn({fitting("gate_valve", "5")}, 0).quadratic_s2_m5;
    const double four = elementIn({fitting("gate_valve", "4")}, 0).quadratic_s2_m5;
    EXPECT_CLOSE(five / four, std::pow(105.3 / 129.7, 4));
    const double threeEighths = elementIn({fitting("gate_valve", "3/8")}, 0).quadratic_s2_m5;
    const double half = elementIn({fitting("gate_valve", "1/2")}, 0).quadratic_s2_m5;
    EXPECT_CLOSE(threeEighths / half, std::pow(16.1 / 12.6, 4));
}

// Darby: K = 800/Re + 0.14 (1 + 4/2^0.3); by hand K 0.62822506 at Re 23978 and 0.60598258 at Re 71934.
TEST(ThreeK, FallsWithTheReynoldsNumber) {
    const Element e = elementIn({fitting("elbow_90_standard_3k", "2")}, 0);
    EXPECT_CLOSE(lossAt(e, 0.001), 0.006531406819876131);
    EXPECT_CLOSE(lossAt(e, 0.003), 0.0567014455441576);
}

TEST(ThreeK, ReadsMixedInchSizes) {
    // Without the linear term: 0.071 (1 + 4.2/1.25^0.3) = 0.349891087 in 36.0 mm.
    const Element e = elementIn({fitting("elbow_45_3k", "1-1/4")}, 0);
    FittingItem same;
    same.k = 0.34989108714070566;
    same.bore = Length::fromMillimetres(36.0);
    EXPECT_CLOSE(e.quadratic_s2_m5, elementIn({same}, 0).quadratic_s2_m5);
    // 3/4 in: 0.071 (1 + 4.2/0.75^0.3) = 0.396079258 in 21.7 mm.
    same.k = 0.396079258;
    same.bore = Length::fromMillimetres(21.7);
    EXPECT_NEAR(elementIn({fitting("elbow_45_3k", "3/4")}, 0).quadratic_s2_m5 /
                    elementIn({same}, 0).quadratic_s2_m5,
                1.0, 1e-8);
}

// By hand: Kv 40 at 8 m3/h: 0.04 bar = 0.4078865 m, and the spring's 0.3 m.
TEST(KvTable, TakesTheRowOfItsSizeAndAddsTheCrackHead) {
    const Element e = elementIn({fitting("check_spring_inline", "2")}, 0);
    EXPECT_CLOSE(lossAt(e, kEightPerHour_m3_s), 0.7078864851911714);
    EXPECT_EQ(e.crack_m, 0.3);
    EXPECT_CLOSE(e.bore_m, 0.0531);
}

TEST(KvTable, TakesTheRowOfTheNeighbourWithoutASize) {
    const Element e =
        elementIn({fitting("solenoid_valve"), pipe("pe80_sdr11_32")}, 0); // 25.75 mm: size 1, Kv 9.5
    EXPECT_EQ(e.nominalSize, "1");
    EXPECT_CLOSE(e.bore_m, 0.02575);
    EXPECT_CLOSE(lossAt(e, 9.5 / 3600.0), 10.197162129779283); // 1 bar
}

TEST(KvTable, MatchesMillimetreSizesByDn) {
    const double oneBar_m = 10.197162129779283;
    EXPECT_CLOSE(lossAt(elementIn({fitting("water_meter", "1")}, 0), 7.94 / 3600.0), oneBar_m);
    EXPECT_CLOSE(lossAt(elementIn({fitting("water_meter", "25 mm")}, 0), 7.94 / 3600.0), oneBar_m);
    EXPECT_CLOSE(lossAt(elementIn({fitting("water_meter"), bore(53)}, 0), 31.5 / 3600.0), oneBar_m);
    EXPECT_CLOSE(lossAt(elementIn({fitting("solenoid_valve", "25 mm")}, 0), 9.5 / 3600.0), oneBar_m);
}

TEST(KvTable, WithOneRowTakesAnySizeOrNone) {
    const double oneBar_m = 10.197162129779283;
    EXPECT_CLOSE(lossAt(elementIn({fitting("quick_coupling_valve_3_4")}, 0), 5.0 / 3600.0), oneBar_m);
    EXPECT_CLOSE(lossAt(elementIn({fitting("quick_coupling_valve_3_4"), bore(50)}, 0), 5.0 / 3600.0),
                 oneBar_m);
    EXPECT_CLOSE(lossAt(elementIn({fitting("quick_coupling_valve_3_4", "1")}, 0), 5.0 / 3600.0), oneBar_m);
}

TEST(KvTable, RefusesASizeItHasNoRowFor) {
    for (const Items& run :
         {Items{fitting("solenoid_valve", "2-1/2")}, Items{fitting("solenoid_valve"), bore(68.9)}}) {
        const Error error = errorOf(run);
        EXPECT_EQ(error.code, "no-such-size");
        EXPECT_EQ(error.place, "[0].fitting");
        EXPECT_EQ(std::get<std::string>(findFact(error.facts, "code")->value), "solenoid_valve");
        EXPECT_EQ(std::get<std::string>(findFact(error.facts, "size")->value), "2-1/2");
        EXPECT_THAT(std::get<std::vector<std::string>>(findFact(error.facts, "sizes")->value),
                    testing::ElementsAre("3/4", "1", "1-1/4", "1-1/2", "2", "3"));
    }
    EXPECT_EQ(errorOf({fitting("solenoid_valve")}).code, "no-bore");
}

TEST(FittingElement, RefusesASizeThatIsNone) {
    const Error error = errorOf({bore(50), fitting("union", "2-1/4")});
    EXPECT_EQ(error.code, "no-such-size");
    EXPECT_EQ(error.place, "[1].fitting");
    EXPECT_THAT(std::get<std::vector<std::string>>(findFact(error.facts, "sizes")->value),
                testing::Contains("2-1/2"));
    FittingItem item;
    item.k = 1.0;
    item.size = "two";
    EXPECT_EQ(errorOf({item}).code, "no-such-size");
}

TEST(FittingElement, RefusesAnUnknownCode) {
    EXPECT_EQ(errorOf({fitting("wormhole"), bore(50)}).code, "unknown-fitting");
}

TEST(FittingElement, CountMultipliesEveryTerm) {
    FittingItem four = fitting("check_swing_3k", "2");
    const Element one = elementIn({four}, 0);
    four.count = 4;
    const Element all = elementIn({four}, 0);
    EXPECT_GT(one.crack_m * one.linear_s_m2 * one.quadratic_s2_m5, 0.0);
    EXPECT_CLOSE(all.quadratic_s2_m5, 4.0 * one.quadratic_s2_m5);
    EXPECT_CLOSE(all.linear_s_m2, 4.0 * one.linear_s_m2);
    EXPECT_CLOSE(all.crack_m, 4.0 * one.crack_m);
    FittingItem free;
    free.kv_m3_h = 8.0;
    const double single = elementIn({free}, 0).quadratic_s2_m5;
    free.count = 3;
    EXPECT_CLOSE(elementIn({free}, 0).quadratic_s2_m5, 3.0 * single);
    FittingItem reducers = fitting("contraction_sudden");
    reducers.count = 2;
    EXPECT_CLOSE(elementIn({bore(50), reducers, bore(25)}, 1).quadratic_s2_m5,
                 2.0 * elementIn({bore(50), fitting("contraction_sudden"), bore(25)}, 1).quadratic_s2_m5);
}

TEST(HoseTail, CountsAsFourFifthsOfTheHoseUnlessSaid) {
    // By hand: K 0.8 at 2 l/s in the 51 mm hose, although a narrower pipe follows.
    const Element e = elementIn({pipe("suction_hose_51"), fitting("hose_tail"), pipe("pe80_sdr11_32")}, 1);
    EXPECT_CLOSE(e.bore_m, 0.051);
    EXPECT_EQ(e.nominalSize, "b=0.80");
    EXPECT_CLOSE(lossAt(e, 0.002), 0.03909658640093726);
    const Element wide =
        elementIn({pipe("pe80_sdr11_32"), fitting("hose_tail", "b=0.90"), pipe("layflat_51")}, 1);
    EXPECT_CLOSE(lossAt(wide, 0.002), 0.03909658640093726 * 0.2 / 0.8);
    EXPECT_EQ(errorOf({fitting("hose_tail", "b=0.5"), pipe("layflat_51")}).code, "no-such-size");
}

TEST(SmallerBore, IsTheSmallerOfBothNeighbours) {
    EXPECT_CLOSE(elementIn({bore(50), fitting("reducing_bush_default"), bore(40)}, 1).bore_m, 0.040);
    EXPECT_CLOSE(elementIn({bore(40), fitting("reducing_bush_default"), bore(50)}, 1).bore_m, 0.040);
    EXPECT_CLOSE(
        elementIn({fitting("reducing_bush_default"), bore(50)}, 0, Length::fromMillimetres(40)).bore_m,
        0.040);
    EXPECT_CLOSE(elementIn({fitting("reducing_bush_default"), bore(50)}, 0).bore_m, 0.050);
}

TEST(BranchBore, IsThePipeAfter) {
    EXPECT_CLOSE(elementIn({bore(50), fitting("clamp_saddle_branch"), bore(25)}, 1).bore_m, 0.025);
    EXPECT_CLOSE(
        elementIn({bore(50), fitting("clamp_saddle_branch")}, 1, {}, Length::fromMillimetres(32)).bore_m,
        0.032);
}

// By hand for 50 and 25 mm, b = 0.5, at 0.5 l/s: v2/2g in the 25 mm bore 0.0528992531 m.
TEST(TwoBores, LoseByTheirFormulaOnTheSmallerBore) {
    const double velocityHead_m = 0.05289925308324142;
    const auto k = [&](const Items& run) {
        const Element e = elementIn(run, 1);
        EXPECT_CLOSE(e.bore_m, 0.025);
        return lossAt(e, 0.0005) / velocityHead_m;
    };
    const auto angled = [](const std::string& code, double angle_deg) {
        FittingItem item = fitting(code);
        item.angle_deg = angle_deg;
        return item;
    };
    const PipeItem wide = bore(50);
    const PipeItem narrow = bore(25);
    EXPECT_CLOSE(k({wide, fitting("contraction_sudden"), narrow}), 0.375);
    EXPECT_CLOSE(k({narrow, fitting("expansion_sudden"), wide}), 0.5625);
    EXPECT_CLOSE(k({wide, fitting("contraction_conical"), narrow}),
                 0.22961005941905388); // 0.8 sin 22.5 * 0.75
    EXPECT_CLOSE(k({wide, angled("contraction_conical", 60), narrow}), 0.2651650429449553);
    EXPECT_CLOSE(k({narrow, angled("expansion_conical", 30), wide}), 0.3785228534624366);
    EXPECT_CLOSE(k({narrow, angled("expansion_conical", 60), wide}), 0.5625);
}

TEST(TwoBores, LoseNothingBetweenEqualBores) {
    for (const char* code :
         {"contraction_sudden", "contraction_conical", "expansion_sudden", "expansion_conical"}) {
        EXPECT_EQ(elementIn({bore(50), fitting(code), bore(50)}, 1).quadratic_s2_m5, 0.0) << code;
    }
}

TEST(TwoBores, NeedBothNeighbours) {
    const Error error = errorOf({bore(50), fitting("contraction_sudden")});
    EXPECT_EQ(error.code, "no-bore");
    EXPECT_EQ(error.place, "[1].fitting");
    const double inside = elementIn({bore(50), fitting("contraction_sudden"), bore(25)}, 1).quadratic_s2_m5;
    EXPECT_CLOSE(elementIn({bore(50), fitting("contraction_sudden")}, 1, {}, Length::fromMillimetres(25))
                     .quadratic_s2_m5,
                 inside);
    FittingItem told = fitting("contraction_sudden");
    told.bore = Length::fromMillimetres(25);
    EXPECT_CLOSE(elementIn({bore(50), told}, 1).quadratic_s2_m5, inside);
}

// By hand: a quarter of 20 kPa at half the flow, over 998.2065 * 9.80665; at service 35 kPa.
TEST(FilterElement, LosesByItsOwnPower) {
    FilterItem item;
    item.loss = Pressure::fromKilopascals(20);
    item.at = Flow::fromCubicMetresPerHour(8);
    item.service = Pressure::fromKilopascals(35);
    const Element e = elementIn({item}, 0);
    EXPECT_EQ(e.kind, ElementKind::filter);
    EXPECT_CLOSE(e.filterCoefficient * std::pow(4.0 / 3600.0, e.filterExponent), 0.5107741799807597);
    EXPECT_CLOSE(e.filterService_m, 3.575419259865318);
    EXPECT_FALSE(e.greatestFlow.has_value());
}

// By hand: disc filter of the table, 12 kPa * 0.5^1.9 at 4 of 8 m3/h.
TEST(FilterElement, OfTheCatalogueHasAGreatestFlow) {
    const Element e = elementIn({findFilter("disc_1_1_2")->item}, 0);
    EXPECT_CLOSE(e.filterCoefficient * std::pow(4.0 / 3600.0, e.filterExponent), 0.3284605268712687);
    EXPECT_CLOSE(e.filterService_m, 4.0861934398460775);
    EXPECT_CLOSE(e.greatestFlow->inCubicMetresPerHour(), 12.0);
}

// The table rates it at 1 m/s in the suction pipe: 1 kPa = 0.10215483599615194 m at 2.04282062e-3 m3/s in 51
// mm.
TEST(FilterElement, RatedByVelocityTakesTheNeighbouringBore) {
    const Element e = elementIn({findFilter("suction_strainer_coarse")->item, pipe("suction_hose_51")}, 0);
    EXPECT_NEAR(e.filterCoefficient * std::pow(2.04282062e-3, e.filterExponent), 0.10215483599615194, 1e-9);
    const Error error = errorOf({findFilter("suction_strainer_coarse")->item});
    EXPECT_EQ(error.code, "no-bore");
    EXPECT_EQ(error.place, "[0].filter");
}

// By hand: 150 kPa and 35 kPa over 998.2065 * 9.80665.
TEST(RegulatorElement, HoldsItsPressuresAsHeads) {
    const RegulatorItem item{GaugePressure::fromKilopascals(150), Pressure::fromKilopascals(35), ""};
    const Element e = elementIn({item}, 0);
    EXPECT_EQ(e.kind, ElementKind::regulator);
    EXPECT_CLOSE(e.set_m, 15.323225399422789);
    EXPECT_CLOSE(e.leastLoss_m, 3.575419259865318);
}

TEST(Elements, OfEveryCatalogueFittingCanBeMade) {
    for (const FittingRow& row : fittingRows()) {
        if (row.code == "pressure_regulator_fixed") {
            continue; // an item of its own
        }
        const auto elements = elementsOf({bore(53.1), fitting(row.code, row.size), bore(27.3)}, kWater);
        ASSERT_TRUE(elements.ok()) << row.code << " " << row.size << ": " << elements.error().code;
        EXPECT_GT(elements->at(1).quadratic_s2_m5, 0.0) << row.code;
        EXPECT_GT(elements->at(1).bore_m, 0.0) << row.code;
        EXPECT_EQ(elements->at(1).crack_m, row.crackHead_m) << row.code;
    }
}

} // namespace
} // namespace headmark
