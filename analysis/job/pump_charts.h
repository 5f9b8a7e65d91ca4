#pragma once
// A pump's curves from the charts it was read from, and what must be said about them.
//   head     falls from its top on (a rise from shut-off to a top is a droop and bears a caution of its own);
//            a rise again after falling is a caution; the greatest head at the right end is an error
//   head, power   stay above zero; a head line that runs out to zero may end up to kForgivenDip of its top
//            below it, which only rounds the foot of the line
// Cautions carry their whole place in the job, "pumps[0].readings[0].lines[1]" or ".pins[2]"; those of a
// doubtful head line are warnings at least; none of them stops a case.

#include "analysis/job/chart_book.h"
#include "analysis/job/choose_lines.h"

#include <map>

namespace headmark {

inline constexpr double kForgivenDip = 0.02; // share of the greatest head; rule of this program

struct ChartedCurves {
    std::map<CurveQuantity, PolynomialCurve> curves; // with their covariance
    bool powerAtMotorInput = false;                  // of power
    Cautions cautions;
};

// The pump's reading files, opened; no picture. Errors carry the reading's place in the job as the fact
// "named_at".
[[nodiscard]] Result<PumpReadings> openReadings(const Job& job, std::size_t pump, ChartBook& book);

// Errors: of the reading files, of choose_lines.h, of the charts, and of lines in their reading file:
//   "head-not-falling" (line, flow_m3_h: its right end)
//   "line-not-positive" (line, quantity, flow_m3_h)
[[nodiscard]] Result<ChartedCurves> chartedCurves(const Job& job, std::size_t pump, ChartBook& book);

// The judgement of one line: cautions "head-rises-again" (flow_m3_h, rise_m) and "head-reaches-zero"
// (flow_m3_h), or one of the two errors above, without file and place.
[[nodiscard]] Result<Cautions> judgeLine(CurveQuantity quantity, const ReadLine& line);

// The efficiency of a pump whose charts print it as lines of equal efficiency alone (chart/iso_efficiency.h),
// and the note "efficiency-from-iso-lines" (crossings); where they meet its head curve too rarely, or that
// was not read, "iso-lines-not-used" (lines, crossings). `place` of both notes.
void takeIsoLines(const std::vector<const ReadLine*>& isoLines, const std::string& place,
                  ChartedCurves& charted);

} // namespace headmark
