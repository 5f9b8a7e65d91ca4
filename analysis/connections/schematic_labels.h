#pragma once
// Puts the numbers of a drawing where they touch nothing. Internal to analysis/connections.

#include "analysis/connections/schematic.h"

namespace headmark::connections {

// `obstacles` are boxes besides the symbols and the labels already there.
void addNumbers(Schematic& drawing, const ConnectionSheet& sheet, const std::vector<DrawBox>& obstacles);

} // namespace headmark::connections
