// The house styles drawn by QPainter. Every size is in points.

#include "furniture.h"
#include "maker.h"
#include "sheet.h"

#include <algorithm>
#include <cmath>

namespace headmark::pages {

namespace {

// One head line, black on light grey, serif letters; half a sheet.
Sheet plainSheet(Dice& dice) {
    const Maker maker = drawMaker(dice);
    Sheet sheet;
    sheet.size_pt = {kA5Width_pt, kA5Height_pt};
    Chart chart;
    chart.frame = QRectF(72, 235, 290, 220);
    chart.look.font = "DejaVu Serif";
    chart.look.line_pt = dice.between(0.6, 1.1);
    chart.look.fullFrame = dice.share() < 0.5;
    chart.look.ticks = !chart.look.fullFrame;
    ChartCurve head = curveOf(maker, maker.pump, LineQuantity::head);
    head.name = "head";
    head.label = maker.model;
    chart.curves = {head};
    setAxes(chart, maker, 1, headTitle(maker));
    sheet.charts = {chart};
    const std::uint64_t words = dice.next();
    sheet.furniture = [model = maker.model, words](QPainter& painter) {
        Dice own(words);
        const QString serif = "DejaVu Serif";
        painter.setPen(Qt::black);
        painter.setFont(letters(serif, 17, true));
        painter.drawText(QRectF(40, 34, 340, 24), Qt::AlignLeft | Qt::AlignVCenter, model);
        painter.setFont(letters(serif, 8, false, true));
        painter.drawText(QRectF(40, 58, 340, 14), Qt::AlignLeft | Qt::AlignVCenter, "for clean water");
        painter.setPen(QPen(Qt::black, 1.2));
        painter.drawLine(QPointF(40, 76), QPointF(380, 76));
        drawParagraph(painter, QRectF(40, 86, 190, 130), serif, 7, QColor(70, 70, 70), own);
        drawSketch(painter, QRectF(250, 86, 130, 122), serif, QColor(40, 40, 40));
        drawTable(painter, QRectF(40, 500, 340, 40), sizeRows({"W1", "W3"}, own), serif, 7,
                  QColor(228, 228, 228));
        painter.setFont(letters(serif, 6));
        painter.setPen(QColor(90, 90, 90));
        painter.drawText(QRectF(40, 555, 340, 10), Qt::AlignCenter, QString("page %1").arg(own.whole(4, 60)));
    };
    return sheet;
}

// Several impellers on one chart, each line with its size; a dark band with the name.
Sheet familySheet(Dice& dice) {
    const Maker maker = drawMaker(dice);
    Sheet sheet;
    sheet.size_pt = {kA4Width_pt, kA4Height_pt};
    Chart chart;
    chart.frame = QRectF(86, 300, 440, 330);
    chart.look.line_pt = dice.between(0.7, 1.2);
    chart.look.letters_pt = 8;
    chart.look.ticks = true;
    chart.look.labels = dice.share() < 0.5 ? LabelPlace::end : LabelPlace::beside;
    const int count = dice.whole(3, 5), widest_mm = dice.whole(135, 205);
    QStringList models;
    for (int k = 0; k < count; ++k) {
        const double ratio = 1.0 - 0.065 * k;
        ChartCurve head = curveOf(maker, maker.pump.trimmed(ratio), LineQuantity::head);
        head.name = "impeller " + std::to_string(static_cast<int>(std::lround(widest_mm * ratio)));
        head.label = QString::fromUtf8("⌀ %1").arg(std::lround(widest_mm * ratio));
        models << QString::number(std::lround(widest_mm * ratio));
        chart.curves.push_back(head);
    }
    setAxes(chart, maker, dice.share() < 0.5 ? 5 : 2, headTitle(maker));
    sheet.charts = {chart};
    const std::uint64_t words = dice.next();
    const QColor band = QColor::fromHsv(0, 0, dice.whole(20, 110));
    sheet.furniture = [model = maker.model, models, words, band](QPainter& painter) {
        Dice own(words);
        const QString sans = "DejaVu Sans";
        painter.fillRect(QRectF(0, 30, kA4Width_pt, 46), band);
        painter.setPen(Qt::white);
        painter.setFont(letters(sans, 22, true));
        painter.drawText(QRectF(50, 30, 400, 46), Qt::AlignLeft | Qt::AlignVCenter, model);
        painter.setFont(letters(sans, 9));
        painter.drawText(QRectF(300, 30, 245, 46), Qt::AlignRight | Qt::AlignVCenter,
                         QString("n = %1 1/min").arg(own.share() < 0.5 ? 2900 : 1450));
        drawSketch(painter, QRectF(60, 92, 200, 165), sans, Qt::black);
        drawParagraph(painter, QRectF(290, 96, 250, 88), sans, 7, QColor(80, 80, 80), own);
        drawParagraph(painter, QRectF(290, 194, 250, 64), sans, 7, QColor(80, 80, 80), own);
        painter.setPen(Qt::black);
        painter.setFont(letters(sans, 9, true));
        painter.drawText(QRectF(50, 272, 300, 14), Qt::AlignLeft | Qt::AlignVCenter,
                         "Head by impeller diameter, mm");
        drawTable(painter, QRectF(50, 680, 495, 14.0 * (1.0 + static_cast<double>(models.size()))),
                  sizeRows(models, own), sans, 8, band);
        painter.setFont(letters(sans, 7));
        painter.setPen(QColor(110, 110, 110));
        painter.drawText(QRectF(50, 790, 495, 12), Qt::AlignRight | Qt::AlignVCenter,
                         QString("sheet %1").arg(own.whole(100, 999)));
    };
    return sheet;
}

// Head of two wheels and efficiency above, power of both and NPSH below, on one flow axis.
Sheet stackedSheet(Dice& dice) {
    const Maker maker = drawMaker(dice);
    const PumpLaw small = maker.pump.trimmed(0.9);
    const bool inColour = dice.share() < 0.5;
    const QColor head = inColour ? QColor(20, 50, 130) : QColor(0, 0, 0);
    const QColor other = inColour ? QColor(170, 40, 30) : QColor(0, 0, 0);
    Sheet sheet;
    sheet.size_pt = {kA4Width_pt, kA4Height_pt};
    sheet.colour = inColour;
    Chart upper;
    upper.look.font = "DejaVu Sans";
    upper.look.line_pt = dice.between(0.6, 1.1);
    upper.look.letters_pt = 8;
    upper.look.grid = QColor(185, 185, 185);
    upper.look.grid_pt = 0.25;
    upper.look.frame_pt = 0.7;
    upper.look.roundEnds = true;
    Chart lower = upper;
    upper.frame = QRectF(90, 250, 390, 260);
    lower.frame = QRectF(90, 555, 390, 165);
    upper.curves = {
        named(curveOf(maker, maker.pump, LineQuantity::head), "head large", "H large", ValueAxis::left, head),
        named(curveOf(maker, small, LineQuantity::head), "head small", "H small", ValueAxis::left, head),
        named(curveOf(maker, maker.pump, LineQuantity::efficiency), "efficiency", QString::fromUtf8("η"),
              ValueAxis::right, other)};
    lower.curves = {
        named(curveOf(maker, maker.pump, LineQuantity::power), "power large", "P large", ValueAxis::left,
              head),
        named(curveOf(maker, small, LineQuantity::power), "power small", "P small", ValueAxis::left, head),
        named(curveOf(maker, maker.pump, LineQuantity::npshRequired), "npsh", "NPSH", ValueAxis::right,
              other)};
    setAxes(upper, maker, 1, headTitle(maker), QString::fromUtf8("η [%]"));
    setAxes(lower, maker, 1, "P [kW]", "NPSH [m]");
    sheet.charts = {upper, lower};
    const std::uint64_t words = dice.next();
    sheet.furniture = [model = maker.model, words, head](QPainter& painter) {
        Dice own(words);
        const QString sans = "DejaVu Sans";
        painter.setPen(QPen(head, 0.8));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(QRectF(36, 36, 523, 770));
        painter.drawLine(QPointF(36, 90), QPointF(559, 90));
        painter.setPen(head);
        painter.setFont(letters(sans, 18, true));
        painter.drawText(QRectF(50, 40, 330, 46), Qt::AlignLeft | Qt::AlignVCenter, model);
        painter.setFont(letters(sans, 8));
        painter.drawText(QRectF(380, 44, 168, 40), Qt::AlignRight | Qt::AlignVCenter,
                         "Performance sheet\nwater, 20 " + QString::fromUtf8("°C"));
        drawParagraph(painter, QRectF(50, 104, 245, 120), sans, 8, QColor(90, 90, 90), own);
        drawSketch(painter, QRectF(330, 98, 200, 132), sans, QColor(40, 40, 40));
        drawTable(painter, QRectF(50, 760, 495, 36), sizeRows({"small", "large"}, own), sans, 7,
                  QColor(235, 235, 235));
    };
    return sheet;
}

// Several pumps in colours on a fine tinted grid, with a legend.
Sheet colouredSheet(Dice& dice) {
    Maker maker = drawMaker(dice);
    Sheet sheet;
    sheet.size_pt =
        dice.share() < 0.5 ? QSizeF(kA4Width_pt, kA4Height_pt) : QSizeF(kA5Width_pt, kA5Height_pt);
    sheet.colour = true;
    const double w = sheet.size_pt.width(), h = sheet.size_pt.height();
    Chart chart;
    chart.frame = QRectF(0.15 * w, 0.36 * h, 0.75 * w, 0.34 * h);
    chart.look.font = "DejaVu Sans";
    chart.look.line_pt = dice.between(0.8, 1.2);
    chart.look.letters_pt = w > 500 ? 8 : 7;
    chart.look.grid = QColor(150, 190, 170);
    chart.look.finerGrid = QColor(205, 225, 214);
    chart.look.grid_pt = 0.35;
    chart.look.ground = dice.share() < 0.5 ? QColor(255, 255, 255) : QColor(250, 250, 240);
    chart.look.labels = dice.share() < 0.5 ? LabelPlace::legend : LabelPlace::beside;
    const QColor inks[] = {QColor(30, 60, 160), QColor(190, 30, 40), QColor(20, 120, 60), QColor(60, 60, 60)};
    const int count = dice.whole(3, 4);
    QStringList models;
    for (int k = 0; k < count; ++k) {
        PumpLaw pump = maker.pump.trimmed(1.0 - 0.11 * k);
        if (k == 1) // a flatter pump with a longer line, crossing its neighbours
            pump.endFlow_m3_h *= 1.35;
        models << QString("%1%2").arg(QChar('A' + k)).arg(dice.whole(2, 9) * 5);
        chart.curves.push_back(named(curveOf(maker, pump, LineQuantity::head),
                                     "pump " + models.back().toStdString(), models.back(), ValueAxis::left,
                                     inks[k]));
    }
    setAxes(chart, maker, 5, headTitle(maker));
    sheet.charts = {chart};
    const std::uint64_t words = dice.next();
    const QColor accent = QColor(24, 92, 78);
    sheet.furniture = [model = maker.model, models, words, accent, w, h](QPainter& painter) {
        Dice own(words);
        const QString sans = "DejaVu Sans";
        painter.fillRect(QRectF(0, 0, 0.045 * w, h), accent);
        painter.setPen(accent);
        painter.setFont(letters(sans, w > 500 ? 24 : 16, true));
        painter.drawText(QRectF(0.09 * w, 0.04 * h, 0.8 * w, 0.05 * h), Qt::AlignLeft | Qt::AlignVCenter,
                         model);
        painter.setFont(letters(sans, w > 500 ? 10 : 8));
        painter.drawText(QRectF(0.09 * w, 0.088 * h, 0.8 * w, 0.025 * h), Qt::AlignLeft | Qt::AlignVCenter,
                         QString("%1 sizes for garden and glasshouse").arg(models.size()));
        drawParagraph(painter, QRectF(0.09 * w, 0.13 * h, 0.4 * w, 0.19 * h), sans, 7, QColor(85, 85, 85),
                      own);
        painter.fillRect(QRectF(0.53 * w, 0.13 * h, 0.4 * w, 0.19 * h), QColor(240, 246, 243));
        drawSketch(painter, QRectF(0.59 * w, 0.14 * h, 0.31 * w, 0.165 * h), sans, accent);
        drawTable(
            painter,
            QRectF(0.09 * w, 0.79 * h, 0.84 * w, 0.024 * h * (1.0 + static_cast<double>(models.size()))),
            sizeRows(models, own), sans, 7, accent);
        painter.setPen(accent);
        painter.setFont(letters(sans, 6));
        painter.drawText(QRectF(0.09 * w, 0.95 * h, 0.84 * w, 10), Qt::AlignLeft,
                         "Sizes in millimetres; subject to change.");
    };
    return sheet;
}

} // namespace

Sheet drawSheet(const std::string& style, Dice& dice) {
    if (style == "plain") return plainSheet(dice);
    if (style == "family") return familySheet(dice);
    if (style == "stacked") return stackedSheet(dice);
    if (style == "coloured") return colouredSheet(dice);
    return plottedSheet(style, dice);
}

QImage renderSheet(const Sheet& sheet, double dpi) {
    if (!sheet.plotScript.empty()) return renderPlotScript(sheet, dpi);
    QImage image(static_cast<int>(std::lround(sheet.size_pt.width() * dpi / 72.0)),
                 static_cast<int>(std::lround(sheet.size_pt.height() * dpi / 72.0)), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    painter.scale(dpi / 72.0, dpi / 72.0);
    sheet.furniture(painter);
    for (const Chart& chart : sheet.charts)
        drawChart(painter, chart);
    return image;
}

} // namespace headmark::pages
