// NPSH at every level, what the suction still bears, and what must be under water.

#include "analysis/duty/judgement.h"
#include "analysis/practice/study_parts.h"
#include "analysis/practice/submergence.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kUsualSpeed_rpm = 2900.0; // two poles at 50 Hz, where the chart's speed is not given

// NPSH required at a flow; from the rule of suction specific speed where no chart shows it:
//   NPSH_required = (n sqrt(Q)/S)^(4/3)   n in rpm, Q in m3/s, S as the table of limits has it
class Required {
  public:
    Required(const InstallationQuestion& q, Study& study)
        : pump_(q.solver->pump().atSpeed(1.0)), specific_(q.rules().value("suction_specific_speed")) {
        if (pump_.npshRequired) return;
        rpm_ = pump_.chartSpeed ? pump_.chartSpeed->inRevolutionsPerMinute() * q.solver->pump().runRatio
                                : kUsualSpeed_rpm;
        study.cautions.push_back({"npsh-by-rule",
                                  Severity::note,
                                  "pump",
                                  {{"suction_specific_speed", specific_}, {"speed_rpm", rpm_}},
                                  "ask-maker-for-npsh",
                                  {},
                                  q.rules().source("suction_specific_speed")});
    }
    // Empty beyond the curve.
    [[nodiscard]] std::optional<double> at_m(double flow_m3_s) const {
        if (!pump_.npshRequired) return std::pow(rpm_ * std::sqrt(flow_m3_s) / specific_, 4.0 / 3.0);
        if (!pump_.npshRequired->contains(flow_m3_s)) return std::nullopt;
        return pump_.npshRequired->at(flow_m3_s);
    }
    [[nodiscard]] double greatest_m3_s() const {
        return pump_.npshRequired ? std::min(pump_.head.greatest_m3_s(), pump_.npshRequired->greatest_m3_s())
                                  : pump_.head.greatest_m3_s();
    }
    void addRule(double flow_m3_s, Study& study) const {
        if (pump_.npshRequired) return;
        study.figures.push_back(
            {"npsh-required-rule",
             "",
             {{"speed_rpm", rpm_}, {"flow_m3_s", flow_m3_s}, {"suction_specific_speed", specific_}},
             {"required_m", *at_m(flow_m3_s)}});
    }

  private:
    PumpModel pump_;
    double specific_, rpm_ = 0.0;
};

PipeTree treeAt(const CaseSolver& solver, WaterLevel level) {
    CaseSetting setting;
    setting.open.assign(solver.model().site().zones.size(), false);
    setting.level = level;
    return solver.model().tree(setting, solver.returnKv_m3_h()).tree;
}

const char* nameOf(WaterLevel level) {
    return level == WaterLevel::low ? "low" : level == WaterLevel::high ? "high" : "usual";
}

struct Margin {
    double have_m = 0.0, needed_m = 0.0;
};

std::optional<Margin> marginAt(const InstallationQuestion& q, const PipeTree& tree, const Required& required,
                               double flow_m3_s) {
    const auto need_m = required.at_m(flow_m3_s);
    if (!need_m) return std::nullopt;
    return Margin{npshAvailable_m(q.solver->model(), tree, flow_m3_s) - *need_m,
                  npshMarginNeeded_m(q.solver->limits(), *need_m)};
}

void addLevels(const InstallationQuestion& q, const Required& required, double flow_m3_s, Study& study) {
    for (const WaterLevel level : {WaterLevel::low, WaterLevel::usual, WaterLevel::high}) {
        const PipeTree tree = treeAt(*q.solver, level);
        const double available_m = npshAvailable_m(q.solver->model(), tree, flow_m3_s);
        const auto required_m = required.at_m(flow_m3_s);
        if (!required_m) continue;
        study.figures.push_back({"npsh-margin-at-level",
                                 nameOf(level),
                                 {{"available_m", available_m},
                                  {"required_m", *required_m},
                                  {"source_level_m", tree.sourceLevel_m},
                                  {"flow_m3_h", flow_m3_s * 3600.0}},
                                 {"margin_m", available_m - *required_m}});
    }
}

// The margin falls with flow where required rises and losses do: closed in on from the flow that still works.
void addGreatestFlow(const InstallationQuestion& q, const Required& required, Study& study) {
    const PipeTree tree = treeAt(*q.solver, WaterLevel::low);
    const auto keeps = [&](double flow_m3_s) {
        const auto m = marginAt(q, tree, required, flow_m3_s);
        return m && m->have_m >= m->needed_m;
    };
    double low = std::max(0.0, q.solver->pump().atSpeed(1.0).head.least_m3_s());
    double high = required.greatest_m3_s();
    const bool wholeCurve = keeps(high);
    if (!keeps(low) && !wholeCurve) high = low;
    for (int i = 0; i < 60 && !wholeCurve && high > low; ++i) {
        const double middle = 0.5 * (low + high);
        (keeps(middle) ? low : high) = middle;
    }
    const double flow = wholeCurve ? high : low;
    study.figures.push_back(
        {wholeCurve ? "suction-greatest-flow-whole" : "suction-greatest-flow",
         "",
         {{"source_level_m", tree.sourceLevel_m},
          {"margin_needed_m", npshMarginNeeded_m(q.solver->limits(), required.at_m(flow).value_or(0.0))}},
         {"flow_m3_h", flow * 3600.0}});
}

