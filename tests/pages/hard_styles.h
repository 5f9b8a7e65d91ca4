#pragma once
// Charts that are hard to read: "millimetre", "dashed", "filled", "onion" by QPainter; any other name is a
// house style (sheet.h).

#include "sheet.h"

namespace headmark::pages {

Sheet hardSheet(const std::string& style, Dice& dice);

} // namespace headmark::pages
