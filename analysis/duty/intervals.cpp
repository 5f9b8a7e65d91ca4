#include "analysis/duty/intervals.h"

#include "analysis/duty/held_duty.h"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

namespace headmark {

namespace {

constexpr double kNormal95 = 1.959963984540054; // two-sided 95 % of the normal distribution

// Empty where no curve tells.
enum Figure : std::size_t { kFlow, kHead, kAvailable, kMargin, kEfficiency, kShaft, kInput, kFigureCount };
using Figures = std::array<std::optional<double>, kFigureCount>;

// The whole curve moved up.
PumpCurve moved(const PumpCurve& curve, double up) {
    Eigen::VectorXd coefficients = curve.base().coefficients();
    coefficients[0] += up / curve.valueFactor(); // of the constant among the Legendre polynomials
    return PumpCurve(curve.base().withCoefficients(std::move(coefficients)))
        .scaled(curve.flowFactor(), curve.valueFactor());
}

// Draws of one curve from the covariance of its coefficients.
class CurveDraws {
  public:
    explicit CurveDraws(const PumpCurve& curve) : curve_(curve) {
        const Eigen::MatrixXd& covariance = curve.base().covariance();
        if (covariance.size() == 0) return;
        // Square root by eigenvalues: a fit's covariance may be singular to rounding.
        const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(covariance);
        root_ = eigen.eigenvectors() * eigen.eigenvalues().cwiseMax(0.0).cwiseSqrt().asDiagonal();
    }

    template <class Random>
    [[nodiscard]] PumpCurve draw(Random& random) const {
        if (root_.size() == 0) return curve_;
        std::normal_distribution<double> normal;
        Eigen::VectorXd z(root_.cols());
        for (double& v : z)
            v = normal(random);
        return PumpCurve(curve_.base().withCoefficients(curve_.base().coefficients() + root_ * z))
            .scaled(curve_.flowFactor(), curve_.valueFactor());
    }

  private:
    PumpCurve curve_;
    Eigen::MatrixXd root_;
};

// Every curve of a pump, each by itself.
class PumpDraws {
  public:
    explicit PumpDraws(const PumpModel& pump) : pump_(pump), head_(pump.head) {
        if (pump.efficiency) efficiency_.emplace(*pump.efficiency);
        if (pump.power) power_.emplace(*pump.power);
        if (pump.npshRequired) npshRequired_.emplace(*pump.npshRequired);
    }

    template <class Random>
    [[nodiscard]] PumpModel draw(Random& random) const {
        PumpModel drawn = pump_;
        drawn.head = head_.draw(random);
        if (efficiency_) drawn.efficiency = efficiency_->draw(random);
        if (power_) drawn.power = power_->draw(random);
        if (npshRequired_) drawn.npshRequired = npshRequired_->draw(random);
        return drawn;
    }

