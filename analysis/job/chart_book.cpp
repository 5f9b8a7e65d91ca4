#include "analysis/job/chart_book.h"

#include "analysis/chart/chart_codes.h"
#include "analysis/job/reading_reader.h"

#include <algorithm>
#include <filesystem>

namespace headmark {

namespace {

// One name for one file, however it is reached.
std::string canonicalPath(const std::string& path) {
    std::error_code failed;
    const auto canonical = std::filesystem::weakly_canonical(path, failed);
    return failed ? path : canonical.string();
}

void complete(Caution& caution) {
    const auto row =
        std::find_if(code::kChartCautions.begin(), code::kChartCautions.end(),
                     [&](const code::ChartCautionRow& known) { return known.code == caution.code; });
    if (row == code::kChartCautions.end()) return;
    if (caution.remedy.empty()) caution.remedy = row->remedy;
    if (caution.source.empty()) caution.source = row->source;
}

void complete(ChartLines& chart) {
    for (Caution& caution : chart.mappingCautions)
        complete(caution);
    for (ReadLine& line : chart.lines) {
        for (Caution& caution : line.cautions) {
            complete(caution);
            if (!findFact(caution.values, "line"))
                caution.values.insert(caution.values.begin(), {"line", line.name});
        }
    }
}

Error inReading(Error error, const std::string& readingFile) {
    // A file that came along is the picture's; the place is a key of the reading all the same.
    if (!error.file.empty()) error.facts.push_back({"picture", error.file});
    error.file = readingFile;
    return error;
}

} // namespace

Result<ChartLines> chartOf(const Reading& reading, const std::string& readingFile, PageSource& pages) {
    auto chart = readEachLine(reading, pages);
    if (!chart) return inReading(chart.error(), readingFile);
    for (auto& [line, error] : chart->unread)
        error = inReading(std::move(error), readingFile);
    complete(*chart);
    return chart;
}

ChartBook::Opened ChartBook::open(const std::string& readingFile) {
    const std::string name = canonicalPath(readingFile);
    if (const auto known = entries_.find(name); known != entries_.end()) return {known->second.reading, {}};
    ReadingReading read = readReadingFile(readingFile);
    if (!read.reading) return {nullptr, std::move(read.errors)};
    Entry& entry = entries_[name];
    entry.reading = std::make_shared<const Reading>(std::move(*read.reading));
    return {entry.reading, {}};
}

ChartBook::Charted ChartBook::chart(const std::string& readingFile) {
    Opened opened = open(readingFile);
    if (!opened.reading) return {nullptr, std::move(opened.errors)};
    Entry& entry = entries_[canonicalPath(readingFile)];
    if (!entry.errors.empty()) return {nullptr, entry.errors};
    if (!entry.lines) {
        auto chart = chartOf(*opened.reading, readingFile, *pages_);
        if (!chart) return {nullptr, {chart.error()}};
        entry.lines = std::make_shared<const ChartLines>(std::move(*chart));
    }
    return {entry.lines, {}};
}

void ChartBook::provide(const std::string& readingFile, std::shared_ptr<const Reading> reading,
                        Charted charted) {
    HEADMARK_ASSERT(reading != nullptr, "a chart is provided with its reading");
    for (Error& error : charted.errors)
        error = inReading(std::move(error), readingFile);
    entries_[canonicalPath(readingFile)] = {std::move(reading), std::move(charted.lines),
                                            std::move(charted.errors)};
}

void ChartBook::forget(const std::string& readingFile) { entries_.erase(canonicalPath(readingFile)); }

} // namespace headmark