// At a given flow NPSH available goes with the level, metre for metre.
void addLowestWater(const InstallationQuestion& q, const Required& required, double flow_m3_s, Study& study) {
    const PipeTree tree = treeAt(*q.solver, WaterLevel::low);
    const auto m = marginAt(q, tree, required, flow_m3_s);
    if (!m) return;
    const double lowest_m = tree.sourceLevel_m - (m->have_m - m->needed_m);
    study.figures.push_back({"suction-lowest-water",
                             "",
                             {{"source_level_m", tree.sourceLevel_m},
                              {"margin_m", m->have_m},
                              {"margin_needed_m", m->needed_m},
                              {"flow_m3_h", flow_m3_s * 3600.0}},
                             {"level_m", lowest_m}});
    study.figures.push_back(
        {"suction-greatest-lift",
         "",
         {{"pump_level_m", q.solver->model().site().pumpLevel.inMetres()}, {"level_m", lowest_m}},
         {"lift_m", q.solver->model().site().pumpLevel.inMetres() - lowest_m}});
}

// The mouth is the first bore the water meets.
void addSubmergence(const InstallationQuestion& q, double flow_m3_s, Study& study) {
    const auto& suction = q.solver->model().suction();
    const auto first =
        std::find_if(suction.begin(), suction.end(), [](const Element& e) { return e.bore_m > 0.0; });
    if (first == suction.end()) return;
    const double v = flow_m3_s / areaOf_m2(first->bore_m);
    const double rule_m =
        leastSubmergence(Length::fromMetres(first->bore_m), Velocity::fromMetresPerSecond(v)).inMetres();
    const double practice_m = q.rules().value("submergence_min_practice");
    const double needed_m = std::max(rule_m, practice_m);
    study.figures.push_back({"submergence",
                             "suction[" + std::to_string(first->item) + "]",
                             {{"bore_m", first->bore_m}, {"velocity_m_s", v}, {"practice_m", practice_m}},
                             {"depth_m", needed_m}});
    if (!q.facts.mouthLevel) return;
    const double low_m = q.solver->model().sourceLevel_m(WaterLevel::low);
    const double mouth_m = q.facts.mouthLevel->inMetres();
    if (low_m - mouth_m < needed_m) {
        study.cautions.push_back({"mouth-too-shallow",
                                  Severity::warning,
                                  "source",
                                  {{"depth_m", low_m - mouth_m}, {"limit_m", needed_m}},
                                  "lower-the-mouth-or-stop-earlier",
                                  {{"level_m", mouth_m + needed_m}},
                                  q.rules().source("submergence_hi")});
    }
    const auto& stop = q.solver->model().site().source->stopLevel;
    if (stop && stop->inMetres() - mouth_m < needed_m) {
        study.cautions.push_back(
            {"stops-too-late",
             Severity::warning,
             "source",
             {{"level_m", stop->inMetres()}, {"depth_m", stop->inMetres() - mouth_m}, {"limit_m", needed_m}},
             "stop-at-level",
             {{"level_m", mouth_m + needed_m}},
             q.rules().source("submergence_hi")});
    }
    if (!q.facts.floorLevel) return;
    const double clear_m = mouth_m - q.facts.floorLevel->inMetres();
    const double clearNeeded_m = q.rules().value("floor_clearance_foot_valve");
    if (clear_m < clearNeeded_m) {
        study.cautions.push_back({"mouth-near-the-floor",
                                  Severity::warning,
                                  "source",
                                  {{"clearance_m", clear_m}, {"limit_m", clearNeeded_m}},
                                  "raise-the-mouth",
                                  {},
                                  q.rules().source("floor_clearance_foot_valve")});
    }
}

// Where the suction falls again on its way up, air gathers and stays.
void findAirPocket(const InstallationQuestion& q, Study& study) {
    const double pump_m = q.solver->model().site().pumpLevel.inMetres();
    if (q.solver->model().sourceLevel_m(WaterLevel::low) >= pump_m) return; // flooded at every level
    double highest_m = -std::numeric_limits<double>::infinity();
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
        if (e.kind == ElementKind::pipe && e.riseTo)
            look(e.riseTo->inMetres(), "suction[" + std::to_string(e.item) + "]");
    }
    look(pump_m, "pump");
}

void addPriming(const InstallationQuestion& q, Study& study) {
    const double low_m = q.solver->model().sourceLevel_m(WaterLevel::low);
    const double pump_m = q.solver->model().site().pumpLevel.inMetres();
    if (low_m >= pump_m) return; // fills by itself
    const double pipe_l = 1e3 * volumeOf_m3(q.solver->model().suction());
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
    if (q.facts.primesTo && pump_m - low_m > q.facts.primesTo->inMetres()) {
        study.cautions.push_back({"lift-beyond-priming",
                                  Severity::danger,
                                  "pump",
                                  {{"lift_m", pump_m - low_m}, {"limit_m", q.facts.primesTo->inMetres()}},
                                  "foot-valve-and-filling",
                                  {},
                                  "the pump's maker"});
    }
}

} // namespace

Study suctionStudy(const InstallationQuestion& q) {
    Study study{"suction", {}, {}};
    if (!suctionKnown(q.solver->model().site())) return study;
    // A pump under water has no suction to be judged: a lift it could do would leave it dry.
    const std::string& kind = q.solver->model().site().source->kind;
    if (kind == "buried_tank_submersible" || kind == "well_deep") return study;
    const double flow_m3_s = greatestDuty_m3_s(q.cases);
    findAirPocket(q, study);
    addPriming(q, study);
    if (flow_m3_s <= 0.0) return study;
    const Required required(q, study);
    required.addRule(flow_m3_s, study);
    addLevels(q, required, flow_m3_s, study);
    addGreatestFlow(q, required, study);
    addLowestWater(q, required, flow_m3_s, study);
    addSubmergence(q, flow_m3_s, study);
    return study;
}

} // namespace headmark