  private:
    PumpModel pump_;
    CurveDraws head_;
    std::optional<CurveDraws> efficiency_, power_, npshRequired_;
};

// Follows one duty point while site and curve are varied a little.
class Varied {
  public:
    Varied(const CaseSolver& solver, const Case& setting)
        : solver_(solver), setting_(solver.settingOf(setting)),
          pump_(solver.pump().atSpeed(setting.speedShare)) {
        const CaseSolver::Duty found = solver.duty(setting);
        if (found.crossing) {
            duty_ = *found.crossing;
            found_ = true;
        }
        held_ = solver.heldOutlet_m().has_value() && found.speedShare < setting.speedShare;
        if (held_) pump_ = solver.pump().atSpeed(found.speedShare);
        spareSpeed_ = setting.speedShare / found.speedShare;
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

    // The figures at a draw; empty if the duty is lost.
    std::optional<Figures> at(const SiteDraw& draw, const PumpModel& pump) const {
        const SiteTree tree = solver_.model().tree(setting_, solver_.returnKv_m3_h(), draw);
        TreeSolver treeSolver(tree.tree);
        if (held_) {
            if (const auto held = heldAt(tree, treeSolver, pump)) return held;
        }
        if (tree.tree.outflows.empty()) return figures(tree, pump, 0.0, pump.head.at(0.0)); // shut
        if (duty_.solution.outflow_m3_s.size() == tree.tree.outflows.size()) {
            treeSolver.startFrom(duty_.solution.outflow_m3_s);
        }
        const FallingHead falling(pump.head, 1.0, from_, to_);
        const TreeSolution& s = treeSolver.solve(falling);
        if (s.state != TreeSolution::State::converged || s.flow_m3_s <= 0.0) return std::nullopt;
        return figures(tree, pump, s.flow_m3_s, s.pumpHead_m);
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
    // The drive answers what is varied by its speed, up to full speed.
    std::optional<Figures> heldAt(const SiteTree& tree, TreeSolver& treeSolver, const PumpModel& pump) const {
        const PumpModel full = pump.atSpeed(spareSpeed_);
        const HeldDuty held = findHeldDuty(treeSolver, full.head, 1.0, *solver_.heldOutlet_m());
        if (held.speed.where != SpeedAt::Where::held) return std::nullopt;
        const Crossing& there = held.crossings.all.front();
        return figures(tree, full.atSpeed(held.speed.share), there.flow_m3_s, there.head_m);
    }

    Figures figures(const SiteTree& tree, const PumpModel& pump, double flow_m3_s, double head_m) const {
        const Density density = solver_.model().water().density;
        Figures f;
        f[kFlow] = flow_m3_s;
        f[kHead] = head_m;
        f[kAvailable] = npshAvailable_m(solver_.model(), tree.tree, flow_m3_s);
        if (pump.npshRequired) f[kMargin] = *f[kAvailable] - pump.npshRequired->at(flow_m3_s);
        f[kEfficiency] = pump.efficiencyAt(flow_m3_s, head_m, density);
        f[kShaft] = pump.shaftAt_W(flow_m3_s, head_m, density);
        f[kInput] = pump.inputAt_W(flow_m3_s, head_m, density);
        return f;
    }

    const CaseSolver& solver_;
    CaseSetting setting_;
    PumpModel pump_;
    Crossing duty_;
    bool found_ = false;
    bool held_ = false; // a drive holds the set point; `pump_` is at its speed, full speed so much faster:
    double spareSpeed_ = 1.0;
    double from_ = 0.0, to_ = 0.0;
};

using Ranges = std::array<std::optional<std::pair<double, double>>, kFigureCount>;

template <class Q, class Make>
std::optional<Interval95<Q>> intervalOf(const Ranges& ranges, Figure figure, Make make) {
    if (!ranges[figure]) return std::nullopt;
    return Interval95<Q>{make(ranges[figure]->first), make(ranges[figure]->second)};
}

// Not ok without flow, head and NPSH available.
DutyIntervals made(Ranges ranges) {
    for (const Figure figure : {kFlow, kEfficiency, kShaft, kInput}) {
        if (ranges[figure]) ranges[figure]->first = std::max(0.0, ranges[figure]->first);
    }
    const auto flow = intervalOf<Flow>(ranges, kFlow, Flow::fromCubicMetresPerSecond);
    const auto head = intervalOf<Head>(ranges, kHead, Head::fromMetres);
    const auto available = intervalOf<Head>(ranges, kAvailable, Head::fromMetres);
    DutyIntervals out;
    if (!flow || !head || !available) return out;
    out.ok = true;
    out.flow = *flow;
    out.head = *head;
    out.npshAvailable = *available;
    out.npshMargin = intervalOf<Head>(ranges, kMargin, Head::fromMetres);
    out.efficiency = intervalOf<Efficiency>(ranges, kEfficiency, Efficiency::fromShare);
    out.shaft = intervalOf<Power>(ranges, kShaft, Power::fromWatts);
    out.input = intervalOf<Power>(ranges, kInput, Power::fromWatts);
    return out;
}

// The sum of squared effects, one error after another.
class Variances {
  public:
    explicit Variances(const Figures& centre) : centre_(centre) {
        for (std::size_t k = 0; k < kFigureCount; ++k)
            if (centre[k]) variance_[k] = 0.0;
    }

    // The figures with one error at +1 and -1 sigma. A figure lost on both sides has no interval any more;
    // lost on one, the other side's difference stands for both.
    void add(const std::optional<Figures>& up, const std::optional<Figures>& down) {
        for (std::size_t k = 0; k < kFigureCount; ++k) {
            if (!variance_[k]) continue;
            const auto above = up ? (*up)[k] : std::nullopt;
            const auto below = down ? (*down)[k] : std::nullopt;
            if (!above && !below) {
                variance_[k].reset();
                continue;
            }
            const double u = above && below ? 0.5 * (*above - *below)
                             : above        ? *above - *centre_[k]
                                            : *centre_[k] - *below;
            *variance_[k] += u * u;
        }
    }

    [[nodiscard]] Ranges ranges() const {
        Ranges ranges;
        for (std::size_t k = 0; k < kFigureCount; ++k) {
            if (!variance_[k]) continue;
            const double half = kNormal95 * std::sqrt(*variance_[k]);
            ranges[k] = std::pair(*centre_[k] - half, *centre_[k] + half);
        }
        return ranges;
    }

  private:
    Figures centre_, variance_{};
};

void addSite(const Varied& varied, const SiteModel& model, Variances& variances) {
    const auto& parameters = model.parameters();
    for (std::size_t j = 0; j < parameters.size(); ++j) {
        if (!varied.concerns(parameters[j])) continue;
        SiteDraw draw(parameters.size(), 0.0);
        draw[j] = 1.0;
        const auto up = varied.at(draw, varied.pump());
        draw[j] = -1.0;
        variances.add(up, varied.at(draw, varied.pump()));
    }
}

// `curveIn` gives the curve inside a pump, or null.
template <class CurveIn>
void addCurve(const Varied& varied, CurveIn curveIn, Variances& variances) {
    PumpModel up = varied.pump(), down = varied.pump();
    PumpCurve* higher = curveIn(up);
    PumpCurve* lower = curveIn(down);
    const double sigma = higher ? higher->sigmaAt(varied.flow_m3_s()) : 0.0;
    if (sigma <= 0.0) return;
    *higher = moved(*higher, sigma);
    *lower = moved(*lower, -sigma);
    variances.add(varied.at({}, up), varied.at({}, down));
}

PumpCurve* curveOf(std::optional<PumpCurve>& curve) { return curve ? &*curve : nullptr; }

std::pair<double, double> middle95(std::vector<double>& drawn) {
    std::sort(drawn.begin(), drawn.end());
    const auto at = [&](double share) {
        return drawn[static_cast<std::size_t>(share * static_cast<double>(drawn.size() - 1) + 0.5)];
    };
    return {at(0.025), at(0.975)};
}

} // namespace

DutyIntervals linearIntervals(const CaseSolver& solver, const Case& setting) {
    const Varied varied(solver, setting);
    if (!varied.found()) return {};
    const auto centre = varied.at({}, varied.pump());
    if (!centre) return {};
    Variances variances(*centre);
    addSite(varied, solver.model(), variances);
    addCurve(
        varied, [](PumpModel& p) { return &p.head; }, variances);
    addCurve(
        varied, [](PumpModel& p) { return curveOf(p.efficiency); }, variances);
    addCurve(
        varied, [](PumpModel& p) { return curveOf(p.power); }, variances);
    addCurve(
        varied, [](PumpModel& p) { return curveOf(p.npshRequired); }, variances);
    return made(variances.ranges());
}

DutyIntervals monteCarloIntervals(const CaseSolver& solver, const Case& setting, int draws,
                                  std::uint32_t seed) {
    constexpr std::size_t kFewest = 40; // below, a 2.5 percentile is the smallest draw
    const Varied varied(solver, setting);
    if (!varied.found() || draws < static_cast<int>(kFewest)) return {};
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal;
    const PumpDraws pumps(varied.pump());
    std::array<std::vector<double>, kFigureCount> found;
    int lost = 0;
    SiteDraw draw(solver.model().parameters().size());
    for (int i = 0; i < draws; ++i) {
        for (double& z : draw)
            z = normal(random);
        const auto figures = varied.at(draw, pumps.draw(random));
        if (!figures) {
            ++lost;
            continue;
        }
        for (std::size_t k = 0; k < kFigureCount; ++k)
            if ((*figures)[k]) found[k].push_back(*(*figures)[k]);
    }
    Ranges ranges;
    for (std::size_t k = 0; k < kFigureCount; ++k)
        if (found[k].size() >= kFewest) ranges[k] = middle95(found[k]);
    DutyIntervals out = made(ranges);
    if (!out.ok) return {};
    out.draws = static_cast<int>(found[kFlow].size());
    out.lostDraws = lost;
    return out;
}

} // namespace headmark
