#include "analysis/duty/supply_curve.h"

#include "analysis/duty/judgement.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace headmark {

namespace {

constexpr int kSteps = 384;
constexpr double kBeyond = 1.05; // the table reaches past the chart's end, so that "beyond" shows itself

} // namespace

SupplyCurve::SupplyCurve(const SupplyCorner& corner, const CaseSolver& solver, const SiteTree& tree,
                         const std::vector<std::size_t>& main, const ZoneDemand* back)
    : corner_(corner), solver_(&solver), pump_(solver.pump().atSpeed(1.0)),
      source_m_(tree.tree.sourceLevel_m), suction_(tree.tree.suction), back_(back) {
    for (std::size_t e : main) {
        main_.push_back(tree.tree.edges[e]);
        regulated_ = regulated_ || main_.back().regulator;
    }
    const auto netOf = [&](double pump_m3_s) {
        const double root_m =
            source_m_ + corner_.factor * pump_.head.at(pump_m3_s) - suction_.at(pump_m3_s).loss_m;
        return pump_m3_s - (back_ ? back_->at(root_m).value : 0.0);
    };
    greatestNet_ = netOf(pump_.head.greatest_m3_s());
    // Where the return alone already lifts the pump into its chart, the chart begins at no net flow.
    if (pump_.head.least_m3_s() > 0.0) leastNet_ = std::max(0.0, netOf(pump_.head.least_m3_s()));
    if (greatestNet_ <= 0.0) {
        usable_ = false;
        return;
    }
    tabulate();
    if (!usable_) return;
    findTop();
    if (usable_) findBad(tree);
    back_ = nullptr; // only needed so far
}

// Pump flow and root level that leave this net flow; left of the chart the head stays, right of it goes on.
SupplyCurve::Point SupplyCurve::pointAt(double net_m3_s) const {
    const double least = std::max(0.0, pump_.head.least_m3_s()), greatest = pump_.head.greatest_m3_s();
    const auto root = [&](double q) {
        double head = pump_.head.at(std::clamp(q, least, greatest));
        if (q > greatest) head += pump_.head.slopeAt(greatest) * (q - greatest);
        return source_m_ + corner_.factor * head - suction_.at(q).loss_m;
    };
    double q = net_m3_s;
    if (back_) {
        // The return hardly feels the pump's flow: putting it in again and again settles in a few rounds.
        for (int k = 0; k < 60; ++k) {
            const double before = q;
            q = net_m3_s + back_->at(root(q)).value;
            if (std::abs(q - before) < 1e-13 * greatest) break;
        }
    }
    return {q, root(q)};
}

void SupplyCurve::tabulate() {
    const double step = greatestNet_ * kBeyond / kSteps;
    std::vector<double> levels, held;
    double before_m3_s = -1.0;
    for (int i = 0; i <= kSteps; ++i) {
        const double net = step * i;
        const Point p = pointAt(net);
        if (p.pump_m3_s <= before_m3_s) usable_ = false;
        before_m3_s = p.pump_m3_s;
        topRoot_ = i == 0 ? p.root_m : std::max(topRoot_, p.root_m);
        double level_m = p.root_m, cap_m = std::numeric_limits<double>::infinity();
        for (const TreeEdge& edge : main_) {
            const double loss_m = edge.chain.at(net).loss_m;
            level_m -= loss_m;
            cap_m -= loss_m;
            if (!edge.regulator) continue;
            level_m -= edge.regulator->leastLoss_m;
            cap_m = std::min(cap_m - edge.regulator->leastLoss_m, edge.regulator->setLevel_m);
        }
        levels.push_back(level_m);
        held.push_back(cap_m);
    }
    level_ = SmoothTable(0.0, step, std::move(levels));
    if (regulated_) held_ = SmoothTable(0.0, step, std::move(held));
}

SmoothTable::At SupplyCurve::at(double net_m3_s) const {
    const SmoothTable::At free = level_.at(net_m3_s);
    if (!regulated_) return free;
    const SmoothTable::At held = held_.at(net_m3_s);
    return held.value < free.value ? held : free;
}

void SupplyCurve::findTop() {
    const double step = greatestNet_ / kSteps;
    int top = 0;
    for (int i = 1; i <= kSteps; ++i) {
        if (at(step * i).value > at(step * top).value) top = i;
    }
    for (int i = 1; i <= kSteps; ++i) { // one top only
        const bool rises = at(step * i).value > at(step * (i - 1)).value;
        if (i <= top ? !rises : rises) usable_ = false;
    }
    double low = step * std::max(0, top - 1), high = step * std::min(kSteps, top + 1);
    if (top > 0) {
        constexpr double kGolden = 0.6180339887498949;
        for (int k = 0; k < 60; ++k) {
            const double a = high - kGolden * (high - low), b = low + kGolden * (high - low);
            (at(a).value > at(b).value ? high : low) = at(a).value > at(b).value ? b : a;
        }
        topNet_ = 0.5 * (low + high);
    }
    topLevel_ = at(topNet_).value;
}

void SupplyCurve::findBad(const SiteTree& tree) {
    JudgedState judged{&solver_->model(), &tree, &pump_, &solver_->limits(), corner_.filter};
    const auto& model = solver_->model();
    const auto filterBroken = [&](double net, double pump_m3_s) {
        const auto broken = [](const Element& e, double flow_m3_s) {
            return e.greatestFlow && flow_m3_s > e.greatestFlow->inCubicMetresPerSecond();
        };
        return std::any_of(model.suction().begin(), model.suction().end(),
                           [&](const Element& e) { return broken(e, pump_m3_s); }) ||
               std::any_of(model.delivery().begin(), model.delivery().end(),
                           [&](const Element& e) { return broken(e, net); });
    };
    const auto pumpBroken = [&](double pump_m3_s) {
        Crossing at;
        at.flow_m3_s = pump_m3_s;
        at.head_m = corner_.factor * pump_.head.at(pump_m3_s);
        return !inletAndMotorBreaches(judged, at).empty();
    };
    const auto stretches = [&](auto&& isBad) {
        std::vector<std::pair<double, double>> found;
        const auto edge = [&](double good, double bad) {
            for (int k = 0; k < 60; ++k) {
                const double middle = 0.5 * (good + bad);
                (isBad(middle) ? bad : good) = middle;
            }
            return bad;
        };
        const double step = greatestNet_ / kSteps;
        bool before = isBad(leastNet_);
        if (before) found.emplace_back(0.0, greatestNet_);
        for (int i = 1; i <= kSteps; ++i) {
            const double net = step * i;
            if (net <= leastNet_) continue;
            const bool now = isBad(net);
            const double last = std::max(leastNet_, net - step);
            if (now && !before) found.emplace_back(edge(last, net), greatestNet_);
            if (!now && before) found.back().second = edge(net, last);
            before = now;
        }
        return found;
    };
    badFilter_ = stretches([&](double net) { return filterBroken(net, pointAt(net).pump_m3_s); });
    bad_ = stretches([&](double net) {
        const double q = pointAt(net).pump_m3_s;
        return filterBroken(net, q) || pumpBroken(q);
    });
}

} // namespace headmark
