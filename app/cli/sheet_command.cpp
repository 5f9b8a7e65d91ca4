#include "app/cli/sheet_command.h"

#include "analysis/connections/schematic.h"
#include "analysis/job/analyse.h"
#include "analysis/job/connection_finding.h"
#include "analysis/job/findings_json.h"
#include "analysis/job/job_reader.h"
#include "app/pages/file_pages.h"
#include "app/words/drawing_svg.h"
#include "app/words/english_wording.h"
#include "app/words/sheet_table.h"

#include <algorithm>

namespace headmark {

namespace {

std::vector<std::string> namesOf(const Job& job) {
    std::vector<std::string> names;
    for (const Pump& pump : job.pumps)
        names.push_back(pump.name);
    return names;
}

// The named pump alone, else the first.
Result<Job> withOnePump(Job job, const std::optional<std::string>& name) {
    auto chosen = job.pumps.begin();
    if (name) {
        chosen = std::find_if(job.pumps.begin(), job.pumps.end(),
                              [&](const Pump& pump) { return pump.name == *name; });
        if (chosen == job.pumps.end())
            return Error{"unknown-pump", "", "--pump", {{"name", *name}, {"known", namesOf(job)}}};
    }
    job.pumps = {*chosen};
    return job;
}

} // namespace

int SheetCommand::run(const Arguments& arguments) {
    const JobReading reading = readJobFile(arguments.input);
    if (!reading.job) return refuse(reading.errors);
    const auto job = withOnePump(*reading.job, arguments.pump);
    if (!job) return refuse(job.error(), arguments.input);
    FilePages pages;
    AnalyseOptions options;
    options.intervals = false;
    options.whatAllowsOneMore = false;
    const auto findings = analyse(*job, pages, options);
    if (!findings) return refuse(findings.error(), arguments.input);
    const PumpFindings& pump = findings->pumps.front();
    if (arguments.drawing) {
        if (!pump.connections) return refuse({"no-run-to-draw", "", "site.system", {}}, arguments.input);
        Arguments svg = arguments;
        svg.out = arguments.drawing;
        const QByteArray drawn = drawingSvg(schematicOf(pump.connections->sheet),
                                            QString::fromStdString(pump.name), englishPhrasing(&job->site));
        if (const int status = deliver(svg, drawn.toStdString()); status != kRan) return status;
    }
    if (arguments.table) return deliver(arguments, sheetTable(pump, *job).toStdString());
    return deliver(arguments, sheetJson(pump, EnglishWording(&job->site)));
}

} // namespace headmark
