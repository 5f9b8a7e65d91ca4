#include "support/gsl_tree.h"

#include <gsl/gsl_deriv.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_math.h>
#include <gsl/gsl_poly.h>
#include <gsl/gsl_roots.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <memory>

namespace reference {

namespace {

using Equation = std::function<double(double)>;

double call(double x, void* equation) { return (*static_cast<const Equation*>(equation))(x); }

// Root of a function of opposite signs at both ends.
double rootBetween(const Equation& equation, double low, double high) {
    const std::unique_ptr<gsl_root_fsolver, decltype(&gsl_root_fsolver_free)> solver(
        gsl_root_fsolver_alloc(gsl_root_fsolver_brent), gsl_root_fsolver_free);
    gsl_function f{call, const_cast<Equation*>(&equation)};
    if (gsl_root_fsolver_set(solver.get(), &f, low, high) != GSL_SUCCESS) return GSL_NAN;
    for (int i = 0; i < 200; ++i) {
        gsl_root_fsolver_iterate(solver.get());
        const double a = gsl_root_fsolver_x_lower(solver.get()), b = gsl_root_fsolver_x_upper(solver.get());
        if (gsl_root_test_interval(a, b, 1e-13, 1e-15) == GSL_SUCCESS) break;
    }
    return gsl_root_fsolver_root(solver.get());
}

// Colebrook and White by putting the right side in again until it stands still.
double turbulent(double reynolds, double relativeRoughness) {
    double inverseRoot = 7.0;
    for (int i = 0; i < 100; ++i) {
        const double next = -2.0 * std::log10(relativeRoughness / 3.7 + 2.51 * inverseRoot / reynolds);
        const double change = std::abs(next - inverseRoot);
        inverseRoot = next;
        if (change < 1e-15 * next) break;
    }
    return 1.0 / (inverseRoot * inverseRoot);
}

struct Wall {
    double relativeRoughness;
};
double turbulentOf(double reynolds, void* wall) {
    return turbulent(reynolds, static_cast<const Wall*>(wall)->relativeRoughness);
}

// The cubic through value and slope at Re 2000 and 4000, in Newton's divided differences.
double between(double reynolds, double relativeRoughness) {
    Wall wall{relativeRoughness};
    const gsl_function f{turbulentOf, &wall};
    double slopeB = 0.0, error = 0.0;
    gsl_deriv_central(&f, 4000.0, 4.0, &slopeB, &error);
    const double a = 2000.0, b = 4000.0, fa = 0.032, slopeA = -0.032 / 2000.0;
    const double fb = turbulent(b, relativeRoughness);
    const double ab = (fb - fa) / (b - a);
    const double aab = (ab - slopeA) / (b - a), abb = (slopeB - ab) / (b - a);
    const double aabb = (abb - aab) / (b - a);
    const double u = reynolds - a;
    return fa + u * (slopeA + u * (aab + (reynolds - b) * aabb));
}

class Solver {
  public:
    explicit Solver(const Network& network)
        : n_(network), children_(network.branches.size() + 1), outlets_(network.branches.size() + 1),
          weight_(network.branches.size() + 1, 0), setting_(network.branches.size()) {
        for (std::size_t i = 0; i < n_.outlets.size(); ++i) {
            outlets_[node(n_.outlets[i].branch)].push_back(i);
            ++weight_[node(n_.outlets[i].branch)];
        }
        for (std::size_t b = n_.branches.size(); b-- > 0;) {
            weight_[node(n_.branches[b].parent)] += weight_[b + 1];
        }
        for (std::size_t b = 0; b < n_.branches.size(); ++b) {
            if (weight_[b + 1] == 0) continue; // nothing behind it
            auto& siblings = children_[node(n_.branches[b].parent)];
            siblings.push_back(b);
            // The branch with most outlets behind it goes first: nesting stays shallow.
            if (weight_[b + 1] > weight_[siblings.front() + 1]) std::swap(siblings.front(), siblings.back());
        }
    }

    State solve(const Equation& pumpHead_m) {
        State s;
        s.outletFlow_m3_s.assign(n_.outlets.size(), 0.0);
        s.outletHead_m.assign(n_.outlets.size(), 0.0);
        s.branchFlow_m3_s.assign(n_.branches.size(), 0.0);
        s.branchEndHead_m.assign(n_.branches.size(), 0.0);
        const Equation shortOf = [&](double far) {
            const Top top = atNode(0, far);
            return top.head_m -
                   (n_.sourceLevel_m + pumpHead_m(top.flow_m3_s) - wayLoss_m(n_, n_.suction, top.flow_m3_s));
        };
        const double high = n_.sourceLevel_m + pumpHead_m(0.0);
        const double far = rootBelow(shortOf, high);
        if (!std::isfinite(far)) return s;
        const Top top = atNode(0, far);
        s.flow_m3_s = top.flow_m3_s;
        s.rootHead_m = top.head_m;
        s.pumpHead_m = pumpHead_m(top.flow_m3_s);
        fill(0, top.head_m, s);
        s.solved = true;
        return s;
    }

  private:
    struct Top {
        double head_m, flow_m3_s;
    };
    struct Setting { // the state behind a working regulator, the same whatever is before it
        double far_m, flow_m3_s;
    };

    static std::size_t node(int branch) { return static_cast<std::size_t>(branch + 1); }

