#pragma once
// Invented pumps and sites in the trade's units, for the tests of the duty layer.

#include "analysis/curve/fit_points.h"
#include "analysis/duty/case_solver.h"

#include <string>
#include <utility>
#include <vector>

namespace headmark::testing {

inline constexpr double kM3_h = 1.0 / 3600.0;        // in m3/s
inline constexpr double kPerM3_h2 = 3600.0 * 3600.0; // a resistance per (m3/h)^2 in s2/m5

// Up to four points, interpolated; flows in m3/h, values in SI.
inline PumpCurve curveThrough(const std::vector<std::pair<double, double>>& points) {
    std::vector<CurveSample> samples;
    for (const auto& [flow_m3_h, value] : points)
        samples.push_back({flow_m3_h * kM3_h, value});
    return PumpCurve(
        fitPoints(std::move(samples), CurveSense::any, static_cast<int>(points.size()) - 1).value().curve);
}

// head = shutOff + linear q + square q^2 from `least` to `greatest`, q in m3/h.
inline PumpCurve parabola(double shutOff_m, double linear, double square, double least_m3_h,
                          double greatest_m3_h) {
    std::vector<std::pair<double, double>> points;
    for (const double q : {least_m3_h, 0.5 * (least_m3_h + greatest_m3_h), greatest_m3_h}) {
        points.emplace_back(q, shutOff_m + linear * q + square * q * q);
    }
    return curveThrough(points);
}

inline PumpModel pumpOf(PumpCurve head) {
    PumpModel pump;
    pump.name = "Pump";
    pump.head = std::move(head);
    return pump;
}

inline PipeItem pipe(double bore_mm, double length_m, double roughness_mm = 0.007) {
    PipeItem item;
    item.kind.bore = Length::fromMillimetres(bore_mm);
    item.kind.roughness = Length::fromMillimetres(roughness_mm);
    item.length = Length::fromMetres(length_m);
    return item;
}

inline FittingItem fitting(double k, double bore_mm) {
    FittingItem item;
    item.k = k;
    item.bore = Length::fromMillimetres(bore_mm);
    return item;
}

inline RegulatorItem regulator(double set_kPa, double leastLoss_kPa = 0.0) {
    RegulatorItem item;
    item.set = GaugePressure::fromKilopascals(set_kPa);
    item.leastLoss = Pressure::fromKilopascals(leastLoss_kPa);
    return item;
}

inline WaterSource sourceAt(double low_m, double usual_m, double high_m) {
    WaterSource source;
    source.low = Level::fromMetres(low_m);
    source.usual = Level::fromMetres(usual_m);
    source.high = Level::fromMetres(high_m);
    return source;
}

// Draws flow_m3_h at 100 kPa as a whole, with the square root of pressure.
inline Zone zoneOf(std::string name, double flow_m3_h, double level_m, std::string takeoff = {}) {
    Zone zone;
    zone.name = std::move(name);
    zone.takeoff = std::move(takeoff);
    zone.level = Level::fromMetres(level_m);
    zone.emitters.whole = true;
    zone.emitters.law.nominal = Flow::fromCubicMetresPerHour(flow_m3_h);
    zone.emitters.law.at = Pressure::fromKilopascals(100.0);
    return zone;
}

inline Site siteOf(WaterSource source) {
    Site site;
    site.source = std::move(source);
    return site;
}

inline SiteModel modelOf(const Site& site, const Uncertainty& uncertainty = {},
                         const WaterConditions& water = {}) {
    return std::move(SiteModel::make(site, water, uncertainty)).value();
}

inline Site knownSystem(double staticHead_m, double perM3_h2) {
    Site site;
    site.system = KnownSystem{Head::fromMetres(staticHead_m), perM3_h2, {}};
    return site;
}

inline Limits asPrinted() {
    Limits limits;
    limits.asDelivered = false;
    return limits;
}

inline Case caseOf(std::vector<std::string> open, WaterLevel level = WaterLevel::usual) {
    Case c;
    c.name = "case";
    c.zonesOpen = std::move(open);
    c.level = level;
    return c;
}

inline const Caution* findCaution(const CaseAnswer& answer, const std::string& code) {
    for (const Caution& c : answer.cautions) {
        if (c.code == code) return &c;
    }
    return nullptr;
}

} // namespace headmark::testing
