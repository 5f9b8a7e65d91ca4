#pragma once
// How well are the lines of the made pages read? Every line of a page is read many times over, each time with
// pins and click missed anew (redraws.h), and compared with the truth the page was drawn from.
// Errors and sigmas are shares of the value axis' pinned span; `floor` is what perfect tracing through the
// same pins leaves.
// The duty point of a head line: the pump read off the chart on the system curve H = Hs + k Q^2 that crosses
// the true curve at 0.6 of its drawn flows, half of the head there being static; the interval is the one
// users see (duty/intervals.h).

#include "tests/pages/redraws.h"

#include <cstddef>
#include <ostream>
#include <string>
#include <vector>

namespace headmark::pages {

// A share that was counted.
struct Counted {
    std::size_t yes = 0, all = 0;

    void count(bool is);
    void add(const Counted& other);
    [[nodiscard]] double share() const; // 0 of nothing
};

struct LineStatistics {
    std::string page, pageClass, line;
    std::size_t draws = 0, refused = 0, doubtful = 0;
    std::string refusal;                // the last one's code
    std::vector<double> rms, floors;    // a draw each
    std::vector<double> sigmas;         // a place each
    std::vector<double> errors;         // a place each, signed
    std::vector<double> covered;        // a draw each
    std::vector<int> degrees;           // a draw each
    Counted held;                       // places whose truth lies in the 95 % band
    Counted dutyFlowHeld, dutyHeadHeld; // of head lines
    std::size_t dutyLost = 0;           // draws without a duty point
    std::size_t sureButWrong = 0;       // `sure`, and more than kWrong off

    [[nodiscard]] double medianRatio() const;  // of rms to floor
    [[nodiscard]] double sigmaToError() const; // median sigma to rms error
};

inline constexpr double kWrong = 0.01; // of the span, rms
inline constexpr double kWhole = 0.95; // of a line's true length, to count as covered

double medianOf(std::vector<double> values);
double rmsOf(const std::vector<double>& values);

LineStatistics redrawLine(const MadePage& page, const MadeLine& line, int draws);
// Lines of equal efficiency have no fit and are left out.
std::vector<LineStatistics> redrawPages(const std::vector<std::string>& names, int draws);

struct Summary {
    double medianRatio = 0.0;        // over all draws
    double sigmaToError = 0.0;       // median over the lines
    double pooledSigmaToError = 0.0; // of all places together
    Counted held, dutyFlowHeld, dutyHeadHeld;
    Counted found, wholly; // draws read; draws that covered kWhole of the line
    std::size_t sureButWrong = 0, dutyLost = 0;
};
Summary summaryOf(const std::vector<LineStatistics>& lines);

void printTable(const std::vector<LineStatistics>& lines, std::ostream& out);

} // namespace headmark::pages
