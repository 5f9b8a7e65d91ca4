// Friction in the three regimes and where they meet. The published values are in
// tests/published/pipes_test.cpp.

#include "analysis/pipework/friction.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

namespace headmark {
namespace {

constexpr double kGravity_m_s2 = 9.80665;

KinematicViscosity water() { return KinematicViscosity::fromSquareMetresPerSecond(1.0e-6); }

// Flow at a Reynolds number in water of 1e-6 m2/s: q = Re nu pi D / 4.
double flowAt(double reynolds, double bore_m) { return reynolds * 1.0e-6 * std::numbers::pi * bore_m / 4.0; }

const std::vector<double> kRough = {0.0, 1e-5, 1e-3, 5e-2};

TEST(FrictionFactor, IsSixtyFourByReynoldsToTwoThousand) {
    for (double rough : kRough) { // the wall plays no part in laminar flow
        EXPECT_DOUBLE_EQ(darcyFrictionFactor(500.0, rough).value, 0.128);
        EXPECT_DOUBLE_EQ(darcyFrictionFactor(1000.0, rough).value, 0.064);
        EXPECT_DOUBLE_EQ(darcyFrictionFactor(2000.0, rough).value, 0.032);
    }
}

TEST(FrictionFactor, SolvesColebrooksEquation) {
    for (double rough : kRough) {
        for (double reynolds = 4000.0; reynolds <= 1e8; reynolds *= 3.7) {
            const double root = 1.0 / std::sqrt(darcyFrictionFactor(reynolds, rough).value);
            EXPECT_NEAR(root, -2.0 * std::log10(rough / 3.7 + 2.51 * root / reynolds), 1e-12 * root)
                << reynolds << " " << rough;
        }
    }
}

// At Re 2000: 64/Re = 0.032 and its slope -64/Re2 = -1.6e-5, by hand.
TEST(FrictionFactor, JoinsTheLaminarEndInValueAndSlope) {
    for (double rough : kRough) {
        const FrictionFactor above = darcyFrictionFactor(2000.0 + 1e-6, rough);
        EXPECT_NEAR(above.value, 0.032, 1e-9);
        EXPECT_NEAR(above.perReynolds, -1.6e-5, 1e-11);
        EXPECT_NEAR(darcyFrictionFactor(2000.0, rough).perReynolds, -1.6e-5, 1e-15);
    }
}

TEST(FrictionFactor, JoinsTheTurbulentStartInValueAndSlope) {
    for (double rough : kRough) {
        const FrictionFactor below = darcyFrictionFactor(4000.0 - 1e-6, rough);
        const FrictionFactor at = darcyFrictionFactor(4000.0, rough);
        EXPECT_NEAR(below.value, at.value, 1e-9);
        EXPECT_NEAR(below.perReynolds, at.perReynolds, 1e-11);
        // The slope there is Colebrook's own: measured on its turbulent side.
        const double measured =
            (colebrookWhite(4001.0, rough).value - colebrookWhite(3999.0, rough).value) / 2.0;
        EXPECT_NEAR(at.perReynolds, measured, 1e-4 * std::abs(measured));
    }
    // Smooth pipe, Colebrook at Re 4000: 0.03990701 (table of check values, 30-digit solution).
    EXPECT_NEAR(darcyFrictionFactor(4000.0 - 1e-6, 0.0).value, 0.03990701, 1e-8);
}

// A cubic through values and slopes at both ends has at its middle the mean of the values plus an eighth of
// the span times the difference of the slopes (Hermite; by hand).
TEST(FrictionFactor, IsACubicBetweenTheRegimes) {
    for (double rough : kRough) {
        const FrictionFactor end = colebrookWhite(4000.0, rough);
        const double middle = (0.032 + end.value) / 2.0 + 2000.0 / 8.0 * (-1.6e-5 - end.perReynolds);
        EXPECT_NEAR(darcyFrictionFactor(3000.0, rough).value, middle, 1e-14);
        // Fourth differences of a cubic vanish.
        double fourth = 0.0;
        const double weights[] = {1.0, -4.0, 6.0, -4.0, 1.0};
        for (int i = 0; i < 5; ++i)
            fourth += weights[i] * darcyFrictionFactor(2200.0 + 400.0 * i, rough).value;
        EXPECT_NEAR(fourth, 0.0, 1e-15);
    }
}

TEST(FrictionFactor, GivesTheSlopeItHas) {
    for (double rough : kRough) {
        for (double reynolds : {300.0, 1900.0, 2100.0, 2700.0, 3500.0, 3990.0, 4100.0, 2e4, 1e6, 5e7}) {
            const double step = 1e-4 * reynolds;
            const double measured = (darcyFrictionFactor(reynolds + step, rough).value -
                                     darcyFrictionFactor(reynolds - step, rough).value) /
                                    (2.0 * step);
            EXPECT_NEAR(darcyFrictionFactor(reynolds, rough).perReynolds, measured,
                        1e-5 * std::abs(measured) + 1e-13 / step)
                << reynolds << " " << rough;
        }
    }
}

// h = 128 nu L q / (pi g D^4), Hagen-Poiseuille.
TEST(PipeFriction, FollowsHagenPoiseuilleInLaminarFlow) {
    const PipeFriction pipe(0.0136, 25.0, 7e-6, water());
    const double perFlow = 128.0 * 1e-6 * 25.0 / (std::numbers::pi * kGravity_m_s2 * std::pow(0.0136, 4));
    for (double reynolds : {0.0, 1.0, 900.0, 2000.0}) {
        const double flow_m3_s = flowAt(reynolds, 0.0136);
        EXPECT_NEAR(pipe.at(flow_m3_s).loss_m, perFlow * flow_m3_s, 1e-14);
        EXPECT_NEAR(pipe.at(flow_m3_s).slope_s_m2, perFlow, 1e-12 * perFlow);
    }
}

// h = f L/D v2/(2g), put together here from the velocity.
TEST(PipeFriction, FollowsDarcyWeisbach) {
    const double bore_m = 0.0552, length_m = 120.0, rough_m = 4.5e-5;
    const PipeFriction pipe(bore_m, length_m, rough_m, water());
    for (double reynolds : {1500.0, 2500.0, 3900.0, 1e4, 3e5}) {
        const double flow_m3_s = flowAt(reynolds, bore_m);
        EXPECT_NEAR(pipe.reynolds(flow_m3_s), reynolds, 1e-9 * reynolds);
        const double velocity_m_s = reynolds * 1e-6 / bore_m;
        const double expected = darcyFrictionFactor(reynolds, rough_m / bore_m).value * length_m / bore_m *
                                velocity_m_s * velocity_m_s / (2.0 * kGravity_m_s2);
        EXPECT_NEAR(pipe.at(flow_m3_s).loss_m, expected, 1e-12 * expected);
    }
}

TEST(PipeFriction, GivesTheSlopeItHas) {
    for (double rough_m : {0.0, 4.5e-5, 1e-3}) {
        const PipeFriction pipe(0.04, 60.0, rough_m, water());
        for (double reynolds : {100.0, 1990.0, 2010.0, 2600.0, 3300.0, 3990.0, 4010.0, 5e4, 2e6}) {
            const double flow_m3_s = flowAt(reynolds, 0.04), step = 1e-5 * flow_m3_s;
            const double measured =
                (pipe.at(flow_m3_s + step).loss_m - pipe.at(flow_m3_s - step).loss_m) / (2.0 * step);
            EXPECT_NEAR(pipe.at(flow_m3_s).slope_s_m2, measured, 1e-6 * measured)
                << reynolds << " " << rough_m;
        }
    }
}

TEST(PipeFriction, RisesThroughEveryRegime) {
    for (double rough : kRough) {
        const PipeFriction pipe(0.02, 10.0, rough * 0.02, water());
        double before_m = -1.0;
        for (double reynolds = 0.0; reynolds < 12000.0; reynolds += 10.0) {
            const LossAt at = pipe.at(flowAt(reynolds, 0.02));
            EXPECT_GT(at.loss_m, before_m);
            EXPECT_GT(at.slope_s_m2, 0.0);
            before_m = at.loss_m;
        }
    }
}

TEST(PipeFriction, GrowsWithItsLength) {
    PipeFriction pipe(0.02, 10.0, 0.0, water());
    const double ten_m = pipe.at(3e-4).loss_m;
    pipe.addLength(5.0);
    EXPECT_NEAR(pipe.at(3e-4).loss_m, 1.5 * ten_m, 1e-12);
}

TEST(PipeFriction, RoughAndColdLoseMore) {
    const double flow_m3_s = flowAt(5e4, 0.04);
    const double smooth = PipeFriction(0.04, 60.0, 0.0, water()).at(flow_m3_s).loss_m;
    EXPECT_GT(PipeFriction(0.04, 60.0, 1e-4, water()).at(flow_m3_s).loss_m, smooth);
    const auto cold = KinematicViscosity::fromSquareMetresPerSecond(1.5e-6);
    EXPECT_GT(PipeFriction(0.04, 60.0, 0.0, cold).at(flow_m3_s).loss_m, smooth);
}

// 0.02 m3/s, 150 mm, 1000 m: 7.3167 m at C 150 (recomputed in 30 digits; see pipes_test.cpp for the table).
TEST(HazenWilliams, GivesTheCoefficientOfTheFlowPower) {
    const double a = hazenWilliamsCoefficient(0.15, 1000.0, 150.0);
    EXPECT_NEAR(a * std::pow(0.02, kHazenWilliamsExponent), 7.3167, 1e-4);
    EXPECT_NEAR(hazenWilliamsCoefficient(0.15, 500.0, 150.0), 0.5 * a, 1e-12 * a);
}

} // namespace
} // namespace headmark
