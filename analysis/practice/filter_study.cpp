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

// The finest opening that the emitters ask for: a share of their smallest passage where the job gives it,
// else their catalogue row's figure.
struct Finest {
    double micron = 0.0;
    std::string emitter, source;
};

std::optional<Finest> askedBy(const InstallationQuestion& q, const Zone& zone) {
    const EmitterRow* row = findEmitterType(zone.emitters.type);
    if (zone.emitters.passage) {
        return Finest{q.rules().value("filter_ratio") * zone.emitters.passage->inMillimetres() * 1e3,
                      row ? row->name : zone.name, q.rules().source("filter_ratio")};
    }
    if (!row || row->filtration_micron <= 0.0) return std::nullopt;
    return Finest{row->filtration_micron, row->name, row->source};
}

std::optional<Finest> finestOf(const InstallationQuestion& q) {
    std::optional<Finest> finest;
    for (const Zone& zone : q.solver->model().site().zones) {
        auto asked = askedBy(q, zone);
        if (asked && (!finest || asked->micron < finest->micron)) finest = std::move(asked);
    }
    return finest;
}

void judgeMesh(const Element& e, const std::optional<Finest>& finest, Study& study) {
    const FilterRow* filter = findFilter(e.code);
    if (!filter || filter->micron <= 0.0 || !finest) return;
    study.figures.push_back({"filter-mesh",
                             placeOf(e),
                             {{"filter_micron", filter->micron}, {"emitter", finest->emitter}},
                             {"needed_micron", finest->micron}});
    if (filter->micron <= finest->micron) return;
    study.cautions.push_back(
        {"filter-too-coarse",
         Severity::warning,
         placeOf(e),
         {{"filter_micron", filter->micron}, {"limit_micron", finest->micron}, {"emitter", finest->emitter}},
         "finer-filter",
         {{"micron", finest->micron}},
         finest->source});
}

} // namespace

Study filterStudy(const InstallationQuestion& q) {
    Study study{"filter", {}, {}};
    const double flow_m3_s = greatestDelivered_m3_s(q.cases);
    const std::optional<Finest> finest = finestOf(q);
    bool any = false;
    for (const Element& e : q.solver->model().delivery()) {
        if (e.kind != ElementKind::filter) continue;
        any = true;
        if (flow_m3_s > 0.0) addDifferences(q, e, flow_m3_s, study);
        judgeMesh(e, finest, study);
    }
    if (!any && finest) {
        study.cautions.push_back({"no-filter",
                                  Severity::warning,
                                  "delivery",
                                  {{"limit_micron", finest->micron}, {"emitter", finest->emitter}},
                                  "finer-filter",
                                  {{"micron", finest->micron}},
                                  finest->source});
    }
    return study;
}

} // namespace headmark
