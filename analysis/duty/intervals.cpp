#include "analysis/duty/intervals.h"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

namespace headmark {

namespace {

constexpr double kNormal95 = 1.959963984540054; // two-sided 95 % of the normal distribution

// Flow, head, NPSH available, NPSH margin.
using Figures = std::array<double, 4>;
constexpr std::size_t kMargin = 3;

class Shifted final : public HeadSource {
  public:
    Shifted(const HeadSource& base, double head_m) : base_(base), head_m_(head_m) {}
    [[nodiscard]] LossAt at(double flow_m3_s) const override {
        LossAt h = base_.at(flow_m3_s);
        h.loss_m += head_m_;
        return h;
    }

  private:
    const HeadSource& base_;
    double head_m_;
};

// Follows one duty point while site and curve are varied a little.
class Varied {
  public:
    Varied(const CaseSolver& solver, const Case& setting)
        : solver_(solver), setting_(solver.settingOf(setting)),
          pump_(solver.pump().atSpeed(setting.speedShare)) {
        const SiteTree tree = solver.model().tree(setting_, solver.returnKv_m3_h());
        TreeSolver treeSolver(tree.tree);
        const Crossings c = findCrossings(treeSolver, pump_.head);
        if (const Crossing* duty = c.duty()) {
            duty_ = *duty;
            found_ = true;
        }
        // The falling piece the duty lies on.
        from_ = std::max(0.0, pump_.head.least_m3_s());
        to_ = pump_.head.greatest_m3_s();
        for (double turn : pump_.head.turningPoints()) {
            if (turn <= duty_.flow_m3_s) from_ = std::max(from_, turn);
            if (turn > duty_.flow_m3_s) to_ = std::min(to_, turn);
        }
        found_ = found_ && pump_.head.at(to_) <= pump_.head.at(from_);
    }

    [[nodiscard]] bool found() const { return found_; }
    [[nodiscard]] const PumpModel& pump() const { return pump_; }
    [[nodiscard]] double flow_m3_s() const { return duty_.flow_m3_s; }
    [[nodiscard]] double from_m3_s() const { return from_; }
    [[nodiscard]] double to_m3_s() const { return to_; }

    // The figures at a draw; empty if the duty is lost.
    std::optional<Figures> at(const SiteDraw& draw, const PumpCurve& head, double headShift_m) const {
        const SiteTree tree = solver_.model().tree(setting_, solver_.returnKv_m3_h(), draw);
        if (tree.tree.outflows.empty()) { // shut: only the head can vary
            const double h = head.at(0.0) + headShift_m;
            const double npsh = npshAvailable_m(solver_.model(), tree.tree, 0.0);
            return Figures{0.0, h, npsh, npsh};
        }
        TreeSolver treeSolver(tree.tree);
        if (duty_.solution.outflow_m3_s.size() == tree.tree.outflows.size()) {
            treeSolver.startFrom(duty_.solution.outflow_m3_s);
        }
        const FallingHead falling(head, 1.0, from_, to_);
        const Shifted source(falling, headShift_m);
        const TreeSolution& s = treeSolver.solve(source);
        if (s.state != TreeSolution::State::converged || s.flow_m3_s <= 0.0) return std::nullopt;
        if (s.flow_m3_s > to_ * (1.0 + 1e-9) || s.flow_m3_s < from_ * (1.0 - 1e-9)) outside_ = true;
        const double available = npshAvailable_m(solver_.model(), tree.tree, s.flow_m3_s);
        const double required = pump_.npshRequired ? pump_.npshRequired->at(s.flow_m3_s) : 0.0;
        return Figures{s.flow_m3_s, s.pumpHead_m, available, available - required};
    }

    // Whether any draw so far had its duty outside the read range.
    [[nodiscard]] bool takeOutside() const {
        const bool was = outside_;
        outside_ = false;
        return was;
    }

    [[nodiscard]] bool concerns(const SiteParameter& p) const {
        const auto& zones = solver_.model().site().zones;
        for (std::size_t z = 0; z < zones.size(); ++z) {
            if (setting_.open[z]) continue;
            const std::string run = "zones[" + std::to_string(z) + "].";
            if (p.of.starts_with(run)) return false;
            const bool ofZone =
                p.kind == SiteParameter::Kind::outletLevel || p.kind == SiteParameter::Kind::emitter;
            if (ofZone && p.of == zones[z].name) return false;
        }
        return true;
    }

