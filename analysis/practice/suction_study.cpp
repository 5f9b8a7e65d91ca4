// NPSH at every level, and what the suction still bears: greatest flow, lowest water, greatest lift.

#include "analysis/duty/judgement.h"
#include "analysis/duty/suction_lift.h"
#include "analysis/practice/suction_parts.h"

#include <algorithm>
#include <array>
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
    [[nodiscard]] bool measured() const { return pump_.npshRequired.has_value(); }
    // Empty beyond the curve.
    [[nodiscard]] std::optional<double> at_m(double flow_m3_s) const {
        if (!pump_.npshRequired) return std::pow(rpm_ * std::sqrt(flow_m3_s) / specific_, 4.0 / 3.0);
        if (!pump_.npshRequired->contains(flow_m3_s)) return std::nullopt;
        return pump_.npshRequired->at(flow_m3_s);
    }
    [[nodiscard]] double least_m3_s() const {
        const double least = std::max(0.0, pump_.head.least_m3_s());
        return pump_.npshRequired ? std::max(least, pump_.npshRequired->least_m3_s()) : least;
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

constexpr std::array kLevels = {WaterLevel::low, WaterLevel::usual, WaterLevel::high};

const char* nameOf(WaterLevel level) {
    return level == WaterLevel::low ? "low" : level == WaterLevel::high ? "high" : "usual";
}

// The greatest flow of the case that draws most, at each level of the water: it grows with the level.
class Draw {
  public:
    explicit Draw(const InstallationQuestion& q) : solver_(*q.solver) {
        for (const CaseAnswer& a : q.cases) {
            if (a.fillingEmptyMain || greatestOf_m3_s(a) <= most_m3_s_) continue;
            most_m3_s_ = greatestOf_m3_s(a);
            hungriest_ = &a;
        }
        if (!hungriest_) return;
        for (const WaterLevel level : kLevels)
            most_m3_s_ = std::max(most_m3_s_, at_m3_s(level));
    }
    // 0: no case has a duty.
    [[nodiscard]] double most_m3_s() const { return most_m3_s_; }
    [[nodiscard]] double at_m3_s(WaterLevel level) const {
        const double known = greatestOf_m3_s(*hungriest_);
        if (hungriest_->setting.level == level) return known;
        Case setting = hungriest_->setting;
        setting.level = level;
        const double there = greatestOf_m3_s(solver_.answer(setting));
        return there > 0.0 ? there : known; // beyond the chart at that level
    }

  private:
    const CaseSolver& solver_;
    const CaseAnswer* hungriest_ = nullptr;
    double most_m3_s_ = 0.0;
};

struct Margin {
    double available_m = 0.0, required_m = 0.0, needed_m = 0.0;
    [[nodiscard]] double have_m() const { return available_m - required_m; }
    [[nodiscard]] bool kept() const { return have_m() >= needed_m - 1e-9; }
};

// Empty beyond the curve of NPSH required.
std::optional<Margin> marginAt(const InstallationQuestion& q, const PipeTree& tree, const Required& required,
                               double flow_m3_s) {
    const auto need_m = required.at_m(flow_m3_s);
    if (!need_m) return std::nullopt;
    return Margin{npshAvailable_m(q.solver->model(), tree, flow_m3_s), *need_m,
                  npshMarginNeeded_m(q.solver->advisedLimits(), *need_m)};
}

void addSpecificSpeed(const InstallationQuestion& q, Study& study) {
    const PumpModel pump = q.solver->pump().atSpeed(1.0);
    const Density density = q.solver->model().water().density;
    const auto s = pump.suctionSpecificSpeed(density);
    if (!s) return;
    const double best_m3_s = pump.bestPoint(density)->flow_m3_s;
    study.figures.push_back({"suction-specific-speed",
                             "",
                             {{"speed_rpm", pump.chartSpeed->inRevolutionsPerMinute()},
                              {"flow_m3_s", best_m3_s},
                              {"required_m", pump.npshRequired->at(best_m3_s)}},
                             {"suction_specific_speed", *s}});
}

void addLevels(const InstallationQuestion& q, const Required& required, const Draw& draw, Study& study) {
    for (const WaterLevel level : kLevels) {
        const PipeTree tree = treeAt(*q.solver, level);
        const double flow_m3_s = draw.at_m3_s(level);
        const auto m = marginAt(q, tree, required, flow_m3_s);
        if (!m) continue;
        study.figures.push_back({"npsh-margin-at-level",
                                 nameOf(level),
                                 {{"available_m", m->available_m},
                                  {"required_m", m->required_m},
                                  {"source_level_m", tree.sourceLevel_m},
                                  {"flow_m3_h", flow_m3_s * 3600.0}},
                                 {"margin_m", m->have_m()}});
    }
}

struct GreatestFlow {
    double flow_m3_s = 0.0; // 0: the margin is kept at none
    bool wholeCurve = false;
};

// The margin falls with flow where required rises and losses do: closed in on from the flow that still works.
GreatestFlow greatestFlow(const InstallationQuestion& q, const PipeTree& tree, const Required& required) {
    const auto keeps = [&](double flow_m3_s) {
        const auto m = marginAt(q, tree, required, flow_m3_s);
        return m && m->kept();
    };
    double low = required.least_m3_s(), high = required.greatest_m3_s();
    if (keeps(high)) return {high, true};
    if (!keeps(low)) return {};
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (keeps(middle) ? low : high) = middle;
    }
    return {low, false};
}

