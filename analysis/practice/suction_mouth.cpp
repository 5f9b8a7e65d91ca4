// How deep the suction's mouth must lie, and how far from the bottom.

#include "analysis/duty/suction_lift.h"
#include "analysis/practice/submergence.h"
#include "analysis/practice/suction_parts.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr double kRounding_m = 1e-9;

bool standsBesideItsTank(std::string_view source) {
    return source == "raised_tank" || source == "tank_drawn_below_pump" || source == "mains_break_tank" ||
           source == "rain_butts";
}

MouthKind kindOf(std::string_view source, std::string_view first) {
    if (isMainsSource(source)) return MouthKind::none;
    if (first.starts_with("floating_inlet")) return MouthKind::floating;
    if (isSubmersedSource(source)) return MouthKind::submersed;
    if (first.ends_with("strainer") || first == "suction_strainer_basket") return MouthKind::strainer;
    if (first.starts_with("foot_valve")) return MouthKind::hanging;
    if (first == "tank_connector" || standsBesideItsTank(source)) return MouthKind::wall;
    return MouthKind::hanging;
}

// A depth or clearance that is asked for, and by which row of the table.
struct Asked {
    double least_m;
    std::string source;
};

class MouthStudy {
  public:
    MouthStudy(const InstallationQuestion& q, const Mouth& mouth, double flow_m3_s, Study& study)
        : q_(q), mouth_(mouth), flow_m3_s_(flow_m3_s), study_(study) {}

    void add() {
        if (mouth_.kind == MouthKind::none) return;
        if (mouth_.kind == MouthKind::floating) addFloating();
        if (isSubmersedSource(source().kind)) return addSubmersed();
        if (mouth_.kind == MouthKind::floating || mouth_.bore_m <= 0.0) return;
        addDepth();
    }

  private:
    [[nodiscard]] const WaterSource& source() const { return *q_.solver->model().site().source; }

    // By ANSI/HI 9.8, at the velocity through the open area.
    double byRule_m(double openAreas, double& velocity_m_s) const {
        velocity_m_s = flow_m3_s_ / (openAreas * areaOf_m2(mouth_.bore_m));
        return leastSubmergence(Length::fromMetres(mouth_.bore_m),
                                Velocity::fromMetresPerSecond(velocity_m_s))
            .inMetres();
    }

    // The figure and what it asks for.
    Asked depthNeeded(const char* figure, double openAreas, std::string_view practice) {
        double v = 0.0;
        const double rule_m = byRule_m(openAreas, v);
        Facts with{{"bore_m", mouth_.bore_m}, {"velocity_m_s", v}};
        Asked asked{rule_m, q_.rules().source("submergence_hi")};
        if (!practice.empty()) {
            const double practice_m = q_.rules().value(practice);
            with.push_back({"practice_m", practice_m});
            with.push_back({"open_areas", openAreas});
            if (practice_m > rule_m) asked = {practice_m, q_.rules().source(practice)};
        }
        // a float hangs centimetres deep
        const bool floats = mouth_.kind == MouthKind::floating;
        study_.figures.push_back(
            {figure,
             mouth_.place,
             std::move(with),
             {floats ? "depth_mm" : "depth_m", floats ? 1e3 * asked.least_m : asked.least_m}});
        return asked;
    }

    void addDepth() {
        const double open = q_.rules().value("strainer_open_area");
        const Asked asked = mouth_.kind == MouthKind::wall ? depthNeeded("submergence-outlet", 1.0, "")
                            : mouth_.kind == MouthKind::strainer
                                ? depthNeeded("submergence-strainer", open, "submergence_min_practice")
                                : depthNeeded("submergence", 1.0, "submergence_min_practice");
        if (!q_.facts.mouthLevel) return;
        judgeDepth(q_.facts.mouthLevel->inMetres(), asked, "");
        const char* rule =
            mouth_.kind == MouthKind::wall ? "tank_outlet_floor" : "floor_clearance_foot_valve";
        judgeFloor(q_.facts.mouthLevel->inMetres(), rule, "");
    }

    // A float keeps its own depth; where the water gets too low for it, it lies on the bed.
    void addFloating() {
        if (mouth_.bore_m <= 0.0) return;
        const Asked asked = depthNeeded("floating-inlet-depth", q_.rules().value("strainer_open_area"),
                                        "floating_inlet_depth");
        if (!q_.facts.floorLevel) return;
        const double water_m = lowestRunning_m(q_), floor_m = q_.facts.floorLevel->inMetres();
        const double clear_m = water_m - asked.least_m - floor_m;
        const double needed_m = q_.rules().value("floor_clearance_foot_valve");
        if (clear_m >= needed_m - kRounding_m) return;
        study_.cautions.push_back({"floating-inlet-grounds",
                                   Severity::warning,
                                   "source",
                                   {{"source_level_m", water_m},
                                    {"depth_mm", 1e3 * asked.least_m},
                                    {"clearance_m", clear_m},
                                    {"limit_m", needed_m}},
                                   "let-it-stop-at",
                                   {{"level_m", nextTenthUp_m(floor_m + needed_m + asked.least_m)}},
                                   q_.rules().source("floor_clearance_foot_valve")});
    }