  private:
    const CaseSolver& solver_;
    CaseSetting setting_;
    PumpModel pump_;
    Crossing duty_;
    bool found_ = false;
    double from_ = 0.0, to_ = 0.0;
    mutable bool outside_ = false;
};

DutyIntervals made(const Figures& low, const Figures& high, bool margin) {
    DutyIntervals out;
    out.ok = true;
    out.flow = {Flow::fromCubicMetresPerSecond(low[0]), Flow::fromCubicMetresPerSecond(high[0])};
    out.head = {Head::fromMetres(low[1]), Head::fromMetres(high[1])};
    out.npshAvailable = {Head::fromMetres(low[2]), Head::fromMetres(high[2])};
    if (margin) out.npshMargin = Interval95<Head>{Head::fromMetres(low[3]), Head::fromMetres(high[3])};
    return out;
}

} // namespace

DutyIntervals linearIntervals(const CaseSolver& solver, const Case& setting) {
    const Varied varied(solver, setting);
    if (!varied.found()) return {};
    const PumpCurve& head = varied.pump().head;
    const auto centre = varied.at({}, head, 0.0);
    if (!centre) return {};
    Figures variance{};
    const auto add = [&](const std::optional<Figures>& up, const std::optional<Figures>& down) {
        if (!up && !down) return false;
        for (std::size_t k = 0; k < variance.size(); ++k) {
            // Where one side loses the duty the other side's difference stands for both.
            const double u = up && down ? 0.5 * ((*up)[k] - (*down)[k])
                             : up       ? (*up)[k] - (*centre)[k]
                                        : (*down)[k] - (*centre)[k];
            variance[k] += u * u;
        }
        return true;
    };
    const auto& parameters = solver.model().parameters();
    for (std::size_t j = 0; j < parameters.size(); ++j) {
        if (!varied.concerns(parameters[j])) continue;
        SiteDraw draw(parameters.size(), 0.0);
        draw[j] = 1.0;
        const auto up = varied.at(draw, head, 0.0);
        draw[j] = -1.0;
        if (!add(up, varied.at(draw, head, 0.0))) return {};
    }
    const double sigma_m = head.sigmaAt(varied.flow_m3_s());
    if (sigma_m > 0.0 && !add(varied.at({}, head, sigma_m), varied.at({}, head, -sigma_m))) return {};
    if (varied.pump().npshRequired) {
        const double ofRequired_m = varied.pump().npshRequired->sigmaAt(varied.flow_m3_s());
        variance[kMargin] += ofRequired_m * ofRequired_m;
    }
    Figures low{}, high{};
    for (std::size_t k = 0; k < variance.size(); ++k) {
        const double half = kNormal95 * std::sqrt(variance[k]);
        low[k] = (*centre)[k] - half;
        high[k] = (*centre)[k] + half;
    }
    low[0] = std::max(0.0, low[0]);
    return made(low, high, varied.pump().npshRequired.has_value());
}

DutyIntervals monteCarloIntervals(const CaseSolver& solver, const Case& setting, int draws,
                                  std::uint32_t seed) {
    const Varied varied(solver, setting);
    if (!varied.found() || draws < 40) return {};
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal;
    const PumpCurve& head = varied.pump().head;
    const Eigen::MatrixXd& covariance = head.base().covariance();
    Eigen::MatrixXd root;
    if (covariance.size() > 0) {
        // Square root by eigenvalues: a fit's covariance may be singular to rounding.
        const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(covariance);
        root = eigen.eigenvectors() * eigen.eigenvalues().cwiseMax(0.0).cwiseSqrt().asDiagonal();
    }
    std::array<std::vector<double>, 4> found;
    int lost = 0;
    SiteDraw draw(solver.model().parameters().size());
    for (int i = 0; i < draws; ++i) {
        for (double& z : draw)
            z = normal(random);
        PumpCurve drawn = head;
        if (root.size() > 0) {
            Eigen::VectorXd z(root.cols());
            for (double& v : z)
                v = normal(random);
            drawn = PumpCurve(head.base().withCoefficients(head.base().coefficients() + root * z))
                        .scaled(head.flowFactor(), head.valueFactor());
        }
        auto figures = varied.at(draw, drawn, 0.0);
        if (!figures) {
            ++lost;
            continue;
        }
        if (varied.pump().npshRequired) {
            (*figures)[kMargin] -= normal(random) * varied.pump().npshRequired->sigmaAt((*figures)[0]);
        }
        for (std::size_t k = 0; k < found.size(); ++k)
            found[k].push_back((*figures)[k]);
    }
    if (found[0].size() < 40) return {};
    Figures low{}, high{};
    for (std::size_t k = 0; k < found.size(); ++k) {
        std::sort(found[k].begin(), found[k].end());
        const auto at = [&](double share) {
            return found[k][static_cast<std::size_t>(share * static_cast<double>(found[k].size() - 1) + 0.5)];
        };
        low[k] = at(0.025);
        high[k] = at(0.975);
    }
    DutyIntervals out = made(low, high, varied.pump().npshRequired.has_value());
    out.draws = static_cast<int>(found[0].size());
    out.lostDraws = lost;
    return out;
}

} // namespace headmark
