#include "analysis/job/findings_json.h"

#include "analysis/job/cautions_json.h"
#include "analysis/job/connection_finding.h"
#include "analysis/job/installation_finding.h"
#include "analysis/job/shift_plan_json.h"

namespace headmark {

namespace {

using Json = nlohmann::ordered_json;

Json flowRange(const Interval95<Flow>& i) {
    return {i.low.inCubicMetresPerHour(), i.high.inCubicMetresPerHour()};
}
Json headRange(const Interval95<Head>& i) { return {i.low.inMetres(), i.high.inMetres()}; }

Json powerRange(const Interval95<Power>& i) { return {i.low.inKilowatts(), i.high.inKilowatts()}; }

Json dutyJson(const DutyPoint& d) {
    Json j{{"flow_m3_h", d.flow.inCubicMetresPerHour()}, {"head_m", d.head.inMetres()}};
    if (d.flow95) j["flow_95_m3_h"] = flowRange(*d.flow95);
    if (d.head95) j["head_95_m"] = headRange(*d.head95);
    j["stable"] = d.stable;
    return j;
}

Json deliveredJson(const std::optional<DeliveredPoint>& p) {
    if (!p) return nullptr;
    return {{"flow_m3_h", p->flow.inCubicMetresPerHour()}, {"head_m", p->head.inMetres()}};
}

const char* bandName(Band band) {
    switch (band) {
    case Band::preferred:
        return "preferred";
    case Band::allowable:
        return "allowable";
    case Band::outside:
        return "outside";
    case Band::unknown:
        break;
    }
    return "unknown";
}

Json efficiencyJson(const std::optional<EfficiencyAnswer>& e) {
    if (!e) return nullptr;
    Json j{{"at_duty_share", e->atDuty ? finiteJson(e->atDuty->inShare()) : Json(nullptr)}};
    if (e->atDuty95) j["at_duty_95_share"] = {e->atDuty95->low.inShare(), e->atDuty95->high.inShare()};
    j["best_share"] = e->best.inShare();
    j["best_flow_m3_h"] = e->bestFlow.inCubicMetresPerHour();
    j["share_of_best_flow"] = e->shareOfBestFlow;
    j["band"] = bandName(e->band);
    return j;
}

Json powerJson(const std::optional<PowerAnswer>& p) {
    if (!p) return nullptr;
    Json j{{"hydraulic_kW", p->hydraulic.inKilowatts()},
           {"shaft_kW", p->shaft ? finiteJson(p->shaft->inKilowatts()) : Json(nullptr)}};
    if (p->shaft95) j["shaft_95_kW"] = powerRange(*p->shaft95);
    j["input_kW"] = p->input ? finiteJson(p->input->inKilowatts()) : Json(nullptr);
    if (p->input95) j["input_95_kW"] = powerRange(*p->input95);
    j["kWh_per_m3"] =
        p->kilowattHoursPerCubicMetre ? finiteJson(*p->kilowattHoursPerCubicMetre) : Json(nullptr);
    return j;
}

Json npshJson(const std::optional<NpshAnswer>& n) {
    if (!n) return nullptr;
    Json j{{"available_m", n->available.inMetres()},
           {"required_m", n->required ? finiteJson(n->required->inMetres()) : Json(nullptr)},
           {"margin_m", n->margin ? finiteJson(n->margin->inMetres()) : Json(nullptr)}};
    if (n->available95) j["available_95_m"] = headRange(*n->available95);
    if (n->margin95) j["margin_95_m"] = headRange(*n->margin95);
    return j;
}

Json workingJson(const Working& working, const Wording& wording) {
    Json list = Json::array();
    for (const WorkingStep& s : working) {
        const Wording::WorkingText t = wording.workingText(s);
        list.push_back({{"title", t.title},
                        {"formula", t.formula},
                        {"with", t.with},
                        {"result", t.result},
                        {"source", t.source}});
    }
    return list;
}

Json zonesJson(const std::vector<ZoneAnswer>& zones) {
    Json list = Json::array();
    for (const ZoneAnswer& z : zones) {
        list.push_back({{"name", z.name},
                        {"flow_m3_h", z.flow.inCubicMetresPerHour()},
                        {"pressure_at_emitter_kPa",
                         {{"lowest", z.lowest.inKilopascals()}, {"highest", z.highest.inKilopascals()}}},
                        {"within_limits", z.withinLimits}});
        if (!z.emitter) continue;
        list.back()["emitter_flow_l_h"] = {{"lowest", z.emitter->lowest.inLitresPerHour()},
                                           {"mean", z.emitter->mean.inLitresPerHour()},
                                           {"highest", z.emitter->highest.inLitresPerHour()}};
        list.back()["emission_uniformity_share"] = z.emitter->uniformityShare;
    }
    return list;
}

Json caseJson(const CaseAnswer& a, const Wording& wording) {
    Json j{{"name", a.name}, {"serves", a.serves}};
    j["duty"] = a.duty ? dutyJson(*a.duty) : Json(nullptr);
    if (a.duties.size() > 1) {
        j["duties"] = Json::array();
        for (const DutyPoint& d : a.duties)
            j["duties"].push_back(dutyJson(d));
    }
    if (a.heldSpeedShare) j["held_speed_share"] = *a.heldSpeedShare;
    j["as_delivered"] = {{"low", deliveredJson(a.deliveredLow)}, {"high", deliveredJson(a.deliveredHigh)}};
    j["efficiency"] = efficiencyJson(a.efficiency);
    j["power"] = powerJson(a.power);
    j["npsh"] = npshJson(a.npsh);
    j["zones"] = zonesJson(a.zones);
    j["tank_return_flow_m3_h"] =
        a.tankReturnFlow ? finiteJson(a.tankReturnFlow->inCubicMetresPerHour()) : Json(nullptr);
    j["cautions"] = cautionsJson(a.cautions, wording);
    j["working"] = workingJson(a.working, wording);
    return j;
}

Json zonesAtOnceJson(const ZonesAtOnceFinding& z, const Wording& wording) {
    Json limits = Json::array();
    for (const auto& l : z.limits) {
        Json one{{"code", l.code}};
        if (!l.zone.empty()) one["zone"] = l.zone;
        limits.push_back(std::move(one));
    }
    Json oneMore = Json::array();
    for (const auto& change : z.oneMore)
        oneMore.push_back({{"change", change.change}, {"best_set", change.bestSet}});
    Json j{{"any_set", z.anySet},
           {"every_choice_works_for", z.everyChoiceWorksFor},
           {"best_set", z.bestSet},
           {"best_sets", z.bestSets},
           {"best_sets_count", z.bestSetsCount},
           {"proven", z.proven},
           {"best_set_at_most", z.bestSetAtMost},
           {"any_set_at_most", z.anySetAtMost},
           {"limits", limits},
           {"one_more", oneMore},
           {"cautions", cautionsJson(z.cautions, wording)}};
    if (!z.bestSetsCounted) j["best_sets_counted"] = false;
    return j;
}

} // namespace

std::string findingsJson(const Findings& findings, const Wording& wording) {
    Json doc{
        {"format", "headmark-findings"}, {"version", 1}, {"needs", Json::array()}, {"pumps", Json::array()}};
    for (const Need& n : findings.needs) {
        doc["needs"].push_back({{"case", n.caseName},
                                {"flow_m3_h", n.flow.inCubicMetresPerHour()},
                                {"head_m", n.head.inMetres()}});
    }
    for (const PumpFindings& p : findings.pumps) {
        Json pump{{"name", p.name}, {"cases", Json::array()}};
        for (const CaseAnswer& a : p.cases)
            pump["cases"].push_back(caseJson(a, wording));
        pump["zones_at_once"] = p.zonesAtOnce ? zonesAtOnceJson(*p.zonesAtOnce, wording) : Json(nullptr);
        pump["shift_plan"] = p.shiftPlan ? shiftPlanJson(*p.shiftPlan, wording) : Json(nullptr);
        pump["installation"] = installationJson(p.installation, wording);
        pump["connections"] = p.connections ? connectionJson(*p.connections, wording) : Json(nullptr);
        pump["cautions"] = cautionsJson(p.cautions, wording);
        doc["pumps"].push_back(std::move(pump));
    }
    return doc.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace headmark
