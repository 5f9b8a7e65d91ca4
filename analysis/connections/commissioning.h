#pragma once
// The commissioning sheet as data: what is done and read when the plant first runs, in order, each with the
// figure to expect and a blank for the reading (the baseline of later checks). The expected figures are the
// caller's; a row whose figure is not known stands with a blank for both.
// Order and the minute's limit at shut-off: common practice, no source.

#include "analysis/connections/connection_sheet.h"
#include "analysis/core/error.h"
#include "analysis/units/quantities.h"

namespace headmark {

struct ExpectedFigures {
    std::optional<GaugePressure> inletStandingPressure; // at the inlet gauge, pump off, usual water
    std::optional<GaugePressure> inletRunningPressure;  // at the duty
    std::optional<GaugePressure> shutOffPressure;       // at the outlet gauge, every valve shut
    std::optional<GaugePressure> dutyPressure;          // at the outlet gauge
    std::optional<Flow> dutyFlow;
    std::vector<std::string> zones; // that are open at the duty; empty: there are none to open
    std::optional<Flow> returnFlow;
    std::optional<Volume> bucket; // to time the return with; 10 l if empty
    std::optional<GaugePressure> cutIn, cutOut, precharge, hold;
    std::optional<GaugePressure> weakestRating; // of what stands behind the pump
    std::optional<double> dutyAmps, ratedAmps, ratedVolts;
    int phases = 3;
    std::optional<Pressure> filterClean, filterService;
    std::optional<Duration> primingTime;
    std::optional<Duration> fillingTime; // of the empty main, slowly
    // Why there is no figure: "levels-not-given", "curve-not-to-no-flow", "no-case-may-run"; else empty.
    std::string whyNoShutOff, whyNoDuty;
};

struct CommissioningRow {
    std::string code;               // worded in app/words/part_words
    Facts expected;                 // empty: nothing computed; the key carries the unit
    std::string unitKey;            // what the blank is for: "reading_kPa"; empty: a tick
    std::vector<std::size_t> parts; // of the sheet, that are used or read
    std::string why;                // no figure is expected: the reason, worded in app/words/part_words
};

[[nodiscard]] std::vector<CommissioningRow> commissioningOf(const ConnectionSheet& sheet,
                                                            const ExpectedFigures& expected);

} // namespace headmark
