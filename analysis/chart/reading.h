#pragma once
// A reading: one printed chart, the pins that tie its pixels to printed figures, and the lines to be read.
// As it stands in a "headmark-reading" file, before any picture is opened; units are those printed on the
// chart, since that is what the user reads off it. Defaults are the contract's.
// Pixels: x right, y down, the centre of the top-left pixel is (0, 0), fractions allowed.

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace headmark {

struct PixelPoint {
    double x_px = 0.0, y_px = 0.0;

    bool operator==(const PixelPoint&) const = default;
};

// The picture: a path relative to the reading file, or its bytes embedded in the file.
struct ChartPage {
    std::string path;      // empty: embedded
    std::string folder;    // where a relative path starts: that of the reading file; empty: the working one
    std::string mediaType; // of embedded bytes: "image/png", "image/jpeg", "image/tiff", "image/bmp",
                           // "image/webp", "application/pdf"
    std::shared_ptr<const std::string>
        bytes;               // embedded, decoded; null: none. Shared, so that copies are cheap
    std::optional<int> page; // of a PDF, from 1; left out: the first
    double dpi = 300.0;      // of a PDF: pixel x = pt dpi/72 - 0.5
};

// Symbols of analysis/units/unit_table.h. Lines of equal efficiency lie in the flow-head plane.
struct PrintedUnits {
    std::string flow;
    std::string head = "m";
    std::string efficiency = "%";
    std::string power = "kW";
    std::string npshRequired = "m";

    bool operator==(const PrintedUnits&) const = default;
};

enum class AxisScale { linear, log10 };

// A chart may have a second value axis, at the right.
enum class ValueAxis { left, right };

// One sigma of a place clicked by hand. Defaults: the contract's.
struct PixelSigmas {
    double pin_px = 0.7;
    double spot_px = 1.0;

    bool operator==(const PixelSigmas&) const = default;
};

// A place on the chart whose printed flow, value, or both are known, in printed units.
struct Pin {
    PixelPoint at;
    std::optional<double> flow;
    std::optional<double> value;
    ValueAxis axis = ValueAxis::left; // of the value
    std::optional<double> sigma_px;   // left out: that of all pins

    bool operator==(const Pin&) const = default;
};

enum class MappingModel { upright, affine, perspective };

enum class LineQuantity { head, efficiency, power, npshRequired, isoEfficiency };

struct InkColour {
    std::uint8_t red = 0, green = 0, blue = 0;

    bool operator==(const InkColour&) const = default;
};

struct ChartLine {
    std::string name;
    LineQuantity quantity = LineQuantity::head;
    ValueAxis axis = ValueAxis::left;
    std::vector<PixelPoint> followFrom;                    // clicks on the ink to follow, any order
    std::vector<PixelPoint> spots;                         // clicked points the line passes through
    std::optional<std::pair<double, double>> betweenFlows; // printed unit
    std::optional<InkColour> ink;
    std::optional<int> degree;        // of the fit; left out: chosen by the fit
    bool powerAtMotorInput = false;   // of power; else shaft power
    std::optional<double> levelShare; // of isoEfficiency

    bool operator==(const ChartLine&) const = default;
};

struct Reading {
    ChartPage chart;
    PrintedUnits printedUnits;
    AxisScale flowScale = AxisScale::linear;
    AxisScale valueScale = AxisScale::linear; // of both value axes
    PixelSigmas sigmas;
    std::vector<Pin> pins;
    std::optional<MappingModel> mapping; // left out: the simplest that explains the pins
    std::vector<ChartLine> lines;
    std::string madeBy;
    std::map<std::string, std::string> extras; // keys "x_...", by their place, as JSON text; kept, never used
};

} // namespace headmark
