#include "analysis/job/prepared_job.h"

#include "analysis/duty/energy_line.h"
#include "analysis/duty/judgement.h"
#include "analysis/duty/system_curve.h"
#include "analysis/job/analyse.h"
#include "analysis/job/json_document.h"
#include "analysis/job/site_check.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace headmark {

namespace {

constexpr int kPlotCells = 120; // more than a screen shows of a polynomial's bends

// Where `value` has an answer, from one end of the range to the other.
std::optional<CurvePlot> plotOver(double least_m3_s, double greatest_m3_s,
                                  const std::function<std::optional<double>(double)>& value) {
    CurvePlot plot;
    for (int i = 0; i <= kPlotCells; ++i) {
        const double flow =
            i == kPlotCells ? greatest_m3_s : least_m3_s + (greatest_m3_s - least_m3_s) * i / kPlotCells;
        const auto v = value(flow);
        if (!v) continue;
        plot.flow_m3_s.push_back(flow);
        plot.value.push_back(*v);
    }
    if (plot.value.empty()) return std::nullopt;
    return plot;
}

CurvePlot plotOf(const PumpCurve& curve) {
    const double least = std::max(0.0, curve.least_m3_s());
    CurvePlot plot = *plotOver(least, curve.greatest_m3_s(), [&](double q) { return curve.at(q); });
    if (curve.base().covariance().size() > 0) {
        for (const double flow : plot.flow_m3_s)
            plot.sigma.push_back(curve.sigmaAt(flow));
    }
    return plot;
}

LongSectionItem sectionItem(const EnergyLineItem& item) {
    LongSectionItem out;
    out.place = item.place;
    if (item.element && item.element->kind == ElementKind::pipe) out.length_m = item.element->length_m;
    out.flow_m3_s = item.flow_m3_s;
    out.velocity_m_s = item.velocity_m_s();
    out.loss_m = item.energyBefore_m - item.energyAfter_m;
    out.energyBefore_m = item.energyBefore_m;
    out.energyAfter_m = item.energyAfter_m;
    out.levelBefore_m = item.levelBefore_m;
    out.levelAfter_m = item.levelAfter_m;
    return out;
}

} // namespace

struct PreparedJob::State {
    State(const Job& ofJob, SiteModel ofSite) : job(ofJob), site(std::move(ofSite)) {}

    [[nodiscard]] std::optional<double> returnKv(std::size_t pump, const CaseSetting& setting) const;
    [[nodiscard]] CaseSetting settingOf(const Case& c, bool fillingEmptyMain) const;

    Job job;
    SiteModel site;
    std::vector<CaseSolver> solvers; // one per pump
    std::vector<Cautions> ofCharts;
    std::vector<MadeCase> cases;
    std::size_t droppedCases = 0;
};

CaseSetting PreparedJob::State::settingOf(const Case& c, bool fillingEmptyMain) const {
    CaseSetting setting;
    for (const Zone& zone : job.site.zones) {
        setting.open.push_back(std::find(c.zonesOpen.begin(), c.zonesOpen.end(), zone.name) !=
                               c.zonesOpen.end());
    }
    setting.level = c.level;
    setting.filter = c.filter;
    setting.fillingEmptyMain = fillingEmptyMain;
    return setting;
}

// The valve as the pump sets it. Without a pump: so that the return passes its set flow at the head that the
// case needs (a little much, since it is set with every zone shut).
std::optional<double> PreparedJob::State::returnKv(std::size_t pump, const CaseSetting& setting) const {
    if (pump < solvers.size()) return solvers[pump].returnKv_m3_h();
    const auto& back = job.site.tankReturn;
    if (!back || !back->setFlow) return back ? back->valveKv_m3_h : std::nullopt;
    constexpr double kShut_m3_h = 1e-6;
    const auto need = needOf(site, setting, "", kShut_m3_h);
    if (!need) return std::nullopt;
    const double needed_m3_s = need->flow.inCubicMetresPerSecond();
    const double outlet_m = need->head.inMetres() + site.sourceLevel_m(setting.level) -
                            site.tree(setting).tree.suction.at(needed_m3_s).loss_m;
    const double flow_m3_s = back->setFlow->inCubicMetresPerSecond();
    const double left_m = outlet_m - site.returnOutletLevel_m(setting.level) - site.returnLossAt_m(flow_m3_s);
    if (left_m <= 0.0) return std::nullopt; // the valve stands fully open
    // Kv: h = 1e5 (3600 q/Kv)^2/(1000 g), its definition
    return 3600.0 * flow_m3_s * std::sqrt(factor::kBar_Pa / factor::kMetreOfWater_Pa / left_m);
}

