#include "maker.h"

#include "furniture.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace headmark::pages {

namespace {

// 1 m = 9.80665 kPa (water of 1000 kg/m3); 1 US gal = 3.785411784 l; 1 ft = 0.3048 m (NIST SP 811).
constexpr std::array<PrintedWith, 4> kPrintedWith = {
    {{"m3/h", "m", 1.0, 1.0},
     {"l/min", "bar", 1000.0 / 60.0, 0.0980665},
     {"US gal/min", "ft", 1000.0 / 60.0 / 3.785411784, 1.0 / 0.3048},
     {"l/s", "kPa", 1.0 / 3.6, 9.80665}}};

double greatestOf(const ChartCurve& curve) {
    double greatest = 0.0;
    for (int k = 0; k <= 200; ++k)
        greatest =
            std::max(greatest, curve.truth(curve.flowFrom + (curve.flowTo - curve.flowFrom) * k / 200));
    return greatest;
}

double greatestOf(const std::vector<ChartCurve>& curves, ValueAxis axis) {
    double greatest = 0.0;
    for (const ChartCurve& curve : curves)
        if (curve.axis == axis) greatest = std::max(greatest, greatestOf(curve));
    return greatest;
}

double lastFlowOf(const std::vector<ChartCurve>& curves) {
    double last = 0.0;
    for (const ChartCurve& curve : curves)
        last = std::max(last, curve.flowTo);
    return last;
}

} // namespace

QString axisLetters(const char* unit) { return QString(unit).replace("m3", QString::fromUtf8("m³")); }

Maker drawMaker(Dice& dice) {
    Maker maker;
    maker.with = kPrintedWith[static_cast<std::size_t>(dice.whole(0, 3))];
    maker.pump = drawPump(dice, dice.between(5.0, 55.0), dice.share() < 0.3);
    maker.firstFlow_share = dice.share() < 0.5 ? 0.0 : dice.between(0.06, 0.16);
    maker.lastFlow_share = dice.between(0.93, 0.99);
    maker.model = modelName(dice);
    return maker;
}

ChartCurve curveOf(const Maker& maker, const PumpLaw& pump, LineQuantity quantity) {
    const double flowFactor = maker.with.flowFactor, headFactor = maker.with.headFactor;
    ChartCurve curve;
    curve.quantity = quantity;
    curve.truth = [=](double flow) {
        const double figure = shownFigure(pump, quantity, flow / flowFactor);
        return quantity == LineQuantity::head ? headFactor * figure : figure;
    };
    curve.flowFrom = maker.firstFlow_share * pump.lastFlow_m3_h() * flowFactor;
    curve.flowTo = maker.lastFlow_share * pump.lastFlow_m3_h() * flowFactor;
    return curve;
}

void setAxes(Chart& chart, const Maker& maker, int finer, const QString& left, const QString& right) {
    chart.units.flow = maker.with.flow;
    chart.units.head = maker.with.head;
    chart.flow =
        axisTo(lastFlowOf(chart.curves) * 1.04, finer, QString("Q [%1]").arg(axisLetters(maker.with.flow)));
    chart.left = axisTo(greatestOf(chart.curves, ValueAxis::left) * 1.05, finer, left);
    if (!right.isEmpty())
        chart.right = axisLike(chart.left, greatestOf(chart.curves, ValueAxis::right) * 1.05, 100.0, right);
}

QString headTitle(const Maker& maker) { return QString("H [%1]").arg(axisLetters(maker.with.head)); }

ChartCurve named(ChartCurve curve, const std::string& name, const QString& label, ValueAxis axis,
                 QColor ink) {
    curve.name = name;
    curve.label = label;
    curve.axis = axis;
    curve.ink = ink;
    return curve;
}

} // namespace headmark::pages
