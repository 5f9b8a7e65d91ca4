#pragma once
// The parts that reading_reader.cpp puts together.

#include "analysis/chart/reading.h"
#include "analysis/job/object_reader.h"

#include <optional>
#include <string_view>
#include <vector>

namespace headmark {

// A printed figure or a pixel: any finite number a chart could bear.
inline constexpr NumberRange kPrintedRange{-1e9, 1e9};
inline constexpr NumberRange kPixelRange{-1e9, 1e9};

[[nodiscard]] std::optional<PixelPoint> readPixel(const PlacedValue& at, ReadLog& log);

[[nodiscard]] std::optional<ValueAxis> readAxis(const ObjectReader& object);

// Reports a figure that a logarithmic scale has no place for.
void checkOnScale(std::optional<double> figure, AxisScale scale, const std::string& place, ReadLog& log);

[[nodiscard]] std::vector<ChartLine> readLines(const std::vector<PlacedValue>& items, AxisScale flowScale,
                                               ReadLog& log);

} // namespace headmark
