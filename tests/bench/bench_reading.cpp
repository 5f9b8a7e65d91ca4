// How long a line of a chart takes to read, against the decoding of its own page. An A4 page at 300 dpi, a
// scan, grey: decode of the page as grey JPEG of quality 60 (as opening it does), mapping, following and
// fitting of one line with the page already open, and of a further line of the same reading. One core,
// optimised build. Bars: one line <= 4 decodes (`of_decode`); a further line 15 ms; opening the page and
// reading its lines within 150 MB (`MB_peak`, of the whole process, which has drawn no page by then); pages
// that hold no chart, up to A4 at 600 dpi, answered within 2 s.
// bench_reading --table [DRAWS] prints instead how well hard pages are read, per class and style, and how
// honest their errors are, over so many redraws of pins and clicks (1; 20 tell).

#include "app/pages/file_pages.h"
#include "tests/pages/hard_pages.h"
#include "tests/pages/redraws.h"
#include "tests/pages/statistics/hard_statistics.h"

#include <QBuffer>
#include <QImage>

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iostream>
#include <random>
#include <string>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

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

// The process's greatest memory so far, MB; Linux tells it.
double peak_MB() {
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;) {
        double kB = 0.0;
        if (word == "VmHWM:" && status >> kB) return kB / 1024.0;
    }
    return 0.0;
}

// What the page's maker hands to a process that has drawn nothing.
void writeTask(const std::string& path) {
    const ChartPage chart = asJpeg();
    std::ofstream(path + ".jpg", std::ios::binary) << *chart.bytes;
    const Reading reading = readingOfLines(scannedPage().lines.size());
    std::ofstream task(path);
    for (const Pin& pin : reading.pins)
        task << pin.at.x_px << ' ' << pin.at.y_px << ' ' << *pin.flow << ' ' << *pin.value << '\n';
    task << "lines\n";
    for (const ChartLine& line : reading.lines)
        task << line.followFrom[0].x_px << ' ' << line.followFrom[0].y_px << '\n';
}

Reading readTask(const std::string& path) {
    Reading reading;
    reading.chart.path = path + ".jpg";
    reading.printedUnits.flow = "m3/h"; // whatever it is: memory does not depend on it
    std::ifstream task(path);
    for (std::string word; task >> word && word != "lines";) {
        double y = 0.0, flow = 0.0, value = 0.0;
        task >> y >> flow >> value;
        Pin pin;
        pin.at = {std::stod(word), y};
        pin.flow = flow;
        pin.value = value;
        reading.pins.push_back(pin);
    }
    for (PixelPoint at; task >> at.x_px >> at.y_px;) {
        ChartLine line;
        line.name = std::to_string(reading.lines.size());
        line.followFrom = {at};
        reading.lines.push_back(line);
    }
    return reading;
}

// Greatest memory of opening the page and reading all its lines; to be asked before anything is drawn here.
double memoryOfReading_MB() {
    const std::string path = std::filesystem::temp_directory_path() / "headmark-bench-task";
    const pid_t maker = fork();
    if (maker == 0) {
        ensureGuiApplication();
        writeTask(path);
        _exit(0);
    }
    int status = 0;
    waitpid(maker, &status, 0);
    FilePages pages;
    auto lines = readChart(readTask(path), pages);
    benchmark::DoNotOptimize(lines);
    return lines ? peak_MB() : 0.0;
}

double memory_MB = 0.0;

void peakMemory(benchmark::State& state) {
    for (auto _ : state)
        benchmark::ClobberMemory();
    state.counters["MB_peak"] = memory_MB;
}

// White, black, noise, and shades as a photograph of anything else has them.
void pageWithoutChart(benchmark::State& state) {
    constexpr int kWidth = 4960, kHeight = 7016; // A4 at 600 dpi
    Page page;
    page.width = kWidth;
    page.height = kHeight;
    std::mt19937 random(5);
    const auto kind = state.range(0);
    for (int y = 0; y < kHeight; ++y)
        for (int x = 0; x < kWidth; ++x)
            page.grey.push_back(static_cast<std::uint8_t>(
                kind == 0   ? 255
                : kind == 1 ? 0
                : kind == 2 ? random() & 255U
                            : static_cast<unsigned>(128.0 + 60.0 * std::sin(0.01 * x) * std::cos(0.007 * y) +
                                                    30.0 * std::sin(0.05 * (x + y)) +
                                                    static_cast<double>(random() & 15U))));
    Reading reading = readingOfLines(1);
    const double across[] = {600.0, 4300.0}, down[] = {6200.0, 1000.0};
    for (std::size_t k = 0; k < 4; ++k)
        reading.pins[k].at = {across[k % 2], down[k / 2]};
    reading.lines[0].followFrom = {{2500.0, 3500.0}};
    for (auto _ : state) {
        OnePage one(page);
        auto lines = readChart(reading, one);
        benchmark::DoNotOptimize(lines);
    }
}

BENCHMARK(decodeOfThePage)->Unit(benchmark::kMillisecond);
BENCHMARK(oneLine)->Unit(benchmark::kMillisecond);
BENCHMARK(furtherLine)->Unit(benchmark::kMillisecond);
BENCHMARK(peakMemory)->Iterations(1);
BENCHMARK(pageWithoutChart)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);

} // namespace

int main(int count, char** arguments) {
    if (count > 1 && std::string(arguments[1]) == "--table") {
        std::vector<HardDraw> draws;
        for (const std::string& name : hardPageNames(1)) {
            const auto page = redrawHardPage(name, count > 2 ? std::max(std::atoi(arguments[2]), 1) : 1);
            draws.insert(draws.end(), page.begin(), page.end());
        }
        printHardTable(draws, std::cout);
        printHonesty(draws, std::cout);
        return 0;
    }
    memory_MB = memoryOfReading_MB();
    benchmark::Initialize(&count, arguments);
    benchmark::RunSpecifiedBenchmarks();
}
