#pragma once
// Puts the numbers of a drawing where they touch nothing, and the drawing on its sheet. Internal to
// analysis/connections.

#include "analysis/connections/schematic.h"

namespace headmark::connections {

// `obstacles` are boxes besides the symbols and the labels already there.
void addNumbers(Schematic& drawing, const ConnectionSheet& sheet, const std::vector<DrawBox>& obstacles);

// Sets width and height to what is drawn with a margin, and moves all of it so that its corner is (0, 0).
void moveIntoSheet(Schematic& drawing);

} // namespace headmark::connections
