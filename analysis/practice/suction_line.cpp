// The suction between mouth and pump: air that gathers in it, and what must be filled in before the first
// start.

#include "analysis/duty/suction_lift.h"
#include "analysis/practice/suction_parts.h"

#include <algorithm>
#include <limits>

namespace headmark {

namespace {

std::string placeOf(const Element& e) { return "suction[" + std::to_string(e.item) + "]"; }

// Where the suction falls again on its way up, air gathers and stays. Where water floods the pump, only in
// what stands above its lowest level.
void findAirPocket(const InstallationQuestion& q, Study& study) {
    const double pump_m = q.solver->model().site().pumpLevel.inMetres();
    const double water_m = q.solver->model().sourceLevel_m(WaterLevel::low);
    double highest_m = water_m >= pump_m ? water_m : -std::numeric_limits<double>::infinity();
    std::string place;
    const auto look = [&](double level_m, const std::string& at) {
        if (level_m > highest_m) {
            highest_m = level_m;
            place = at;
        } else if (level_m < highest_m - 1e-6 && !place.empty()) {
            study.cautions.push_back({"air-pocket",
                                      Severity::warning,
                                      place,
                                      {{"level_m", highest_m}, {"falls_to_m", level_m}},
                                      "let-the-suction-rise",
                                      {},
                                      q.rules().source("suction_rise")});
            place.clear();
        }
    };
    for (const Element& e : q.solver->model().suction()) {
        if (e.kind == ElementKind::pipe && e.riseTo) look(e.riseTo->inMetres(), placeOf(e));
    }
    look(pump_m, "pump");
}

// A stretch whose both ends' levels are known: the mouth's or the pipe's before it, and its own or the
// pump's.
void judgeRise(const InstallationQuestion& q, const Mouth& mouth, Study& study) {
    const auto& suction = q.solver->model().suction();
    const auto isPipe = [](const Element& e) { return e.kind == ElementKind::pipe; };
    const auto last = std::find_if(suction.rbegin(), suction.rend(), isPipe);
    if (last == suction.rend()) return;
    std::optional<double> from_m;
    if (q.facts.mouthLevel && mouth.kind != MouthKind::floating) from_m = q.facts.mouthLevel->inMetres();
    double length_m = 0.0;
    for (const Element& e : suction) {
        if (!isPipe(e)) continue;
        length_m += e.length_m;
        std::optional<double> to_m;
        if (e.riseTo) to_m = e.riseTo->inMetres();
        if (!to_m && &e == &*last) to_m = q.solver->model().site().pumpLevel.inMetres();
        if (!to_m) continue;
        const double needed_mm = q.rules().value("suction_rise") * length_m;
        const double rise_mm = from_m ? 1e3 * (*to_m - *from_m) : needed_mm;
        if (rise_mm > -1e-3 && rise_mm < needed_mm - 1e-3) { // what falls is an air pocket
            study.cautions.push_back({"suction-rises-too-little",
                                      Severity::warning,
                                      placeOf(e),
                                      {{"rise_mm", rise_mm}, {"length_m", length_m}, {"limit_mm", needed_mm}},
                                      "give-the-suction-rise",
                                      {{"more_mm", needed_mm - rise_mm}},
                                      q.rules().source("suction_rise")});
        }
        from_m = to_m;
        length_m = 0.0;
    }
}

// A foot valve, or any check valve in the suction, keeps it full once it was filled.
bool holdsThePrime(const std::vector<Element>& suction) {
    return std::any_of(suction.begin(), suction.end(), [](const Element& e) {
        return e.code.starts_with("foot_valve") || e.code == "floating_inlet_check" ||
               e.code.starts_with("check_") || e.code == "double_check_valve";
    });
}

void addPriming(const InstallationQuestion& q, Study& study) {
    const double low_m = q.solver->model().sourceLevel_m(WaterLevel::low);
    const double pump_m = q.solver->model().site().pumpLevel.inMetres();
    if (low_m >= pump_m) return; // fills by itself
    const auto& suction = q.solver->model().suction();
    const double pipe_l = 1e3 * volumeOf_m3(suction);
    const double casing_l = q.facts.casing ? q.facts.casing->inLitres() : q.rules().value("casing_water");
    const double filling_l_min = q.rules().value("priming_flow");
    study.figures.push_back({"priming-volume",
                             "",
                             {{"pipe_l", pipe_l}, {"casing_l", casing_l}},
                             {"volume_l", pipe_l + casing_l}});
    study.figures.push_back({"priming-time",
                             "",
                             {{"volume_l", pipe_l + casing_l}, {"flow_l_min", filling_l_min}},
                             {"minutes", (pipe_l + casing_l) / filling_l_min}});
    if (!q.facts.primesTo || holdsThePrime(suction)) return;
    const double lift_m = pump_m - low_m, limit_m = q.facts.primesTo->inMetres();
    if (lift_m <= limit_m) return;
    study.cautions.push_back({"lift-beyond-priming",
                              Severity::danger,
                              "pump",
                              {{"lift_m", lift_m}, {"limit_m", limit_m}},
                              "foot-valve-and-filling",
                              {{"lower_m", nextTenthUp_m(lift_m - limit_m)}},
                              "the pump's maker"});
}

} // namespace

void addSuctionLine(const InstallationQuestion& q, const Mouth& mouth, Study& study) {
    findAirPocket(q, study);
    const double pump_m = q.solver->model().site().pumpLevel.inMetres();
    if (q.solver->model().sourceLevel_m(WaterLevel::low) < pump_m) judgeRise(q, mouth, study);
    addPriming(q, study);
}

} // namespace headmark
