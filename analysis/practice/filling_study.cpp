// The first start against an empty main: how much water goes in, how fast, and what the motor bears.

#include "analysis/practice/study_parts.h"

#include <algorithm>

namespace headmark {

namespace {

// The longest way: the main and every branch.
double volumeToFill_m3(const SiteModel& model) {
    double sum = volumeOf_m3(model.delivery());
    for (std::size_t z = 0; z < model.site().zones.size(); ++z)
        sum += volumeOf_m3(model.branch(z));
    return sum;
}

const CaseAnswer* fillingCase(std::span<const CaseAnswer> cases) {
    const auto found =
        std::find_if(cases.begin(), cases.end(), [](const CaseAnswer& a) { return a.fillingEmptyMain; });
    return found == cases.end() ? nullptr : &*found;
}

} // namespace

Study fillingStudy(const InstallationQuestion& q) {
    Study study{"filling", {}, {}};
    const SiteModel& model = q.solver->model();
    const double volume_m3 = volumeToFill_m3(model);
    if (volume_m3 <= 0.0) return study;
    study.figures.push_back({"main-volume",
                             "",
                             {{"delivery_m3", volumeOf_m3(model.delivery())},
                              {"branches_m3", volume_m3 - volumeOf_m3(model.delivery())}},
                             {"volume_m3", volume_m3}});
    // At the slow rate that lets the air out without a blow.
    const double velocity_m_s = q.rules().value("filling_velocity");
    const auto widest = std::max_element(
        model.delivery().begin(), model.delivery().end(), [](const Element& a, const Element& b) {
            const auto bore = [](const Element& e) { return e.kind == ElementKind::pipe ? e.bore_m : 0.0; };
            return bore(a) < bore(b);
        });
    if (widest != model.delivery().end() && widest->kind == ElementKind::pipe) {
        const double flow_m3_s = velocity_m_s * areaOf_m2(widest->bore_m);
        study.figures.push_back({"filling-slowly",
                                 "delivery[" + std::to_string(widest->item) + "]",
                                 {{"volume_m3", volume_m3},
                                  {"velocity_m_s", velocity_m_s},
                                  {"bore_m", widest->bore_m},
                                  {"flow_m3_h", flow_m3_s * 3600.0}},
                                 {"minutes", volume_m3 / flow_m3_s / 60.0}});
    }
    const CaseAnswer* filling = fillingCase(q.cases);
    if (!filling || !filling->duty) return study; // run-out beyond the chart is said by its case
    const double runOut_m3_h = filling->duty->flow.inCubicMetresPerHour();
    if (runOut_m3_h <= 0.0) return study;
    study.figures.push_back({"filling-least-time",
                             "",
                             {{"volume_m3", volume_m3}, {"flow_m3_h", runOut_m3_h}},
                             {"minutes", 60.0 * volume_m3 / runOut_m3_h}});
    return study;
}

} // namespace headmark
