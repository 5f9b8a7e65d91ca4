#pragma once
// A second solver of pipe trees, written apart from analysis/ to check it: the same physics from raw figures
// (bores, lengths, walls, K, Kv, levels), solved by nested one-dimensional root finding of the GNU Scientific
// Library (gsl_root_fsolver_brent) instead of Newton's method on the whole tree. Nothing of analysis/ is
// used.
//
// Heads are levels of the energy line in m, flows in m3/s. Idea: the head at the far end of a way of the tree
// fixes everything behind the way's top, and the head at the top rises with it; side branches are matched to
// the head of their node the same way.

#include <cstddef>
#include <optional>
#include <vector>

namespace reference {

struct Pipe {
    double bore_m, length_m, roughness_m;
};
struct Fitting { // h = k v^2/(2g)
    double k, bore_m;
};
struct Filter { // h = loss (q/at)^exponent
    double loss_m, at_m3_s, exponent;
};

// Parts in series; `crack_m` must be there before water flows and stays lost while it does.
struct Way {
    std::vector<Pipe> pipes;
    std::vector<Fitting> fittings;
    std::vector<double> kv_m3_h; // h = 1e5 (3600 q/Kv)^2/(1000 g)
    std::vector<Filter> filters;
    double crack_m = 0.0;
};

struct Regulator {
    double level_m, set_m, leastLoss_m;
};

struct Branch {
    int parent = -1; // -1: the pump's outlet
    Way way;
    std::optional<Regulator> regulator; // at its end
};

struct Outlet {
    int branch = -1;
    double level_m = 0.0;
    double flowAt_m3_s = 0.0, headAt_m = 0.0, exponent = 0.5; // q = flowAt (h/headAt)^exponent
    bool compensating = false;                                // root law below headAt, flowAt from there on
};

struct Network {
    double gravity_m_s2 = 9.80665;
    double viscosity_m2_s = 1.138e-6;
    double sourceLevel_m = 0.0;
    Way suction;
    std::vector<Branch> branches; // parents before children
    std::vector<Outlet> outlets;
    std::vector<double> pump; // head in m = sum pump[k] q^k, falling
};

struct State {
    bool solved = false;
    double flow_m3_s = 0.0, pumpHead_m = 0.0, rootHead_m = 0.0;
    std::vector<double> outletFlow_m3_s, outletHead_m, branchFlow_m3_s, branchEndHead_m;
};

[[nodiscard]] State solve(const Network& network);

// What the network draws with a constant head at the pump.
[[nodiscard]] State demandAt(const Network& network, double pumpHead_m);

// Loss of one way, and Darcy's friction factor, for checks of their own.
[[nodiscard]] double wayLoss_m(const Network& network, const Way& way, double flow_m3_s);
[[nodiscard]] double frictionFactor(double reynolds, double relativeRoughness);

} // namespace reference
