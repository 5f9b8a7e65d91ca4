// What the motor draws over the flows it may meet, its current, and what the water costs.

#include "analysis/practice/motor_catalogue.h"
#include "analysis/practice/motor_current.h"
#include "analysis/practice/study_parts.h"

#include <algorithm>

namespace headmark {

namespace {

struct Peak {
    double shaft_W = 0.0, flow_m3_s = 0.0;
};

// Over the flows the curve was read for: run-out included, since an open hydrant takes the pump there.
std::optional<Peak> peakOf(const CaseSolver& solver) {
    const PumpModel pump = solver.pump().atSpeed(1.0);
    const Density density = solver.model().water().density;
    const double least = std::max(0.0, pump.head.least_m3_s());
    std::optional<Peak> peak;
    constexpr int kLooks = 200;
    for (int i = 0; i <= kLooks; ++i) {
        const double flow = least + (pump.head.greatest_m3_s() - least) * i / kLooks;
        const auto shaft_W = pump.shaftAt_W(flow, pump.head.at(flow), density);
        if (shaft_W && (!peak || *shaft_W > peak->shaft_W)) peak = Peak{*shaft_W, flow};
    }
    return peak;
}

// The case that draws most.
const CaseAnswer* hungriest(std::span<const CaseAnswer> cases) {
    const CaseAnswer* most = nullptr;
    for (const CaseAnswer& a : cases) {
        if (!a.power || !a.power->input) continue;
        if (!most || *a.power->input > *most->power->input) most = &a;
    }
    return most;
}

// The next size of motor that bears that power at the shaft, larger than the one there is; beyond the table
// that power itself.
Power curingSize(const InstallationQuestion& q, Power shaft) {
    const auto supply = supplyOf(q);
    const int phases = supply ? supply->phases : 3;
    const auto& motor = q.solver->pump().motor;
    Power needed = shaft;
    constexpr double kNextSize = 1.001;
    if (motor && motor->rated && *motor->rated >= shaft) needed = *motor->rated * kNextSize;
    const Power size = usualMotor(phases, needed).rated;
    return std::max(size, needed);
}

Power shaftOf(const CaseAnswer& a) { return a.power->shaft ? *a.power->shaft : *a.power->input; }

void judgeRating(const InstallationQuestion& q, const Peak& peak, Study& study) {
    const auto& motor = q.solver->pump().motor;
    if (!motor || !motor->rated) return;
    const double rated_W = motor->rated->inWatts();
    study.figures.push_back({"motor-spare",
                             "pump",
                             {{"rated_kW", rated_W / 1e3}, {"shaft_kW", peak.shaft_W / 1e3}},
                             {"ratio", rated_W / peak.shaft_W}});
    if (peak.shaft_W <= rated_W) return;
    study.cautions.push_back({"overload-at-run-out",
                              Severity::warning,
                              "pump",
                              {{"shaft_kW", peak.shaft_W / 1e3},
                               {"limit_kW", rated_W / 1e3},
                               {"flow_m3_h", peak.flow_m3_s * 3600.0}},
                              "throttle-or-larger-motor",
                              {{"rated_kW", curingSize(q, Power::fromWatts(peak.shaft_W)).inKilowatts()}},
                              "power over the flows the curve was read for"});
}

void judgePlate(const InstallationQuestion& q, const CaseAnswer& most, Study& study) {
    if (!q.facts.plateInput || *most.power->input <= *q.facts.plateInput) return;
    study.cautions.push_back({"input-above-plate",
                              Severity::warning,
                              "pump",
                              {{"input_kW", most.power->input->inKilowatts()},
                               {"limit_kW", q.facts.plateInput->inKilowatts()},
                               {"case", most.name}},
                              "throttle-or-larger-motor",
                              {{"rated_kW", curingSize(q, shaftOf(most)).inKilowatts()}},
                              "the motor's plate"});
}

void addCurrent(const InstallationQuestion& q, const CaseAnswer& most, Study& study) {
    const auto supply = supplyOf(q);
    if (!supply) return;
    const auto& motor = q.solver->pump().motor;
    const Power rated = motor && motor->rated ? *motor->rated : *most.power->input;
    const double factor = q.facts.powerFactor.value_or(usualMotor(supply->phases, rated).powerFactor);
    if (factor <= 0.0) return;
    const double amps = motorCurrent_A(*most.power->input, supply->phases, supply->volts, factor);
    study.figures.push_back(
        {supply->phases == 3 ? "motor-current-three" : "motor-current-one",
         most.name,
         {{"input_W", most.power->input->inWatts()}, {"volts", supply->volts}, {"power_factor", factor}},
         {"current_A", amps}});
    if (!q.facts.plateAmps || amps <= *q.facts.plateAmps) return;
    study.cautions.push_back({"current-above-plate",
                              Severity::warning,
                              "pump",
                              {{"current_A", amps}, {"limit_A", *q.facts.plateAmps}, {"case", most.name}},
                              "throttle-or-larger-motor",
                              {{"rated_kW", curingSize(q, shaftOf(most)).inKilowatts()}},
                              "the motor's plate"});
}

// No price, no cost.
void addCost(const InstallationQuestion& q, Study& study) {
    if (!q.facts.pricePerKilowattHour) return;
    for (const CaseAnswer& a : q.cases) {
        if (a.fillingEmptyMain || !a.power || !a.power->kilowattHoursPerCubicMetre) continue;
        const double kWh = *a.power->kilowattHoursPerCubicMetre;
        study.figures.push_back({"cost-per-volume",
                                 a.name,
                                 {{"energy_kWh_m3", kWh}, {"price_per_kWh", *q.facts.pricePerKilowattHour}},
                                 {"cost_per_m3", kWh * *q.facts.pricePerKilowattHour}});
    }
}

} // namespace

Study motorStudy(const InstallationQuestion& q) {
    Study study{"motor", {}, {}};
    if (const auto peak = peakOf(*q.solver)) {
        study.figures.push_back({"greatest-shaft-power",
                                 "pump",
                                 {{"flow_m3_h", peak->flow_m3_s * 3600.0}},
                                 {"shaft_kW", peak->shaft_W / 1e3}});
        judgeRating(q, *peak, study);
    }
    if (const CaseAnswer* most = hungriest(q.cases)) {
        judgePlate(q, *most, study);
        addCurrent(q, *most, study);
    }
    addCost(q, study);
    return study;
}

} // namespace headmark
