#include "analysis/pipework/tree_solver.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr int kMostIterations = 200;
constexpr int kPatience = 30; // full steps before a cycle is suspected; ordinary trees need about ten
constexpr double kStepTolerance = 1e-12;      // share of the greatest flow
constexpr double kResidualTolerance_m = 1e-9; // far below what a gauge can show
constexpr double kLeastSlope_s_m2 = 1e-3;     // keeps a law that is flat at zero flow invertible

class ConstantHead final : public HeadSource {
  public:
    explicit ConstantHead(double head_m) : head_m_(head_m) {}
    [[nodiscard]] LossAt at(double) const override { return {head_m_, 0.0}; }

  private:
    double head_m_;
};

std::size_t index(int i) { return static_cast<std::size_t>(i); }

} // namespace

TreeSolver::TreeSolver(const PipeTree& tree) : tree_(&tree) {
    const std::size_t edges = tree.edges.size(), outflows = tree.outflows.size();
    for (std::size_t e = 0; e < edges; ++e) {
        HEADMARK_ASSERT(tree.edges[e].parent < static_cast<int>(e), "parents come before their children");
    }
    solution_.outflow_m3_s.assign(outflows, 0.0);
    solution_.outflowHead_m.assign(outflows, 0.0);
    solution_.edgeFlow_m3_s.assign(edges, 0.0);
    solution_.edgeEndHead_m.assign(edges, 0.0);
    solution_.regulating.assign(edges, false);
    for (auto* v : {&residual_, &lawSlope_, &step_, &trial_, &previous_})
        v->assign(outflows, 0.0);
    for (auto* v : {&edgeSlope_, &edgeGain_, &edgeShift_, &edgeHeadStep_})
        v->assign(edges, 0.0);
    free_.assign(outflows, 1);
    for (const TreeOutflow& o : tree.outflows)
        cap_.push_back(o.law.cap_m3_s());
}

void TreeSolver::startFrom(const std::vector<double>& outflow_m3_s) {
    HEADMARK_ASSERT(outflow_m3_s.size() == solution_.outflow_m3_s.size(), "one start flow per outflow");
    solution_.outflow_m3_s = outflow_m3_s;
    warm_ = true;
}

void TreeSolver::ensureStart() {
    auto& x = solution_.outflow_m3_s;
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (!warm_) x[i] = tree_->outflows[i].law.guess_m3_s();
        x[i] = std::clamp(std::isfinite(x[i]) ? x[i] : 0.0, 0.0, cap_[i]);
    }
}

// Flows up the tree, heads down it, residuals at the outflows.
void TreeSolver::evaluate(const HeadSource& pump) {
    auto& s = solution_;
    const auto& edges = tree_->edges;
    std::fill(s.edgeFlow_m3_s.begin(), s.edgeFlow_m3_s.end(), 0.0);
    s.flow_m3_s = 0.0;
    for (std::size_t i = 0; i < s.outflow_m3_s.size(); ++i) {
        const int e = tree_->outflows[i].edge;
        (e < 0 ? s.flow_m3_s : s.edgeFlow_m3_s[index(e)]) += s.outflow_m3_s[i];
    }
    for (std::size_t e = edges.size(); e-- > 0;) {
        const int p = edges[e].parent;
        (p < 0 ? s.flow_m3_s : s.edgeFlow_m3_s[index(p)]) += s.edgeFlow_m3_s[e];
    }
    const LossAt added = pump.at(s.flow_m3_s);
    const LossAt suction = tree_->suction.at(s.flow_m3_s);
    s.pumpHead_m = added.loss_m;
    s.rootHead_m = tree_->sourceLevel_m + added.loss_m - suction.loss_m;
    rootSlope_ = std::max(0.0, suction.slope_s_m2 - added.slope_s_m2);
    for (std::size_t e = 0; e < edges.size(); ++e) {
        const double above = edges[e].parent < 0 ? s.rootHead_m : s.edgeEndHead_m[index(edges[e].parent)];
        const LossAt loss = edges[e].chain.at(s.edgeFlow_m3_s[e]);
        edgeSlope_[e] = loss.slope_s_m2;
        double end = above - loss.loss_m;
        s.regulating[e] = false;
        if (edges[e].regulator) {
            end -= edges[e].regulator->leastLoss_m;
            if (end > edges[e].regulator->setLevel_m) {
                end = edges[e].regulator->setLevel_m;
                s.regulating[e] = true;
            }
        }
        s.edgeEndHead_m[e] = end;
    }
    for (std::size_t i = 0; i < s.outflow_m3_s.size(); ++i) {
        const TreeOutflow& o = tree_->outflows[i];
        s.outflowHead_m[i] = o.edge < 0 ? s.rootHead_m : s.edgeEndHead_m[index(o.edge)];
        const LossAt law = o.law.at(s.outflow_m3_s[i]);
        residual_[i] = s.outflowHead_m[i] - o.level_m - law.loss_m;
        lawSlope_[i] = std::max(law.slope_s_m2, kLeastSlope_s_m2);
        if (s.outflow_m3_s[i] <= 0.0 && residual_[i] > 0.0) {
            // A root law is flat at zero flow; the chord to the flow it would pass alone is a fair slope.
            lawSlope_[i] = std::max(residual_[i] / o.law.flowAtHead_m3_s(residual_[i]), kLeastSlope_s_m2);
        }
        free_[i] = !((s.outflow_m3_s[i] <= 0.0 && residual_[i] <= 0.0) ||
                     (s.outflow_m3_s[i] >= cap_[i] && residual_[i] >= 0.0));
    }
}

