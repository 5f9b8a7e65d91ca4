// The jump of pressure when a zone valve shuts or the pump stops, against what the pipes bear.

#include "analysis/pipework/catalogue.h"
#include "analysis/practice/study_parts.h"
#include "analysis/practice/surge.h"

#include <algorithm>

namespace headmark {

namespace {

struct Way {
    std::vector<SurgePipe> pipes;
    double level_m = 0.0; // as far as it has been followed
    double leastSpare_m = std::numeric_limits<double>::infinity();
    double rating_kPa = 0.0, weakest_m = 0.0; // of the weakest pipe, and the level of its lower end
    std::string weakest;
    Element weakestElement;
    bool rigidTaken = false; // some wall is not known and counts as unyielding
};

Velocity waveIn(const Element& e, const WaterProperties& water, bool& rigidTaken) {
    if (const PipeRow* row = findPipe(e.code)) {
        if (row->elasticity_GPa > 0.0 && row->wall_mm > 0.0) {
            const PipeWall wall{Length::fromMetres(e.bore_m), Length::fromMillimetres(row->wall_mm),
                                row->elasticity_GPa * 1e9, row->poisson};
            return waveSpeed(water.soundSpeed, water.density, wall);
        }
        if (row->waveSpeed_m_s > 0.0) return Velocity::fromMetresPerSecond(row->waveSpeed_m_s);
    }
    rigidTaken = true;
    return water.soundSpeed;
}

// `goesTo_m`: where a branch goes with its first pipe. `toValve`: a jump stands before the valve that shuts.
void addPipes(const InstallationQuestion& q, const std::vector<Element>& run, const std::string& name,
              double flow_m3_s, std::optional<double> goesTo_m, bool toValve, Way& way) {
    const double rhoG = q.solver->model().water().density.inKilogramsPerCubicMetre() * kStudyGravity_m_s2;
    for (const Element& e : run) {
        if (toValve && goesTo_m && e.code.starts_with("solenoid_valve")) return;
        if (e.kind != ElementKind::pipe) continue;
        const double end_m = e.riseTo ? e.riseTo->inMetres() : goesTo_m.value_or(way.level_m);
        const double lower_m = std::min(way.level_m, end_m);
        way.level_m = end_m;
        const Velocity v = Velocity::fromMetresPerSecond(flow_m3_s / areaOf_m2(e.bore_m));
        way.pipes.push_back(
            {Length::fromMetres(e.length_m), waveIn(e, q.solver->model().water(), way.rigidTaken), v});
        const auto rating_kPa = q.solver->warm().rating_kPa(e);
        const double spare_m = rating_kPa ? *rating_kPa * 1e3 / rhoG + lower_m : way.leastSpare_m;
        if (spare_m < way.leastSpare_m) {
            way.leastSpare_m = spare_m;
            way.rating_kPa = *rating_kPa;
            way.weakest_m = lower_m;
            way.weakestElement = e;
            way.weakest = name + "[" + std::to_string(e.item) + "]";
        }
    }
}

// The delivery run up to where the zone leaves it.
std::vector<Element> mainTo(const SiteModel& model, const Zone& zone) {
    const auto& run = model.delivery();
    const auto end = std::find_if(run.begin(), run.end(), [&](const Element& e) {
        return e.kind == ElementKind::takeoff && e.takeoff == zone.takeoff;
    });
    return {run.begin(), end};
}

struct Shut {
    const CaseAnswer* answer = nullptr;
    std::size_t zone = 0;
    double flow_m3_s = 0.0;
};

// The case and zone whose stop matters most: the greatest flow of one zone.
Shut greatestZone(const InstallationQuestion& q) {
    Shut most;
    const auto& zones = q.solver->model().site().zones;
    for (const CaseAnswer& a : q.cases) {
        if (a.fillingEmptyMain || !a.duty) continue;
        for (const ZoneAnswer& z : a.zones) {
            const double flow = z.flow.inCubicMetresPerSecond();
            if (flow <= most.flow_m3_s) continue;
            const auto found = std::find_if(zones.begin(), zones.end(),
                                            [&](const Zone& zone) { return zone.name == z.name; });
            if (found == zones.end()) continue;
            most = {&a, static_cast<std::size_t>(found - zones.begin()), flow};
        }
    }
    return most;
}

Facts factsOf(const Surge& surge, Duration closing) {
    return {{"sudden_m", surge.ifSudden.inMetres()},
            {"critical_s", surge.critical.inSeconds()},
            {"closing_s", closing.inSeconds()}};
}

// What stands in the main with the pump running against the shut valve, plus the jump.
void judgeValve(const InstallationQuestion& q, const Shut& shut, const Way& way, const Surge& surge,
                Study& study) {
    if (way.weakest.empty()) return;
    const SiteModel& model = q.solver->model();
    const Density density = model.water().density;
    const double standing_m =
        model.sourceLevel_m(WaterLevel::high) + strongestShutOff_m(*q.solver) - way.weakest_m;
    const double standing_kPa = pressureOfHead_kPa(standing_m, density);
    const double jump_kPa = pressureOfHead_kPa(surge.jump.inMetres(), density);
    study.figures.push_back({"surge-peak",
                             way.weakest,
                             {{"standing_kPa", standing_kPa}, {"jump_kPa", jump_kPa}},
                             {"pressure_kPa", standing_kPa + jump_kPa}});
    const double spare_kPa = way.rating_kPa - standing_kPa;
    if (jump_kPa <= spare_kPa || spare_kPa <= 0.0) return; // no spare at all is the ratings' matter
    const double allowed_m = spare_kPa * 1e3 / (density.inKilogramsPerCubicMetre() * kStudyGravity_m_s2);
    Facts facts{{"zone", model.site().zones[shut.zone].name},
                {"pressure_kPa", standing_kPa + jump_kPa},
                {"limit_kPa", way.rating_kPa}};
    for (Fact& f : warmFacts(way.weakestElement, q.solver->warm(), model.temperature()))
        facts.push_back(std::move(f));
    study.cautions.push_back(
        {"surge-above-rating",
         Severity::warning,
         way.weakest,
         std::move(facts),
         "slower-valve",
         {{"seconds", closingTimeFor(way.pipes, Head::fromMetres(allowed_m)).inSeconds()}},
         q.rules().source("surge_joukowsky")});
}

// A column that runs on from a stopped pump pulls the pressure behind it down by as much as a stop adds, to
// where water turns to vapour and no further. Water that stands above the pump follows through it instead.
void addPumpStop(const InstallationQuestion& q, const Shut& shut, const Way& way, Study& study) {
    const Surge surge = surgeIn(way.pipes, Duration::fromSeconds(0.0));
    const SiteModel& model = q.solver->model();
    if (model.sourceLevel_m(WaterLevel::low) >= model.site().pumpLevel.inMetres()) return;
    const double standing_m = shut.answer->duty->head.inMetres() +
                              model.sourceLevel_m(shut.answer->setting.level) -
                              model.site().pumpLevel.inMetres();
    const double left_m = standing_m - surge.ifSudden.inMetres();
    study.figures.push_back({"pump-stop",
                             "",
                             {{"standing_m", standing_m}, {"sudden_m", surge.ifSudden.inMetres()}},
                             {"left_m", left_m}});
    const double rhoG = model.water().density.inKilogramsPerCubicMetre() * kStudyGravity_m_s2;
    const double vapour_m = (model.air() - model.water().vapourPressure).inPascals() / rhoG;
    if (left_m > -vapour_m) return;
    study.cautions.push_back({"column-parts",
                              Severity::warning,
                              "delivery",
                              {{"left_m", left_m}, {"limit_m", -vapour_m}},
                              "slower-stop-or-air-valve",
                              {},
                              q.rules().source("surge_joukowsky")});
}

} // namespace

Study surgeStudy(const InstallationQuestion& q) {
    Study study{"surge", {}, {}};
    const Shut shut = greatestZone(q);
    if (!shut.answer) return study;
    const SiteModel& model = q.solver->model();
    const Zone& zone = model.site().zones[shut.zone];
    const auto wayOf = [&](bool toValve) {
        Way way;
        way.level_m = model.site().pumpLevel.inMetres();
        addPipes(q, mainTo(model, zone), "delivery", shut.flow_m3_s, {}, toValve, way);
        way.level_m = takeoffLevel_m(model, zone.takeoff).value_or(zone.level.inMetres());
        addPipes(q, model.branch(shut.zone), "zones[" + std::to_string(shut.zone) + "].branch",
                 shut.flow_m3_s, zone.level.inMetres(), toValve, way);
        return way;
    };
    const Way way = wayOf(true), whole = wayOf(false);
    if (way.pipes.empty()) return study;
    const Duration closing =
        q.facts.valveClosing.value_or(Duration::fromSeconds(q.rules().value("zone_valve_closing")));
    const Surge surge = surgeIn(way.pipes, closing);
    study.figures.push_back(
        {"valve-shuts", zone.name, factsOf(surge, closing), {"jump_m", surge.jump.inMetres()}});
    if (way.rigidTaken)
        study.cautions.push_back({"wall-not-known", Severity::note, "delivery", {}, "name-the-pipe", {}, ""});
    judgeValve(q, shut, way, surge, study);
    addPumpStop(q, shut, whole, study);
    return study;
}

} // namespace headmark
