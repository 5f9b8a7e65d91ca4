#include "analysis/duty/case_solver.h"

#include "analysis/duty/case_cautions.h"
#include "analysis/duty/judgement.h"
#include "analysis/irrigation/lateral.h"
#include "analysis/irrigation/leaf_law.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kGravity = factor::kStandardGravity_m_s2;

// Places of the tree's outflows keep the solver's start when only the pump's factor changes.
struct Delivery {
    double low, high;
};
Delivery deliveryOf(const PumpModel& pump) { return {1.0 - pump.deliveredShare, 1.0 + pump.deliveredShare}; }

void append(Cautions& to, Cautions&& more) {
    for (Caution& c : more) {
        const bool known = std::any_of(
            to.begin(), to.end(), [&](const Caution& k) { return k.code == c.code && k.place == c.place; });
        if (!known) to.push_back(std::move(c));
    }
}

} // namespace

struct CaseSolver::State {
    State(const CaseSolver& of, const CaseSetting& setting, double speedShare)
        : tree(of.model_->tree(setting, of.returnKv_)), solver(tree.tree),
          pump(of.pump_.atSpeed(speedShare)), judged{of.model_, &tree, &pump, &of.limits_, setting.filter} {}
    SiteTree tree;
    TreeSolver solver;
    PumpModel pump;
    JudgedState judged;
};

double npshAvailable_m(const SiteModel& model, const PipeTree& tree, double flow_m3_s) {
    const double rhoG = model.water().density.inKilogramsPerCubicMetre() * kGravity;
    const double airLessVapour_m = (model.air() - model.water().vapourPressure).inPascals() / rhoG;
    const double suctionLoss_m = flow_m3_s > 0.0 ? tree.suction.at(flow_m3_s).loss_m : 0.0;
    return airLessVapour_m + tree.sourceLevel_m - model.site().pumpLevel.inMetres() - suctionLoss_m;
}

double npshMarginNeeded_m(const Limits& limits, double required_m) {
    return std::max(limits.npshMargin.inMetres(), limits.npshMarginShare * required_m);
}

ZoneHeads zoneHeads(const SiteModel& model, std::size_t zone, double headAboveZone_m) {
    const Zone& z = model.site().zones[zone];
    const OutflowLaw outlet = outletLaw(z.emitters.law, model.water().density);
    if (!z.laterals) {
        const double each_m3_s = outlet.flowAtHead_m3_s(headAboveZone_m);
        return {headAboveZone_m, headAboveZone_m, each_m3_s, each_m3_s, each_m3_s};
    }
    const LateralState state =
        lateralAtInlet(*z.laterals, outlet, model.context(), std::max(0.0, headAboveZone_m));
    return {state.lowestHead_m, state.highestHead_m, state.lowestFlow_m3_s, state.meanFlow_m3_s,
            state.highestFlow_m3_s};
}

CaseSolver::CaseSolver(const SiteModel& model, const PumpModel& pump, const Limits& limits)
    : model_(&model), pump_(pump), limits_(limits) {
    falls_ = pump_.head.turningPoints().empty() &&
             pump_.head.slopeAt(0.5 * (pump_.head.least_m3_s() + pump_.head.greatest_m3_s())) <= 0.0;
    inherits_ = limitsInherit();
    findReturnValve();
}

// The valve that lets the set flow through with every zone shut and usual water.
void CaseSolver::findReturnValve() {
    const auto& tankReturn = model_->site().tankReturn;
    if (!tankReturn) return;
    returnKv_ = tankReturn->valveKv_m3_h;
    if (!tankReturn->setFlow) return;
    const double flow = tankReturn->setFlow->inCubicMetresPerSecond();
    const PumpModel running = pump_.atSpeed(1.0);
    CaseSetting shut;
    shut.open.assign(model_->site().zones.size(), false);
    const SiteTree tree = model_->tree(shut);
    const double left_m =
        running.head.contains(flow)
            ? tree.tree.sourceLevel_m + running.head.at(flow) - tree.tree.suction.at(flow).loss_m -
                  model_->returnOutletLevel_m(WaterLevel::usual) - model_->returnLossAt_m(flow)
            : -1.0;
    returnReaches_ = left_m > 0.0;
    if (!returnReaches_) return; // the valve stands fully open
    // Kv: h = 1e5 (3600 q/Kv)^2/(1000 g)
    returnKv_ = 3600.0 * flow * std::sqrt(factor::kBar_Pa / factor::kMetreOfWater_Pa / left_m);
}

CaseSetting CaseSolver::settingOf(const Case& c, bool fillingEmptyMain) const {
    CaseSetting s;
    const auto& zones = model_->site().zones;
    s.open.assign(zones.size(), false);
    for (std::size_t z = 0; z < zones.size(); ++z) {
        s.open[z] = std::find(c.zonesOpen.begin(), c.zonesOpen.end(), zones[z].name) != c.zonesOpen.end();
    }
    s.level = c.level;
    s.filter = c.filter;
    s.fillingEmptyMain = fillingEmptyMain;
    return s;
}