    // The equation rises and is not negative at `high`.
    static double rootBelow(const Equation& equation, double high) {
        double step = 1.0, low = high - step;
        while (equation(low) > 0.0) {
            high = low;
            step *= 3.0;
            low -= step;
            if (step > 1e7) return GSL_NAN;
        }
        return rootBetween(equation, low, high);
    }

    static double outletFlow(const Outlet& o, double head_m) {
        const double share = (head_m - o.level_m) / o.headAt_m;
        if (share <= 0.0) return 0.0;
        if (o.compensating) return share >= 1.0 ? o.flowAt_m3_s : o.flowAt_m3_s * std::sqrt(share);
        return o.flowAt_m3_s * std::pow(share, o.exponent);
    }

    // Head and flow of a node from the head at the far end of its main way.
    Top atNode(std::size_t at, double far_m) {
        Top t{far_m, 0.0};
        const auto& ways = children_[at];
        if (!ways.empty()) t = atTop(ways.front(), far_m);
        for (std::size_t i = 1; i < ways.size(); ++i)
            t.flow_m3_s += atTop(ways[i], farOf(ways[i], t.head_m)).flow_m3_s;
        for (std::size_t o : outlets_[at])
            t.flow_m3_s += outletFlow(n_.outlets[o], t.head_m);
        return t;
    }

    const Setting& setting(std::size_t b) {
        if (!setting_[b]) {
            const double set_m = n_.branches[b].regulator->level_m + n_.branches[b].regulator->set_m;
            const double far = rootBelow([&](double x) { return atNode(b + 1, x).head_m - set_m; }, set_m);
            setting_[b] = Setting{far, atNode(b + 1, far).flow_m3_s};
        }
        return *setting_[b];
    }

    // The same at the top of a branch. Beyond a regulator's setting, `far` counts the head it takes away.
    Top atTop(std::size_t b, double far_m) {
        const Branch& branch = n_.branches[b];
        if (branch.regulator) {
            const Regulator& r = *branch.regulator;
            const Setting& s = setting(b);
            if (far_m > s.far_m) {
                const double before_m = r.level_m + r.set_m + r.leastLoss_m + (far_m - s.far_m);
                return {before_m + wayLoss_m(n_, branch.way, s.flow_m3_s), s.flow_m3_s};
            }
        }
        Top t = atNode(b + 1, far_m);
        if (branch.regulator) t.head_m += branch.regulator->leastLoss_m;
        t.head_m += wayLoss_m(n_, branch.way, t.flow_m3_s);
        return t;
    }

    double farOf(std::size_t b, double topHead_m) {
        return rootBelow([&](double x) { return atTop(b, x).head_m - topHead_m; }, topHead_m);
    }

    void fill(std::size_t at, double head_m, State& s) {
        for (std::size_t o : outlets_[at]) {
            s.outletHead_m[o] = head_m;
            s.outletFlow_m3_s[o] = outletFlow(n_.outlets[o], head_m);
        }
        for (std::size_t b : children_[at]) {
            const Branch& branch = n_.branches[b];
            const double flow = atTop(b, farOf(b, head_m)).flow_m3_s;
            double end_m = head_m - wayLoss_m(n_, branch.way, flow);
            if (branch.regulator) {
                end_m = std::min(end_m - branch.regulator->leastLoss_m,
                                 branch.regulator->level_m + branch.regulator->set_m);
            }
            s.branchFlow_m3_s[b] = flow;
            s.branchEndHead_m[b] = end_m;
            fill(b + 1, end_m, s);
        }
    }

    const Network& n_;
    std::vector<std::vector<std::size_t>> children_,
        outlets_; // per node: 0 the pump's outlet, b + 1 a branch's end
    std::vector<int> weight_;
    std::vector<std::optional<Setting>> setting_;
};

} // namespace

double frictionFactor(double reynolds, double relativeRoughness) {
    if (reynolds <= 2000.0) return 64.0 / reynolds;
    if (reynolds < 4000.0) return between(reynolds, relativeRoughness);
    return turbulent(reynolds, relativeRoughness);
}

double wayLoss_m(const Network& network, const Way& way, double flow_m3_s) {
    double sum_m = way.crack_m;
    if (flow_m3_s <= 0.0) return sum_m;
    const double g = network.gravity_m_s2;
    for (const Pipe& p : way.pipes) {
        const double v = flow_m3_s / (M_PI_4 * p.bore_m * p.bore_m);
        const double f = frictionFactor(v * p.bore_m / network.viscosity_m2_s, p.roughness_m / p.bore_m);
        sum_m += f * p.length_m / p.bore_m * v * v / (2.0 * g);
    }
    for (const Fitting& k : way.fittings) {
        const double v = flow_m3_s / (M_PI_4 * k.bore_m * k.bore_m);
        sum_m += k.k * v * v / (2.0 * g);
    }
    for (double kv : way.kv_m3_h)
        sum_m += 1e5 * gsl_pow_2(3600.0 * flow_m3_s / kv) / (1000.0 * g);
    for (const Filter& f : way.filters)
        sum_m += f.loss_m * std::pow(flow_m3_s / f.at_m3_s, f.exponent);
    return sum_m;
}

State solve(const Network& network) {
    gsl_set_error_handler_off();
    return Solver(network).solve([&](double flow_m3_s) {
        return gsl_poly_eval(network.pump.data(), static_cast<int>(network.pump.size()), flow_m3_s);
    });
}

State demandAt(const Network& network, double pumpHead_m) {
    gsl_set_error_handler_off();
    return Solver(network).solve([&](double) { return pumpHead_m; });
}

} // namespace reference
