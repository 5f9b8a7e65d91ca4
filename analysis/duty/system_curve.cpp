#include "analysis/duty/system_curve.h"

#include "analysis/core/assertion.h"
#include "analysis/pipework/tree_solver.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace headmark {

namespace {

constexpr int kCells = 32;       // to begin with; halved where the curve bends
constexpr double kBend = 2e-5;   // share of the head by which straight pieces may miss the curve
constexpr double kFall_m = 1e4;  // of the source over the greatest flow: far steeper than any sensible system
constexpr double kNoFlow = 1e-6; // share of the greatest flow that stands for the first drop
constexpr double kOnFlow = 1e-9; // share of the greatest flow within which a flow counts as met
constexpr int kMostTries = 12;
// The top is at least so far above the head at no flow.
constexpr double kAboveFirst = 1.5, kSpare_m = 20.0;

class SteepHead final : public HeadSource {
  public:
    SteepHead(double flow_m3_s, double head_m, double fall_s_m2)
        : flow_(flow_m3_s), head_(head_m), fall_(fall_s_m2) {}
    [[nodiscard]] LossAt at(double flow_m3_s) const override {
        return {head_ - fall_ * (flow_m3_s - flow_), -fall_};
    }

  private:
    double flow_, head_, fall_;
};

// How an outlet stands.
enum class Runs : char { no, freely, full };

struct State {
    double flow_m3_s = 0.0, head_m = 0.0;
    std::vector<Runs> outflows;
    std::vector<bool> regulating;
    [[nodiscard]] bool standsAs(const State& other) const {
        return outflows == other.outflows && regulating == other.regulating;
    }
};

class Tracer {
  public:
    Tracer(const PipeTree& tree, double greatest_m3_s, double top_m)
        : solver_(tree), greatest_(greatest_m3_s), top_m_(top_m), fall_(kFall_m / greatest_m3_s) {
        double lowest_m = tree.outflows.front().level_m;
        for (const TreeOutflow& o : tree.outflows)
            lowest_m = std::min(lowest_m, o.level_m);
        constexpr double kAbove_m = 100.0; // so that something runs at the first try
        head_ = lowest_m - tree.sourceLevel_m + kAbove_m;
    }

    SystemCurve run() {
        const auto first = at(kNoFlow * greatest_);
        if (!first) return {};
        top_m_ = std::max(top_m_, kAboveFirst * std::abs(first->head_m) + kSpare_m);
        const auto end = stateOf(solver_.demandAtHead(top_m_));
        if (!end || end->flow_m3_s <= first->flow_m3_s) return {};
        const bool reachesTop = end->flow_m3_s < greatest_;
        const double range = reachesTop ? end->flow_m3_s : greatest_;
        head_ = first->head_m;
        add(0.0, first->head_m);
        State last = *first;
        for (int i = 1; i <= kCells; ++i) {
            const auto next = i == kCells && reachesTop ? end : at(range * i / kCells);
            if (!next || next->flow_m3_s <= last.flow_m3_s) continue;
            closeIn(last, *next);
            add(next->flow_m3_s, next->head_m);
            last = *next;
        }
        return std::move(curve_);
    }

  private:
    void add(double flow_m3_s, double head_m) {
        curve_.flow_m3_s.push_back(flow_m3_s);
        curve_.head_m.push_back(head_m);
    }

    std::optional<State> stateOf(const TreeSolution& s) const {
        if (s.state != TreeSolution::State::converged) return std::nullopt;
        State state{s.flow_m3_s, s.pumpHead_m, {}, s.regulating};
        for (std::size_t i = 0; i < s.outflow_m3_s.size(); ++i) {
            const double x = s.outflow_m3_s[i], cap = solver_.tree().outflows[i].law.cap_m3_s();
            state.outflows.push_back(x <= 0.0 ? Runs::no : x >= cap ? Runs::full : Runs::freely);
        }
        return state;
    }

    // The state at that flow; where none has it, the nearest below.
    std::optional<State> at(double flow_m3_s) {
        std::optional<State> state;
        for (int tries = 0; tries < kMostTries; ++tries) {
            const SteepHead source(flow_m3_s, head_, fall_);
            state = stateOf(solver_.solve(source));
            if (!state) {
                solver_.startCold();
                state = stateOf(solver_.solve(source));
                if (!state) return std::nullopt;
            }
            // Nothing runs as yet: the head is the source's own, not the system's.
            if (state->flow_m3_s <= 0.0) {
                head_ = state->head_m + kFall_m * 0.01;
                continue;
            }
            const double off = std::abs(state->flow_m3_s - flow_m3_s);
            if (off <= kOnFlow * greatest_) break;
            // No outlet gives way any more: trying again would only raise the head.
            if (tries > 1 && off > 0.01 * greatest_) break;
            head_ = state->head_m;
        }
        return state && state->flow_m3_s > 0.0 ? state : std::nullopt;
    }

    // Halves where something changes in between, or the curve bends.
    void closeIn(const State& a, const State& b) {
        if (b.flow_m3_s - a.flow_m3_s < kKinkWidth * greatest_) return;
        const double straight_m = 0.5 * (a.head_m + b.head_m);
        head_ = a.head_m; // from the left: from above it would slide down an upright step by step
        const auto middle = at(0.5 * (a.flow_m3_s + b.flow_m3_s));
        if (!middle || middle->flow_m3_s <= a.flow_m3_s || middle->flow_m3_s >= b.flow_m3_s) return;
        const double bend_m = std::abs(middle->head_m - straight_m);
        const bool halve = !a.standsAs(b) || bend_m > kBend * std::max(1.0, std::abs(middle->head_m));
        if (halve) closeIn(a, *middle);
        add(middle->flow_m3_s, middle->head_m);
        if (halve) closeIn(*middle, b);
    }

    TreeSolver solver_;
    double greatest_, top_m_, fall_, head_ = 0.0;
    SystemCurve curve_;
};

} // namespace

SystemCurve systemCurveOf(const PipeTree& tree, double greatest_m3_s, double top_m) {
    HEADMARK_ASSERT(greatest_m3_s > 0.0, "a system curve needs a range of flows");
    // Nothing can flow anywhere.
    if (tree.outflows.empty()) return {{0.0, 0.0}, {0.0, top_m}};
    return Tracer(tree, greatest_m3_s, top_m).run();
}

} // namespace headmark
