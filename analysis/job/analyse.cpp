#include "analysis/job/analyse.h"

#include "analysis/duty/intervals.h"
#include "analysis/job/check_valve_place.h"
#include "analysis/job/connection_finding.h"
#include "analysis/job/installation_finding.h"
#include "analysis/job/json_document.h"
#include "analysis/job/made_cases.h"
#include "analysis/job/remedies.h"
#include "analysis/job/shift_finding.h"
#include "analysis/job/site_check.h"
#include "analysis/job/zones_finding.h"

#include <algorithm>

namespace headmark {

namespace {

bool stopped(const AnalyseOptions& options) { return options.stop && options.stop->load(); }

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

void addNeed(const PreparedJob& prepared, std::size_t pump, CaseAnswer& answer, std::vector<Need>& needs) {
    auto need = prepared.need(answer.setting, pump);
    if (!need) return;
    // Mains or a high tank may bring the pressure by themselves.
    if (need->head.inMetres() <= 0.0) {
        answer.cautions.push_back({"source-alone-enough",
                                   Severity::note,
                                   "source",
                                   {{"spare_m", -need->head.inMetres()}},
                                   "try-without-pump",
                                   {},
                                   "energy equation"});
    }
    const bool known =
        std::any_of(needs.begin(), needs.end(), [&](const Need& n) { return n.caseName == need->caseName; });
    if (!known) needs.push_back(std::move(*need));
}

// The given cases, or those made with the sets that run at once and the shifts.
MadeCases casesOf(const PreparedJob& prepared, const PumpFindings& found) {
    const Job& job = prepared.job();
    if (job.casesGiven || !found.zonesAtOnce)
        return {prepared.cases(), job.casesGiven ? 0 : prepared.droppedCases()};
    std::vector<std::vector<std::string>> shifts;
    if (found.shiftPlan) {
        for (const auto& shift : found.shiftPlan->shifts)
            shifts.push_back(shift.zones);
    }
    return madeCases(job.site, found.zonesAtOnce->bestSets, shifts, true);
}

// Of no use once stopped.
PumpFindings findingsOf(const PreparedJob& prepared, std::size_t pump, const AnalyseOptions& options,
                        std::vector<Need>& needs) {
    PumpFindings f;
    const Job& job = prepared.job();
    const CaseSolver& solver = prepared.solver(pump);
    f.name = solver.pump().name;
    if (!job.site.zones.empty() && options.zonesAtOnce) {
        const ZoneSets sets(solver);
        f.zonesAtOnce = zonesFinding(job, solver, sets,
                                     {options.mostSetQuestions, options.mostSetQuestionsAskedExactly,
                                      options.whatAllowsOneMore, options.stop});
        f.shiftPlan = shiftFinding(job, solver, sets, options.stop);
    }

    const MadeCases made = casesOf(prepared, f);
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
        if (stopped(options)) return f;
        CaseAnswer a = prepared.answer(pump, c.setting, c.fillingEmptyMain);
        if (options.intervals) addIntervals(solver, a);
        if (!c.fillingEmptyMain) addNeed(prepared, pump, a, needs);
        f.cases.push_back(std::move(a));
    }
    if (options.installation) {
        f.installation = installationFinding(prepared, pump, f.cases);
        const auto place = checkValvePlace(prepared, pump, f.cases);
        for (Study& study : f.installation) {
            if (place && study.topic == "suction") study.figures.push_back(*place);
        }
        f.connections = connectionFinding(prepared, pump, f.cases, f.installation);
        addRerunRemedies(prepared, pump, f, options.stop);
    }
    return f;
}

} // namespace

Result<void> checkJob(const Job& job) {
    if (auto sound = checkSite(job); !sound) return sound.error();
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
    const auto prepared = PreparedJob::make(job, book);
    if (!prepared) return prepared.error();
    return analyse(*prepared, options);
}

Result<Findings> analyse(const PreparedJob& prepared, const AnalyseOptions& options) {
    Findings findings;
    if (prepared.pumps() == 0) findings.needs = prepared.needs();
    for (std::size_t pump = 0; pump < prepared.pumps() && !stopped(options); ++pump)
        findings.pumps.push_back(findingsOf(prepared, pump, options, findings.needs));
    if (stopped(options)) return Error{"stopped", "", "", {}};
    return findings;
}

} // namespace headmark
