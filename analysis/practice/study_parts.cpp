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

double greatestDuty_m3_s(std::span<const CaseAnswer> cases) {
    double greatest = 0.0;
    for (const CaseAnswer& a : cases) {
        if (a.fillingEmptyMain) continue;
        if (a.duty) greatest = std::max(greatest, a.duty->flow.inCubicMetresPerSecond());
        if (a.deliveredHigh) greatest = std::max(greatest, a.deliveredHigh->flow.inCubicMetresPerSecond());
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

std::optional<MotorSupply> supplyOf(const InstallationQuestion& q) {
    const auto& motor = q.solver->pump().motor;
    std::optional<MotorSupply> supply = motor ? supplyIn(motor->supply) : std::nullopt;
    if (!q.facts.volts && !q.facts.phases) return supply;
    MotorSupply given = supply.value_or(MotorSupply{});
    if (q.facts.volts) given.volts = *q.facts.volts;
    if (q.facts.phases) given.phases = *q.facts.phases;
    return given;
}

const CaseAnswer* shutInCase(std::span<const CaseAnswer> cases) {
    const auto found = std::find_if(cases.begin(), cases.end(), [](const CaseAnswer& a) {
        return a.setting.zonesOpen.empty() && !a.fillingEmptyMain;
    });
    return found == cases.end() ? nullptr : &*found;
}

} // namespace headmark
