#include "app/cli/check_command.h"

#include "analysis/job/analyse.h"
#include "analysis/job/findings_check.h"
#include "analysis/job/job_reader.h"
#include "analysis/job/json_document.h"
#include "analysis/job/reading_reader.h"

#include <nlohmann/json.hpp>

namespace headmark {

int CheckCommand::run(const Arguments& arguments) {
    const auto document = readJsonFile(arguments.input);
    if (!document) return refuse(document.error(), arguments.input);
    const std::string format = documentFormat(*document);
    std::vector<Error> errors;
    if (format == "headmark-reading") {
        errors = readReadingDocument(*document, arguments.input).errors;
    } else if (format == "headmark-findings") {
        errors = checkFindingsDocument(*document, arguments.input);
    } else {
        // A document of no known format is told so by the job reader too.
        JobReading reading = readJobDocument(*document, arguments.input);
        errors = reading.errors;
        if (reading.job) {
            reading.job->folder = folderOf(arguments.input);
            if (auto ready = checkJob(*reading.job); !ready) return refuse(ready.error(), arguments.input);
        }
    }
    return errors.empty() ? kRan : refuse(errors);
}

} // namespace headmark