    // The inlet's level is the mouth's where it is given, else the pump's.
    void addSubmersed() {
        const double inlet_m = mouth_.kind == MouthKind::submersed && q_.facts.mouthLevel
                                   ? q_.facts.mouthLevel->inMetres()
                                   : q_.solver->model().site().pumpLevel.inMetres();
        const double water_m = lowestRunning_m(q_);
        study_.figures.push_back({"submersed-cover",
                                  "",
                                  {{"source_level_m", water_m}, {"inlet_m", inlet_m}},
                                  {"depth_m", water_m - inlet_m}});
        judgeDepth(inlet_m, {q_.rules().value("submersible_cover"), q_.rules().source("submersible_cover")},
                   "submersed");
        judgeFloor(inlet_m, "submersible_floor", "submersed");
    }

    void judgeDepth(double mouth_m, const Asked& asked, const std::string& side) {
        const auto& stop = source().stopLevel;
        const double low_m = q_.solver->model().sourceLevel_m(WaterLevel::low);
        const bool stopsFirst = stop && stop->inMetres() > low_m;
        if (!stopsFirst && low_m - mouth_m < asked.least_m - kRounding_m)
            tooShallow("mouth-too-shallow", "lower-the-mouth-or-stop-earlier", low_m, mouth_m, asked, side);
        if (stop && stop->inMetres() - mouth_m < asked.least_m - kRounding_m)
            tooShallow("stops-too-late", "stop-at-level", stop->inMetres(), mouth_m, asked, side);
    }

    void tooShallow(const char* code, const char* remedy, double water_m, double mouth_m, const Asked& asked,
                    const std::string& side) {
        const bool submersed = !side.empty();
        const double lower_m = nextTenthUp_m(mouth_m + asked.least_m - water_m);
        // Where the bottom is in the way, only stopping earlier helps.
        const char* const clearance = submersed ? "submersible_floor" : "floor_clearance_foot_valve";
        const auto& floor = q_.facts.floorLevel;
        const bool room =
            !floor || mouth_m - lower_m - floor->inMetres() >= q_.rules().value(clearance) - kRounding_m;
        Facts facts{{"level_m", water_m}, {"depth_m", water_m - mouth_m}, {"limit_m", asked.least_m}};
        if (submersed) facts.push_back({"side", side});
        study_.cautions.push_back(
            {code,
             water_m < mouth_m ? Severity::danger : Severity::warning,
             "source",
             std::move(facts),
             !room       ? "let-it-stop-at"
             : submersed ? "hang-it-lower-or-stop-at"
                         : remedy,
             {{"level_m", nextTenthUp_m(mouth_m + asked.least_m)}, {"lower_m", lower_m}},
             asked.source});
    }

    void judgeFloor(double mouth_m, std::string_view rule, const std::string& side) {
        if (!q_.facts.floorLevel) return;
        const double clear_m = mouth_m - q_.facts.floorLevel->inMetres();
        const double needed_m = q_.rules().value(rule);
        if (clear_m >= needed_m - kRounding_m) return;
        Facts facts{{"clearance_m", clear_m}, {"limit_m", needed_m}};
        if (!side.empty()) facts.push_back({"side", side});
        study_.cautions.push_back({"mouth-near-the-floor",
                                   Severity::warning,
                                   "source",
                                   std::move(facts),
                                   side.empty() ? "raise-the-mouth" : "raise-the-pump",
                                   {{"raise_mm", 1e3 * (needed_m - clear_m)}},
                                   q_.rules().source(rule)});
    }

    const InstallationQuestion& q_;
    const Mouth& mouth_;
    double flow_m3_s_;
    Study& study_;
};

} // namespace

Mouth mouthOf(const InstallationQuestion& q) {
    const auto& suction = q.solver->model().suction();
    Mouth mouth;
    mouth.kind = kindOf(q.solver->model().site().source->kind, suction.empty() ? "" : suction.front().code);
    const auto bored =
        std::find_if(suction.begin(), suction.end(), [](const Element& e) { return e.bore_m > 0.0; });
    if (bored == suction.end()) return mouth;
    mouth.place = "suction[" + std::to_string(bored->item) + "]";
    mouth.bore_m = bored->bore_m;
    return mouth;
}

double lowestRunning_m(const InstallationQuestion& q) {
    const double low_m = q.solver->model().sourceLevel_m(WaterLevel::low);
    const auto& stop = q.solver->model().site().source->stopLevel;
    return stop ? std::max(low_m, stop->inMetres()) : low_m;
}

void addMouth(const InstallationQuestion& q, const Mouth& mouth, double flow_m3_s, Study& study) {
    MouthStudy(q, mouth, flow_m3_s, study).add();
}

} // namespace headmark
