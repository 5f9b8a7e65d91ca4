#pragma once
// What was read off a chart as a page of text, at most 100 columns wide: how the pins tie the page down, then
// for every line how far it can be trusted, its range, its curve in powers of the flow, the curve's values
// with their 95 % at round flows, and its cautions with their remedies. Figures stand in the units of files
// (m3/h; m, %, kW).

#include "analysis/chart/read_chart.h"
#include "app/words/phrasing.h"

#include <QString>

#include <vector>

namespace headmark {

// `reading`: the one that `lines` were read by; `title`: what to call it, such as its file.
[[nodiscard]] QString linesTable(const ChartLines& lines, const Reading& reading, const QString& title,
                                 const Phrasing& phrasing = englishPhrasing());

// Flows of a range, a round step apart, about `count` of them, the ends of the range included.
[[nodiscard]] std::vector<double> roundFlows(double least, double greatest, int count);

} // namespace headmark
