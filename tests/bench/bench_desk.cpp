// How quickly the desk answers, on the offscreen platform: while a pin or a slider is dragged, the whole
// answer after an edit, the start of the program to its first frame, and the memory a large page takes. Bars:
// 16 ms (p95) on the sample and 50 ms on 24 zones with 4 pumps for duty, verdict and efficiency of the shown
// case; 1 s for intervals and zones at once on the sample; 1 s for the start; 400 MB for a page of A4 at 600
// dpi. Counters: p50_ms, p95_ms, most_ms by the clock on the wall; cpu_p50_ms, cpu_p95_ms what this process
// computed meanwhile in all its threads, which other work on the machine does not lengthen; screen_p50_ms,
// screen_p95_ms the screen's thread alone; peak_MB.
#include "app/desktop/charts/charts_place.h"
#include "app/desktop/duty/duty_place.h"
#include "app/desktop/duty/what_if_card.h"
#include "app/desktop/frame/main_window.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QFile>
#include <QPainter>
#include <QProcess>
#include <QStandardPaths>
#include <QTemporaryDir>

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <memory>

namespace headmark {
namespace {

constexpr int kMoves = 200, kEdits = 20, kStarts = 5;
constexpr int kZones = 24, kPumps = 4;

QString sampleJob() { return QStringLiteral(HEADMARK_SAMPLES "/terrace-nursery.job.json"); }

double now_ms() {
    static QElapsedTimer timer = [] {
        QElapsedTimer t;
        t.start();
        return t;
    }();
    return static_cast<double>(timer.nsecsElapsed()) * 1e-6;
}

template <class Condition>
void until(Condition condition) {
    while (!condition())
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
}

// Wall and processor time of every round.
class Times {
  public:
    void start() {
        wall_ms_ = now_ms();
        cpu_ms_ = cpuNow_ms();
        screen_ms_ = screenNow_ms();
    }
    void stop() {
        walls_ms_.push_back(now_ms() - wall_ms_);
        cpus_ms_.push_back(cpuNow_ms() - cpu_ms_);
        screens_ms_.push_back(screenNow_ms() - screen_ms_);
    }
    void tell(benchmark::State& state) {
        std::sort(walls_ms_.begin(), walls_ms_.end());
        std::sort(cpus_ms_.begin(), cpus_ms_.end());
        std::sort(screens_ms_.begin(), screens_ms_.end());
        state.counters["p50_ms"] = at(walls_ms_, 0.50);
        state.counters["p95_ms"] = at(walls_ms_, 0.95);
        state.counters["most_ms"] = walls_ms_.back();
        state.counters["cpu_p50_ms"] = at(cpus_ms_, 0.50);
        state.counters["cpu_p95_ms"] = at(cpus_ms_, 0.95);
        state.counters["screen_p50_ms"] = at(screens_ms_, 0.50);
        state.counters["screen_p95_ms"] = at(screens_ms_, 0.95);
    }

  private:
    static double cpuNow_ms() { return 1000.0 * static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }
    static double screenNow_ms() {
        timespec now{};
        clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
        return 1e3 * static_cast<double>(now.tv_sec) + 1e-6 * static_cast<double>(now.tv_nsec);
    }
    static double at(const std::vector<double>& sorted, double share) {
        return sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1))];
    }
    double wall_ms_ = 0.0, cpu_ms_ = 0.0, screen_ms_ = 0.0;
    std::vector<double> walls_ms_, cpus_ms_, screens_ms_;
};

// The sample's zones again and again under other names, its first pump once more.
void multiply(Workspace& workspace) {
    Job& job = workspace.job;
    const std::vector<Zone> zones = job.site.zones;
    while (job.site.zones.size() < kZones) {
        Zone zone = zones[job.site.zones.size() % zones.size()];
        zone.name += ", part " + std::to_string(job.site.zones.size());
        job.site.zones.push_back(zone);
    }
    while (job.pumps.size() < kPumps) {
        Pump pump = job.pumps.front();
        pump.name += ", again";
        job.pumps.push_back(pump);
    }
}

class Desktop {
  public:
    explicit Desktop(bool large) {
        window_.desk().setUnits(DisplayUnits());
        window_.resize(1280, 800);
        window_.show();
        window_.openPath(sampleJob());
        if (large) window_.desk().document.edit(QStringLiteral("More zones"), multiply);
        waitForAll();
    }
    ~Desktop() { window_.desk().document.close(); }
    Desktop(const Desktop&) = delete;
    Desktop& operator=(const Desktop&) = delete;