void addGreatestFlow(const InstallationQuestion& q, const Required& required, const PipeTree& low,
                     const GreatestFlow& greatest, Study& study) {
    study.figures.push_back(
        {greatest.wholeCurve ? "suction-greatest-flow-whole" : "suction-greatest-flow",
         "",
         {{"source_level_m", low.sourceLevel_m},
          {"margin_needed_m",
           npshMarginNeeded_m(q.solver->advisedLimits(), required.at_m(greatest.flow_m3_s).value_or(0.0))}},
         {"flow_m3_h", greatest.flow_m3_s * 3600.0}});
}

// At a given flow NPSH available goes with the level, metre for metre.
std::optional<double> lowestWater_m(const InstallationQuestion& q, const PipeTree& tree,
                                    const Required& required, double flow_m3_s) {
    const auto m = marginAt(q, tree, required, flow_m3_s);
    if (!m) return std::nullopt;
    return tree.sourceLevel_m - (m->have_m() - m->needed_m);
}

// The lift is bounded by NPSH and by what is relied on in practice, friction included; the lesser counts.
void addGreatestLift(const InstallationQuestion& q, const Required& required, const PipeTree& low,
                     double flow_m3_s, Study& study) {
    const auto lowest_m = lowestWater_m(q, low, required, flow_m3_s);
    const double loss_m = suctionLoss_m(low, flow_m3_s);
    const double practical_m = practicalLift_m(q.solver->model(), q.rules());
    const double pump_m = q.solver->model().site().pumpLevel.inMetres();
    if (lowest_m) {
        const auto m = marginAt(q, low, required, flow_m3_s);
        study.figures.push_back({"suction-lowest-water",
                                 "",
                                 {{"source_level_m", low.sourceLevel_m},
                                  {"margin_m", m->have_m()},
                                  {"margin_needed_m", m->needed_m},
                                  {"flow_m3_h", flow_m3_s * 3600.0}},
                                 {"level_m", *lowest_m}});
    }
    if (lowest_m && pump_m - *lowest_m <= practical_m - loss_m) {
        study.figures.push_back(
            {"suction-greatest-lift",
             "",
             {{"pump_level_m", pump_m}, {"level_m", *lowest_m}, {"practice_m", practical_m - loss_m}},
             {"lift_m", pump_m - *lowest_m}});
        return;
    }
    Facts with{{"limit_m", practical_m}, {"loss_m", loss_m}};
    if (lowest_m) with.push_back({"npsh_lift_m", pump_m - *lowest_m});
    study.figures.push_back(
        {"suction-greatest-lift-practice", "", std::move(with), {"lift_m", practical_m - loss_m}});
}

