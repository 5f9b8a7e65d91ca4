// Charts that are hard to read, drawn by QPainter. Every size is in points.

#include "hard_styles.h"
#include "furniture.h"

#include <algorithm>
#include <cmath>

namespace headmark::pages {

namespace {

std::function<void(QPainter&)> plainFurniture(const Maker& maker, Dice& dice) {
    return [model = maker.model, words = dice.next()](QPainter& painter) {
        Dice own(words);
        const QString sans = "DejaVu Sans";
        painter.setPen(Qt::black);
        painter.setFont(letters(sans, 15, true));
        painter.drawText(QRectF(40, 24, 340, 24), Qt::AlignLeft | Qt::AlignVCenter, model);
        drawParagraph(painter, QRectF(40, 52, 330, 44), sans, 7, QColor(80, 80, 80), own);
        drawTable(painter, QRectF(40, 520, 340, 40), sizeRows({"W2", "W5"}, own), sans, 7,
                  QColor(225, 225, 225));
    };
}

// Equal efficiency over impellers whose best value falls with their diameter: at ratio r the efficiency is
// (1 - 0.9 (1 - r)) eta(Q/r). The line closes where that no longer reaches the level, or ends at the
// least impeller.
std::vector<std::pair<double, double>> equalEfficiency(const Maker& maker, double level_share, double least) {
    const PumpLaw& full = maker.pump;
    const auto efficiency = [&](double r, double flow) {
        return (1.0 - 0.9 * (1.0 - r)) * full.efficiency_share(flow / r);
    };
    const auto crossing = [&](double r, double inside, double outside) {
        for (int k = 0; k < 60; ++k) {
            const double middle = 0.5 * (inside + outside);
            (efficiency(r, middle) >= level_share ? inside : outside) = middle;
        }
        return 0.5 * (inside + outside);
    };
    const double best =
        full.zeroFlow_m3_h * std::pow(1.0 / (1.0 + full.efficiencyPower), 1.0 / full.efficiencyPower);
    std::vector<std::pair<double, double>> left, right;
    constexpr int kSteps = 120;
    for (int k = 0; k <= kSteps; ++k) {
        const double r = 1.0 - (1.0 - least) * k / kSteps;
        if (efficiency(r, best * r) < level_share) break;
        const double low = crossing(r, best * r, 0.0);
        const double high = crossing(r, best * r, full.zeroFlow_m3_h * r);
        const auto place = [&](double flow) {
            return std::pair(flow * maker.with.flowFactor,
                             full.trimmed(r).head_m(flow) * maker.with.headFactor);
        };
        left.push_back(place(low));
        if (high <= maker.lastFlow_share * full.lastFlow_m3_h() * r) right.push_back(place(high));
    }
    if (right.size() == left.size()) left.insert(left.end(), right.rbegin(), right.rend());
    return left;
}

void addEqualEfficiency(Chart& chart, const Maker& maker, double least, const QColor& ink, bool dashed) {
    for (const double share : {0.93, 0.85, 0.75}) {
        ChartCurve iso;
        iso.places = equalEfficiency(maker, share * maker.pump.bestEfficiency_share, least);
        if (iso.places.size() < 8) continue;
        iso.quantity = LineQuantity::isoEfficiency;
        iso.name = "equal " + std::to_string(std::lround(100 * share));
        iso.label = QString("%1").arg(std::lround(100 * share * maker.pump.bestEfficiency_share));
        iso.ink = ink;
        iso.line_pt = 0.8 * chart.look.line_pt;
        if (dashed) iso.dash_pt = {4.0, 2.2};
        const auto byFlow = std::minmax_element(iso.places.begin(), iso.places.end());
        iso.flowFrom = byFlow.first->first;
        iso.flowTo = byFlow.second->first;
        iso.truth = [](double) { return 0.0; };
        chart.curves.push_back(iso);
    }
}

// A family of impellers and equal-efficiency lines, all black, on a black millimetre grid as thick as they.
Sheet millimetreSheet(Dice& dice) {
    Maker maker = drawMaker(dice);
    Sheet sheet = halfSheet(maker, dice);
    Chart chart;
    chart.frame = QRectF(66, 120, 310, 350);
    chart.look.line_pt = dice.between(0.5, 0.9);
    chart.look.grid = chart.look.finerGrid = Qt::black;
    chart.look.grid_pt = chart.look.line_pt * dice.between(0.7, 1.0);
    chart.look.finerGrid_pt = dice.between(0.15, 0.3);
    chart.look.labels = dice.share() < 0.5 ? LabelPlace::beside : LabelPlace::over;
    const int count = dice.whole(3, 4);
    for (int k = 0; k < count; ++k) {
        const double ratio = 1.0 - 0.08 * k;
        chart.curves.push_back(named(curveOf(maker, maker.pump.trimmed(ratio), LineQuantity::head),
                                     "impeller " + std::to_string(k + 1), QString::number(200 - 16 * k),
                                     ValueAxis::left, Qt::black));
    }
    setAxes(chart, maker, dice.share() < 0.5 ? 10 : 5, headTitle(maker));
    if (dice.share() < 0.6)
        addEqualEfficiency(chart, maker, 1.0 - 0.08 * (count - 1), Qt::black, dice.share() < 0.5);
    sheet.charts = {chart};
    return sheet;
}

// Head, efficiency, power and NPSH on two axes, all black, told by their dashes; words and arrows over them.
Sheet dashedSheet(Dice& dice) {
    Maker maker = drawMaker(dice);
    Sheet sheet = halfSheet(maker, dice);
    Chart chart;
    chart.frame = QRectF(64, 120, 300, 300);
    chart.look.line_pt = dice.between(0.7, 1.2);
    chart.look.grid = QColor(120, 120, 120);
    chart.look.labels = dice.share() < 0.5 ? LabelPlace::over : LabelPlace::gap;
    chart.look.arrows = dice.share() < 0.5;
    const double on = dice.between(3.0, 8.0), off = dice.between(1.5, 3.5);
    const auto add = [&](LineQuantity quantity, const char* name, const char* label, ValueAxis axis,
                         std::vector<double> dash) {
        ChartCurve curve =
            named(curveOf(maker, maker.pump, quantity), name, QString::fromUtf8(label), axis, Qt::black);
        curve.dash_pt = std::move(dash);
        chart.curves.push_back(curve);
    };
    add(LineQuantity::head, "head", "H", ValueAxis::left, {});
    ChartCurve second = named(curveOf(maker, maker.pump.trimmed(0.88), LineQuantity::head), "head small",
                              "H2", ValueAxis::left, Qt::black);
    second.dash_pt = {0.6 * on, off};
    chart.curves.push_back(second);
    add(LineQuantity::efficiency, "efficiency", "η", ValueAxis::right, {on, off});
    add(LineQuantity::npshRequired, "npsh", "NPSH", ValueAxis::right, {1.4 * on, off, 1.0, off});
    setAxes(chart, maker, 2, headTitle(maker), QString::fromUtf8("η [%], NPSH [m]"));
    sheet.charts = {chart};
    return sheet;
}

// In colour: areas under the lines, a thick stretch as the operating range, a legend, ends that fall steeply.
Sheet filledSheet(Dice& dice) {
    Maker maker = drawMaker(dice);
    maker.pump.headPower = dice.between(3.5, 7.0);
    maker.pump.droop_m = 0.0;
    maker.pump.endHead_m = maker.pump.shutOff_m * dice.between(0.02, 0.25);
    Sheet sheet = halfSheet(maker, dice);
    sheet.colour = true;
    Chart chart;
    chart.frame = QRectF(64, 120, 312, 280);
    chart.look.line_pt = dice.between(0.8, 1.3);
    chart.look.grid = QColor(170, 170, 180);
    chart.look.finerGrid = QColor(215, 215, 222);
    chart.look.labels = dice.share() < 0.6 ? LabelPlace::legend : LabelPlace::over;
    const QColor inks[] = {QColor(20, 60, 150), QColor(200, 60, 20), QColor(20, 130, 90)};
    for (int k = 0; k < 3; ++k) {
        ChartCurve curve = named(curveOf(maker, maker.pump.trimmed(1.0 - 0.12 * k), LineQuantity::head),
                                 "pump " + std::to_string(k + 1), QString("P%1").arg(k + 1), ValueAxis::left,
                                 dice.share() < 0.3 ? inks[0] : inks[k]);
        if (dice.share() < 0.6) {
            const double width = curve.flowTo - curve.flowFrom;
            curve.thickBetween = {curve.flowFrom + 0.4 * width, curve.flowFrom + 0.75 * width};
        }
        chart.curves.push_back(curve);
    }
    chart.fills = {{0, 1, QColor(235, 240, 250)}, {2, std::nullopt, QColor(238, 246, 238)}};
    setAxes(chart, maker, 2, headTitle(maker));
    sheet.charts = {chart};
    return sheet;
}

// Impellers with their efficiencies as closed lines over them, thick and thin, written on.
Sheet onionSheet(Dice& dice) {
    Maker maker = drawMaker(dice);
    maker.firstFlow_share = 0.0;
    Sheet sheet = halfSheet(maker, dice);
    sheet.colour = dice.share() < 0.4;
    Chart chart;
    chart.frame = QRectF(64, 120, 312, 300);
    chart.look.line_pt = dice.between(0.7, 1.1);
    chart.look.grid = QColor(160, 160, 160);
    chart.look.labels = dice.share() < 0.5 ? LabelPlace::over : LabelPlace::gap;
    const int count = dice.whole(4, 5);
    for (int k = 0; k < count; ++k)
        chart.curves.push_back(named(curveOf(maker, maker.pump.trimmed(1.0 - 0.06 * k), LineQuantity::head),
                                     "impeller " + std::to_string(k + 1), QString::number(170 - 10 * k),
                                     ValueAxis::left, Qt::black));
    setAxes(chart, maker, 1, headTitle(maker));
    addEqualEfficiency(chart, maker, 1.0 - 0.06 * (count - 1),
                       sheet.colour ? QColor(190, 40, 40) : QColor(Qt::black), dice.share() < 0.3);
    sheet.charts = {chart};
    return sheet;
}

} // namespace

Sheet halfSheet(const Maker& maker, Dice& dice) {
    Sheet sheet;
    sheet.size_pt = {kA5Width_pt, kA5Height_pt};
    sheet.furniture = plainFurniture(maker, dice);
    return sheet;
}

Sheet hardSheet(const std::string& style, Dice& dice) {
    if (style == "millimetre") return millimetreSheet(dice);
    if (style == "dashed") return dashedSheet(dice);
    if (style == "filled") return filledSheet(dice);
    if (style == "onion") return onionSheet(dice);
    return drawSheet(style, dice);
}

} // namespace headmark::pages
