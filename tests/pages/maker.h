#pragma once
// An invented maker: one pump, and the units and manners its brochure is printed with.

#include "chart.h"
#include "pump_curves.h"

namespace headmark::pages {

// How a maker prints flow and head; the axis letters and the factors from m3/h and m.
struct PrintedWith {
    const char *flow, *head;
    double flowFactor, headFactor;
};
struct Maker {
    PrintedWith with;
    PumpLaw pump;
    double firstFlow_share = 0.0; // where the lines start
    double lastFlow_share = 0.96; // and end
    QString model;
};

Maker drawMaker(Dice& dice);
// Figures of a quantity over the printed flow, as the maker prints them.
ChartCurve curveOf(const Maker& maker, const PumpLaw& pump, LineQuantity quantity);
ChartCurve named(ChartCurve curve, const std::string& name, const QString& label, ValueAxis axis, QColor ink);
// Axes around the curves that are there.
void setAxes(Chart& chart, const Maker& maker, int finer, const QString& left, const QString& right = {});
QString headTitle(const Maker& maker);
QString axisLetters(const char* unit);

} // namespace headmark::pages
