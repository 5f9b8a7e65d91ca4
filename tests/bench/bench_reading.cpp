// How long a line of a chart takes to read, against the decoding of its own page. An A4 page at 300 dpi, a
// scan, grey: decode of the page as grey JPEG of quality 60 (as opening it does), mapping, following and
// fitting of one line with the page already open, and of a further line of the same reading. One core,
// optimised build. Bars: one line <= 4 decodes (`of_decode`); a further line 15 ms.

#include "app/pages/file_pages.h"
#include "tests/pages/redraws.h"

#include <QBuffer>
#include <QImage>

#include <benchmark/benchmark.h>

#include <ctime>
#include <functional>
#include <random>

namespace {

using namespace headmark;
using namespace headmark::pages;

const MadePage& scannedPage() {
    static const MadePage page = makePage("family-3-scan");
    return page;
}

ChartPage asJpeg() {
    const Page& page = scannedPage().page;
    const QImage image(page.grey.data(), page.width, page.height, page.width, QImage::Format_Grayscale8);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    constexpr int kQuality = 60;
    image.save(&buffer, "JPEG", kQuality);
    ChartPage chart;
    chart.mediaType = "image/jpeg";
    chart.bytes =
        std::make_shared<const std::string>(bytes.constData(), static_cast<std::size_t>(bytes.size()));
    return chart;
}

// The first `count` lines of the page, pins and clicks missed as people miss them.
Reading readingOfLines(std::size_t count) {
    std::mt19937 random(11);
    Reading reading;
    for (std::size_t i = 0; i < count; ++i) {
        Reading one = readingOf(scannedPage(), scannedPage().lines[i], RedrawOptions{}, random);
        if (i == 0)
            reading = std::move(one);
        else
            reading.lines.push_back(one.lines.front());
    }
    return reading;
}

// Of the processor: other programs on the machine do not count.
double seconds(const std::function<void()>& work, int times) {
    const std::clock_t start = std::clock();
    for (int i = 0; i < times; ++i)
        work();
    return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC / times;
}

void decode(const ChartPage& chart) {
    FilePages pages;
    auto opened = pages.open(chart);
    benchmark::DoNotOptimize(opened);
}

void read(const Reading& reading) {
    OnePage page(scannedPage().page);
    auto lines = readChart(reading, page);
    benchmark::DoNotOptimize(lines);
}

void decodeOfThePage(benchmark::State& state) {
    ensureGuiApplication();
    const ChartPage chart = asJpeg();
    for (auto _ : state)
        decode(chart);
    state.counters["megapixels"] = 1e-6 * scannedPage().page.width * scannedPage().page.height;
}

void oneLine(benchmark::State& state) {
    ensureGuiApplication();
    const ChartPage chart = asJpeg();
    const Reading reading = readingOfLines(1);
    for (auto _ : state)
        read(reading);
    constexpr int kTimes = 10;
    state.counters["of_decode"] =
        seconds([&] { read(reading); }, kTimes) / seconds([&] { decode(chart); }, kTimes);
}

void furtherLine(benchmark::State& state) {
    const std::size_t all = scannedPage().lines.size();
    const Reading one = readingOfLines(1), many = readingOfLines(all);
    for (auto _ : state)
        read(many);
    constexpr int kTimes = 10;
    state.counters["ms_further"] =
        1e3 * (seconds([&] { read(many); }, kTimes) - seconds([&] { read(one); }, kTimes)) /
        static_cast<double>(all - 1);
    state.counters["lines"] = static_cast<double>(all);
}

BENCHMARK(decodeOfThePage)->Unit(benchmark::kMillisecond);
BENCHMARK(oneLine)->Unit(benchmark::kMillisecond);
BENCHMARK(furtherLine)->Unit(benchmark::kMillisecond);

} // namespace
