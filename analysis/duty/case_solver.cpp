#include "analysis/duty/case_solver.h"

#include "analysis/duty/case_cautions.h"
#include "analysis/duty/held_duty.h"
#include "analysis/duty/judgement.h"
#include "analysis/duty/npsh.h"
#include "analysis/irrigation/lateral.h"
#include "analysis/irrigation/leaf_law.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

// What the job sets stays; else the table of limits tells.
Limits withNpshMargin(Limits limits, bool high) {
    if (limits.npshMarginOwn) return limits;
    limits.npshMargin =
        Head::fromMetres(limits.rules.value(high ? "npsh_margin_high_abs" : "npsh_margin_abs"));
    limits.npshMarginShare = limits.rules.value(high ? "npsh_margin_high_ratio" : "npsh_margin_ratio") - 1.0;
    return limits;
}

// ANSI/HI 9.6.1: a pump of high suction specific speed had better keep more.
bool asksForMore(const Limits& limits, const PumpModel& pump, Density density) {
    const auto s = pump.suctionSpecificSpeed(density);
    return s && *s > limits.rules.value("npsh_margin_high_from");
}

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
    State(const CaseSolver& of, const CaseSetting& setting, double fullShare)
        : tree(of.model_->tree(setting, of.returnKv_)), solver(tree.tree), pump(of.pump_.atSpeed(fullShare)),
          speedShare(fullShare), filter(setting.filter) {}
    SiteTree tree;
    TreeSolver solver;
    PumpModel pump; // at full speed, where a drive holds a set point
    double speedShare;
    FilterState filter;
};

double npshAvailable_m(const SiteModel& model, const PipeTree& tree, double flow_m3_s) {
    return npshAvailable({model.air(), model.water().vapourPressure, model.water().density,
                          Level::fromMetres(tree.sourceLevel_m) - model.site().pumpLevel,
                          Head::fromMetres(suctionLoss_m(tree, flow_m3_s))})
        .inMetres();
}

