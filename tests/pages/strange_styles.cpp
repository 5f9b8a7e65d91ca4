// Charts stranger still. Every size is in points.

#include "strange_styles.h"

#include "analysis/core/assertion.h"
#include "hard_styles.h"

#include <algorithm>
#include <cmath>

namespace headmark::pages {

namespace {

Chart chartOfOneInk(Dice& dice) {
    Chart chart;
    chart.frame = QRectF(64, 120, 312, 300);
    chart.look.line_pt = dice.between(0.7, 1.1);
    chart.look.grid = QColor(165, 165, 165);
    chart.look.exactDashes = true;
    return chart;
}

// A sheet of that one chart, its head axis ruled as finely as asked.
Sheet withHeads(Sheet sheet, Chart chart, const Maker& maker, int finer) {
    setAxes(chart, maker, finer, headTitle(maker));
    sheet.charts = {std::move(chart)};
    return sheet;
}

// Head curves of impellers cut back in steps, the largest first.
void addImpellers(Chart& chart, const Maker& maker, int count, double step, const QColor& ink, Dice& dice) {
    const int widest_mm = dice.whole(130, 210);
    for (int k = 0; k < count; ++k) {
        const double ratio = 1.0 - step * k;
        chart.curves.push_back(named(curveOf(maker, maker.pump.trimmed(ratio), LineQuantity::head),
                                     "impeller " + std::to_string(k + 1),
                                     QString::number(std::lround(widest_mm * ratio)), ValueAxis::left, ink));
    }
}

// Dash, dot, dash-dot and dash-dot-dot for lines of this width, beginning with any of them; then long dashes.
std::vector<std::vector<double>> patterns(double line_pt, Dice& dice) {
    const double on = dice.between(4.0, 7.0), off = dice.between(1.6, 2.6), dot = 1.2 * line_pt;
    const double between = std::max(off * 0.8, 1.6 * line_pt);
    std::vector<std::vector<double>> all = {
        {on, off}, {dot, between}, {on, off, dot, off}, {on, off, dot, off, dot, off}};
    std::rotate(all.begin(), all.begin() + dice.whole(0, 3), all.end());
    all.push_back({2.2 * on, off});
    return all;
}

// The grid is as black as the lines and nearly as thick.
Sheet patternsSheet(const std::vector<double>& gridDash_pt, Dice& dice) {
    const Maker maker = drawMaker(dice);
    Sheet sheet = halfSheet(maker, dice);
    Chart chart = chartOfOneInk(dice);
    chart.look.grid = chart.look.finerGrid = Qt::black;
    chart.look.grid_pt = dice.between(0.3, 0.5);
    chart.look.finerGrid_pt = 0.25;
    chart.look.gridDash_pt = gridDash_pt;
    const LabelPlace places[] = {LabelPlace::beside, LabelPlace::legend, LabelPlace::boxed};
    chart.look.labels = places[dice.whole(0, 2)];
    addImpellers(chart, maker, dice.whole(4, 5), 0.075, Qt::black, dice);
    const auto dashes = patterns(chart.look.line_pt, dice);
    for (std::size_t k = 0; k < chart.curves.size(); ++k)
        chart.curves[k].dash_pt = dashes[k];
    return withHeads(sheet, chart, maker, gridDash_pt.empty() && dice.share() < 0.5 ? 2 : 1);
}

Sheet stretchSheet(Dice& dice) {
    const Maker maker = drawMaker(dice);
    Sheet sheet = halfSheet(maker, dice);
    Chart chart = chartOfOneInk(dice);
    chart.look.line_pt = dice.between(0.45, 0.7);
    chart.look.thicker = dice.between(2.6, 4.0);
    chart.look.labels = dice.share() < 0.5 ? LabelPlace::beside : LabelPlace::boxed;
    addImpellers(chart, maker, 3, 0.11, Qt::black, dice);
    const bool dashed = dice.share() < 0.4;
    const double from = dice.between(0.2, 0.4), to = dice.between(0.65, 0.85);
    for (ChartCurve& curve : chart.curves) {
        const double width = curve.flowTo - curve.flowFrom;
        curve.thickBetween = {curve.flowFrom + from * width, curve.flowFrom + to * width};
        if (dashed) curve.dash_pt = {4.0, 2.0};
    }
    return withHeads(sheet, chart, maker, 2);
}

// The next 1, 2 or 5 times a power of ten, upwards or downwards.
double roundMark(double figure, bool up) {
    const double decade = std::pow(10.0, std::floor(std::log10(figure)));
    double below = decade;
    for (const double leading : {1.0, 2.0, 5.0, 10.0}) {
        if (leading * decade > figure) return up ? leading * decade : below;
        below = leading * decade;
    }
    return below;
}

Sheet logarithmsSheet(Dice& dice) {
    Maker maker = drawMaker(dice);
    maker.firstFlow_share = dice.between(0.06, 0.12);
    Sheet sheet = halfSheet(maker, dice);
    Chart chart = chartOfOneInk(dice);
    chart.look.finerGrid = QColor(205, 205, 205);
    chart.look.labels = dice.share() < 0.5 ? LabelPlace::beside : LabelPlace::end;
    addImpellers(chart, maker, dice.whole(3, 4), 0.1, Qt::black, dice);
    double least = 1e9;
    for (const ChartCurve& curve : chart.curves)
        least = std::min(least, curve.truth(curve.flowTo));
    setAxes(chart, maker, 1, headTitle(maker));
    chart.flow.scale = AxisScale::log10;
    chart.flow.from = roundMark(chart.curves.back().flowFrom, false);
    chart.flow.to = roundMark(1.05 * chart.curves.front().flowTo, true);
    if (dice.share() < 0.6) {
        const double greatest = chart.left.to;
        chart.left.scale = AxisScale::log10;
        chart.left.from = roundMark(0.7 * least, false);
        chart.left.to = roundMark(0.99 * greatest, true);
    }
    sheet.charts = {chart};
    return sheet;
}

Sheet boxedSheet(Dice& dice) {
    const Maker maker = drawMaker(dice);
    Sheet sheet = halfSheet(maker, dice);
    Chart chart = chartOfOneInk(dice);
    chart.look.labels = LabelPlace::boxed;
    chart.look.boxFrame = dice.share() < 0.5;
    addImpellers(chart, maker, 4, 0.08, Qt::black, dice);
    double power_kW = dice.between(1.5, 9.0);
    for (ChartCurve& curve : chart.curves) {
        curve.label = QString::fromUtf8("⌀ ") + curve.label;
        curve.alsoLabel = QString::number(power_kW, 'f', 1) + " kW";
        power_kW *= 0.75;
    }
    return withHeads(sheet, chart, maker, dice.share() < 0.5 ? 5 : 2);
}

Sheet leadersSheet(Dice& dice) {
    const Maker maker = drawMaker(dice);
    Sheet sheet = halfSheet(maker, dice);
    Chart chart = chartOfOneInk(dice);
    chart.look.labels = LabelPlace::leader;
    addImpellers(chart, maker, dice.whole(4, 5), 0.075, Qt::black, dice);
    for (ChartCurve& curve : chart.curves)
        curve.label += " mm";
    setAxes(chart, maker, 2, headTitle(maker));
    chart.left.to += 2.0 * chart.left.step; // room for the column
    sheet.charts = {chart};
    return sheet;
}

Sheet mergingSheet(Dice& dice) {
    Maker maker = drawMaker(dice);
    maker.firstFlow_share = 0.0;
    Sheet sheet = halfSheet(maker, dice);
    Chart chart = chartOfOneInk(dice);
    chart.look.labels = LabelPlace::end;
    const int count = 3;
    addImpellers(chart, maker, count, 0.1, Qt::black, dice);
    const double on = dice.between(3.5, 6.0);
    const int kind = dice.whole(0, 2); // all solid, all dashed, each with its own dashes
    const auto dashes = patterns(chart.look.line_pt, dice);
    for (int k = 0; k < count; ++k) {
        ChartCurve curve = named(curveOf(maker, maker.pump.trimmed(1.0 - 0.1 * k), LineQuantity::efficiency),
                                 "efficiency " + std::to_string(k + 1), QString::fromUtf8("η%1").arg(k + 1),
                                 ValueAxis::right, Qt::black);
        if (kind == 1) curve.dash_pt = {on, 2.2};
        if (kind == 2) curve.dash_pt = dashes[static_cast<std::size_t>(k)];
        chart.curves.push_back(curve);
    }
    setAxes(chart, maker, 2, headTitle(maker), QString::fromUtf8("η [%]"));
    sheet.charts = {chart};
    return sheet;
}

Sheet faintSheet(Dice& dice) {
    const Maker maker = drawMaker(dice);
    Sheet sheet = halfSheet(maker, dice);
    Chart chart = chartOfOneInk(dice);
    sheet.colour = dice.share() < 0.5;
    chart.look.line_pt = dice.between(0.6, 0.9);
    chart.look.grid = QColor(210, 210, 210);
    chart.look.finerGrid = QColor(232, 232, 232);
    chart.look.text = chart.look.frame = QColor(120, 120, 120);
    chart.look.labels = LabelPlace::legend;
    const int grey = dice.whole(105, 145);
    addImpellers(chart, maker, 3, 0.11, QColor(grey, grey, grey), dice);
    const QColor pale[] = {QColor(105, 145, 200), QColor(215, 130, 100), QColor(110, 170, 130)};
    const auto dashes = patterns(chart.look.line_pt, dice);
    for (std::size_t k = 0; k < chart.curves.size(); ++k) {
        ChartCurve& curve = chart.curves[k];
        if (sheet.colour)
            curve.ink = pale[k];
        else if (k > 0)
            curve.dash_pt = dashes[k];
        curve.label = QString::fromUtf8("impeller ⌀ ") + curve.label;
    }
    return withHeads(sheet, chart, maker, 2);
}

} // namespace

bool isStrange(const std::string& style) {
    return std::find(kStrangeStyles.begin(), kStrangeStyles.end(), style) != kStrangeStyles.end();
}

Sheet strangeSheet(const std::string& style, Dice& dice) {
    if (style == "strokes") return patternsSheet({}, dice);
    if (style == "dashgrid") return patternsSheet({3.0, 1.8}, dice);
    if (style == "dotgrid") return patternsSheet({0.6, 1.5}, dice);
    if (style == "stretch") return stretchSheet(dice);
    if (style == "logarithms") return logarithmsSheet(dice);
    if (style == "boxed") return boxedSheet(dice);
    if (style == "leaders") return leadersSheet(dice);
    if (style == "merging") return mergingSheet(dice);
    HEADMARK_ASSERT(style == "faint", "no such strange style");
    return faintSheet(dice);
}

} // namespace headmark::pages