SolvedPoint CaseSolver::solvePoint(State& state, double factor) const {
    SolvedPoint p;
    p.factor = factor;
    p.crossings = falls_ ? findDutyOnFallingCurve(state.solver, state.pump.head, factor)
                         : findCrossings(state.solver, state.pump.head, factor);
    return p;
}

bool CaseSolver::limitsInherit() const { return falls_ && !limits_.preferredBandOnly && powerAndNpshRise(); }

bool CaseSolver::powerAndNpshRise() const {
    const Density density = model_->water().density;
    constexpr int kLooks = 60;
    std::optional<double> lastPower, lastNpsh;
    for (int i = 0; i <= kLooks; ++i) {
        const double least = std::max(0.0, pump_.head.least_m3_s());
        const double q = least + (pump_.head.greatest_m3_s() - least) * i / kLooks;
        const auto power = pump_.shaftAt_W(q, pump_.head.at(q), density);
        if (pump_.motor && pump_.motor->rated && power && lastPower && *power < *lastPower) return false;
        if (power) lastPower = power;
        if (!pump_.npshRequired || !pump_.npshRequired->contains(q)) continue;
        const double npsh = pump_.npshRequired->at(q);
        if (lastNpsh && npsh < *lastNpsh) return false;
        lastNpsh = npsh;
    }
    return true;
}

// The corners: low pressure and a pump too weak show first at low water, pump at its low end; NPSH at low
// water, motor and filter flow at the greatest flow. Both filter states are asked, since at flows far above
// its design a clean filter takes more than its service figure. NPSH and motor are asked at every corner. A
// duty left of the read range (a chart that does not begin at zero) is an upper limit's matter: more zones
// cure it.
bool CaseSolver::lowerLimitsHold(const std::vector<bool>& open) const {
    const double low = limits_.asDelivered ? deliveryOf(pump_).low : 1.0;
    const double high = limits_.asDelivered ? deliveryOf(pump_).high : 1.0;
    for (const FilterState filter : {FilterState::service, FilterState::clean}) {
        State weak(*this, {open, WaterLevel::low, filter, false}, 1.0);
        const SolvedPoint least = solvePoint(weak, low);
        if (!least.duty()) {
            if (least.crossings.miss == Miss::belowRange) continue;
            return false;
        }
        if (!lowerBreaches(weak.judged, *least.duty()).empty()) return false;
    }
    for (const WaterLevel level : {WaterLevel::low, WaterLevel::high}) {
        for (const FilterState filter : {FilterState::clean, FilterState::service}) {
            State state(*this, {open, level, filter, false}, 1.0);
            const SolvedPoint printed = solvePoint(state, 1.0);
            if (!printed.duty()) {
                if (printed.crossings.miss == Miss::belowRange) continue;
                return false;
            }
            // Where power and NPSH required rise with flow the high end is the worst of the three.
            const std::vector<double> factors = inherits_ ? std::vector{high} : std::vector{high, 1.0, low};
            for (const double factor : factors) {
                const SolvedPoint p = factor == 1.0 ? printed : solvePoint(state, factor);
                if (!p.duty()) {
                    if (factor > 1.0 && p.crossings.miss != Miss::belowRange && hasUpperLimits(state.judged))
                        return false;
                    if (!flowCeilingBreaches(state.judged, *printed.duty()).empty()) return false;
                    continue;
                }
                if (!inletAndMotorBreaches(state.judged, *p.duty()).empty()) return false;
                if (factor == high && !flowCeilingBreaches(state.judged, *p.duty()).empty()) return false;
            }
        }
    }
    return true;
}

// High pressure shows first at high water, pump at its high end.
bool CaseSolver::upperLimitsHold(const std::vector<bool>& open) const {
    const double low = limits_.asDelivered ? deliveryOf(pump_).low : 1.0;
    const double high = limits_.asDelivered ? deliveryOf(pump_).high : 1.0;
    for (const FilterState filter : {FilterState::clean, FilterState::service}) {
        State strong(*this, {open, WaterLevel::high, filter, false}, 1.0);
        const SolvedPoint most = solvePoint(strong, high);
        const SolvedPoint printed = solvePoint(strong, 1.0);
        const Crossing* judged = most.duty() ? most.duty() : printed.duty();
        if (judged && !upperBreaches(strong.judged, *judged).empty()) return false;
    }
    for (const FilterState filter : {FilterState::service, FilterState::clean}) {
        State weak(*this, {open, WaterLevel::low, filter, false}, 1.0);
        const SolvedPoint least = solvePoint(weak, low);
        if (!least.duty() && least.crossings.miss == Miss::belowRange) return false;
    }
    if (!limits_.preferredBandOnly) return true;
    for (const WaterLevel level : {WaterLevel::low, WaterLevel::high}) {
        for (const FilterState filter : {FilterState::clean, FilterState::service}) {
            State corner(*this, {open, level, filter, false}, 1.0);
            const SolvedPoint p = solvePoint(corner, 1.0);
            const auto best = corner.pump.bestPoint(model_->water().density);
            if (!p.duty() || !best) return false;
            if (bandOf(p.duty()->flow_m3_s / best->flow_m3_s, bandLimits(corner.pump, *best)) !=
                Band::preferred) {
                return false;
            }
        }
    }
    return true;
}

