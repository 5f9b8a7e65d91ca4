#pragma once
// The figures that a site may have: the ranges a job file is read with, so that what is typed here can be
// saved and opened again. Base units as in files: m, kPa, m3/h, mm, l/h.

#include "analysis/pipework/run.h"
#include "app/desktop/frame/number_entry.h"
#include "app/document/display_units.h"

namespace headmark {

// What a field shows, and so which unit it is shown in. `plain` is shown as it is kept.
enum class Quantity { plain, level, length, head, flow, pressure };

[[nodiscard]] double shownFigure(Quantity quantity, double base, const DisplayUnits& units);
[[nodiscard]] double baseFigure(Quantity quantity, double shown, const DisplayUnits& units);
[[nodiscard]] QString unitSymbol(Quantity quantity, const DisplayUnits& units); // empty: plain

struct FigureRange {
    double least, greatest;
    bool whole = false; // a count
    [[nodiscard]] NumberEntry::Range plain(bool mayBeEmpty = false) const {
        return {least, greatest, mayBeEmpty, whole};
    }
    [[nodiscard]] NumberEntry::Range shown(Quantity quantity, const DisplayUnits& units,
                                           bool mayBeEmpty = false) const;
};

namespace range {
inline constexpr FigureRange kLevel_m{-12'000.0, 9000.0};
inline constexpr FigureRange kPipeLength_m{0.0, 100'000.0};
inline constexpr FigureRange kBore_mm{1.0, 2000.0};
inline constexpr FigureRange kRoughness_mm{0.0, 50.0};
inline constexpr FigureRange kHazenWilliams{20.0, 200.0};
inline constexpr FigureRange kRating_kPa{1.0, 100'000.0};
inline constexpr FigureRange kLossCoefficient{0.0, 100'000.0};
inline constexpr FigureRange kKv_m3_h{0.001, 100'000.0};
inline constexpr FigureRange kAngle_deg{1.0, 180.0};
inline constexpr FigureRange kFilterLoss_kPa{0.0, 2000.0};
inline constexpr FigureRange kFilterFlow_m3_h{0.001, 100'000.0};
inline constexpr FigureRange kFilterExponent{0.5, 3.0};
inline constexpr FigureRange kSetPressure_kPa{1.0, 10'000.0};
inline constexpr FigureRange kCount{1.0, 10'000.0, true};
inline constexpr FigureRange kVolume_m3{0.001, 1e8};
inline constexpr FigureRange kRefill_m3_h{0.0, 100'000.0};
inline constexpr FigureRange kReturnFlow_m3_h{0.0001, 10'000.0};
inline constexpr FigureRange kVesselVolume_l{0.1, 1'000'000.0};
inline constexpr FigureRange kGauge_kPa{0.0, 10'000.0};
inline constexpr FigureRange kEndPressure_kPa{-90.0, 10'000.0};
inline constexpr FigureRange kHold_kPa{1.0, 10'000.0};
inline constexpr FigureRange kStaticHead_m{-5000.0, 5000.0};
inline constexpr FigureRange kResistance{0.0, 1e9};
inline constexpr FigureRange kDelay_s{0.0, 3600.0};
inline constexpr FigureRange kStations{1.0, 1000.0, true};
inline constexpr FigureRange kTemperature_C{0.0, 60.0};
inline constexpr FigureRange kAltitude_m{-500.0, 5000.0};
inline constexpr FigureRange kMargin_m{0.0, 50.0};
inline constexpr FigureRange kMarginShare{0.0, 2.0};
inline constexpr FigureRange kShare{0.0, 1.0};
inline constexpr FigureRange kOutletFlow_l_h{0.01, 1'000'000.0};
inline constexpr FigureRange kZoneFlow_m3_h{0.001, 100'000.0};
inline constexpr FigureRange kEmitterPressure_kPa{0.1, 10'000.0};
inline constexpr FigureRange kLimit_kPa{0.0, 10'000.0};
inline constexpr FigureRange kExponent{0.0, 1.5};
inline constexpr FigureRange kPassage_mm{0.05, 50.0};
inline constexpr FigureRange kMetres_m{0.01, 1'000'000.0};
inline constexpr FigureRange kSpacing_m{0.01, 1000.0};
inline constexpr FigureRange kLateralLength_m{0.01, 100'000.0};
inline constexpr FigureRange kSlopeShare{-1.0, 1.0};
inline constexpr FigureRange kOutlets{1.0, 10'000'000.0, true};
inline constexpr FigureRange kLaterals{1.0, 100'000.0, true};
inline constexpr FigureRange kPerPlant{1.0, 100.0, true};
inline constexpr FigureRange kNeed_m3{0.0, 1'000'000.0};
inline constexpr FigureRange kArea_m2{0.01, 1e9};
inline constexpr FigureRange kDepth_mm{0.0, 500.0};
} // namespace range

// A choice of the catalogue put in the place of `old` takes over what both have: length, rise, count, set.
void keepFigures(const RunItem& old, RunItem& item);

} // namespace headmark