PreparedJob::PreparedJob(std::unique_ptr<State> state) : state_(std::move(state)) {}
PreparedJob::~PreparedJob() = default;
PreparedJob::PreparedJob(PreparedJob&&) noexcept = default;
PreparedJob& PreparedJob::operator=(PreparedJob&&) noexcept = default;

Result<PreparedJob> PreparedJob::make(const Job& job, ChartBook& book, const SiteModel* sameZones) {
    if (auto sound = checkSite(job); !sound) return sound.error();
    auto site = SiteModel::make(job.site, job.water, job.uncertainty, sameZones);
    if (!site) return site.error();
    auto state = std::make_unique<State>(job, std::move(*site));
    for (std::size_t i = 0; i < job.pumps.size(); ++i) {
        auto charted = chartedCurves(job, i, book);
        if (!charted) return charted.error();
        auto pump = pumpModelOf(job.pumps[i], placeOfItem("pumps", i), *charted);
        if (!pump) return pump.error();
        state->solvers.emplace_back(state->site, *pump, job.limits);
        state->ofCharts.push_back(std::move(charted->cautions));
    }
    if (job.casesGiven) {
        for (const Case& c : job.cases)
            state->cases.push_back({c, false});
    } else {
        MadeCases made = madeCases(job.site, {});
        state->cases = std::move(made.cases);
        state->droppedCases = made.dropped;
    }
    return PreparedJob(std::move(state));
}

Result<PreparedJob> PreparedJob::withSite(const Site& site) const {
    Job job = state_->job;
    job.site = site;
    if (auto sound = checkSite(job); !sound) return sound.error();
    auto model = SiteModel::make(site, job.water, job.uncertainty, &state_->site);
    if (!model) return model.error();
    auto state = std::make_unique<State>(job, std::move(*model));
    for (const CaseSolver& solved : state_->solvers)
        state->solvers.emplace_back(state->site, solved.pump(), job.limits);
    state->ofCharts = state_->ofCharts;
    state->cases = state_->cases;
    return PreparedJob(std::move(state));
}

const Job& PreparedJob::job() const { return state_->job; }
std::size_t PreparedJob::pumps() const { return state_->solvers.size(); }
const std::vector<MadeCase>& PreparedJob::cases() const { return state_->cases; }
std::size_t PreparedJob::droppedCases() const { return state_->droppedCases; }
const SiteModel& PreparedJob::site() const { return state_->site; }

const CaseSolver& PreparedJob::solver(std::size_t pump) const {
    HEADMARK_ASSERT(pump < pumps(), "a pump of the job");
    return state_->solvers[pump];
}

const Cautions& PreparedJob::chartCautions(std::size_t pump) const {
    HEADMARK_ASSERT(pump < pumps(), "a pump of the job");
    return state_->ofCharts[pump];
}

std::optional<Need> PreparedJob::need(const Case& setting, std::size_t pump) const {
    const CaseSetting asked = state_->settingOf(setting, false);
    return needOf(state_->site, asked, setting.name, state_->returnKv(pump, asked));
}

std::vector<Need> PreparedJob::needs() const {
    std::vector<Need> needs;
    for (const MadeCase& c : state_->cases) {
        if (c.fillingEmptyMain) continue;
        if (auto asked = need(c.setting)) needs.push_back(std::move(*asked));
    }
    return needs;
}

