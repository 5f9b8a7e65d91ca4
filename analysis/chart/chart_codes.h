#pragma once
// Every code that the reading of a chart may report: errors of mapping, lines and fit, cautions and their
// remedies. app/words has words for each; a test proves it. Beside each: the facts that come with it.
// Errors of opening a page are listed where pages are opened (app/pages).

#include <array>
#include <string_view>

namespace headmark::code {

// Errors of the pins.
inline constexpr std::string_view kPinsInARow = "pins-in-a-row";
inline constexpr std::string_view kPinsTooClose = "pins-too-close";         // what, distance_px
inline constexpr std::string_view kMappingNeedsPins = "mapping-needs-pins"; // model, pins, needed
inline constexpr std::string_view kMappingNotFound = "mapping-not-found";   // model

// Errors of clicks and lines.
inline constexpr std::string_view kClickOffPage = "click-off-page";       // x_px, y_px, width_px, height_px
inline constexpr std::string_view kClickOnPaper = "click-on-paper";       // x_px, y_px
inline constexpr std::string_view kClickOffLine = "click-off-line";       // x_px, y_px
inline constexpr std::string_view kClickOnRuling = "click-on-ruling";     // x_px, y_px
inline constexpr std::string_view kLineTooShort = "line-too-short";       // length_px
inline constexpr std::string_view kNothingBetween = "nothing-between";    // least, greatest
inline constexpr std::string_view kCurveNotSettled = "curve-not-settled"; // degree

inline constexpr std::array kChartErrorCodes{
    kPinsInARow,   kPinsTooClose,  kMappingNeedsPins, kMappingNotFound, kClickOffPage,    kClickOnPaper,
    kClickOffLine, kClickOnRuling, kLineTooShort,     kNothingBetween,  kCurveNotSettled,
};

// Cautions of the mapping.
inline constexpr std::string_view kPinsDisagree = "pins-disagree";     // residual_px, sigma_px
inline constexpr std::string_view kPinContradicts = "pin-contradicts"; // what, figure, expected, off_px
inline constexpr std::string_view kPaperCurled = "paper-curled";       // warp_px, rulings

// Cautions of lines.
inline constexpr std::string_view kLineBridged = "line-bridged";            // x_px, y_px, length_px
inline constexpr std::string_view kLineLost = "line-lost";                  // x_px, y_px
inline constexpr std::string_view kLineAmbiguous = "line-ambiguous";        // x_px, y_px
inline constexpr std::string_view kLineAmidInk = "line-amid-ink";           // x_px, y_px
inline constexpr std::string_view kLineRunsTogether = "line-runs-together"; // x_px, y_px, together_share
inline constexpr std::string_view kLineBeyondPins = "line-beyond-pins";     // beyond_share
inline constexpr std::string_view kScaleUncertain = "scale-uncertain";      // uncertain_share
inline constexpr std::string_view kHeadDrooping = "head-drooping"; // flow_m3_h, head_m, shutoff_head_m
inline constexpr std::string_view kDegreeBreaksSense = "degree-breaks-sense"; // degree
inline constexpr std::string_view kFitOffSamples = "fit-off-samples";         // rms_sigmas
inline constexpr std::string_view kValueOutOfSense = "value-out-of-sense";    // least, greatest, unit

// What each caution asks for where the one who raised it names no remedy of his own, and where its limit
// comes from.
struct ChartCautionRow {
    std::string_view code, remedy, source;
};
inline constexpr std::string_view kOwnRule = "rule of this program";
inline constexpr std::array kChartCautions{
    ChartCautionRow{kPinsDisagree, "place-the-pins-again", kOwnRule},
    ChartCautionRow{kPinContradicts, "correct-that-pin", kOwnRule},
    ChartCautionRow{kPaperCurled, "look-at-the-line", kOwnRule},
    ChartCautionRow{kLineBridged, "look-at-the-gap", kOwnRule},
    ChartCautionRow{kLineLost, "click-further-on", kOwnRule},
    ChartCautionRow{kLineAmbiguous, "click-beyond-the-fork", kOwnRule},
    ChartCautionRow{kLineAmidInk, "look-at-the-line", kOwnRule},
    ChartCautionRow{kLineRunsTogether, "look-at-the-line", kOwnRule},
    ChartCautionRow{kLineBeyondPins, "pin-the-corners", kOwnRule},
    ChartCautionRow{kScaleUncertain, "pin-more-crossings", kOwnRule},
    ChartCautionRow{kHeadDrooping, "keep-right-of-top", "common practice, no source"},
    ChartCautionRow{kDegreeBreaksSense, "leave-the-degree-out", kOwnRule},
    ChartCautionRow{kFitOffSamples, "look-at-the-line", kOwnRule},
    ChartCautionRow{kValueOutOfSense, "check-pins-and-units", kOwnRule},
};

} // namespace headmark::code
