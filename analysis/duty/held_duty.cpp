#include "analysis/duty/held_duty.h"

#include "analysis/irrigation/leaf_law.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

// Adds whatever keeps the outlet at its level: as much more as the suction takes.
class HeldOutlet final : public HeadSource {
  public:
    HeldOutlet(const PipeTree& tree, double outlet_m) : tree_(tree), outlet_(outlet_m) {}
    [[nodiscard]] LossAt at(double flow_m3_s) const override {
        const LossAt suction = tree_.suction.at(flow_m3_s);
        return {outlet_ - tree_.sourceLevel_m + suction.loss_m, suction.slope_s_m2};
    }

  private:
    const PipeTree& tree_;
    double outlet_;
};

// Of the head, so that full speed counts as reaching what it just reaches.
constexpr double kRounding = 1e-9;

} // namespace

std::optional<double> heldOutlet_m(const SiteModel& model) {
    const Site& site = model.site();
    if (site.control != ControlKind::pressureHeld || !site.hold || site.system) return std::nullopt;
    return site.pumpLevel.inMetres() + headOf_m(*site.hold - GaugePressure{}, model.water().density);
}

SpeedAt speedFor(const PumpCurve& full, double factor, double flow_m3_s, double head_m) {
    using Where = SpeedAt::Where;
    const double least = std::max(0.0, full.least_m3_s()), greatest = full.greatest_m3_s();
    if (head_m <= 0.0 || flow_m3_s > greatest) return {};
    const auto head = [&](double share) {
        const double at = std::clamp(flow_m3_s / share, least, greatest);
        return factor * share * share * full.at(at);
    };
    // The speeds at which this flow lies on the chart.
    constexpr double kStill = 1e-3;
    double low = std::max(kStill, flow_m3_s / greatest);
    double high = least > 0.0 ? std::min(1.0, flow_m3_s / least) : 1.0;
    if (high < 1.0 && (high < low || head(high) < head_m)) {
        const double atFull = factor * full.at(least);
        return atFull < head_m ? SpeedAt{} : SpeedAt{Where::left, std::max(high, kStill)};
    }
    if (head(high) < head_m * (1.0 - kRounding)) return {};
    if (head(low) > head_m) return {Where::right, low};
    constexpr int kHalvings = 60;
    for (int i = 0; i < kHalvings && high - low > 1e-14; ++i) {
        const double middle = 0.5 * (low + high);
        (head(middle) < head_m ? low : high) = middle;
    }
    return {Where::held, high};
}

const TreeSolution& solvedAtOutlet(TreeSolver& solver, double outlet_m) {
    return solver.solve(HeldOutlet(solver.tree(), outlet_m));
}

HeldDuty findHeldDuty(TreeSolver& solver, const PumpCurve& full, double factor, double outlet_m) {
    HeldDuty held;
    const TreeSolution& s = solvedAtOutlet(solver, outlet_m);
    held.crossings.iterations = s.iterations;
    held.crossings.energyResidual_m = s.energyResidual_m;
    if (s.state != TreeSolution::State::converged) {
        held.speed.where = SpeedAt::Where::atFull; // there it is said that nothing converges
        return held;
    }
    held.speed = speedFor(full, factor, s.flow_m3_s, s.pumpHead_m);
    if (held.speed.where == SpeedAt::Where::held) {
        held.crossings.all.push_back({s.flow_m3_s, s.pumpHead_m, true, s});
    } else if (held.speed.where == SpeedAt::Where::left) {
        held.crossings.miss = Miss::belowRange;
    } else if (held.speed.where == SpeedAt::Where::right) {
        held.crossings.miss = Miss::aboveRange;
    }
    return held;
}

} // namespace headmark
