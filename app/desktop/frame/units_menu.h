#pragma once
// The menu of units: one group each for flow, head, pressure and length.

#include "app/desktop/frame/desk.h"

#include <QMenu>

namespace headmark {

[[nodiscard]] QMenu* makeUnitsMenu(Desk& desk, QWidget* parent);

// "m³/h · m · bar": what the tool bar shows of it.
[[nodiscard]] QString unitsWords(const DisplayUnits& units);

} // namespace headmark
