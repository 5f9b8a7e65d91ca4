// How the numbers of a case came about, as data: codes, numbers put in, results. Words stand in app/words.
#include "analysis/duty/case_cautions.h"

#include "analysis/duty/energy_line.h"
#include "analysis/irrigation/leaf_law.h"

#include <cmath>

namespace headmark {

namespace {

constexpr double kGravity = factor::kStandardGravity_m_s2;

// Loss of a pressure of 1 bar as conventional head, 10.197 m: what Kv refers to.
constexpr double kBarAsHead_m = factor::kBar_Pa / factor::kMetreOfWater_Pa;

WorkingStep fittingStep(const EnergyLineItem& item) {
    const double crack_m = item.element->crack_m, moving_m = item.lossOrGain_m - crack_m;
    const double v = item.velocity_m_s();
    if (v > 0.0) {
        return {"fitting-loss",
                item.place,
                {{"k", moving_m * 2.0 * kGravity / (v * v)}, {"velocity_m_s", v}, {"crack_m", crack_m}},
                {"loss_m", item.lossOrGain_m}};
    }
    const double flow_m3_h = item.flow_m3_s * 3600.0;
    const double kv = moving_m > 0.0 ? flow_m3_h * std::sqrt(kBarAsHead_m / moving_m) : 0.0;
    return {"fitting-loss-kv",
            item.place,
            {{"flow_m3_h", flow_m3_h}, {"kv_m3_h", kv}, {"crack_m", crack_m}},
            {"loss_m", item.lossOrGain_m}};
}

WorkingStep filterStep(const JudgedState& s, const EnergyLineItem& item) {
    const Element& e = *item.element;
    if (s.filter == FilterState::service && e.filterService_m > 0.0) {
        return {"filter-loss-service",
                item.place,
                {{"service_kPa", pressureOf_Pa(e.filterService_m, s.model->water().density) / 1e3},
                 {"density_kg_m3", s.model->water().density.inKilogramsPerCubicMetre()},
                 {"gravity_m_s2", kGravity}},
                {"loss_m", item.lossOrGain_m}};
    }
    return {"filter-loss",
            item.place,
            {{"coefficient", e.filterCoefficient / std::pow(3600.0, e.filterExponent)},
             {"flow_m3_h", item.flow_m3_s * 3600.0},
             {"exponent", e.filterExponent}},
            {"loss_m", item.lossOrGain_m}};
}

void pipeStep(const JudgedState& s, const EnergyLineItem& item, Working& w) {
    const Element& e = *item.element;
    const double v = item.velocity_m_s();
    // What is not listed is allowed for as so much more pipe.
    const double length_m = e.length_m * (1.0 + s.model->site().fittingsAllowanceShare);
    w.push_back({"velocity",
                 item.place,
                 {{"flow_m3_s", item.flow_m3_s}, {"area_m2", item.flow_m3_s / v}},
                 {"velocity_m_s", v}});
    if (s.model->context().friction == FrictionMethod::hazenWilliams) {
        w.push_back({"friction-hazen-williams",
                     item.place,
                     {{"length_m", length_m},
                      {"flow_m3_s", item.flow_m3_s},
                      {"c", e.hazenWilliamsC},
                      {"bore_m", e.bore_m}},
                     {"loss_m", item.lossOrGain_m}});
        return;
    }
    const double viscosity_m2_s = s.model->water().viscosity.inSquareMetresPerSecond();
    const double re = v * e.bore_m / viscosity_m2_s;
    w.push_back({"reynolds",
                 item.place,
                 {{"velocity_m_s", v}, {"bore_m", e.bore_m}, {"viscosity_m2_s", viscosity_m2_s}},
                 {"reynolds", re}});
    w.push_back({"friction",
                 item.place,
                 {{"friction_factor", darcyFrictionFactor(re, e.roughness_m / e.bore_m).value},
                  {"length_m", length_m},
                  {"bore_m", e.bore_m},
                  {"velocity_m_s", v}},
                 {"loss_m", item.lossOrGain_m}});
}

void pipeSteps(const JudgedState& s, const Crossing& duty, Working& w) {
    for (const EnergyLineItem& item : energyLine(*s.model, *s.tree, duty.solution, s.filter)) {
        if (!item.element || item.flow_m3_s <= 0.0) continue;
        switch (item.element->kind) {
        case ElementKind::pipe:
            pipeStep(s, item, w);
            break;
        case ElementKind::fitting:
            w.push_back(fittingStep(item));
            break;
        case ElementKind::filter:
            w.push_back(filterStep(s, item));
            break;
        case ElementKind::regulator:
        case ElementKind::takeoff:
            break;
        }
    }
}

void siteSteps(const JudgedState& s, const Crossing& duty, Working& w) {
    const Density density = s.model->water().density;
    const double suctionLoss_m = duty.flow_m3_s > 0.0 ? s.tree->tree.suction.at(duty.flow_m3_s).loss_m : 0.0;
    for (std::size_t i = 0; i < s.tree->outflows.size(); ++i) {
        const OutflowOf& of = s.tree->outflows[i];
        const TreeOutflow& o = s.tree->tree.outflows[i];
        const double wayLoss_m = duty.solution.rootHead_m - duty.solution.outflowHead_m[i];
        if (of.kind == OutflowOf::Kind::zone) {
            const double head_m = duty.solution.outflowHead_m[i] - o.level_m;
            w.push_back({"pressure-at-zone",
                         "zones[" + std::to_string(of.zone) + "]",
                         {{"density_kg_m3", density.inKilogramsPerCubicMetre()},
                          {"source_level_m", s.tree->tree.sourceLevel_m},
                          {"pump_head_m", duty.head_m},
                          {"suction_loss_m", suctionLoss_m},
                          {"delivery_loss_m", wayLoss_m},
                          {"zone_level_m", o.level_m}},
                         {"pressure_kPa", pressureOf_Pa(head_m, density) / 1e3}});
        } else if (of.kind == OutflowOf::Kind::end) {
            w.push_back({"system-head",
                         "end",
                         {{"end_level_m", o.level_m},
                          {"source_level_m", s.tree->tree.sourceLevel_m},
                          {"suction_loss_m", suctionLoss_m},
                          {"delivery_loss_m", wayLoss_m},
                          {"exit_loss_m", o.law.at(duty.solution.outflow_m3_s[i]).loss_m}},
                         {"head_m", duty.head_m}});
        } else if (of.kind == OutflowOf::Kind::known) {
            w.push_back({"known-system",
                         "system",
                         {{"static_head_m", o.level_m}, {"flow_m3_h", duty.flow_m3_s * 3600.0}},
                         {"head_m", duty.head_m}});
        }
    }
}

void npshSteps(const CautionInputs& in, const Crossing& duty, const CaseAnswer& a, Working& w) {
    const JudgedState& s = *in.judged;
    if (!a.npsh) return;
    w.push_back(
        {"npsh-available",
         "suction",
         {{"air_kPa", s.model->air().inKilopascals()},
          {"vapour_kPa", s.model->water().vapourPressure.inKilopascals()},
          {"density_kg_m3", s.model->water().density.inKilogramsPerCubicMetre()},
          {"source_level_m", s.tree->tree.sourceLevel_m},
          {"pump_level_m", s.model->site().pumpLevel.inMetres()},
          {"suction_loss_m", duty.flow_m3_s > 0.0 ? s.tree->tree.suction.at(duty.flow_m3_s).loss_m : 0.0}},
         {"available_m", a.npsh->available.inMetres()}});
    if (!a.npsh->margin) return;
    w.push_back(
        {"npsh-margin",
         "suction",
         {{"available_m", a.npsh->available.inMetres()}, {"required_m", a.npsh->required->inMetres()}},
         {"margin_m", a.npsh->margin->inMetres()}});
}

void powerSteps(const CautionInputs& in, const Crossing& duty, const CaseAnswer& a, Working& w) {
    if (a.efficiency) {
        w.push_back({"share-of-best-flow",
                     "pump",
                     {{"flow_m3_h", duty.flow_m3_s * 3600.0},
                      {"best_flow_m3_h", a.efficiency->bestFlow.inCubicMetresPerHour()}},
                     {"share", a.efficiency->shareOfBestFlow}});
    }
    if (!a.power) return;
    const JudgedState& s = *in.judged;
    w.push_back({"hydraulic-power",
                 "pump",
                 {{"density_kg_m3", s.model->water().density.inKilogramsPerCubicMetre()},
                  {"gravity_m_s2", kGravity},
                  {"flow_m3_s", duty.flow_m3_s},
                  {"head_m", duty.head_m}},
                 {"hydraulic_kW", a.power->hydraulic.inKilowatts()}});
    if (a.power->shaft && a.efficiency && a.efficiency->atDuty && !s.pump->power) {
        w.push_back({"shaft-power",
                     "pump",
                     {{"hydraulic_kW", a.power->hydraulic.inKilowatts()},
                      {"efficiency_share", a.efficiency->atDuty->inShare()}},
                     {"shaft_kW", a.power->shaft->inKilowatts()}});
    }
    if (a.power->input && a.power->shaft && s.pump->motor && s.pump->motor->efficiency) {
        w.push_back({"input-power",
                     "pump",
                     {{"shaft_kW", a.power->shaft->inKilowatts()},
                      {"motor_efficiency_share", s.pump->motor->efficiency->inShare()}},
                     {"input_kW", a.power->input->inKilowatts()}});
    }
    if (a.power->kilowattHoursPerCubicMetre) {
        const double return_m3_h = a.tankReturnFlow ? a.tankReturnFlow->inCubicMetresPerHour() : 0.0;
        w.push_back({"energy-per-volume",
                     "pump",
                     {{"input_kW", a.power->input->inKilowatts()},
                      {"flow_m3_h", duty.flow_m3_s * 3600.0},
                      {"return_m3_h", return_m3_h}},
                     {"kWh_per_m3", *a.power->kilowattHoursPerCubicMetre}});
    }
}

} // namespace

Working workingOf(const CautionInputs& in, const CaseAnswer& a) {
    Working w;
    const Crossing* duty = in.printed->duty();
    const double ratio = in.solver->pump().runRatio * a.heldSpeedShare.value_or(in.setting->speedShare);
    if (std::abs(ratio - 1.0) > 1e-12) {
        w.push_back({"affinity", "pump", {{"speed_share", ratio}}, {"head_factor", ratio * ratio}});
    }
    if (!duty) return w;
    w.push_back(
        {"duty-on-curve", "pump", {{"flow_m3_h", duty->flow_m3_s * 3600.0}}, {"head_m", duty->head_m}});
    siteSteps(*in.judged, *duty, w);
    for (const auto& [code, point] :
         {std::pair{"delivered-low", in.low}, std::pair{"delivered-high", in.high}}) {
        if (!point->duty()) continue;
        w.push_back({code,
                     "pump",
                     {{"factor", point->factor}, {"flow_m3_h", point->duty()->flow_m3_s * 3600.0}},
                     {"head_m", point->duty()->head_m}});
    }
    if (in.solver->returnKv_m3_h() && a.tankReturnFlow) {
        const double flow_m3_h = a.tankReturnFlow->inCubicMetresPerHour(), kv = *in.solver->returnKv_m3_h();
        w.push_back(
            {"return-valve",
             "tank_return",
             {{"flow_m3_h", flow_m3_h}, {"valve_head_m", kBarAsHead_m * flow_m3_h * flow_m3_h / (kv * kv)}},
             {"kv_m3_h", kv}});
    }
    powerSteps(in, *duty, a, w);
    npshSteps(in, *duty, a, w);
    if (!in.judged->model->site().system) pipeSteps(*in.judged, *duty, w);
    return w;
}

} // namespace headmark