    [[nodiscard]] Document& document() { return window_.desk().document; }
    [[nodiscard]] AnswerService& answers() { return window_.desk().answers; }
    [[nodiscard]] ChartsPlace& charts() {
        return *qobject_cast<ChartsPlace*>(window_.place(PlaceId::charts));
    }
    [[nodiscard]] DutyPlace& duty() { return *qobject_cast<DutyPlace*>(window_.place(PlaceId::duty)); }
    void show(PlaceId place) { window_.showPlace(place); }

    void waitForAll() {
        until([this] {
            const auto answer = answers().latest();
            return !answers().isBusy() && answer->findings && !answer->stale && answersNow(*answer);
        });
    }
    // Duty, verdict and efficiency of the shown case, painted.
    void waitForShown() {
        until([this] {
            const auto answer = answers().latest();
            return answer->shownCase && answersNow(*answer);
        });
        QCoreApplication::processEvents();
    }

  private:
    [[nodiscard]] bool answersNow(const Answer& answer) {
        const Workspace& now = document().workspace();
        if (answer.workspace.charts.size() != now.charts.size()) return false;
        for (std::size_t i = 0; i < now.charts.size(); ++i)
            if (answer.workspace.charts[i].reading != now.charts[i].reading) return false;
        return answer.workspace.job.site.zones.size() == now.job.site.zones.size() &&
               answer.workspace.job.title == now.job.title;
    }
    MainWindow window_;
};

// The pin at the top right of pump A's chart goes round a few pixels, as in a hand.
void dragOfAPin(benchmark::State& state, bool large, PlaceId place) {
    Desktop desktop(large);
    desktop.show(place);
    ChartSession& session = desktop.charts().session();
    const ChartPart pin{PartKind::pin, 3, 0};
    const PixelPoint home = *session.placeOf(pin);
    const int drag = session.newDrag();
    Times times;
    int step = 0;
    for (auto _ : state) {
        times.start();
        ++step;
        session.move(pin, {home.x_px + 0.1 * (step % 40), home.y_px + 0.1 * (step % 7)}, drag);
        desktop.waitForShown();
        times.stop();
    }
    times.tell(state);
}

void dragOfASlider(benchmark::State& state, bool large, QSlider* (WhatIfCard::*which)() const) {
    Desktop desktop(large);
    desktop.show(PlaceId::duty);
    QCoreApplication::processEvents();
    QSlider& slider = *(desktop.duty().whatIf().*which)();
    int shown = 0;
    QObject::connect(&desktop.duty(), &DutyPlace::triedShown, &desktop.duty(), [&shown] { ++shown; });
    Times times;
    int step = 0;
    for (auto _ : state) {
        const int before = shown;
        times.start();
        ++step;
        slider.setValue(slider.minimum() + 1 + step % std::max(1, slider.maximum() - slider.minimum() - 1));
        if (desktop.duty().whatIf().change().isNone()) continue; // back where it was: nothing is tried
        until([&] { return shown > before; });
        QCoreApplication::processEvents();
        times.stop();
    }
    times.tell(state);
}

// From an edit of the site until intervals, every case and zones at once are there.
void wholeAnswer(benchmark::State& state, bool large) {
    Desktop desktop(large);
    Times times;
    int step = 0;
    for (auto _ : state) {
        times.start();
        ++step;
        desktop.document().edit(QStringLiteral("Lengthen"), [step](Workspace& w) {
            w.job.title = std::to_string(step);
            w.job.water.temperature = Temperature::fromCelsius(10.0 + 0.1 * step);
        });
        desktop.waitForAll();
        times.stop();
    }
    times.tell(state);
}

BENCHMARK_CAPTURE(dragOfAPin, sample_at_charts, false, PlaceId::charts)
    ->Iterations(kMoves)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(dragOfAPin, sample_at_duty, false, PlaceId::duty)
    ->Iterations(kMoves)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(dragOfAPin, zones_24_pumps_4, true, PlaceId::charts)
    ->Iterations(kMoves)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(dragOfASlider, speed_sample, false, &WhatIfCard::speedSlider)
    ->Iterations(kMoves)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(dragOfASlider, water_sample, false, &WhatIfCard::waterSlider)
    ->Iterations(kMoves)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(dragOfASlider, valve_sample, false, &WhatIfCard::valveSlider)
    ->Iterations(kMoves)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(dragOfASlider, valve_zones_24_pumps_4, true, &WhatIfCard::valveSlider)
    ->Iterations(kMoves)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(wholeAnswer, sample, false)->Iterations(kEdits)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(wholeAnswer, zones_24_pumps_4, true)->Iterations(3)->Unit(benchmark::kMillisecond);

