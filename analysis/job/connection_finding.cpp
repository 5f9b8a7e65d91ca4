#include "analysis/job/connection_finding.h"

#include "analysis/job/supply_rules.h"
#include "analysis/pipework/catalogue.h"
#include "analysis/practice/study_parts.h"

#include <algorithm>

namespace headmark {

namespace {

const WorkingStep* figureOf(std::span<const Study> studies, std::string_view code) {
    for (const Study& study : studies) {
        const auto found = std::find_if(study.figures.begin(), study.figures.end(),
                                        [&](const WorkingStep& s) { return s.code == code; });
        if (found != study.figures.end()) return &*found;
    }
    return nullptr;
}

std::optional<double> resultOf(std::span<const Study> studies, std::string_view code) {
    const WorkingStep* figure = figureOf(studies, code);
    const double* value = figure ? std::get_if<double>(&figure->result.value) : nullptr;
    return value ? std::optional<double>(*value) : std::nullopt;
}

// Bore of a thread's tube; 0 where the text names none.
double boreOfThread_m(const std::string& thread) {
    if (thread.empty()) return 0.0;
    const auto port = parsedPort(thread);
    if (!port) return 0.0;
    for (const ThreadRow& row : threadRows()) {
        if (row.designation == port->size) return row.steelTubeBore_mm / 1e3;
    }
    return 0.0;
}

// Bore next to the pump; where the run tells none, that of the pump's own thread.
double boreAtPump_m(const std::vector<Element>& run, bool suction, const std::string& thread) {
    const auto known = [](const Element& e) { return e.bore_m > 0.0; };
    if (suction) {
        const auto last = std::find_if(run.rbegin(), run.rend(), known);
        return last == run.rend() ? boreOfThread_m(thread) : last->bore_m;
    }
    const auto first = std::find_if(run.begin(), run.end(), known);
    return first == run.end() ? boreOfThread_m(thread) : first->bore_m;
}

double velocityHead_m(double flow_m3_s, double bore_m) {
    if (bore_m <= 0.0) return 0.0;
    const double v = flow_m3_s / areaOf_m2(bore_m);
    return v * v / (2.0 * kStudyGravity_m_s2);
}

// What stands between a pump in the water and its outlet gauge: the delivery's items before `items`, and the
// height of the gauge over the pump.
struct Riser {
    std::size_t items = 0;
    double above_m = 0.0;
};

Riser riserOf(const ConnectionSheet& sheet) {
    Riser riser;
    for (const PlacedPart& part : sheet.parts) {
        if (part.hangs && part.place.starts_with("delivery[")) ++riser.items;
        if (part.purpose == "tee-for-gauge-outlet" && riser.items > 0) riser.above_m = part.above_m;
    }
    return riser;
}

// What the gauges at the pump show in a case.
class Gauges {
  public:
    Gauges(const CaseSolver& solver, const Case& setting, const Pump& said, const Riser& riser)
        : model_(solver.model()), riser_(riser),
          inlet_m_(boreAtPump_m(model_.suction(), true, said.inletThread)),
          outlet_m_(boreAtPump_m(model_.delivery(), false, said.outletThread)),
          tree_(solver.model().tree(solver.settingOf(setting), solver.returnKv_m3_h()).tree) {}

    [[nodiscard]] GaugePressure inlet(double flow_m3_s) const {
        return pressure(energy_m(flow_m3_s) - velocityHead_m(flow_m3_s, inlet_m_));
    }
    [[nodiscard]] GaugePressure outlet(double flow_m3_s, double head_m) const {
        return pressure(energy_m(flow_m3_s) + head_m - riser_.above_m - riserLoss_m(flow_m3_s) -
                        velocityHead_m(flow_m3_s, outlet_m_));
    }

