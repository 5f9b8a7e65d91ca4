#pragma once
// The few words about charts that several parts of the place share.

#include "analysis/chart/read_chart.h"
#include "app/document/display_units.h"

#include <QColor>
#include <QString>

#include <string>

namespace headmark {

[[nodiscard]] QString quantityWords(LineQuantity quantity); // "Head"
[[nodiscard]] QColor quantityColour(LineQuantity quantity);

// "m³/h" of the unit table's "m3/h".
[[nodiscard]] QString symbolWords(const std::string& symbol);
[[nodiscard]] const std::string& printedUnit(const PrintedUnits& units, LineQuantity quantity);

// A printed figure: the digits it needs and no more.
[[nodiscard]] QString printedFigure(double figure);
// "16 m³/h · 50", the figures of a pin; the value's unit where a line tells it.
[[nodiscard]] QString pinWords(const Pin& pin, const Reading& reading);
// "pin 3 (16 m³/h · 50 m)".
[[nodiscard]] QString pinName(std::size_t index, const Reading& reading);

// The unit an axis counts in, told by a line that is read from it; empty where none tells.
[[nodiscard]] QString axisUnit(const Reading& reading, ValueAxis axis);

// The page's name without folder and ending, for people.
[[nodiscard]] QString pageTitle(const Reading& reading, const std::string& sheetPath);

// A value in SI of the quantity, in the user's units: "33.1 m", "62 %", "1.75 kW".
[[nodiscard]] QString valueWords(LineQuantity quantity, double value_si, const DisplayUnits& units);
// "read from 0 to 15.0 m³/h, looks sure".
[[nodiscard]] QString readWords(const ReadLine& line, const DisplayUnits& units);

// The sentence without the place that only a file has.
[[nodiscard]] QString plainSentence(const Error& error);

} // namespace headmark