// What brings the margin back: a pump set lower, less flow, water that is not let down so far.
void addMarginRemedy(const InstallationQuestion& q, const Required& required, const PipeTree& low,
                     const GreatestFlow& greatest, double highFlow_m3_s, Caution& caution) {
    // At the flow of high water it holds wherever the water stands below that.
    const auto lowest_m = lowestWater_m(q, low, required, highFlow_m3_s);
    const double level_m = nextTenthUp_m(lowest_m.value_or(0.0));
    const bool reached = lowest_m && level_m <= q.solver->model().sourceLevel_m(WaterLevel::high);
    const bool some = greatest.flow_m3_s > 0.0;
    caution.remedy = reached && some ? "pump-lower-or-stop-at-or-less-flow"
                     : reached       ? "pump-lower-or-stop-at"
                     : some          ? "pump-lower-or-less-flow"
                                     : "pump-lower";
    if (reached) caution.remedyValues.push_back({"level_m", level_m});
    const double most_m3_h = greatest.flow_m3_s * 3600.0; // to be set: rounded to the safe side
    if (some)
        caution.remedyValues.push_back(
            {"flow_m3_h", most_m3_h < 1.0 ? most_m3_h : std::floor(10.0 * most_m3_h) / 10.0});
}

// The margin grows with the level: judged at the lowest at which the pump runs.
void judgeMargin(const InstallationQuestion& q, const Required& required, const Draw& draw,
                 const GreatestFlow& greatest, Study& study) {
    const PipeTree low = treeAt(*q.solver, WaterLevel::low);
    PipeTree running = low;
    running.sourceLevel_m = lowestRunning_m(q);
    const bool stopsFirst = running.sourceLevel_m > low.sourceLevel_m;
    const double flow_m3_s = draw.at_m3_s(stopsFirst ? WaterLevel::high : WaterLevel::low);
    const auto m = marginAt(q, running, required, flow_m3_s);
    if (!m || m->kept()) return;
    Caution caution{"npsh-margin-at-level",
                    required.measured() && m->have_m() < 0.0 ? Severity::danger : Severity::warning,
                    "suction",
                    {{"level", std::string(stopsFirst ? "stop" : "low")},
                     {"source_level_m", running.sourceLevel_m},
                     {"flow_m3_h", flow_m3_s * 3600.0},
                     {"margin_m", m->have_m()},
                     {"limit_m", m->needed_m}},
                    "",
                    {{"lower_m", nextTenthUp_m(m->needed_m - m->have_m())}},
                    required.measured() ? "ANSI/HI 9.6.1 guidance"
                                        : q.rules().source("suction_specific_speed")};
    if (!required.measured()) caution.values.push_back({"side", std::string("rule")});
    addMarginRemedy(q, required, low, greatest, draw.at_m3_s(WaterLevel::high), caution);
    study.cautions.push_back(std::move(caution));
}

} // namespace

Study suctionStudy(const InstallationQuestion& q) {
    Study study{"suction", {}, {}};
    if (!suctionKnown(q.solver->model().site())) return study;
    const std::string& kind = q.solver->model().site().source->kind;
    const Mouth mouth = mouthOf(q);
    // A pump under water, or one on mains, has no lift, nor anything to prime.
    const bool mayLift = !isSubmersedSource(kind) && mouth.kind != MouthKind::none;
    if (mayLift) addSuctionLine(q, mouth, study);
    const Draw draw(q);
    if (draw.most_m3_s() <= 0.0) {
        if (isSubmersedSource(kind)) addMouth(q, mouth, 0.0, study);
        return study;
    }
    const Required required(q, study);
    required.addRule(draw.most_m3_s(), study);
    addSpecificSpeed(q, study);
    addLevels(q, required, draw, study);
    const PipeTree low = treeAt(*q.solver, WaterLevel::low);
    const GreatestFlow greatest = greatestFlow(q, low, required);
    addGreatestFlow(q, required, low, greatest, study);
    judgeMargin(q, required, draw, greatest, study);
    if (mayLift) addGreatestLift(q, required, low, draw.most_m3_s(), study);
    addMouth(q, mouth, draw.most_m3_s(), study);
    return study;
}

} // namespace headmark