  private:
    // Of the water before the pump, above the pump.
    double energy_m(double flow_m3_s) const {
        const double air_m = (model_.air() - model_.water().vapourPressure).inPascals() /
                             (model_.water().density.inKilogramsPerCubicMetre() * kStudyGravity_m_s2);
        return npshAvailable_m(model_, tree_, flow_m3_s) - air_m;
    }
    double riserLoss_m(double flow_m3_s) const {
        double sum_m = 0.0;
        for (const Element& e : model_.delivery()) {
            if (e.item < riser_.items)
                sum_m += elementLoss_m(e, model_.context(), FilterState::clean, 0.0, flow_m3_s);
        }
        return sum_m;
    }
    GaugePressure pressure(double head_m) const {
        return GaugePressure::fromKilopascals(pressureOfHead_kPa(head_m, model_.water().density));
    }

    const SiteModel& model_;
    Riser riser_;
    double inlet_m_ = 0.0, outlet_m_ = 0.0;
    PipeTree tree_;
};

bool mustNotRun(const CaseAnswer& answer) {
    return std::any_of(answer.cautions.begin(), answer.cautions.end(),
                       [](const Caution& c) { return c.severity == Severity::danger; });
}

// What is opened to try the plant: of the cases that serve the one with the greatest flow, else of all with a
// duty that do no harm.
std::optional<Case> usualCase(const Site& site, std::span<const CaseAnswer> cases) {
    const CaseAnswer* chosen = nullptr;
    for (const CaseAnswer& a : cases) {
        const bool runs =
            a.duty && !a.fillingEmptyMain && (site.zones.empty() || !a.setting.zonesOpen.empty());
        if (!runs || mustNotRun(a)) continue;
        const bool better = !chosen || (a.serves && !chosen->serves) ||
                            (a.serves == chosen->serves && a.duty->flow > chosen->duty->flow);
        if (better) chosen = &a;
    }
    if (!chosen) return std::nullopt;
    return Case{chosen->name, chosen->setting.zonesOpen, WaterLevel::usual, FilterState::clean, 1.0};
}

class Expectations {
  public:
    Expectations(const PreparedJob& prepared, std::size_t pump, std::span<const CaseAnswer> cases,
                 std::span<const Study> studies, const ConnectionSheet& sheet)
        : prepared_(prepared), pump_(pump), solver_(prepared.solver(pump)), cases_(cases), studies_(studies),
          riser_(riserOf(sheet)) {}

    ExpectedFigures figures() {
        settings();
        standing();
        shutOff();
        if (const auto usual = usualCase(site(), cases_))
            running(*usual);
        else
            expected_.whyNoDuty = "no-case-may-run";
        return std::move(expected_);
    }

  private:
    const Site& site() const { return prepared_.job().site; }

    const Pump& said() const { return prepared_.job().pumps[pump_]; }

    Gauges gaugesIn(const Case& setting) const { return {solver_, setting, said(), riser_}; }

    void settings() {
        supply();
        if (const auto minutes = resultOf(studies_, "priming-time"))
            expected_.primingTime = Duration::fromMinutes(*minutes);
        if (const auto litres = solver_.limits().rules.value("bucket"); litres > 0.0)
            expected_.bucket = Volume::fromLitres(litres);
        expected_.hold = site().hold;
        if (const auto minutes = resultOf(studies_, "filling-slowly"))
            expected_.fillingTime = Duration::fromMinutes(*minutes);
        expected_.weakestRating = weakestRating();
        if (!site().vessel) return;
        expected_.precharge = site().vessel->precharge;
        expected_.cutIn = site().vessel->cutIn;
        expected_.cutOut = site().vessel->cutOut;
    }

    // Of the pump and the delivery run's parts.
    std::optional<GaugePressure> weakestRating() const {
        std::optional<GaugePressure> weakest = solver_.pump().greatestPressure;
        for (const Element& e : solver_.model().delivery()) {
            if (!e.rating) continue;
            const auto rating = GaugePressure::fromKilopascals(e.rating->inKilopascals());
            if (!weakest || rating < *weakest) weakest = rating;
        }
        return weakest;
    }

    bool sourceKnown() const { return site().source && site().source->levelsGiven; }

