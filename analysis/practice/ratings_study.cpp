// The pressure that stands in every part when all valves shut: high water, the strongest pump delivered.
// What stands on the suction's side counts from the source alone.

#include "analysis/practice/study_parts.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kSlip = 60.0 / 50.0; // a pump for 50 Hz on a supply of 60 Hz runs so much faster

struct Rated {
    std::string place;
    double level_m = 0.0;
    double rating_kPa = 0.0;
};

void addRun(const std::vector<Element>& run, const std::string& name, double level_m,
            std::vector<Rated>& out) {
    for (const Element& e : run) {
        // The lower end bears more.
        const double end_m = e.riseTo ? e.riseTo->inMetres() : level_m;
        if (e.rating)
            out.push_back({name + "[" + std::to_string(e.item) + "]", std::min(level_m, end_m),
                           e.rating->inKilopascals()});
        level_m = end_m;
    }
}

std::vector<Rated> ratedParts(const CaseSolver& solver) {
    const SiteModel& model = solver.model();
    const double pump_m = model.site().pumpLevel.inMetres();
    std::vector<Rated> rated;
    if (solver.pump().greatestPressure)
        rated.push_back({"pump", pump_m, solver.pump().greatestPressure->inKilopascals()});
    addRun(model.delivery(), "delivery", pump_m, rated);
    for (std::size_t z = 0; z < model.site().zones.size(); ++z) {
        // Up to the zone's valve only the main's pressure stands; behind a regulator less, which is left out.
        addRun(model.branch(z), "zones[" + std::to_string(z) + "].branch",
               model.site().zones[z].level.inMetres(), rated);
    }
    return rated;
}

} // namespace

Study ratingsStudy(const InstallationQuestion& q) {
    Study study{"ratings", {}, {}};
    const SiteModel& model = q.solver->model();
    const Density density = model.water().density;
    const double source_m = model.sourceLevel_m(WaterLevel::high);
    const double shutOff_m = strongestShutOff_m(*q.solver);
    const double atPump_kPa =
        pressureOfHead_kPa(source_m + shutOff_m - model.site().pumpLevel.inMetres(), density);
    study.figures.push_back({"shut-off-pressure",
                             "pump",
                             {{"density_kg_m3", density.inKilogramsPerCubicMetre()},
                              {"gravity_m_s2", kStudyGravity_m_s2},
                              {"source_level_m", source_m},
                              {"shut_off_m", shutOff_m},
                              {"pump_level_m", model.site().pumpLevel.inMetres()}},
                             {"pressure_kPa", atPump_kPa}});
    const double slipped_m = shutOff_m * kSlip * kSlip;
    const double slipped_kPa =
        pressureOfHead_kPa(source_m + slipped_m - model.site().pumpLevel.inMetres(), density);
    study.figures.push_back({"shut-off-at-60-hz",
                             "pump",
                             {{"shut_off_m", shutOff_m},
                              {"source_level_m", source_m},
                              {"pump_level_m", model.site().pumpLevel.inMetres()}},
                             {"pressure_kPa", slipped_kPa}});
    // The weakest part against what stands in it; what breaks is said by the cases as well.
    const Rated* weakest = nullptr;
    double least_kPa = 0.0;
    const std::vector<Rated> parts = ratedParts(*q.solver);
    for (const Rated& r : parts) {
        const double spare_kPa = r.rating_kPa - pressureOfHead_kPa(source_m + shutOff_m - r.level_m, density);
        if (weakest && spare_kPa >= least_kPa) continue;
        weakest = &r;
        least_kPa = spare_kPa;
    }
    if (!weakest) return study;
    const double stands_kPa = weakest->rating_kPa - least_kPa;
    study.figures.push_back({"rating-spare",
                             weakest->place,
                             {{"rating_kPa", weakest->rating_kPa}, {"pressure_kPa", stands_kPa}},
                             {"spare_kPa", least_kPa}});
    if (least_kPa < 0.0) {
        study.cautions.push_back({"shut-off-above-rating",
                                  Severity::danger,
                                  weakest->place,
                                  {{"pressure_kPa", stands_kPa}, {"limit_kPa", weakest->rating_kPa}},
                                  "part-of-rating",
                                  {{"rating_kPa", stands_kPa}},
                                  q.rules().source("pn_shutoff_check")});
    } else if (least_kPa < slipped_kPa - atPump_kPa) {
        study.cautions.push_back(
            {"no-spare-for-60-hz",
             Severity::note,
             weakest->place,
             {{"pressure_kPa", stands_kPa + slipped_kPa - atPump_kPa}, {"limit_kPa", weakest->rating_kPa}},
             "keep-to-50-hz",
             {},
             "affinity laws"});
    }
    return study;
}

} // namespace headmark