CaseAnswer PreparedJob::answer(std::size_t pump, const Case& setting, bool fillingEmptyMain) const {
    CaseAnswer a = solver(pump).answer(setting, fillingEmptyMain);
    const Cautions& charts = chartCautions(pump);
    a.cautions.insert(a.cautions.end(), charts.begin(), charts.end());
    return a;
}

PumpPlot PreparedJob::plot(std::size_t pump, const Case& setting) const {
    const CaseSolver& solved = solver(pump);
    const bool held = solved.heldOutlet_m().has_value();
    const PumpModel at = solved.pump().atSpeed(held ? solved.duty(setting).speedShare : setting.speedShare);
    const Density density = state_->site.water().density;
    const double least = std::max(0.0, at.head.least_m3_s()), greatest = at.head.greatest_m3_s();
    PumpPlot plot;
    plot.head = plotOf(at.head);
    plot.deliveredShare = at.deliveredShare;
    plot.efficiency = at.efficiency ? plotOf(*at.efficiency) : plotOver(least, greatest, [&](double q) {
        return at.efficiencyAt(q, at.head.at(q), density);
    });
    plot.shaftPower =
        at.power && !at.powerAtMotorInput
            ? plotOf(*at.power)
            : plotOver(least, greatest, [&](double q) { return at.shaftAt_W(q, at.head.at(q), density); });
    plot.inputPower =
        at.power && at.powerAtMotorInput
            ? plotOf(*at.power)
            : plotOver(least, greatest, [&](double q) { return at.inputAt_W(q, at.head.at(q), density); });
    if (at.npshRequired) plot.npshRequired = plotOf(*at.npshRequired);
    if (suctionKnown(state_->job.site)) {
        const SiteTree tree = state_->site.tree(solved.settingOf(setting), solved.returnKv_m3_h());
        plot.npshAvailable =
            plotOver(least, greatest, [&](double q) { return npshAvailable_m(state_->site, tree.tree, q); });
    }
    if (const auto best = at.bestPoint(density); best && best->flow_m3_s > 0.0) {
        const BandLimits band = bandLimits(at, *best);
        plot.preferred_m3_s.emplace(band.preferredLow * best->flow_m3_s,
                                    band.preferredHigh * best->flow_m3_s);
    }
    return plot;
}

CurvePlot PreparedJob::systemCurve(const Case& setting, double greatest_m3_s, std::size_t pump,
                                   bool fillingEmptyMain) const {
    // Above every pump, as delivered and at this speed; without one far above what is needed.
    double top_m = 0.0;
    if (state_->solvers.empty()) {
        constexpr double kSpare_m = 100.0;
        const auto needed = need(setting);
        top_m = kSpare_m + 2.0 * (needed ? std::abs(needed->head.inMetres()) : 0.0);
    }
    for (const CaseSolver& solved : state_->solvers) {
        const PumpModel at = solved.pump().atSpeed(setting.speedShare);
        const double highest = at.head.at(std::max(0.0, at.head.flowOfMaximum()));
        top_m = std::max(top_m, 1.1 * (1.0 + at.deliveredShare) * highest);
    }
    const CaseSetting asked = state_->settingOf(setting, fillingEmptyMain);
    const SiteTree tree = state_->site.tree(asked, state_->returnKv(pump, asked));
    SystemCurve curve = systemCurveOf(tree.tree, greatest_m3_s, top_m);
    return {std::move(curve.flow_m3_s), std::move(curve.head_m), {}};
}

std::vector<LongSectionItem> PreparedJob::longSection(std::size_t pump, const Case& setting,
                                                      bool fillingEmptyMain) const {
    const CaseSolver& solved = solver(pump);
    const CaseSetting asked = solved.settingOf(setting, fillingEmptyMain);
    const SiteTree tree = state_->site.tree(asked, solved.returnKv_m3_h());
    const CaseSolver::Duty duty = solved.duty(setting, fillingEmptyMain);
    if (!duty.crossing) return {};
    std::vector<LongSectionItem> section;
    for (const EnergyLineItem& item : energyLine(state_->site, tree, duty.crossing->solution, setting.filter))
        section.push_back(sectionItem(item));
    return section;
}

} // namespace headmark
