#pragma once
// Charts that are stranger still, all of one ink:
//   "strokes", "dashgrid", "dotgrid"  impellers told apart by their dashes alone, on a solid, dashed, dotted
//   grid "stretch"      thin lines with a thick stretch, the range to work in; outside it solid or dashed
//   "logarithms"   a family on logarithmic axes, both or the flow alone
//   "boxed"        two words in white boxes on every line
//   "leaders"      words in a column, their arrows crossing each other and the lines
//   "merging"      efficiencies of a family that run into each other towards no flow, on a second axis
//   "faint"        faint thin ink with a legend, told by dashes or by pale colours

#include "dice.h"
#include "sheet.h"

#include <array>
#include <string>

namespace headmark::pages {

constexpr std::array kStrangeStyles = {"strokes", "dashgrid", "dotgrid", "stretch", "logarithms",
                                       "boxed",   "leaders",  "merging", "faint"};

bool isStrange(const std::string& style);
Sheet strangeSheet(const std::string& style, Dice& dice);

} // namespace headmark::pages
