#pragma once
// What is open on the desk: the job and the charts its pumps are read from, finished or not. A plain value:
// copied for undo, handed to the computing thread, compared by what would be written.

#include "analysis/chart/reading.h"
#include "analysis/job/job.h"

#include <memory>
#include <string>
#include <vector>

namespace headmark {

struct ChartSheet {
    // Of its reading file, as the job's pumps name it: relative to the job's folder. A sheet that was never
    // saved has the name it will be saved under.
    std::string path;
    std::shared_ptr<const Reading> reading; // never null; may lack pins or lines as yet
};

struct Workspace {
    Job job; // may lack pumps or zones as yet
    std::vector<ChartSheet> charts;
};

// A site of one question a line: water, one pipe, one zone; no pump yet.
[[nodiscard]] Workspace blankWorkspace();

// Index of the sheet of that path, or -1.
[[nodiscard]] int chartIndex(const Workspace& workspace, const std::string& path);

// A path no sheet has yet: "brochure-page.reading.json" for a page of that name, else with a number.
[[nodiscard]] std::string freeChartPath(const Workspace& workspace, const std::string& pageName);

// Whether both would be written alike, pages by where they lie.
[[nodiscard]] bool sameReading(const Reading& a, const Reading& b);

// Whether both would be saved as the same files.
[[nodiscard]] bool sameWork(const Workspace& a, const Workspace& b);

} // namespace headmark
