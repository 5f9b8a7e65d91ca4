#include "analysis/duty/supply_curve.h"

#include "analysis/duty/held_duty.h"
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
      source_m_(tree.tree.sourceLevel_m), suction_(tree.tree.suction), back_(back),
      outlet_m_(solver.heldOutlet_m()) {
    // Where the source alone brings the set point the drive has nothing to do up to some flow.
    if (outlet_m_ && *outlet_m_ <= source_m_) {
        usable_ = false;
        return;
    }
    regulated_ = outlet_m_.has_value();
    for (std::size_t e : main) {
        main_.push_back(tree.tree.edges[e]);
        regulated_ = regulated_ || main_.back().regulator;
    }
    findEnds();
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

// Energy level at the pump's outlet at full speed; left of the chart the head stays, right of it goes on.
double SupplyCurve::root_m(double pump_m3_s) const {
    const double least = std::max(0.0, pump_.head.least_m3_s()), greatest = pump_.head.greatest_m3_s();
    double head = pump_.head.at(std::clamp(pump_m3_s, least, greatest));
    if (pump_m3_s > greatest) head += pump_.head.slopeAt(greatest) * (pump_m3_s - greatest);
    return source_m_ + corner_.factor * head - suction_.at(pump_m3_s).loss_m;
}

double SupplyCurve::net_m3_s(double pump_m3_s) const {
    if (!back_) return pump_m3_s;
    const double root = root_m(pump_m3_s);
    return pump_m3_s - back_->at(outlet_m_ ? std::min(root, *outlet_m_) : root).value;
}

// Where the chart begins and ends. Under a drive: the flows at which the speed that holds the outlet puts
// them, along the parabolas through its ends.
void SupplyCurve::findEnds() {
    double least = std::max(0.0, pump_.head.least_m3_s()), greatest = pump_.head.greatest_m3_s();
    const auto within = [&](double end_m3_s) {
        const double end_m = corner_.factor * pump_.head.at(end_m3_s);
        const auto needed = [&](double q) { return *outlet_m_ - source_m_ + suction_.at(q).loss_m; };
        if (end_m3_s <= 0.0 || needed(0.0) <= 0.0 || needed(end_m3_s) >= end_m) return end_m3_s;
        double low = 0.0, high = end_m3_s; // needed less what the parabola gives falls with the flow
        for (int k = 0; k < 80; ++k) {
            const double middle = 0.5 * (low + high), share = middle / end_m3_s;
            (share * share * end_m < needed(middle) ? low : high) = middle;
        }
        return high;
    };
    if (outlet_m_) {
        least = within(least);
        greatest = within(greatest);
    }
    greatestNet_ = net_m3_s(greatest);
    // Where the return alone already lifts the pump into its chart, the chart begins at no net flow.
    if (least > 0.0) leastNet_ = std::max(0.0, net_m3_s(least));
}

// Pump flow and root level that leave this net flow.
SupplyCurve::Point SupplyCurve::pointAt(double net_m3_s) const {
    double q = net_m3_s;
    if (back_) {
        // The return hardly feels the pump's flow: putting it in again and again settles in a few rounds.
        for (int k = 0; k < 60; ++k) {
            const double before = q, root = root_m(q);
            q = net_m3_s + back_->at(outlet_m_ ? std::min(root, *outlet_m_) : root).value;
            if (std::abs(q - before) < 1e-13 * pump_.head.greatest_m3_s()) break;
        }
    }
    return {q, root_m(q)};
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
        const double root = outlet_m_ ? std::min(p.root_m, *outlet_m_) : p.root_m;
        topRoot_ = i == 0 ? root : std::max(topRoot_, root);
        double level_m = p.root_m, cap_m = outlet_m_.value_or(std::numeric_limits<double>::infinity());
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

bool SupplyCurve::pumpBroken(const JudgedState& judged, double pump_m3_s) const {
    Crossing at;
    at.flow_m3_s = pump_m3_s;
    at.head_m = corner_.factor * pump_.head.at(pump_m3_s);
    if (outlet_m_) {
        const double needed_m = *outlet_m_ - source_m_ + suction_.at(pump_m3_s).loss_m;
        const SpeedAt speed = speedFor(pump_.head, corner_.factor, pump_m3_s, needed_m);
        if (speed.where != SpeedAt::Where::atFull) {
            const PumpModel slowed = pump_.atSpeed(speed.share);
            JudgedState there = judged;
            there.pump = &slowed;
            at.head_m = needed_m;
            return !inletAndMotorBreaches(there, at).empty();
        }
    }
    return !inletAndMotorBreaches(judged, at).empty();
}

void SupplyCurve::findBad(const SiteTree& tree) {
    const JudgedState judged{&solver_->model(),  &tree,          &pump_,
                             &solver_->limits(), corner_.filter, solver_->warm()};
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
        return filterBroken(net, q) || pumpBroken(judged, q);
    });
}

} // namespace headmark