    // A lift just filled through its plug stands under the air's pressure, held by its foot valve: about 0.
    void standing() {
        if (!sourceKnown()) return;
        const double above_m =
            std::max(0.0, solver_.model().sourceLevel_m(WaterLevel::usual) - site().pumpLevel.inMetres());
        expected_.inletStandingPressure =
            GaugePressure::fromKilopascals(pressureOfHead_kPa(above_m, solver_.model().water().density));
    }

    // Through the return only, where there is one.
    void shutOff() {
        if (!sourceKnown()) {
            expected_.whyNoShutOff = "levels-not-given";
            return;
        }
        const Case shut{"", {}, WaterLevel::usual, FilterState::clean, 1.0};
        if (site().tankReturn && !site().zones.empty()) {
            const CaseAnswer a = solver_.answer(shut);
            if (a.tankReturnFlow) expected_.returnFlow = *a.tankReturnFlow;
            if (!a.duty) return;
            expected_.shutOffPressure =
                gaugesIn(shut).outlet(a.duty->flow.inCubicMetresPerSecond(), a.duty->head.inMetres());
            return;
        }
        const PumpModel pump = solver_.pump().atSpeed(1.0);
        if (pump.head.least_m3_s() > 0.0) {
            expected_.whyNoShutOff = "curve-not-to-no-flow";
            return;
        }
        expected_.shutOffPressure = gaugesIn(shut).outlet(0.0, pump.head.at(0.0));
    }

    void running(const Case& usual) {
        const CaseAnswer a = solver_.answer(usual);
        if (!a.duty) return;
        const double flow_m3_s = a.duty->flow.inCubicMetresPerSecond();
        expected_.dutyFlow = a.duty->flow;
        expected_.zones = usual.zonesOpen;
        if (!sourceKnown()) expected_.whyNoDuty = "levels-not-given";
        if (sourceKnown()) {
            const Gauges gauges = gaugesIn(usual);
            expected_.inletRunningPressure = gauges.inlet(flow_m3_s);
            // The drive's own gauge stands at the outlet.
            expected_.dutyPressure =
                a.heldSpeedShare ? *site().hold : gauges.outlet(flow_m3_s, a.duty->head.inMetres());
        }
        filter(flow_m3_s - (a.tankReturnFlow ? a.tankReturnFlow->inCubicMetresPerSecond() : 0.0));
        amps(a);
    }

    void filter(double flow_m3_s) {
        for (const Element& e : solver_.model().delivery()) {
            if (e.kind != ElementKind::filter) continue;
            const Density density = solver_.model().water().density;
            expected_.filterClean = Pressure::fromKilopascals(pressureOfHead_kPa(
                elementLoss_m(e, solver_.model().context(), FilterState::clean, 0.0, flow_m3_s), density));
            if (e.filterService_m > 0.0)
                expected_.filterService =
                    Pressure::fromKilopascals(pressureOfHead_kPa(e.filterService_m, density));
            return;
        }
    }

    // The study has the current of the case that draws most; it goes with the input power.
    void amps(const CaseAnswer& a) {
        for (const char* code : {"motor-current-three", "motor-current-one"}) {
            const WorkingStep* figure = figureOf(studies_, code);
            const auto current = resultOf(studies_, code);
            if (!figure || !current || !a.power || !a.power->input) continue;
            const Fact* input = findFact(figure->with, "input_W");
            const double* input_W = input ? std::get_if<double>(&input->value) : nullptr;
            if (input_W && *input_W > 0.0)
                expected_.dutyAmps = *current * a.power->input->inWatts() / *input_W;
        }
    }

    // As the plate says, else the words of the motor's supply.
    void supply() {
        const auto& plate = said().plate;
        expected_.ratedAmps = plate.amps;
        const auto supply = supplyOf(solver_.pump(), plate.volts, plate.phases);
        if (!supply) return;
        expected_.ratedVolts = supply->volts;
        expected_.phases = supply->phases;
    }

