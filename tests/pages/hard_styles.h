#pragma once
// Charts that are hard to read: "millimetre", "dashed", "filled", "onion" by QPainter; any other name is a
// house style (sheet.h).

#include "maker.h"
#include "sheet.h"

namespace headmark::pages {

Sheet hardSheet(const std::string& style, Dice& dice);

// A half page with heading, text and table, and room for a chart between them.
Sheet halfSheet(const Maker& maker, Dice& dice);

} // namespace headmark::pages
