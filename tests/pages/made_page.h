#pragma once
// Brochure pages with known truth: which page is it, where does every line run, which pixel is which figure?
// All pumps, names and figures are invented. A page is drawn from its name alone: the same name gives the
// same page, pixel for pixel, on one machine (letters depend on the installed fonts, lines do not). Pixels: x
// right, y down, the centre of the top-left pixel is (0, 0).
//   "clean"  drawn at its final resolution, nothing else done to it
//   "scan"   turned, slightly stretched, blurred, faded, unevenly lit, noisy and through JPEG (ageing.h)
// Pages with two charts have two names, "..." and "...-lower", over the same picture.

#include "analysis/chart/page.h"
#include "analysis/chart/reading.h"

#include <functional>
#include <string>
#include <vector>

namespace headmark::pages {

struct MadeLine {
    std::string name;
    LineQuantity quantity = LineQuantity::head;
    ValueAxis axis = ValueAxis::left;
    std::function<double(double)> truth; // printed value over printed flow
    double flowFrom = 0.0, flowTo = 0.0; // drawn range, printed flow
    std::string style = "solid";         // "solid", "dashed", "dotted", "dash-dot", "dash-dot-dot"
    double thickness_px = 0.0;
    InkColour ink;     // as printed, before ageing
    PixelPoint middle; // on the line half way along, or where it is clear of other lines nearest to that
    std::vector<PixelPoint> path; // the line's middle from end to end, steps of at most 0.5 px
};

// A grid crossing or axis end that a user would click, at its true place.
struct MadePin {
    double flow = 0.0, value = 0.0;
    ValueAxis axis = ValueAxis::left;
    PixelPoint at;
};

struct MadePage {
    std::string name;
    std::string pageClass; // "clean", "scan"
    double dpi = 0.0;
    Page page;
    PrintedUnits units;
    AxisScale flowScale = AxisScale::linear, valueScale = AxisScale::linear;
    std::vector<MadePin> pins; // four of the left axis near the corners; then two of a right axis, if any
    std::vector<MadeLine> lines;
    std::function<PixelPoint(double flow, double value, ValueAxis)> pixelFromAxis;
};

// Drawing letters needs a QGuiApplication: makes one without a display if there is none yet.
void ensureGuiApplication();

std::vector<std::string> madePageNames();
MadePage makePage(const std::string& name);

} // namespace headmark::pages