// Newton step of the free outflows: leaves to root, then back.
void TreeSolver::eliminate() {
    const auto& edges = tree_->edges;
    double rootGain = 0.0, rootShift = 0.0;
    std::fill(edgeGain_.begin(), edgeGain_.end(), 0.0);
    std::fill(edgeShift_.begin(), edgeShift_.end(), 0.0);
    for (std::size_t i = 0; i < step_.size(); ++i) {
        if (!free_[i]) continue;
        const int e = tree_->outflows[i].edge;
        const double gain = 1.0 / lawSlope_[i];
        (e < 0 ? rootGain : edgeGain_[index(e)]) += gain;
        (e < 0 ? rootShift : edgeShift_[index(e)]) += gain * residual_[i];
    }
    for (std::size_t e = edges.size(); e-- > 0;) {
        if (solution_.regulating[e]) {
            edgeGain_[e] = 0.0; // what lies behind a working regulator does not feel the head before it
        } else {
            const double damping = 1.0 + edgeGain_[e] * edgeSlope_[e];
            edgeGain_[e] /= damping;
            edgeShift_[e] /= damping;
        }
        const int p = edges[e].parent;
        (p < 0 ? rootGain : edgeGain_[index(p)]) += edgeGain_[e];
        (p < 0 ? rootShift : edgeShift_[index(p)]) += edgeShift_[e];
    }
    const double rootHeadStep = -rootSlope_ * rootShift / (1.0 + rootGain * rootSlope_);
    for (std::size_t e = 0; e < edges.size(); ++e) {
        if (solution_.regulating[e]) {
            edgeHeadStep_[e] = 0.0;
            continue;
        }
        const double above = edges[e].parent < 0 ? rootHeadStep : edgeHeadStep_[index(edges[e].parent)];
        const double flowStep = edgeShift_[e] + edgeGain_[e] * above;
        edgeHeadStep_[e] = above - edgeSlope_[e] * flowStep;
    }
    for (std::size_t i = 0; i < step_.size(); ++i) {
        const int e = tree_->outflows[i].edge;
        const double headStep = e < 0 ? rootHeadStep : edgeHeadStep_[index(e)];
        step_[i] = free_[i] ? (residual_[i] + headStep) / lawSlope_[i] : 0.0;
    }
}

bool TreeSolver::settled() const {
    double greatestFlow = 1e-9, greatestStep = 0.0, greatestResidual = 0.0;
    for (std::size_t i = 0; i < step_.size(); ++i) {
        greatestFlow = std::max(greatestFlow, solution_.outflow_m3_s[i]);
        if (!free_[i]) continue;
        greatestStep = std::max(greatestStep, std::abs(step_[i]));
        greatestResidual = std::max(greatestResidual, std::abs(residual_[i]));
    }
    return greatestResidual < kResidualTolerance_m && greatestStep < 1e3 * kStepTolerance * greatestFlow;
}

const TreeSolution& TreeSolver::solve(const HeadSource& pump) {
    auto& s = solution_;
    ensureStart();
    evaluate(pump);
    s.state = TreeSolution::State::stalled;
    for (s.iterations = 0; s.iterations < kMostIterations; ++s.iterations) {
        eliminate();
        if (settled()) {
            s.state = TreeSolution::State::converged;
            break;
        }
        previous_ = s.outflow_m3_s;
        double along = 0.0;
        for (std::size_t i = 0; i < step_.size(); ++i) {
            trial_[i] = std::clamp(previous_[i] + step_[i], 0.0, cap_[i]);
            along += residual_[i] * (trial_[i] - previous_[i]);
        }
        // The residuals are the slopes of a convex function (its content, Cherry 1951): a step is too long
        // where the slope along it has turned as steep the other way.
        // Regulators make the matrix unsymmetric, and a step may then hop between two states for ever:
        // shorter steps of changing length break such a cycle.
        const bool cycling = s.iterations >= kPatience;
        double share = cycling ? 0.25 + 0.25 * (s.iterations % 4) : 1.0;
        for (int cut = 0; cut < (cycling ? 1 : 40); ++cut) {
            for (std::size_t i = 0; i < step_.size(); ++i) {
                s.outflow_m3_s[i] = previous_[i] + share * (trial_[i] - previous_[i]);
            }
            evaluate(pump);
            double after = 0.0;
            for (std::size_t i = 0; i < step_.size(); ++i)
                after += residual_[i] * (trial_[i] - previous_[i]);
            if (after >= -0.9 * along || along <= 0.0) break;
            share *= std::clamp(along / (along - after), 0.1, 0.7);
        }
    }
    s.energyResidual_m = 0.0;
    for (std::size_t i = 0; i < step_.size(); ++i) {
        if (free_[i]) s.energyResidual_m = std::max(s.energyResidual_m, std::abs(residual_[i]));
    }
    double sum = 0.0;
    for (double x : s.outflow_m3_s)
        sum += x;
    s.continuityResidual_m3_s = std::abs(sum - s.flow_m3_s);
    warm_ = s.state == TreeSolution::State::converged;
    return s;
}

const TreeSolution& TreeSolver::demandAtHead(double pumpHead_m) { return solve(ConstantHead(pumpHead_m)); }

} // namespace headmark