std::optional<SetRun> CaseSolver::run(const std::vector<bool>& open) const {
    State state(*this, {open, WaterLevel::usual, FilterState::clean, false}, 1.0);
    const SolvedPoint printed = solvePoint(state, 1.0);
    const Crossing* duty = printed.duty();
    if (!duty) return std::nullopt;
    SetRun run;
    run.flow_m3_s.assign(open.size(), 0.0);
    for (std::size_t i = 0; i < state.tree.outflows.size(); ++i) {
        const OutflowOf& of = state.tree.outflows[i];
        if (of.kind != OutflowOf::Kind::zone) continue;
        run.flow_m3_s[of.zone] = duty->solution.outflow_m3_s[i];
        run.drawn_m3_s += duty->solution.outflow_m3_s[i];
    }
    run.input_W = state.pump.inputAt_W(duty->flow_m3_s, duty->head_m, model_->water().density);
    return run;
}

CaseAnswer CaseSolver::answer(const Case& setting, bool fillingEmptyMain) const {
    State state(*this, settingOf(setting, fillingEmptyMain), setting.speedShare);
    const SolvedPoint printed = solvePoint(state, 1.0);
    const SolvedPoint low = solvePoint(state, deliveryOf(pump_).low);
    const SolvedPoint high = solvePoint(state, deliveryOf(pump_).high);

    CaseAnswer a;
    a.name = setting.name;
    a.setting = setting;
    a.fillingEmptyMain = fillingEmptyMain;
    a.solverIterations = printed.crossings.iterations;
    a.energyResidual = Head::fromMetres(printed.crossings.energyResidual_m);
    for (const Crossing& c : printed.crossings.all) {
        a.duties.push_back(
            {Flow::fromCubicMetresPerSecond(c.flow_m3_s), Head::fromMetres(c.head_m), c.stable, {}, {}});
    }
    const auto delivered = [](const SolvedPoint& p) -> std::optional<DeliveredPoint> {
        if (!p.duty()) return std::nullopt;
        return DeliveredPoint{Flow::fromCubicMetresPerSecond(p.duty()->flow_m3_s),
                              Head::fromMetres(p.duty()->head_m)};
    };
    a.deliveredLow = delivered(low);
    a.deliveredHigh = delivered(high);

    const CautionInputs inputs{&state.judged, this, &setting, fillingEmptyMain, &printed, &low, &high};
    const Crossing* duty = printed.duty();
    Cautions breaches;
    if (!duty) {
        breaches.push_back(missCaution(inputs));
    } else {
        fillDuty(inputs, *duty, a);
        const bool delivery = limits_.asDelivered;
        if (delivery && !low.duty()) {
            breaches.push_back(deliveredMissCaution(inputs, false));
        } else {
            append(breaches, lowerBreaches(state.judged, delivery ? *low.duty() : *duty));
        }
        if (delivery && !high.duty()) {
            if (hasUpperLimits(state.judged)) breaches.push_back(deliveredMissCaution(inputs, true));
            append(breaches, upperBreaches(state.judged, *duty));
        } else {
            append(breaches, upperBreaches(state.judged, delivery ? *high.duty() : *duty));
        }
        append(breaches, flowCeilingBreaches(state.judged, delivery && high.duty() ? *high.duty() : *duty));
        for (const SolvedPoint* p : {&printed, &high, &low}) {
            if ((p == &printed || delivery) && p->duty()) {
                append(breaches, inletAndMotorBreaches(state.judged, *p->duty()));
            }
        }
        if (limits_.preferredBandOnly && (!a.efficiency || a.efficiency->band != Band::preferred)) {
            breaches.push_back(bandCaution(a, Severity::warning));
        }
        for (ZoneAnswer& zone : a.zones) {
            zone.withinLimits = std::none_of(breaches.begin(), breaches.end(), [&](const Caution& c) {
                const Fact* name = findFact(c.values, "zone");
                return name && std::get<std::string>(name->value) == zone.name;
            });
        }
        if (a.duty->flow.inCubicMetresPerSecond() <= 0.0) breaches.push_back(noFlowCaution(a));
    }
    a.serves = duty != nullptr && breaches.empty();
    for (Caution& c : breaches)
        c.stops = true;
    a.cautions = std::move(breaches);
    append(a.cautions, adviceCautions(inputs, a));
    std::stable_sort(a.cautions.begin(), a.cautions.end(),
                     [](const Caution& x, const Caution& y) { return x.severity > y.severity; });
    a.working = workingOf(inputs, a);
    return a;
}

} // namespace headmark
