#include "app/document/workspace.h"

#include "analysis/job/job_writer.h"
#include "analysis/job/json_document.h"
#include "analysis/job/reading_writer.h"
#include "analysis/pipework/catalogue.h"

#include <algorithm>
#include <filesystem>

namespace headmark {

namespace {

bool sameBytes(const ChartPage& a, const ChartPage& b) {
    return a.bytes == b.bytes || (a.bytes && b.bytes && *a.bytes == *b.bytes);
}

Zone questionZone() {
    Zone zone;
    zone.name = "Zone 1";
    zone.level = Level::fromMetres(3.0);
    zone.emitters.whole = true;
    zone.emitters.law.nominal = Flow::fromCubicMetresPerHour(4.0);
    zone.emitters.law.at = Pressure::fromKilopascals(200.0);
    return zone;
}

} // namespace

// Figures of a small garden: a need near 4 m3/h at 27 m, which a small surface pump gives.
Workspace blankWorkspace() {
    Workspace workspace;
    Site& site = workspace.job.site;
    WaterSource source;
    source.low = source.usual = source.high = Level::fromMetres(-2.0);
    site.source = source;
    PipeItem pipe;
    const PipeRow* row = findPipe("pe100_sdr17_50");
    HEADMARK_ASSERT(row != nullptr, "the catalogue has the blank site's pipe");
    pipe.kind = row->kind;
    pipe.length = Length::fromMetres(60.0);
    site.delivery.emplace_back(pipe);
    site.zones.push_back(questionZone());
    return workspace;
}

int chartIndex(const Workspace& workspace, const std::string& path) {
    const auto found = std::find_if(workspace.charts.begin(), workspace.charts.end(),
                                    [&](const ChartSheet& sheet) { return sheet.path == path; });
    return found == workspace.charts.end() ? -1 : static_cast<int>(found - workspace.charts.begin());
}

std::string freeChartPath(const Workspace& workspace, const std::string& pageName) {
    std::string stem = std::filesystem::path(pageName).stem().string();
    if (stem.empty()) stem = "chart";
    const auto taken = [&](const std::string& path) {
        std::error_code failed; // a folder that cannot be looked into is the save's to report
        return chartIndex(workspace, path) >= 0 ||
               (!workspace.job.folder.empty() &&
                std::filesystem::exists(pathFrom(workspace.job.folder, path), failed));
    };
    std::string path = stem + ".reading.json";
    for (int number = 2; taken(path); ++number)
        path = stem + "-" + std::to_string(number) + ".reading.json";
    return path;
}

// The page is compared apart from the rest: embedded ones are large.
bool sameReading(const Reading& a, const Reading& b) {
    if (&a == &b) return true;
    const auto pageOf = [](const ChartPage& chart) {
        if (chart.bytes) return std::string();
        return std::filesystem::path(pathFrom(chart.folder, chart.path)).lexically_normal().string();
    };
    if (pageOf(a.chart) != pageOf(b.chart) || a.chart.mediaType != b.chart.mediaType ||
        !sameBytes(a.chart, b.chart))
        return false;
    const auto withoutPage = [](const Reading& reading) {
        Reading bare = reading;
        bare.chart.bytes.reset();
        bare.chart.path = "page";
        return writeReading(bare);
    };
    return withoutPage(a) == withoutPage(b);
}

bool sameWork(const Workspace& a, const Workspace& b) {
    if (a.charts.size() != b.charts.size()) return false;
    for (std::size_t i = 0; i < a.charts.size(); ++i) {
        if (a.charts[i].path != b.charts[i].path || !sameReading(*a.charts[i].reading, *b.charts[i].reading))
            return false;
    }
    return writeJob(a.job) == writeJob(b.job);
}

} // namespace headmark