double suctionLoss_m(const PipeTree& tree, double flow_m3_s) {
    return flow_m3_s > 0.0 ? tree.suction.at(flow_m3_s).loss_m : 0.0;
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
    : model_(&model), pump_(pump), limits_(withNpshMargin(limits, false)),
      advised_(withNpshMargin(limits, asksForMore(limits, pump, model.water().density))) {
    falls_ = pump_.head.turningPoints().empty() &&
             pump_.head.slopeAt(0.5 * (pump_.head.least_m3_s() + pump_.head.greatest_m3_s())) <= 0.0;
    inherits_ = limitsInherit();
    heldOutlet_m_ = headmark::heldOutlet_m(model);
    warm_ = warmFactors(limits_.rules, model.temperature());
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
    double left_m = -1.0;
    if (running.head.contains(flow)) {
        double root_m = tree.tree.sourceLevel_m + running.head.at(flow) - tree.tree.suction.at(flow).loss_m;
        if (heldOutlet_m_) root_m = std::min(root_m, *heldOutlet_m_);
        left_m = root_m - model_->returnOutletLevel_m(WaterLevel::usual) - model_->returnLossAt_m(flow);
    }
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
    if (heldOutlet_m_) {
        HeldDuty held = findHeldDuty(state.solver, state.pump.head, factor, *heldOutlet_m_);
        if (held.speed.where != SpeedAt::Where::atFull) {
            p.crossings = std::move(held.crossings);
            p.heldShare = state.speedShare * held.speed.share;
            p.slowed = state.pump.atSpeed(held.speed.share);
            return p;
        }
    }
    p.crossings = falls_ ? findDutyOnFallingCurve(state.solver, state.pump.head, factor)
                         : findCrossings(state.solver, state.pump.head, factor);
    return p;
}

JudgedState CaseSolver::judged(const State& state, const SolvedPoint& point) const {
    return {model_, &state.tree, point.slowed ? &*point.slowed : &state.pump, &limits_, state.filter, warm_};
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
        if (!lowerBreaches(judged(weak, least), *least.duty()).empty()) return false;
    }
    for (const WaterLevel level : {WaterLevel::low, WaterLevel::high}) {
        for (const FilterState filter : {FilterState::clean, FilterState::service}) {
            State state(*this, {open, level, filter, false}, 1.0);
            const SolvedPoint printed = solvePoint(state, 1.0);
            if (!printed.duty()) {
                if (printed.crossings.miss == Miss::belowRange) continue;
                return false;
            }
            // Where power and NPSH required rise with flow the high end is the worst of the three; under a
            // drive the weaker pump runs faster.
            const std::vector<double> factors =
                inherits_ && !heldOutlet_m_ ? std::vector{high} : std::vector{high, 1.0, low};
            for (const double factor : factors) {
                const SolvedPoint p = factor == 1.0 ? printed : solvePoint(state, factor);
                if (!p.duty()) {
                    const JudgedState asPrinted = judged(state, printed);
                    if (factor > 1.0 && p.crossings.miss != Miss::belowRange && hasUpperLimits(asPrinted))
                        return false;
                    if (!flowCeilingBreaches(asPrinted, *printed.duty()).empty()) return false;
                    continue;
                }
                const JudgedState there = judged(state, p);
                if (!inletAndMotorBreaches(there, *p.duty()).empty()) return false;
                if (factor == high && !flowCeilingBreaches(there, *p.duty()).empty()) return false;
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
        const SolvedPoint& worst = most.duty() ? most : printed;
        if (worst.duty() && !upperBreaches(judged(strong, worst), *worst.duty()).empty()) return false;
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
            const PumpModel& pump = p.slowed ? *p.slowed : corner.pump;
            const auto best = pump.bestPoint(model_->water().density);
            if (!p.duty() || !best) return false;
            if (bandOf(p.duty()->flow_m3_s / best->flow_m3_s, bandLimits(pump, *best)) != Band::preferred) {
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
    const PumpModel& pump = printed.slowed ? *printed.slowed : state.pump;
    run.input_W = pump.inputAt_W(duty->flow_m3_s, duty->head_m, model_->water().density);
    return run;
}

CaseSolver::Duty CaseSolver::duty(const Case& setting, bool fillingEmptyMain) const {
    State state(*this, settingOf(setting, fillingEmptyMain), setting.speedShare);
    const SolvedPoint printed = solvePoint(state, 1.0);
    Duty found;
    found.speedShare = printed.heldShare.value_or(setting.speedShare);
    if (printed.duty()) found.crossing = *printed.duty();
    return found;
}

// What stops the case, each kind of limit at its own end of what may be delivered.
void CaseSolver::judge(const State& state, const SolvedPoint& printed, const SolvedPoint& low,
                       const SolvedPoint& high, const CaseAnswer& answer, Cautions& breaches) const {
    const bool delivery = limits_.asDelivered;
    const JudgedState asPrinted = judged(state, printed);
    const CautionInputs of{&asPrinted, this, &answer.setting, answer.fillingEmptyMain, &printed, &low, &high};
    const SolvedPoint& weak = delivery ? low : printed;
    if (weak.duty()) {
        append(breaches, lowerBreaches(judged(state, weak), *weak.duty()));
    } else {
        breaches.push_back(deliveredMissCaution(of, false));
    }
    if (delivery && !high.duty() && hasUpperLimits(asPrinted))
        breaches.push_back(deliveredMissCaution(of, true));
    const SolvedPoint& strong = delivery && high.duty() ? high : printed;
    append(breaches, upperBreaches(judged(state, strong), *strong.duty()));
    append(breaches, flowCeilingBreaches(judged(state, strong), *strong.duty()));
    for (const SolvedPoint* p : {&printed, &high, &low}) {
        if ((p == &printed || delivery) && p->duty())
            append(breaches, inletAndMotorBreaches(judged(state, *p), *p->duty()));
    }
    if (limits_.preferredBandOnly && (!answer.efficiency || answer.efficiency->band != Band::preferred))
        breaches.push_back(bandCaution(answer, Severity::warning));
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

    const JudgedState asPrinted = judged(state, printed);
    const CautionInputs inputs{&asPrinted, this, &setting, fillingEmptyMain, &printed, &low, &high};
    if (printed.duty()) a.heldSpeedShare = printed.heldShare;
    const Crossing* duty = printed.duty();
    Cautions breaches, said;
    if (!duty) {
        breaches.push_back(missCaution(inputs));
    } else {
        fillDuty(inputs, *duty, a);
        judge(state, printed, low, high, a, breaches);
        for (ZoneAnswer& zone : a.zones) {
            zone.withinLimits = std::none_of(breaches.begin(), breaches.end(), [&](const Caution& c) {
                const Fact* name = findFact(c.values, "zone");
                return name && std::get<std::string>(name->value) == zone.name;
            });
        }
        if (a.duty->flow.inCubicMetresPerSecond() <= 0.0) {
            Caution still = noFlowCaution(inputs, a);
            (still.severity == Severity::danger ? breaches : said).push_back(std::move(still));
        }
    }
    a.serves = duty != nullptr && breaches.empty();
    for (Caution& c : breaches)
        c.stops = true;
    a.cautions = std::move(breaches);
    append(a.cautions, std::move(said));
    append(a.cautions, adviceCautions(inputs, a));
    std::stable_sort(a.cautions.begin(), a.cautions.end(),
                     [](const Caution& x, const Caution& y) { return x.severity > y.severity; });
    a.working = workingOf(inputs, a);
    return a;
}

} // namespace headmark
