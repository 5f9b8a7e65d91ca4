// How long "how many zones at once" takes, whole (site condensed anew, every set decided), on generated
// nurseries. Bars, one core, optimised build: 16 zones exactly in 0.2 s, 24 zones in 1 s at the 90th
// percentile of the generated jobs, else the bracket. Beside the time: how many of the jobs were proven, and
// the widest bracket.

#include "analysis/duty/zone_sets.h"

#include "support/duty_fixtures.h"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <ctime>
#include <random>

namespace {

using namespace headmark;
using namespace headmark::testing;

struct Nursery {
    Site site;
    PumpModel pump;
};

// Zones at three take-offs along a main, every second job with upper limits.
Nursery nursery(unsigned seed, int zones, bool drooping) {
    std::mt19937 random(seed);
    const auto pick = [&](double lo, double hi) { return std::uniform_real_distribution<>(lo, hi)(random); };
    Nursery n;
    n.site = siteOf(sourceAt(-3.0, -2.0, -1.0));
    n.site.suction = {fitting(2.5, 51.0), pipe(51.0, 6.0, 0.05)};
    FilterItem filter;
    filter.loss = Pressure::fromKilopascals(10.0);
    filter.at = Flow::fromCubicMetresPerHour(8.0);
    filter.service = Pressure::fromKilopascals(35.0);
    n.site.delivery = {fitting(2.0, 40.0), filter, pipe(55.4, 45.0)};
    for (const char* takeoff : {"low", "middle"}) {
        n.site.delivery.emplace_back(TakeoffItem{takeoff});
        n.site.delivery.emplace_back(pipe(55.4, pick(20.0, 90.0)));
    }
    const char* takeoffs[] = {"low", "middle", ""};
    for (int z = 0; z < zones; ++z) {
        Zone zone = zoneOf("Zone " + std::to_string(z), pick(0.8, 4.0), pick(-1.0, 12.0), takeoffs[z % 3]);
        zone.branch = {fitting(5.0, 28.0), pipe(28.0, pick(5.0, 40.0))};
        zone.emitters.law.at = Pressure::fromKilopascals(150.0);
        zone.emitters.least = GaugePressure::fromKilopascals(pick(60.0, 140.0));
        if (seed % 2 == 1) zone.emitters.greatest = GaugePressure::fromKilopascals(pick(200.0, 350.0));
        n.site.zones.push_back(zone);
    }
    const double shutOff = pick(30.0, 60.0), end = pick(9.0, 22.0);
    n.pump =
        pumpOf(drooping ? curveThrough({{0.0, 0.9 * shutOff}, {0.4 * end, shutOff}, {end, 0.5 * shutOff}})
                        : parabola(shutOff, 0.0, -0.55 * shutOff / (end * end), 0.0, end));
    n.pump.npshRequired = parabola(1.5, 0.0, pick(1.0, 4.0) / (end * end), 0.0, end);
    return n;
}

ZonesAtOnceAnswer answerOf(const Nursery& n) {
    const SiteModel model = modelOf(n.site);
    const CaseSolver solver(model, n.pump, Limits{});
    const ZoneSets sets(solver);
    return zonesAtOnce(sets.question());
}

void zonesAtOnceOf(benchmark::State& state, bool drooping) {
    constexpr unsigned kJobs = 30;
    std::vector<double> seconds;
    int proven = 0, counted = 0, widest = 0;
    long questions = 0;
    for (auto _ : state) {
        for (unsigned job = 0; job < kJobs; ++job) {
            const Nursery n = nursery(job, static_cast<int>(state.range(0)), drooping);
            const std::clock_t start = std::clock(); // of this process: others on the machine do not count
            const ZonesAtOnceAnswer a = answerOf(n);
            seconds.push_back(static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
            proven += a.proven ? 1 : 0;
            counted += a.bestSetsCounted ? 1 : 0;
            widest = std::max({widest, a.bestSetAtMost - a.bestSet, a.anySetAtMost - a.anySet});
            questions = std::max(questions, a.questions);
        }
    }
    std::sort(seconds.begin(), seconds.end());
    state.counters["p50_s"] = seconds[seconds.size() / 2];
    state.counters["p90_s"] = seconds[seconds.size() * 9 / 10];
    state.counters["worst_s"] = seconds.back();
    state.counters["proven_share"] = static_cast<double>(proven) / static_cast<double>(seconds.size());
    state.counters["counted_share"] = static_cast<double>(counted) / static_cast<double>(seconds.size());
    state.counters["widest_bracket"] = widest;
    state.counters["most_questions"] = static_cast<double>(questions);
}

void fallingCurve(benchmark::State& state) { zonesAtOnceOf(state, false); }
void droopingCurve(benchmark::State& state) { zonesAtOnceOf(state, true); }

BENCHMARK(fallingCurve)->Arg(12)->Arg(16)->Arg(24)->Arg(42)->Iterations(1)->Unit(benchmark::kMillisecond);
BENCHMARK(droopingCurve)->Arg(14)->Arg(16)->Arg(24)->Iterations(1)->Unit(benchmark::kMillisecond);

} // namespace
