#pragma once
// Invented nurseries drawn at random, for tests about sets of zones.

#include "support/duty_fixtures.h"

#include <random>
#include <string>

namespace headmark::testing {

struct Kind {
    bool upperLimits = false, drooping = false, chartBegins = false, laterals = false;
};

// Zones at three take-offs, on branches with and without regulators; a filter before them, sometimes a
// return.
struct Nursery {
    Site site;
    PumpModel pump;

    Nursery(std::mt19937& random, int zones, const Kind& kind) {
        const auto pick = [&](double lo, double hi) {
            return std::uniform_real_distribution<>(lo, hi)(random);
        };
        site = siteOf(sourceAt(pick(-4.0, -2.5), -2.0, pick(-1.5, 0.0)));
        site.source->levelsGiven = true;
        site.suction = {fitting(2.5, 51.0), pipe(51.0, 6.0, 0.05)};
        FilterItem filter;
        filter.loss = Pressure::fromKilopascals(pick(5.0, 20.0));
        filter.at = Flow::fromCubicMetresPerHour(8.0);
        filter.service = Pressure::fromKilopascals(pick(20.0, 50.0));
        if (pick(0, 1) < 0.3) filter.greatestFlow = Flow::fromCubicMetresPerHour(pick(8.0, 16.0));
        site.delivery = {fitting(2.0, 40.0), filter, pipe(55.4, 45.0)};
        if (pick(0, 1) < 0.2) site.delivery.emplace_back(regulator(pick(200.0, 350.0), 20.0));
        for (const char* takeoff : {"low", "middle"}) {
            site.delivery.emplace_back(TakeoffItem{takeoff});
            site.delivery.emplace_back(pipe(pick(40.0, 56.0), pick(20.0, 90.0)));
        }
        if (pick(0, 1) < 0.4) {
            TankReturn back;
            back.pipe = pipe(16.0, 6.0);
            back.setFlow = Flow::fromCubicMetresPerHour(pick(0.2, 0.8));
            site.tankReturn = back;
        }
        for (int z = 0; z < zones; ++z)
            site.zones.push_back(zone(z, pick, kind));
        const double shutOff = pick(30.0, 60.0), end = pick(9.0, 20.0);
        const double first = kind.chartBegins ? pick(0.3, 3.0) : 0.0;
        pump = pumpOf(kind.drooping
                          ? curveThrough({{first, 0.9 * shutOff}, {0.4 * end, shutOff}, {end, 0.5 * shutOff}})
                          : parabola(shutOff, 0.0, -0.55 * shutOff / (end * end), first, end));
        if (pick(0, 1) < 0.5) pump.npshRequired = parabola(1.5, 0.0, pick(1.0, 5.0) / (end * end), 0.0, end);
        if (pick(0, 1) < 0.5) {
            pump.power = parabola(700.0, pick(20.0, 80.0), 0.0, 0.0, end);
            pump.motor = Motor{Power::fromKilowatts(pick(1.0, 2.2)), Efficiency::fromShare(0.8), ""};
        }
        if (pick(0, 1) < 0.2) pump.greatestPressure = GaugePressure::fromKilopascals(pick(350.0, 600.0));
    }

    template <class Pick>
    static Zone zone(int z, Pick& pick, const Kind& kind) {
        const char* takeoffs[] = {"", "low", "middle"};
        Zone zone = zoneOf("Zone " + std::to_string(z), pick(0.6, 3.5), pick(-1.0, 12.0), takeoffs[z % 3]);
        zone.branch = {fitting(5.0, 28.0), pipe(28.0, pick(5.0, 40.0))};
        if (z % 4 == 1) zone.branch.emplace_back(regulator(pick(80.0, 200.0), pick(0.0, 30.0)));
        if (z % 4 == 3) {
            zone.emitters.law.regulatedFrom = Pressure::fromKilopascals(80.0);
            zone.emitters.law.regulatedTo = Pressure::fromKilopascals(400.0);
        }
        if (kind.laterals && z % 2 == 0) {
            Laterals l;
            l.count = 8;
            l.pipe.bore = Length::fromMillimetres(13.6);
            l.pipe.roughness = Length::fromMillimetres(0.007);
            l.length = Length::fromMetres(24.0);
            l.spacing = Length::fromMetres(0.3);
            l.slopeShare = pick(-0.03, 0.03);
            zone.laterals = l;
            zone.emitters.whole = false;
            zone.emitters.law.nominal = Flow::fromLitresPerHour(pick(1.0, 4.0));
        }
        if (z % 5 != 4) zone.emitters.least = GaugePressure::fromKilopascals(pick(60.0, 130.0));
        if (kind.upperLimits) zone.emitters.greatest = GaugePressure::fromKilopascals(pick(150.0, 320.0));
        return zone;
    }
};

inline Kind kindOf(int round) { return {round % 2 == 1, round % 5 == 2, round % 7 == 3, round % 3 == 2}; }

} // namespace headmark::testing
