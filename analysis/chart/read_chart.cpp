#include "analysis/chart/read_chart.h"

#include "analysis/chart/chart_reader.h"

namespace headmark {

namespace {

// Where both pins and picture are wrong, the pins are named.
Result<ChartReader::Outcome> readOnce(const Reading& reading, PageSource& pages) {
    const auto opened = pages.open(reading.chart);
    if (!opened) {
        auto mapping = solveMapping(reading);
        return mapping ? opened.error() : mapping.error();
    }
    return ChartReader(*opened).read(reading);
}

} // namespace

Result<ChartLines> readChart(const Reading& reading, PageSource& pages) {
    auto read = readOnce(reading, pages);
    if (!read) return read.error();
    if (!read->errors.empty()) return read->errors.front();
    return std::move(*read->chart);
}

Result<ChartLines> readEachLine(const Reading& reading, PageSource& pages) {
    auto read = readOnce(reading, pages);
    if (!read) return read.error();
    // More errors than lines that could not be read: the first is of the pins.
    if (!read->chart || read->errors.size() > read->chart->unread.size()) return read->errors.front();
    return std::move(*read->chart);
}

} // namespace headmark
