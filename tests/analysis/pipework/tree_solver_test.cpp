// The tree solver against hand calculation, against an independent solver, and against laws of nature.

#include "analysis/pipework/tree_solver.h"

#include "support/network_forms.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace headmark {
namespace {

using testing::pipeTreeOf;
using testing::PolynomialHead;
using testing::randomNetwork;

// Hand calculations are carried to all digits; the solver stops at 1e-9 m.
constexpr double kSolved = 1e-8;

TreeOutflow quadraticOutflow(int edge, double level_m, double coefficient_s2_m5) {
    TreeOutflow o;
    o.edge = edge;
    o.level_m = level_m;
    o.law.flowAt_m3_s = 1e-3;
    o.law.headAt_m = coefficient_s2_m5 * 1e-6;
    return o;
}

TreeEdge quadraticEdge(int parent, double coefficient_s2_m5) {
    TreeEdge e;
    e.parent = parent;
    e.chain.addQuadratic(coefficient_s2_m5);
    return e;
}

// Two equal outlets behind one pipe: 20 = 1e6 (2x)^2 + 1e6 x^2, x^2 = 20/5e6, x = 0.002.
TEST(TreeSolver, SharesTheFlowOfTwoEqualOutletsAsByHand) {
    PipeTree tree;
    tree.edges = {quadraticEdge(-1, 1e6)};
    tree.outflows = {quadraticOutflow(0, 0.0, 1e6), quadraticOutflow(0, 0.0, 1e6)};
    TreeSolver solver(tree);
    const TreeSolution& s = solver.demandAtHead(20.0);
    ASSERT_EQ(s.state, TreeSolution::State::converged);
    EXPECT_NEAR(s.outflow_m3_s[0], 0.002, kSolved * 0.002);
    EXPECT_NEAR(s.outflow_m3_s[1], 0.002, kSolved * 0.002);
    EXPECT_NEAR(s.flow_m3_s, 0.004, kSolved * 0.004);
    EXPECT_NEAR(s.edgeEndHead_m[0], 20.0 - 16.0, 1e-6);
}

// Source 3 m below the datum, pump 33 - 5e5 q^2, suction 1e5 q^2, pipe 2e5 q^2, outlet 2e5 q^2 at 10 m:
// 20 = 1e6 q^2, q = sqrt(2e-5). Pump head 33 - 10 = 23.
TEST(TreeSolver, MeetsThePumpCurveAsByHand) {
    PipeTree tree;
    tree.sourceLevel_m = -3.0;
    tree.suction.addQuadratic(1e5);
    tree.edges = {quadraticEdge(-1, 2e5)};
    tree.outflows = {quadraticOutflow(0, 10.0, 2e5)};
    TreeSolver solver(tree);
    const TreeSolution& s = solver.solve(PolynomialHead({33.0, 0.0, -5e5}));
    ASSERT_EQ(s.state, TreeSolution::State::converged);
    EXPECT_NEAR(s.flow_m3_s, std::sqrt(2e-5), kSolved * 0.005);
    EXPECT_NEAR(s.pumpHead_m, 23.0, 1e-7);
    EXPECT_NEAR(s.rootHead_m, -3.0 + 23.0 - 2.0, 1e-7);
}

// Set level 10 m: offered 30 - 1e6 q^2 it holds back, 10 - 2 = 2e6 q^2, q = 0.002.
// Offered 12 it stands open: 12 - 2 = 3e6 q^2.
TEST(TreeSolver, HoldsTheSetPressureOnlyWhereMoreIsOffered) {
    PipeTree tree;
    tree.edges = {quadraticEdge(-1, 1e6)};
    tree.edges[0].regulator = Regulator{10.0, 0.0};
    tree.outflows = {quadraticOutflow(0, 2.0, 2e6)};
    TreeSolver solver(tree);
    const TreeSolution& held = solver.demandAtHead(30.0);
    ASSERT_EQ(held.state, TreeSolution::State::converged);
    EXPECT_TRUE(held.regulating[0]);
    EXPECT_NEAR(held.flow_m3_s, 0.002, kSolved * 0.002);
    EXPECT_NEAR(held.edgeEndHead_m[0], 10.0, 1e-12);
    const TreeSolution& open = solver.demandAtHead(12.0);
    ASSERT_EQ(open.state, TreeSolution::State::converged);
    EXPECT_FALSE(open.regulating[0]);
    EXPECT_NEAR(open.flow_m3_s, std::sqrt(10.0 / 3e6), kSolved * 0.002);
}

// An open regulator takes its least loss of 1 m: 12 - 1 - 2 = 3e6 q^2, q = sqrt(3e-6).
TEST(TreeSolver, TakesTheLeastLossOfAnOpenRegulator) {
    PipeTree tree;
    tree.edges = {quadraticEdge(-1, 1e6)};
    tree.edges[0].regulator = Regulator{10.0, 1.0};
    tree.outflows = {quadraticOutflow(0, 2.0, 2e6)};
    TreeSolver solver(tree);
    EXPECT_NEAR(solver.demandAtHead(12.0).flow_m3_s, std::sqrt(3e-6), kSolved * 0.002);
}

// Laminar flow by Hagen and Poiseuille: q = h pi g D^4/(128 nu L); 0.05 m over 100 m of 20 mm bore at 1e-6
// m2/s: 0.05 pi 9.80665 1.6e-7/0.0128 = 1.925531e-5 m3/s (Re 1226).
TEST(TreeSolver, FollowsHagenAndPoiseuilleInSlowFlow) {
    PipeTree tree;
    tree.edges.push_back({});
    tree.edges[0].chain.addPipe(0.02, 100.0, 1e-6, KinematicViscosity::fromSquareMetresPerSecond(1e-6));
    tree.outflows = {quadraticOutflow(0, 0.0, 0.0)};
    TreeSolver solver(tree);
    const TreeSolution& s = solver.demandAtHead(0.05);
    ASSERT_EQ(s.state, TreeSolution::State::converged);
    EXPECT_NEAR(s.flow_m3_s, 1.925531e-5, 1e-11);
}

// 10 m offered, the second outlet sits at 12 m: the first runs as if alone, 10 = 2.5e6 q^2, q = 0.002.
TEST(TreeSolver, GivesNoWaterAboveTheEnergyLine) {
    PipeTree tree;
    tree.edges = {quadraticEdge(-1, 5e5)};
    tree.outflows = {quadraticOutflow(0, 0.0, 2e6), quadraticOutflow(0, 12.0, 2e6)};
    TreeSolver solver(tree);
    const TreeSolution& s = solver.demandAtHead(10.0);
    ASSERT_EQ(s.state, TreeSolution::State::converged);
    EXPECT_NEAR(s.outflow_m3_s[0], 0.002, kSolved * 0.002);
    EXPECT_EQ(s.outflow_m3_s[1], 0.0);
}

// A spring of 4 m: 10 - 4 = 1.5e6 q^2, q = 0.002; a spring of 11 m stays shut.
TEST(TreeSolver, LosesTheSpringLoadOfACheckValve) {
    for (const double crack_m : {4.0, 11.0}) {
        PipeTree tree;
        tree.edges = {quadraticEdge(-1, 5e5)};
        tree.edges[0].chain.addCrack(crack_m);
        tree.outflows = {quadraticOutflow(0, 0.0, 1e6)};
        TreeSolver solver(tree);
        const TreeSolution& s = solver.demandAtHead(10.0);
        ASSERT_EQ(s.state, TreeSolution::State::converged);
        EXPECT_NEAR(s.flow_m3_s, crack_m < 10.0 ? 0.002 : 0.0, kSolved * 0.002);
    }
}

// Compensating from 10 m: at 40 m through 1e7 q^2 it holds 0.001 (30 m left); at 5 m, 5 = (1e7 + 1e7) q^2.
TEST(TreeSolver, CapsCompensatingEmittersAndFollowsTheRootBelow) {
    PipeTree tree;
    tree.edges = {quadraticEdge(-1, 1e7)};
    TreeOutflow o = quadraticOutflow(0, 0.0, 1e7);
    o.law.kind = OutflowLaw::Kind::compensating;
    tree.outflows = {o};
    TreeSolver solver(tree);
    const TreeSolution& full = solver.demandAtHead(40.0);
    ASSERT_EQ(full.state, TreeSolution::State::converged);
    EXPECT_NEAR(full.flow_m3_s, 0.001, 1e-15);
    EXPECT_NEAR(full.outflowHead_m[0], 30.0, 1e-9);
    EXPECT_NEAR(solver.demandAtHead(5.0).flow_m3_s, std::sqrt(5.0 / 2e7), kSolved * 0.001);
}

// The independent solver's bracket ends at 1e-13 m, ours at 1e-9 m: on flows that decides below one part in a
// million.
TEST(TreeSolver, AgreesWithAnIndependentSolverOnRandomTrees) {
    std::mt19937_64 random(20240611);
    constexpr double kAgree = 1e-6;
    int dry = 0, held = 0, capped = 0;
    for (int trial = 0; trial < 200; ++trial) {
        SCOPED_TRACE(trial);
        const reference::Network network = randomNetwork(random);
        const reference::State expected = reference::solve(network);
        ASSERT_TRUE(expected.solved);
        const PipeTree tree = pipeTreeOf(network);
        TreeSolver solver(tree);
        const TreeSolution& s = solver.solve(PolynomialHead(network.pump));
        ASSERT_EQ(s.state, TreeSolution::State::converged);
        EXPECT_NEAR(s.flow_m3_s, expected.flow_m3_s, kAgree * expected.flow_m3_s);
        EXPECT_NEAR(s.pumpHead_m, expected.pumpHead_m, kAgree * expected.pumpHead_m);
        EXPECT_NEAR(s.rootHead_m, expected.rootHead_m, kAgree * std::abs(expected.pumpHead_m));
        for (std::size_t i = 0; i < network.outlets.size(); ++i) {
            // An outlet that barely runs is judged against a thousandth of the pump's flow.
            const double scale = std::max(expected.outletFlow_m3_s[i], 1e-3 * expected.flow_m3_s);
            EXPECT_NEAR(s.outflow_m3_s[i], expected.outletFlow_m3_s[i], kAgree * scale) << "outlet " << i;
            EXPECT_NEAR(s.outflowHead_m[i], expected.outletHead_m[i], kAgree * expected.pumpHead_m)
                << "outlet " << i;
            dry += expected.outletFlow_m3_s[i] == 0.0;
            capped += network.outlets[i].compensating &&
                      expected.outletFlow_m3_s[i] == network.outlets[i].flowAt_m3_s;
        }
        for (std::size_t b = 0; b < network.branches.size(); ++b) {
            EXPECT_NEAR(s.edgeEndHead_m[b], expected.branchEndHead_m[b], kAgree * expected.pumpHead_m);
            held += s.regulating[b];
        }
        EXPECT_LT(s.energyResidual_m, 1e-8);
        EXPECT_LE(s.continuityResidual_m3_s, 1e-12 * s.flow_m3_s);
    }
    // The trees hold what they promise.
    EXPECT_GT(dry, 50);
    EXPECT_GT(held, 50);
    EXPECT_GT(capped, 50);
}

TEST(TreeSolver, DrawsWhatTheIndependentSolverDrawsAtAGivenHead) {
    std::mt19937_64 random(77);
    for (int trial = 0; trial < 30; ++trial) {
        SCOPED_TRACE(trial);
        const reference::Network network = randomNetwork(random, 1, 12);
        const PipeTree tree = pipeTreeOf(network);
        TreeSolver solver(tree);
        for (const double head_m : {3.0, 15.0, 45.0}) {
            const double expected = reference::demandAt(network, head_m).flow_m3_s;
            const TreeSolution& s = solver.demandAtHead(head_m);
            ASSERT_EQ(s.state, TreeSolution::State::converged);
            EXPECT_NEAR(s.flow_m3_s, expected, 1e-6 * std::max(expected, 1e-6));
        }
    }
}

TEST(TreeSolver, FindsTheSameAnswerFromAnyStart) {
    std::mt19937_64 random(5);
    constexpr double kSame = 1e-8;
    for (int trial = 0; trial < 100; ++trial) {
        SCOPED_TRACE(trial);
        const reference::Network network = randomNetwork(random);
        const PipeTree tree = pipeTreeOf(network);
        const PolynomialHead pump(network.pump);
        TreeSolver solver(tree);
        const TreeSolution usual = solver.solve(pump);
        ASSERT_EQ(usual.state, TreeSolution::State::converged);
        for (int start = 0; start < 6; ++start) {
            std::vector<double> flows;
            for (const auto& outlet : network.outlets) {
                const double share = std::uniform_real_distribution<double>(-4.0, 1.5)(random);
                flows.push_back(start == 0 ? 0.0 : outlet.flowAt_m3_s * std::pow(10.0, share));
            }
            solver.startFrom(flows);
            const TreeSolution& s = solver.solve(pump);
            ASSERT_EQ(s.state, TreeSolution::State::converged) << "start " << start;
            EXPECT_NEAR(s.flow_m3_s, usual.flow_m3_s, kSame * usual.flow_m3_s);
            for (std::size_t i = 0; i < flows.size(); ++i) {
                EXPECT_NEAR(s.outflow_m3_s[i], usual.outflow_m3_s[i], kSame * usual.flow_m3_s);
            }
        }
    }
}

// What two solutions of one state may differ by (share): the solver stops at 1e-9 m.
constexpr double kNoise = 1e-8;

TEST(TreeLaws, MoreStaticHeadNeverGivesMoreFlow) {
    std::mt19937_64 random(11);
    for (int trial = 0; trial < 60; ++trial) {
        SCOPED_TRACE(trial);
        reference::Network network = randomNetwork(random);
        double last = std::numeric_limits<double>::infinity();
        for (int step = 0; step < 5; ++step) {
            const PipeTree tree = pipeTreeOf(network);
            TreeSolver solver(tree);
            const TreeSolution& s = solver.solve(PolynomialHead(network.pump));
            ASSERT_EQ(s.state, TreeSolution::State::converged);
            EXPECT_LE(s.flow_m3_s, last * (1.0 + kNoise));
            last = s.flow_m3_s;
            network.sourceLevel_m -= 2.5;
        }
    }
}

TEST(TreeLaws, OpeningAZoneNeverRaisesAnotherZonesPressure) {
    std::mt19937_64 random(12);
    for (int trial = 0; trial < 40; ++trial) {
        SCOPED_TRACE(trial);
        const reference::Network network = randomNetwork(random, 2, 15);
        const PipeTree allOpen = pipeTreeOf(network);
        TreeSolver openSolver(allOpen);
        const TreeSolution open = openSolver.solve(PolynomialHead(network.pump));
        for (std::size_t shut = 0; shut < network.outlets.size(); ++shut) {
            reference::Network fewer = network;
            fewer.outlets[shut].level_m = 1e5; // out of reach is as good as shut
            const PipeTree tree = pipeTreeOf(fewer);
            TreeSolver solver(tree);
            const TreeSolution& s = solver.solve(PolynomialHead(network.pump));
            ASSERT_EQ(s.state, TreeSolution::State::converged);
            for (std::size_t i = 0; i < network.outlets.size(); ++i) {
                if (i == shut) continue;
                EXPECT_LE(open.outflowHead_m[i], s.outflowHead_m[i] + 1e-7);
            }
        }
    }
}

// Two equal pumps side by side on two equal trees from one outlet: each tree as if alone, double flow, equal
// head.
TEST(TreeLaws, TwoEqualPumpsInParallelGiveDoubleFlowAtEqualHead) {
    std::mt19937_64 random(13);
    for (int trial = 0; trial < 40; ++trial) {
        SCOPED_TRACE(trial);
        reference::Network single = randomNetwork(random, 1, 10);
        single.suction = {};
        const PipeTree one = pipeTreeOf(single);
        TreeSolver alone(one);
        const TreeSolution& a = alone.solve(PolynomialHead(single.pump));
        reference::Network twice = single;
        const int branches = static_cast<int>(single.branches.size());
        for (reference::Branch b : single.branches) {
            if (b.parent >= 0) b.parent += branches;
            twice.branches.push_back(b);
        }
        for (reference::Outlet o : single.outlets) {
            o.branch += branches;
            twice.outlets.push_back(o);
        }
        const PipeTree two = pipeTreeOf(twice);
        TreeSolver together(two);
        const TreeSolution& b = together.solve(PolynomialHead(single.pump, 2.0));
        ASSERT_EQ(a.state, TreeSolution::State::converged);
        ASSERT_EQ(b.state, TreeSolution::State::converged);
        EXPECT_NEAR(b.flow_m3_s, 2.0 * a.flow_m3_s, kNoise * a.flow_m3_s);
        EXPECT_NEAR(b.pumpHead_m, a.pumpHead_m, kNoise * a.pumpHead_m);
    }
}

// Along the way to every running outlet: source + pump = losses + what regulators hold back + level +
// outlet's head.
TEST(TreeLaws, EnergyClosesAlongEveryWay) {
    std::mt19937_64 random(14);
    for (int trial = 0; trial < 60; ++trial) {
        SCOPED_TRACE(trial);
        const reference::Network network = randomNetwork(random);
        const PipeTree tree = pipeTreeOf(network);
        TreeSolver solver(tree);
        const TreeSolution& s = solver.solve(PolynomialHead(network.pump));
        for (std::size_t i = 0; i < network.outlets.size(); ++i) {
            const reference::Outlet& o = network.outlets[i];
            const double share = s.outflow_m3_s[i] / o.flowAt_m3_s;
            if (s.outflow_m3_s[i] <= 0.0 || (o.compensating && share >= 1.0)) continue;
            double energy_m = o.level_m + o.headAt_m * std::pow(share, 1.0 / o.exponent);
            bool held = false;
            for (int b = o.branch; b >= 0; b = network.branches[static_cast<std::size_t>(b)].parent) {
                const auto e = static_cast<std::size_t>(b);
                held = held || s.regulating[e];
                if (held) break; // above a working regulator there is energy to spare
                energy_m += reference::wayLoss_m(network, network.branches[e].way, s.edgeFlow_m3_s[e]);
                if (network.branches[e].regulator) energy_m += network.branches[e].regulator->leastLoss_m;
            }
            if (held) continue;
            energy_m += reference::wayLoss_m(network, network.suction, s.flow_m3_s);
            EXPECT_NEAR(energy_m, network.sourceLevel_m + s.pumpHead_m, 1e-6) << "outlet " << i;
        }
    }
}

// Losses with the square of flow only: levels and pump heads r^2, the pump's flows r: every flow r
// (affinity).
TEST(TreeLaws, FlowsScaleWithSpeedWhereEveryHeadScalesWithItsSquare) {
    std::mt19937_64 random(15);
    const double r = 0.8;
    for (int trial = 0; trial < 30; ++trial) {
        SCOPED_TRACE(trial);
        reference::Network network = randomNetwork(random);
        const auto plain = [](reference::Way& way) {
            way.pipes.clear();
            way.filters.clear();
            way.crack_m = 0.0;
            way.fittings.push_back({2.0, 0.03});
        };
        plain(network.suction);
        for (auto& b : network.branches) {
            plain(b.way);
            b.regulator.reset();
        }
        for (auto& o : network.outlets) {
            o.exponent = 0.5;
            o.compensating = false;
        }
        reference::Network slow = network;
        slow.sourceLevel_m *= r * r;
        for (auto& o : slow.outlets)
            o.level_m *= r * r;
        for (std::size_t k = 0; k < slow.pump.size(); ++k)
            slow.pump[k] *= r * r / std::pow(r, k);
        const PipeTree tree = pipeTreeOf(network), slowTree = pipeTreeOf(slow);
        TreeSolver solver(tree), slowSolver(slowTree);
        const TreeSolution& a = solver.solve(PolynomialHead(network.pump));
        const TreeSolution& b = slowSolver.solve(PolynomialHead(slow.pump));
        ASSERT_EQ(b.state, TreeSolution::State::converged);
        for (std::size_t i = 0; i < network.outlets.size(); ++i) {
            EXPECT_NEAR(b.outflow_m3_s[i], r * a.outflow_m3_s[i], kNoise * a.flow_m3_s);
        }
    }
}

TEST(TreeSolver, BeginsAsNotRun) {
    PipeTree tree;
    tree.outflows = {quadraticOutflow(-1, 0.0, 1e6)};
    EXPECT_EQ(TreeSolver(tree).solution().state, TreeSolution::State::notRun);
}

// An outlet at the pump's own outlet: 20 = 5e6 x^2.
TEST(TreeSolver, ServesAnOutletAtThePumpItself) {
    PipeTree tree;
    tree.outflows = {quadraticOutflow(-1, 0.0, 5e6)};
    TreeSolver solver(tree);
    EXPECT_NEAR(solver.demandAtHead(20.0).flow_m3_s, 0.002, kSolved * 0.002);
}

} // namespace
} // namespace headmark
