#pragma once
// Draws a day chart from its layout with the theme's colours, on the screen, into pictures and on paper.

#include "app/desktop/shifts/shift_layout.h"

#include <QPainter>

namespace headmark {

struct ShiftPainting {
    const ShiftNight& night;
    const ShiftLayout& layout;
    QFont font;
    std::optional<std::size_t> selected; // shift drawn with a frame
};

void paintShifts(QPainter& painter, const ShiftPainting& what);

} // namespace headmark
