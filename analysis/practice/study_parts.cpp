#include "analysis/practice/study_parts.h"

#include <algorithm>

namespace headmark {

double volumeOf_m3(const std::vector<Element>& run) {
    double sum = 0.0;
    for (const Element& e : run) {
        if (e.kind == ElementKind::pipe) sum += e.length_m * areaOf_m2(e.bore_m);
    }
    return sum;
}

double strongestShutOff_m(const CaseSolver& solver) {
    const PumpModel pump = solver.pump().atSpeed(1.0);
    const double top_m = pump.head.at(std::max(pump.head.least_m3_s(), pump.head.flowOfMaximum()));
    return top_m * (1.0 + pump.deliveredShare);
}

double greatestOf_m3_s(const CaseAnswer& a) {
    const double printed = a.duty ? a.duty->flow.inCubicMetresPerSecond() : 0.0;
    return a.deliveredHigh ? std::max(printed, a.deliveredHigh->flow.inCubicMetresPerSecond()) : printed;
}

double greatestDuty_m3_s(std::span<const CaseAnswer> cases) {
    double greatest = 0.0;
    for (const CaseAnswer& a : cases) {
        if (!a.fillingEmptyMain) greatest = std::max(greatest, greatestOf_m3_s(a));
    }
    return greatest;
}

// The return hardly feels which end of delivery the pump is at: its flow as printed is taken off both.
double greatestDelivered_m3_s(std::span<const CaseAnswer> cases) {
    double greatest = 0.0;
    for (const CaseAnswer& a : cases) {
        if (a.fillingEmptyMain || !a.duty) continue;
        const Flow most = a.deliveredHigh ? std::max(a.duty->flow, a.deliveredHigh->flow) : a.duty->flow;
        const Flow back = a.tankReturnFlow.value_or(Flow{});
        greatest = std::max(greatest, (most - back).inCubicMetresPerSecond());
    }
    return greatest;
}

std::optional<MotorSupply> supplyOf(const PumpModel& pump, std::optional<double> volts,
                                    std::optional<int> phases) {
    std::optional<MotorSupply> supply = pump.motor ? supplyIn(pump.motor->supply) : std::nullopt;
    if (!volts && !phases) return supply;
    constexpr double kOnePhase_V = 230.0; // IEC 60038; of three phases 400 V
    MotorSupply given = supply.value_or(MotorSupply{});
    if (!supply && phases == 1) given.volts = kOnePhase_V;
    if (volts) given.volts = *volts;
    if (phases) given.phases = *phases;
    return given;
}

std::optional<MotorSupply> supplyOf(const InstallationQuestion& q) {
    return supplyOf(q.solver->pump(), q.facts.volts, q.facts.phases);
}

std::optional<double> takeoffLevel_m(const SiteModel& model, const std::string& takeoff) {
    std::optional<double> level_m;
    for (const Element& e : model.delivery()) {
        if (e.kind == ElementKind::takeoff && !takeoff.empty() && e.takeoff == takeoff) break;
        if (e.riseTo) level_m = e.riseTo->inMetres();
    }
    return level_m;
}

const CaseAnswer* shutInCase(std::span<const CaseAnswer> cases) {
    const auto found = std::find_if(cases.begin(), cases.end(), [](const CaseAnswer& a) {
        return a.setting.zonesOpen.empty() && !a.fillingEmptyMain;
    });
    return found == cases.end() ? nullptr : &*found;
}

} // namespace headmark