    const PreparedJob& prepared_;
    std::size_t pump_;
    const CaseSolver& solver_;
    std::span<const CaseAnswer> cases_;
    std::span<const Study> studies_;
    Riser riser_;
    ExpectedFigures expected_;
};

// What the sheet finds in the run by itself, and a case in its figures, of one and the same item.
bool saysTheSame(const Caution& sheet, const Caution& other) {
    static const std::pair<std::string_view, std::string_view> kSame[] = {
        {"plain-hose-on-suction", "suction-hose-collapses"},
        {"surface-pump-beyond-lift", "surface-pump-impossible"},
        {"shut-off-above-rating", "pump-pressure"},
        {"shut-off-above-rating", "pipe-rating"},
    };
    return std::any_of(std::begin(kSame), std::end(kSame), [&](const auto& pair) {
        return pair.first == sheet.code && pair.second == other.code && sheet.place == other.place;
    });
}

// A fitter who has only the sheet must see them: of the cases and studies, each once.
void addDangers(std::span<const CaseAnswer> cases, std::span<const Study> studies, Cautions& findings) {
    const auto take = [&](const Cautions& cautions) {
        for (const Caution& caution : cautions) {
            const bool known = std::any_of(findings.begin(), findings.end(), [&](const Caution& c) {
                return (c.code == caution.code && c.place == caution.place) || saysTheSame(c, caution);
            });
            if (caution.severity == Severity::danger && !known) findings.push_back(caution);
        }
    };
    for (const Study& study : studies)
        take(study.cautions);
    for (const CaseAnswer& answer : cases)
        take(answer.cautions);
}

} // namespace

SheetInput sheetInputOf(const PreparedJob& prepared, std::size_t pump) {
    const Job& job = prepared.job();
    SheetInput input{
        &job.site,   job.pumps[pump].inletThread, job.pumps[pump].outletThread, job.connections, std::nullopt,
        std::nullopt};
    for (std::string* thread : {&input.inletThread, &input.outletThread}) {
        if (!thread->empty() && !parsedPort(*thread)) thread->clear();
    }
    const CaseSolver& solver = prepared.solver(pump);
    const double before_m = solver.model().sourceLevel_m(WaterLevel::high) - job.site.pumpLevel.inMetres();
    const auto pressure = [&](double head_m) {
        return GaugePressure::fromKilopascals(pressureOfHead_kPa(head_m, solver.model().water().density));
    };
    input.greatestInletPressure = pressure(std::max(0.0, before_m));
    input.greatestPressure = pressure(before_m + strongestShutOff_m(solver));
    return input;
}

std::optional<ConnectionFinding> connectionFinding(const PreparedJob& prepared, std::size_t pump,
                                                   std::span<const CaseAnswer> cases,
                                                   std::span<const Study> studies) {
    if (prepared.job().site.system) return std::nullopt;
    auto sheet = connectionSheet(sheetInputOf(prepared, pump));
    HEADMARK_ASSERT(sheet, "choices and threads are checked before");
    ConnectionFinding finding;
    finding.sheet = std::move(sheet).value();
    const Pump& said = prepared.job().pumps[pump];
    for (const std::string& thread : {said.inletThread, said.outletThread}) {
        if (thread.empty() || parsedPort(thread)) continue;
        Caution caution;
        caution.code = "pump-thread-unreadable";
        caution.severity = Severity::warning;
        caution.place = "pump";
        caution.values = {{"found", thread}};
        caution.remedy = "give-pump-threads";
        finding.sheet.findings.insert(finding.sheet.findings.begin(), std::move(caution));
    }
    for (Caution& caution : supplyRules(prepared.solver(pump), cases))
        finding.sheet.findings.push_back(std::move(caution));
    addDangers(cases, studies, finding.sheet.findings);
    finding.commissioning =
        commissioningOf(finding.sheet, Expectations(prepared, pump, cases, studies, finding.sheet).figures());
    return finding;
}

} // namespace headmark
