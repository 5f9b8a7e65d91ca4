// The filter's gauge readings: clean, and when to clean; its mesh against what the emitters need.

#include "analysis/irrigation/emitter_catalogue.h"
#include "analysis/pipework/catalogue.h"
#include "analysis/practice/study_parts.h"

#include <algorithm>

namespace headmark {

namespace {

std::string placeOf(const Element& e) { return "delivery[" + std::to_string(e.item) + "]"; }

void addDifferences(const InstallationQuestion& q, const Element& e, double flow_m3_s, Study& study) {
    const SiteModel& model = q.solver->model();
    const double clean_kPa = pressureOfHead_kPa(
        elementLoss_m(e, model.context(), FilterState::clean, 0.0, flow_m3_s), model.water().density);
    study.figures.push_back(
        {"filter-clean", placeOf(e), {{"flow_m3_h", flow_m3_s * 3600.0}}, {"difference_kPa", clean_kPa}});
    if (e.filterService_m <= 0.0) return;
    const double service_kPa = pressureOfHead_kPa(e.filterService_m, model.water().density);
    study.figures.push_back(
        {"filter-service", placeOf(e), {{"clean_kPa", clean_kPa}}, {"difference_kPa", service_kPa}});
    if (clean_kPa < service_kPa) return;
    study.cautions.push_back({"filter-small",
                              Severity::warning,
                              placeOf(e),
                              {{"clean_kPa", clean_kPa}, {"service_kPa", service_kPa}},
                              "larger-filter",
                              {},
                              "the filter's clean loss at this flow"});
}

// The finest opening that the emitters ask for.
const EmitterRow* finestEmitter(const Site& site) {
    const EmitterRow* finest = nullptr;
    for (const Zone& zone : site.zones) {
        const EmitterRow* row = findEmitterType(zone.emitters.type);
        if (!row || row->filtration_micron <= 0.0) continue;
        if (!finest || row->filtration_micron < finest->filtration_micron) finest = row;
    }
    return finest;
}

void judgeMesh(const InstallationQuestion& q, const Element& e, Study& study) {
    const FilterRow* filter = findFilter(e.code);
    const EmitterRow* finest = finestEmitter(q.solver->model().site());
    if (!filter || filter->micron <= 0.0 || !finest) return;
    study.figures.push_back({"filter-mesh",
                             placeOf(e),
                             {{"filter_micron", filter->micron}, {"emitter", finest->name}},
                             {"needed_micron", finest->filtration_micron}});
    if (filter->micron <= finest->filtration_micron) return;
    study.cautions.push_back({"filter-too-coarse",
                              Severity::warning,
                              placeOf(e),
                              {{"filter_micron", filter->micron},
                               {"limit_micron", finest->filtration_micron},
                               {"emitter", finest->name}},
                              "finer-filter",
                              {{"micron", finest->filtration_micron}},
                              finest->source});
}

} // namespace

Study filterStudy(const InstallationQuestion& q) {
    Study study{"filter", {}, {}};
    const double flow_m3_s = greatestDuty_m3_s(q.cases);
    bool any = false;
    for (const Element& e : q.solver->model().delivery()) {
        if (e.kind != ElementKind::filter) continue;
        any = true;
        if (flow_m3_s > 0.0) addDifferences(q, e, flow_m3_s, study);
        judgeMesh(q, e, study);
    }
    const EmitterRow* finest = finestEmitter(q.solver->model().site());
    if (!any && finest) {
        study.cautions.push_back({"no-filter",
                                  Severity::warning,
                                  "delivery",
                                  {{"limit_micron", finest->filtration_micron}, {"emitter", finest->name}},
                                  "finer-filter",
                                  {{"micron", finest->filtration_micron}},
                                  finest->source});
    }
    return study;
}

} // namespace headmark
