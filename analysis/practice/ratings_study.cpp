// The pressure that stands in every part when all valves shut: high water, the strongest pump delivered, full
// speed. What stands on the suction's side counts from the source alone. Every part is taken at its lower
// end.

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
    bool beforePump = false;
    const Element* element = nullptr; // null: the pump
    double stands_kPa = 0.0, stands60_kPa = 0.0;
    [[nodiscard]] double spare_kPa() const { return rating_kPa - stands_kPa; }
};

class Parts {
  public:
    explicit Parts(const CaseSolver& solver) : solver_(solver), model_(solver.model()) {
        const Site& site = model_.site();
        const double pump_m = site.pumpLevel.inMetres();
        if (solver.pump().greatestPressure)
            rated.push_back({"pump", pump_m, solver.pump().greatestPressure->inKilopascals()});
        addRun(model_.suction(), "suction", std::min(pump_m, model_.sourceLevel_m(WaterLevel::high)), {},
               true);
        addRun(model_.delivery(), "delivery", pump_m, {}, false);
        for (std::size_t z = 0; z < site.zones.size(); ++z) {
            const double zone_m = site.zones[z].level.inMetres();
            addRun(model_.branch(z), "zones[" + std::to_string(z) + "].branch",
                   takeoffLevel_m(model_, site.zones[z].takeoff).value_or(zone_m), zone_m, false);
        }
        if (const Element* back = model_.returnPipe(); back && back->rating) {
            const double out_m =
                back->riseTo ? back->riseTo->inMetres() : model_.returnOutletLevel_m(WaterLevel::low);
            add("tank_return", *back, std::min(pump_m, out_m), false);
        }
    }

    std::vector<Rated> rated;

  private:
    void add(const std::string& place, const Element& e, double level_m, bool beforePump) {
        rated.push_back({place, level_m, *solver_.warm().rating_kPa(e), beforePump, &e});
    }

    // `zone_m`: where a branch goes with its first pipe.
    void addRun(const std::vector<Element>& run, const std::string& name, double level_m,
                std::optional<double> zone_m, bool beforePump) {
        const bool ofZone = zone_m.has_value();
        for (const Element& e : run) {
            if (e.kind == ElementKind::regulator) return; // what stands behind it is the cases' matter
            double end_m = e.riseTo ? e.riseTo->inMetres() : level_m;
            if (zone_m && e.kind == ElementKind::pipe) {
                if (!e.riseTo) end_m = *zone_m;
                zone_m.reset();
            }
            if (e.rating)
                add(name + "[" + std::to_string(e.item) + "]", e, std::min(level_m, end_m), beforePump);
            level_m = end_m;
            // Shut, a zone's valve keeps the pressure from what stands behind it.
            if (ofZone && e.code.starts_with("solenoid_valve")) return;
        }
    }

    const CaseSolver& solver_;
    const SiteModel& model_;
};

// What breaks is a danger each; the cases say of their own pressures what they exceed.
void judge(const InstallationQuestion& q, const Rated& part, Study& study) {
    if (part.spare_kPa() < 0.0) {
        Facts facts{{"pressure_kPa", part.stands_kPa}, {"limit_kPa", part.rating_kPa}};
        // What a part of the same make must be rated for in cold water.
        double rating_kPa = part.stands_kPa;
        if (part.element) {
            for (Fact& f : warmFacts(*part.element, q.solver->warm(), q.solver->model().temperature()))
                facts.push_back(std::move(f));
            rating_kPa /= q.solver->warm().of(*part.element);
        }
        study.cautions.push_back({part.beforePump ? "source-above-rating" : "shut-off-above-rating",
                                  Severity::danger,
                                  part.place,
                                  std::move(facts),
                                  "part-of-rating",
                                  {{"rating_kPa", rating_kPa}},
                                  q.rules().source("pn_shutoff_check")});
    }
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
    std::vector<Rated> parts = Parts(*q.solver).rated;
    for (Rated& r : parts) {
        const double before_m = r.beforePump ? source_m : source_m + shutOff_m;
        const double slip_m = r.beforePump ? source_m : source_m + slipped_m;
        r.stands_kPa = pressureOfHead_kPa(before_m - r.level_m, density);
        r.stands60_kPa = pressureOfHead_kPa(slip_m - r.level_m, density);
        judge(q, r, study);
    }
    const auto weakest = std::min_element(parts.begin(), parts.end(), [](const Rated& a, const Rated& b) {
        return a.spare_kPa() < b.spare_kPa();
    });
    if (weakest == parts.end()) return study;
    study.figures.push_back({"rating-spare",
                             weakest->place,
                             {{"rating_kPa", weakest->rating_kPa}, {"pressure_kPa", weakest->stands_kPa}},
                             {"spare_kPa", weakest->spare_kPa()}});
    if (weakest->spare_kPa() < 0.0) return study;
    const auto at60 = std::min_element(parts.begin(), parts.end(), [](const Rated& a, const Rated& b) {
        return a.rating_kPa - a.stands60_kPa < b.rating_kPa - b.stands60_kPa;
    });
    if (at60->rating_kPa < at60->stands60_kPa) {
        study.cautions.push_back({"no-spare-for-60-hz",
                                  Severity::note,
                                  at60->place,
                                  {{"pressure_kPa", at60->stands60_kPa}, {"limit_kPa", at60->rating_kPa}},
                                  "keep-to-50-hz",
                                  {},
                                  "affinity laws"});
    }
    return study;
}

} // namespace headmark
