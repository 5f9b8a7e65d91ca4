#include "analysis/job/analyse.h"

#include "analysis/duty/intervals.h"
#include "analysis/job/json_document.h"
#include "analysis/job/made_cases.h"
#include "analysis/job/zones_finding.h"

#include <algorithm>

namespace headmark {

namespace {

ZonesAtOnceFinding zonesAtOnceOf(const Job& job, const CaseSolver& solver, const AnalyseOptions& options) {
    const ZoneSets sets(solver);
    return zonesFinding(
        job, solver, sets,
        {options.mostSetQuestions, options.mostSetQuestionsAskedExactly, options.whatAllowsOneMore, nullptr});
}

void addIntervals(const CaseSolver& solver, CaseAnswer& a) {
    if (!a.duty || a.fillingEmptyMain) return;
    const DutyIntervals i = linearIntervals(solver, a.setting);
    if (!i.ok) return;
    a.duty->flow95 = i.flow;
    a.duty->head95 = i.head;
    if (a.efficiency && a.efficiency->atDuty) a.efficiency->atDuty95 = i.efficiency;
    if (a.power && a.power->shaft) a.power->shaft95 = i.shaft;
    if (a.power && a.power->input) a.power->input95 = i.input;
    if (!a.npsh) return;
    a.npsh->available95 = i.npshAvailable;
    if (a.npsh->margin) a.npsh->margin95 = i.npshMargin;
}

// For looking at readings only: no picture is asked for.
class NoPages final : public PageSource {
  public:
    [[nodiscard]] Result<std::shared_ptr<const Page>> open(const ChartPage& chart) override {
        HEADMARK_ASSERT(false, "checking a job opens no picture");
        return Error{"no-such-file", chart.path, "", {}};
    }
};

Result<void> risingSystem(const Site& site) {
    if (!site.system) return {};
    const auto& points = site.system->points;
    for (std::size_t i = 1; i < points.size(); ++i) {
        if (!(points[i].flow > points[i - 1].flow) || !(points[i].head > points[i - 1].head)) {
            return Error{"system-not-rising", "", "site.system.points[" + std::to_string(i) + "]", {}};
        }
    }
    return {};
}

PumpFindings findingsOf(const Job& job, const SiteModel& model, const PumpModel& pump,
                        const Cautions& ofCharts, const AnalyseOptions& options, std::vector<Need>& needs) {
    PumpFindings f;
    f.name = pump.name;
    const CaseSolver solver(model, pump, job.limits);
    if (!job.site.zones.empty() && options.zonesAtOnce) f.zonesAtOnce = zonesAtOnceOf(job, solver, options);

    MadeCases made;
    if (job.casesGiven) {
        for (const Case& c : job.cases)
            made.cases.push_back({c, false});
    } else {
        made = madeCases(job.site,
                         f.zonesAtOnce ? f.zonesAtOnce->bestSets : std::vector<std::vector<std::string>>{});
    }
    if (made.dropped > 0) {
        f.cautions.push_back({"cases-dropped",
                              Severity::note,
                              "cases",
                              {{"dropped", static_cast<std::int64_t>(made.dropped)}},
                              "name-the-cases",
                              {},
                              ""});
    }
    for (const MadeCase& c : made.cases) {
        CaseAnswer a = solver.answer(c.setting, c.fillingEmptyMain);
        if (options.intervals) addIntervals(solver, a);
        a.cautions.insert(a.cautions.end(), ofCharts.begin(), ofCharts.end());
        f.cases.push_back(std::move(a));
        if (c.fillingEmptyMain) continue;
        const bool known = std::any_of(needs.begin(), needs.end(),
                                       [&](const Need& n) { return n.caseName == c.setting.name; });
        if (known) continue;
        if (auto need = needOf(model, solver.settingOf(c.setting), c.setting.name, solver.returnKv_m3_h())) {
            needs.push_back(std::move(*need));
        }
    }
    return f;
}

} // namespace

Result<void> checkJob(const Job& job) {
    if (auto rising = risingSystem(job.site); !rising) return rising.error();
    if (auto model = SiteModel::make(job.site, job.water, job.uncertainty); !model) return model.error();
    NoPages none;
    ChartBook book(none);
    for (std::size_t i = 0; i < job.pumps.size(); ++i) {
        const std::string place = placeOfItem("pumps", i);
        const auto readings = openReadings(job, i, book);
        if (!readings) return readings.error();
        if (auto lines = chooseLines(job.pumps[i], *readings, place); !lines) return lines.error();
        if (auto pump = pumpModelOf(job.pumps[i], place); !pump) return pump.error();
    }
    return {};
}

Result<Findings> analyse(const Job& job, PageSource& pages, const AnalyseOptions& options) {
    ChartBook book(pages);
    return analyse(job, book, options);
}

Result<Findings> analyse(const Job& job, ChartBook& book, const AnalyseOptions& options) {
    if (auto rising = risingSystem(job.site); !rising) return rising.error();
    auto model = SiteModel::make(job.site, job.water, job.uncertainty);
    if (!model) return model.error();
    std::vector<PumpModel> pumps;
    std::vector<Cautions> ofCharts;
    for (std::size_t i = 0; i < job.pumps.size(); ++i) {
        auto charted = chartedCurves(job, i, book);
        if (!charted) return charted.error();
        auto pump = pumpModelOf(job.pumps[i], placeOfItem("pumps", i), *charted);
        if (!pump) return pump.error();
        pumps.push_back(std::move(*pump));
        ofCharts.push_back(std::move(charted->cautions));
    }
    Findings findings;
    for (std::size_t i = 0; i < pumps.size(); ++i) {
        findings.pumps.push_back(findingsOf(job, *model, pumps[i], ofCharts[i], options, findings.needs));
    }
    return findings;
}

} // namespace headmark