// The program as a process, until Qt tells that the window's first frame went to the screen.
bool showsAFrame(const QStringList& arguments) {
    QProcess program;
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    environment.insert(QStringLiteral("QT_LOGGING_RULES"), QStringLiteral("qt.widgets.painting.info=true"));
    environment.insert(QStringLiteral("QT_QPA_PLATFORM"), QStringLiteral("offscreen"));
    program.setProcessEnvironment(environment);
    program.setReadChannel(QProcess::StandardError);
    program.start(QStringLiteral(HEADMARK_PROGRAM), arguments);
    QByteArray said;
    while (!said.contains("Flushing") && program.waitForReadyRead(30000))
        said += program.readAllStandardError();
    program.kill();
    program.waitForFinished();
    return said.contains("Flushing");
}

void start(benchmark::State& state, bool withSample) {
    Times times;
    for (auto _ : state) {
        times.start();
        if (!showsAFrame(withSample ? QStringList{sampleJob()} : QStringList{}))
            return state.SkipWithError("the program showed no frame");
        times.stop();
    }
    times.tell(state);
}
BENCHMARK_CAPTURE(start, empty, false)->Iterations(kStarts)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(start, sample, true)->Iterations(kStarts)->Unit(benchmark::kMillisecond);

// A coloured page of A4 at 600 dpi with paper grain, which keeps pictures from packing well.
void writeLargePage(const QString& path) {
    QImage page(4960, 7016, QImage::Format_RGB32);
    unsigned grain = 1;
    for (int y = 0; y < page.height(); ++y) {
        auto* row = reinterpret_cast<QRgb*>(page.scanLine(y));
        for (int x = 0; x < page.width(); ++x) {
            grain = grain * 1664525U + 1013904223U; // a plain congruential row, from memory
            const int light = 240 + static_cast<int>(grain >> 29U);
            row[x] = qRgb(light, light, light - 10);
        }
    }
    QPainter painter(&page);
    painter.setPen(QPen(QColor(0x10, 0x40, 0x90), 9.0));
    painter.drawLine(600, 1200, 4300, 3900);
    painter.end();
    page.save(path, nullptr, 90);
}

// Run by the benchmark as a process of its own: opens the page and tells the most memory it ever held.
int openAndTell(const QString& path) {
    MainWindow window;
    window.resize(1280, 800);
    window.show();
    window.openPath(path);
    auto& charts = *qobject_cast<ChartsPlace*>(window.place(PlaceId::charts));
    until([&] { return charts.view().page() != nullptr; });
    // Painted, and once pixel for pixel: what follows an opening in a hand.
    QCoreApplication::processEvents();
    charts.view().showPixels();
    QCoreApplication::processEvents();
    QFile status(QStringLiteral("/proc/self/status"));
    if (!status.open(QIODevice::ReadOnly)) return 1;
    for (const QByteArray& line : status.readAll().split('\n'))
        if (line.startsWith("VmHWM:")) std::printf("%s\n", line.constData());
    window.desk().document.close();
    return 0;
}

void largePage(benchmark::State& state, const char* name) {
    const QTemporaryDir folder;
    const QString path = folder.filePath(QString::fromLatin1(name));
    writeLargePage(path);
    double peak_MB = 0.0;
    for (auto _ : state) {
        QProcess child;
        child.start(QCoreApplication::applicationFilePath(), {QStringLiteral("--open-and-tell"), path});
        child.waitForFinished(60000);
        const QByteArray said = child.readAllStandardOutput().simplified(); // "VmHWM: 123456 kB"
        peak_MB = said.split(' ').value(1).toDouble() * 1024.0 * 1e-6;
    }
    if (peak_MB <= 0.0) return state.SkipWithError("the page was not opened");
    state.counters["peak_MB"] = peak_MB;
}
BENCHMARK_CAPTURE(largePage, png, "page.png")->Iterations(1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(largePage, jpeg, "page.jpg")->Iterations(1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(largePage, tiff, "page.tif")->Iterations(1)->Unit(benchmark::kMillisecond);

} // namespace
} // namespace headmark

int main(int argc, char** argv) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QStandardPaths::setTestModeEnabled(true);
    QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("headmark"));
    QCoreApplication::setApplicationName(QStringLiteral("headmark-bench"));
    headmark::applyTheme(application, headmark::ThemeChoice::light);
    const QStringList arguments = QCoreApplication::arguments();
    if (arguments.size() == 3 && arguments[1] == QLatin1String("--open-and-tell"))
        return headmark::openAndTell(arguments[2]);
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    return 0;
}
