// How long a duty point takes. Bars (one core of an office machine, optimised build): one outlet 10 us; 12
// zones warm 50 us; 30 zones of 90 items warm 100 us, cold 400 us; 1000 Monte Carlo draws with one outlet 50
// ms, 12 zones 150 ms. Beside them the reference solver of the tests on the same trees; `times_faster` is the
// ratio.

#include "analysis/duty/intervals.h"

#include "support/duty_fixtures.h"
#include "support/network_forms.h"

#include <benchmark/benchmark.h>

#include <chrono>
#include <cmath>
#include <functional>

namespace {

using namespace headmark;
using namespace headmark::testing;

double seconds(const std::function<void()>& work, int times) {
    const auto start = std::chrono::steady_clock::now();
    for (int i = 0; i < times; ++i)
        work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count() / times;
}

// One pump, one outlet at the end of a run of pipe and fittings.
Site oneOutlet() {
    Site site = siteOf(sourceAt(-2.5, -2.0, -1.5));
    site.suction = {fitting(2.5, 51.0), pipe(51.0, 6.0, 0.05)};
    site.delivery = {fitting(2.0, 40.0), pipe(55.4, 140.0), fitting(0.9, 55.4)};
    site.end = OutletEnd{Level::fromMetres(12.0), GaugePressure{}};
    return site;
}

// Zones along one main, each with its own piece of main and a branch of fitting and pipe: three items a zone.
Site manyZones(int zones) {
    Site site = siteOf(sourceAt(-2.5, -2.0, -1.5));
    site.suction = {fitting(2.5, 110.0), pipe(110.0, 6.0, 0.05)};
    for (int z = 0; z < zones; ++z) {
        const std::string takeoff = "T" + std::to_string(z);
        site.delivery.emplace_back(pipe(110.0 * std::sqrt(1.0 - 0.9 * z / zones), 10.0));
        site.delivery.emplace_back(TakeoffItem{takeoff});
        Zone zone = zoneOf("Zone " + std::to_string(z), 2.0, 0.2 * (z % 9), takeoff);
        zone.branch = {fitting(5.0, 28.0), pipe(28.0, 20.0)};
        site.zones.push_back(std::move(zone));
    }
    return site;
}

PumpModel pumpFor(double flow_m3_h) {
    return pumpOf(parabola(42.0, 0.0, -20.0 / (flow_m3_h * flow_m3_h), 0.0, 1.35 * flow_m3_h));
}

Case everyZone(const Site& site) {
    std::vector<std::string> names;
    for (const Zone& zone : site.zones)
        names.push_back(zone.name);
    return caseOf(names);
}

PumpModel pumpOfSite(const Site& site) {
    return pumpFor(site.zones.empty() ? 10.0 : 2.0 * static_cast<double>(site.zones.size()));
}

struct Ready {
    explicit Ready(const Site& described)
        : site(described), model(modelOf(site)), pump(pumpOfSite(site)), tree(treeOf()), solver(tree.tree) {}
    [[nodiscard]] SiteTree treeOf() const {
        CaseSetting setting;
        setting.open.assign(site.zones.size(), true);
        return model.tree(setting);
    }
    Site site;
    SiteModel model;
    PumpModel pump;
    SiteTree tree;
    TreeSolver solver;
};

// Alternating delivery factors, as when a slider is dragged: every solve starts from its neighbour.
void warm(benchmark::State& state, const Site& site) {
    Ready ready(site);
    double factor = 1.0;
    for (auto _ : state) {
        factor = factor == 1.0 ? 0.97 : 1.0;
        const Crossings found = findDutyOnFallingCurve(ready.solver, ready.pump.head, factor);
        if (!found.duty()) state.SkipWithError("no duty point");
        benchmark::DoNotOptimize(found.all.data());
    }
}

void dutyOneOutlet(benchmark::State& state) { warm(state, oneOutlet()); }
void dutyTwelveZonesWarm(benchmark::State& state) { warm(state, manyZones(12)); }
void dutyThirtyZonesWarm(benchmark::State& state) { warm(state, manyZones(30)); }

// Tree built anew and solved from nothing.
void dutyThirtyZonesCold(benchmark::State& state) {
    const Ready ready(manyZones(30));
    for (auto _ : state) {
        const SiteTree tree = ready.treeOf();
        TreeSolver solver(tree.tree);
        const Crossings found = findDutyOnFallingCurve(solver, ready.pump.head);
        if (!found.duty()) state.SkipWithError("no duty point");
        benchmark::DoNotOptimize(found.all.data());
    }
}

void wholeCase(benchmark::State& state) {
    const Ready ready(manyZones(12));
    const CaseSolver solver(ready.model, ready.pump, Limits{});
    const Case all = everyZone(ready.site);
    for (auto _ : state)
        benchmark::DoNotOptimize(solver.answer(all).serves);
}

void monteCarlo(benchmark::State& state, const Site& site) {
    const Ready ready(site);
    const CaseSolver solver(ready.model, ready.pump, Limits{});
    const Case all = everyZone(ready.site);
    for (auto _ : state) {
        const DutyIntervals found = monteCarloIntervals(solver, all, 1000, 1);
        if (!found.ok) state.SkipWithError("no interval");
        benchmark::DoNotOptimize(found.draws);
    }
}
void monteCarloOneOutlet(benchmark::State& state) { monteCarlo(state, oneOutlet()); }
void monteCarloTwelveZones(benchmark::State& state) { monteCarlo(state, manyZones(12)); }

// The same tree by both solvers, from nothing.
void besideReference(benchmark::State& state) {
    const reference::Network network = plainNetwork(static_cast<int>(state.range(0)), 2);
    const PipeTree tree = pipeTreeOf(network);
    const PolynomialHead pump(network.pump);
    TreeSolver solver(tree);
    for (auto _ : state) {
        solver.startCold();
        benchmark::DoNotOptimize(solver.solve(pump).flow_m3_s);
    }
    const double ours_s = seconds(
        [&] {
            solver.startCold();
            benchmark::DoNotOptimize(solver.solve(pump).flow_m3_s);
        },
        200);
    const double reference_s =
        seconds([&] { benchmark::DoNotOptimize(reference::solve(network).flow_m3_s); }, 3);
    state.counters["reference_us"] = 1e6 * reference_s;
    state.counters["times_faster"] = reference_s / ours_s;
}

BENCHMARK(dutyOneOutlet)->Unit(benchmark::kMicrosecond);
BENCHMARK(dutyTwelveZonesWarm)->Unit(benchmark::kMicrosecond);
BENCHMARK(dutyThirtyZonesWarm)->Unit(benchmark::kMicrosecond);
BENCHMARK(dutyThirtyZonesCold)->Unit(benchmark::kMicrosecond);
BENCHMARK(wholeCase)->Unit(benchmark::kMicrosecond);
BENCHMARK(monteCarloOneOutlet)->Unit(benchmark::kMillisecond);
BENCHMARK(monteCarloTwelveZones)->Unit(benchmark::kMillisecond);
BENCHMARK(besideReference)->Arg(1)->Arg(12)->Arg(30)->Unit(benchmark::kMicrosecond);

} // namespace
