#include "app/cli/duty_command.h"

#include "analysis/job/analyse.h"
#include "analysis/job/findings_json.h"
#include "analysis/job/job_reader.h"
#include "analysis/job/shift_finding.h"
#include "app/pages/file_pages.h"
#include "app/words/english_wording.h"
#include "app/words/findings_table.h"

#include <algorithm>

namespace headmark {

namespace {

// Cases that the solver could not settle, "pump: case".
std::vector<std::string> unsettled(const Findings& findings) {
    std::vector<std::string> names;
    for (const PumpFindings& p : findings.pumps) {
        for (const CaseAnswer& a : p.cases) {
            const bool stalled = std::any_of(a.cautions.begin(), a.cautions.end(),
                                             [](const Caution& c) { return c.code == "not-converged"; });
            if (stalled) names.push_back(p.name + ": " + a.name);
        }
    }
    return names;
}

} // namespace

int DutyCommand::run(const Arguments& arguments) {
    const JobReading reading = readJobFile(arguments.input);
    if (!reading.job) return refuse(reading.errors);
    FilePages pages;
    const auto findings = analyse(*reading.job, pages);
    if (!findings) return refuse(findings.error(), arguments.input);
    if (const auto names = unsettled(*findings); !names.empty()) {
        messages_ << arguments.input
                  << ": no steady state was found, with full and with shortened Newton steps, for";
        for (const std::string& n : names)
            messages_ << "\n  " << n;
        messages_ << "\nCheck the levels, bores and settings of these cases.\n";
        return kNotConverged;
    }
    if (arguments.shifts) {
        Arguments csv = arguments;
        csv.out = arguments.shifts;
        if (const int status = deliver(csv, shiftsCsv(*findings)); status != kRan) return status;
    }
    if (arguments.table) return deliver(arguments, findingsTable(*findings, *reading.job).toStdString());
    return deliver(arguments, findingsJson(*findings, EnglishWording(&reading.job->site)));
}

} // namespace headmark
