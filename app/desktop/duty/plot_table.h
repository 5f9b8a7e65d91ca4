#pragma once
// The plotted data as a table for a spreadsheet: one row a point, in the units shown, always with a decimal
// point and commas between the columns (RFC 4180).

#include "app/desktop/duty/duty_picture.h"
#include "app/document/display_units.h"

#include <QByteArray>

namespace headmark {

[[nodiscard]] QByteArray plotTable(const DutyPicture& picture, const DisplayUnits& units);

} // namespace headmark
