// Elements in series: the sum of their parts, by hand.

#include "analysis/pipework/chain.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace headmark {
namespace {

ElementContext water(FrictionMethod method = FrictionMethod::darcy) {
    return {Density::fromKilogramsPerCubicMetre(1000.0),
            KinematicViscosity::fromSquareMetresPerSecond(1.0e-6), method};
}

Element pipe(double bore_m, double length_m) {
    Element e;
    e.kind = ElementKind::pipe;
    e.bore_m = bore_m;
    e.length_m = length_m;
    e.roughness_m = 4.5e-5;
    e.hazenWilliamsC = 140.0;
    return e;
}

Element fitting() {
    Element e;
    e.kind = ElementKind::fitting;
    e.quadratic_s2_m5 = 4.0e5;
    e.linear_s_m2 = 30.0;
    e.crack_m = 0.25;
    return e;
}

// 2 m at 3 L/s, exponent 1.5; 5 m when it is due for cleaning.
Element filter() {
    Element e;
    e.kind = ElementKind::filter;
    e.filterCoefficient = 2.0 / std::pow(0.003, 1.5);
    e.filterExponent = 1.5;
    e.filterService_m = 5.0;
    return e;
}

double pipeLoss_m(double bore_m, double length_m, double roughness_m, double flow_m3_s) {
    return PipeFriction(bore_m, length_m, roughness_m, water().viscosity).at(flow_m3_s).loss_m;
}

TEST(Chain, LosesNothingWhenEmpty) {
    EXPECT_EQ(Chain().at(0.003).loss_m, 0.0);
    EXPECT_EQ(Chain().at(0.003).slope_s_m2, 0.0);
}

TEST(Chain, IsTheSumOfItsParts) {
    Chain chain;
    for (const Element& e : {pipe(0.05, 30.0), fitting(), filter(), pipe(0.04, 12.0)}) {
        chain.add(e, water(), FilterState::clean, 0.0);
    }
    for (double flow_m3_s : {5e-6, 1e-4, 1e-3, 3e-3, 8e-3}) {
        const double expected = pipeLoss_m(0.05, 30.0, 4.5e-5, flow_m3_s) +
                                pipeLoss_m(0.04, 12.0, 4.5e-5, flow_m3_s) + 4.0e5 * flow_m3_s * flow_m3_s +
                                30.0 * flow_m3_s + 0.25 + 2.0 * std::pow(flow_m3_s / 0.003, 1.5);
        EXPECT_NEAR(chain.at(flow_m3_s).loss_m, expected, 1e-12 * expected) << flow_m3_s;
    }
}

TEST(Chain, DoesNotMindTheOrder) {
    Chain one, other;
    one.add(pipe(0.05, 30.0), water(), FilterState::clean, 0.0);
    one.add(filter(), water(), FilterState::clean, 0.0);
    one.add(pipe(0.05, 10.0), water(), FilterState::clean, 0.0);
    other.add(filter(), water(), FilterState::clean, 0.0);
    other.add(pipe(0.05, 40.0), water(), FilterState::clean, 0.0);
    EXPECT_NEAR(one.at(0.002).loss_m, other.at(0.002).loss_m, 1e-12);
}

TEST(Chain, GivesTheSlopeItHas) {
    for (FrictionMethod method : {FrictionMethod::darcy, FrictionMethod::hazenWilliams}) {
        Chain chain;
        for (const Element& e : {pipe(0.05, 30.0), fitting(), filter()}) {
            chain.add(e, water(method), FilterState::clean, 0.0);
        }
        for (double flow_m3_s : {2e-5, 1e-4, 1e-3, 8e-3}) {
            const double step = 1e-5 * flow_m3_s;
            const double measured =
                (chain.at(flow_m3_s + step).loss_m - chain.at(flow_m3_s - step).loss_m) / (2.0 * step);
            EXPECT_NEAR(chain.at(flow_m3_s).slope_s_m2, measured, 1e-6 * measured) << flow_m3_s;
        }
    }
}

TEST(Chain, RisesWithFlow) {
    Chain chain;
    for (const Element& e : {pipe(0.02, 30.0), fitting(), filter()})
        chain.add(e, water(), FilterState::clean, 0.0);
    double before_m = -1.0;
    for (int i = 0; i <= 400; ++i) {
        const double loss_m = chain.at(1e-6 * i).loss_m;
        EXPECT_GT(loss_m, before_m);
        before_m = loss_m;
    }
}

TEST(Chain, AsksTheCrackHeadBeforeWaterFlows) {
    Chain chain;
    chain.add(fitting(), water(), FilterState::clean, 0.0);
    chain.add(fitting(), water(), FilterState::clean, 0.0);
    EXPECT_DOUBLE_EQ(chain.crack_m(), 0.5);
    EXPECT_DOUBLE_EQ(chain.at(0.0).loss_m, 0.5);
    EXPECT_DOUBLE_EQ(chain.at(0.0).slope_s_m2, 60.0);
}

TEST(Chain, TakesTheServiceLossOfAFilterAtAnyFlow) {
    Chain chain;
    chain.add(filter(), water(), FilterState::service, 0.0);
    for (double flow_m3_s : {0.0, 1e-4, 3e-3, 9e-3}) {
        EXPECT_DOUBLE_EQ(chain.at(flow_m3_s).loss_m, 5.0);
        EXPECT_DOUBLE_EQ(chain.at(flow_m3_s).slope_s_m2, 0.0);
    }
}

TEST(Chain, TakesTheCleanLossOfAFilterByItsPower) {
    Chain chain;
    chain.add(filter(), water(), FilterState::clean, 0.0);
    EXPECT_EQ(chain.at(0.0).loss_m, 0.0);
    EXPECT_NEAR(chain.at(0.003).loss_m, 2.0, 1e-12);
    EXPECT_NEAR(chain.at(0.012).loss_m, 16.0, 1e-11); // four times the flow: 4^1.5 = 8 times the loss
    EXPECT_NEAR(chain.at(0.003).slope_s_m2, 1.5 * 2.0 / 0.003, 1e-8);
}

// element.h: without a service loss the filter's loss does not rise with dirt.
TEST(Chain, KeepsTheCleanLawWhereAFilterHasNoServiceLoss) {
    Element open = filter();
    open.filterService_m = 0.0;
    Chain chain;
    chain.add(open, water(), FilterState::service, 0.0);
    EXPECT_NEAR(chain.at(0.003).loss_m, 2.0, 1e-12);
}

TEST(Chain, LengthensPipesByTheAllowance) {
    Chain chain;
    chain.add(pipe(0.05, 30.0), water(), FilterState::clean, 0.1);
    EXPECT_NEAR(chain.at(0.003).loss_m, pipeLoss_m(0.05, 33.0, 4.5e-5, 0.003), 1e-12);
    Chain fittings;
    fittings.add(fitting(), water(), FilterState::clean, 0.1);
    EXPECT_NEAR(fittings.at(0.003).loss_m, 4.0e5 * 9e-6 + 30.0 * 0.003 + 0.25, 1e-12); // untouched
}

TEST(Chain, AppliesTheFactorsOfASite) {
    const ElementFactors factors{1.2, 3.0, 1.5};
    Chain pipes, fittings, filters, dirty;
    pipes.add(pipe(0.05, 30.0), water(), FilterState::clean, 0.0, factors);
    EXPECT_NEAR(pipes.at(0.003).loss_m, pipeLoss_m(0.05, 36.0, 1.35e-4, 0.003), 1e-12);
    fittings.add(fitting(), water(), FilterState::clean, 0.0, factors);
    EXPECT_NEAR(fittings.at(0.003).loss_m, 1.5 * (4.0e5 * 9e-6 + 30.0 * 0.003) + 0.25, 1e-12);
    filters.add(filter(), water(), FilterState::clean, 0.0, factors);
    EXPECT_NEAR(filters.at(0.003).loss_m, 3.0, 1e-12);
    dirty.add(filter(), water(), FilterState::service, 0.0, factors);
    EXPECT_NEAR(dirty.at(0.003).loss_m, 5.0, 1e-12); // read on a gauge, not estimated
}

// h = 10.67 L q^1.852 / (C^1.852 D^4.8704): 300 m of 102.3 mm at 10 L/s and C 150 lose 3.9216 m (recomputed).
TEST(Chain, UsesHazenWilliamsOnRequest) {
    Element e = pipe(0.1023, 300.0);
    e.hazenWilliamsC = 150.0;
    Chain chain;
    chain.add(e, water(FrictionMethod::hazenWilliams), FilterState::clean, 0.0);
    EXPECT_NEAR(chain.at(0.01).loss_m, 3.9216, 1e-4);
    EXPECT_NEAR(chain.at(0.01).slope_s_m2, 1.852 * 3.9216 / 0.01, 0.02);
    EXPECT_EQ(chain.at(0.0).loss_m, 0.0);
}

TEST(Chain, PassesATakeOffFreely) {
    Element e;
    e.kind = ElementKind::takeoff;
    Chain chain;
    chain.add(e, water(), FilterState::clean, 0.0);
    EXPECT_EQ(chain.at(0.01).loss_m, 0.0);
}

TEST(ElementLoss, IsThatOfTheElementAlone) {
    EXPECT_NEAR(elementLoss_m(pipe(0.05, 30.0), water(), FilterState::clean, 0.0, 0.003),
                pipeLoss_m(0.05, 30.0, 4.5e-5, 0.003), 1e-12);
    EXPECT_NEAR(elementLoss_m(filter(), water(), FilterState::clean, 0.0, 0.003), 2.0, 1e-12);
    EXPECT_NEAR(elementLoss_m(filter(), water(), FilterState::service, 0.0, 0.003), 5.0, 1e-12);
}

TEST(ElementLoss, IsNothingWithoutFlow) {
    EXPECT_EQ(elementLoss_m(fitting(), water(), FilterState::clean, 0.0, 0.0), 0.0);
    EXPECT_EQ(elementLoss_m(filter(), water(), FilterState::service, 0.0, 0.0), 0.0);
}

} // namespace
} // namespace headmark
