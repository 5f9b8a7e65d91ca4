// make_sample_pages FOLDER: draws the brochure pages of the sample job's three pumps as scans (A4, 200 dpi,
// JPEG), and writes for each a reading of its upper chart (head, efficiency) and of its lower one (power,
// NPSH required): pins on grid crossings and one click per line, as far off as a hand puts them.

#include "furniture.h"
#include "pump_curves.h"
#include "sample_pumps.h"
#include "sheet.h"

#include <QDir>
#include <QFile>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

using namespace headmark;
using namespace headmark::pages;

namespace {

constexpr double kDpi = 200.0;
constexpr int kOversample = 2;
constexpr double kHand_px = 0.5; // one sigma of a click

struct House {
    const char* flowUnit;
    double flowFactor; // from m3/h
    QColor first, second, accent;
    QString font;
    QString title, below;
    bool colour;
    double turn_deg, stretchX, stretchY, blur_px, noise_grey, contrast;
    int jpegQuality;
};

House houseOf(char letter) {
    if (letter == 'a')
        return {"m3/h",
                1.0,
                Qt::black,
                Qt::black,
                QColor(60, 60, 60),
                "DejaVu Serif",
                "Model K 32-160",
                "2.2 kW, 2900 1/min",
                false,
                0.8,
                1.0012,
                0.9991,
                0.8,
                5.0,
                0.82,
                74};
    if (letter == 'b')
        return {"l/min",
                1000.0 / 60.0,
                QColor(20, 90, 60),
                QColor(185, 70, 20),
                QColor(24, 92, 78),
                "DejaVu Sans",
                "Garden pump 7-W",
                "1.1 kW, 2850 1/min",
                true,
                -0.6,
                0.9993,
                1.0008,
                0.7,
                4.0,
                0.85,
                76};
    return {"m3/h",
            1.0,
            QColor(25, 45, 130),
            QColor(170, 35, 35),
            QColor(30, 48, 104),
            "DejaVu Sans",
            "Series T 40/6",
            "4 kW, 2900 1/min",
            true,
            1.1,
            1.0005,
            1.0011,
            0.9,
            4.0,
            0.78,
            76};
}

ChartLook lookOf(char letter) {
    ChartLook look;
    look.font = houseOf(letter).font;
    look.letters_pt = 8;
    look.line_pt = letter == 'b' ? 1.2 : 1.0;
    if (letter == 'b') {
        look.grid = QColor(165, 195, 180);
        look.finerGrid = QColor(214, 228, 221);
        look.ground = QColor(252, 252, 246);
    }
    if (letter == 'c') {
        look.grid = QColor(190, 196, 214);
        look.finerGrid = QColor(224, 227, 236);
        look.labels = LabelPlace::legend;
    }
    look.roundEnds = letter == 'a';
    return look;
}

ChartCurve curve(const SamplePump& pump, const House& house, LineQuantity quantity) {
    ChartCurve made;
    made.quantity = quantity;
    made.truth = [&pump, quantity, factor = house.flowFactor](double flow) {
        return shownFigure(pump, quantity, flow / factor);
    };
    made.flowTo = pump.lastFlow_m3_h * house.flowFactor;
    const bool second = quantity == LineQuantity::efficiency || quantity == LineQuantity::npshRequired;
    made.axis = second ? ValueAxis::right : ValueAxis::left;
    made.ink = second ? house.second : house.first;
    switch (quantity) {
    case LineQuantity::efficiency:
        made.name = "efficiency";
        made.label = "efficiency";
        break;
    case LineQuantity::power:
        made.name = "power";
        made.label = "shaft power";
        break;
    case LineQuantity::npshRequired:
        made.name = "npsh";
        made.label = "NPSH required";
        break;
    default:
        made.name = "head";
        made.label = "head";
        break;
    }
    return made;
}

double greatest(const ChartCurve& of) {
    double most = 0.0;
    for (int k = 0; k <= 200; ++k)
        most = std::max(most, of.truth(of.flowTo * k / 200));
    return most;
}

Chart chartOf(const SamplePump& pump, QRectF frame, LineQuantity left, LineQuantity right,
              const QString& leftTitle, const QString& rightTitle) {
    const char letter = pump.letter[0];
    const House house = houseOf(letter);
    const int finer = letter == 'a' ? 1 : letter == 'b' ? 2 : 5;
    Chart chart;
    chart.frame = frame;
    chart.look = lookOf(letter);
    chart.units.flow = house.flowUnit;
    chart.curves = {curve(pump, house, left), curve(pump, house, right)};
    chart.flow =
        axisTo(chart.curves[0].flowTo * 1.05, finer,
               QString("flow [%1]").arg(QString(house.flowUnit).replace("m3", QString::fromUtf8("m³"))));
    chart.left = axisTo(greatest(chart.curves[0]) * 1.06, finer, leftTitle);
    chart.right = axisLike(chart.left, greatest(chart.curves[1]) * 1.12, 100.0, rightTitle);
    return chart;
}

void furnish(QPainter& painter, char letter) {
    const House house = houseOf(letter);
    Dice dice(std::string("sample page ") + letter);
    if (letter == 'a') {
        painter.setPen(QPen(Qt::black, 1.4));
        painter.drawLine(QPointF(50, 92), QPointF(545, 92));
    } else if (letter == 'b') {
        painter.fillRect(QRectF(0, 0, 26, kA4Height_pt), house.accent);
    } else {
        painter.fillRect(QRectF(0, 34, kA4Width_pt, 54), house.accent);
    }
    const QColor titleInk = letter == 'a'   ? QColor(Qt::black)
                            : letter == 'b' ? house.accent
                                            : QColor(Qt::white);
    painter.setPen(titleInk);
    painter.setFont(letters(house.font, 24, true));
    painter.drawText(QRectF(50, 38, 340, 46), Qt::AlignLeft | Qt::AlignVCenter, house.title);
    painter.setFont(letters(house.font, 10));
    painter.drawText(QRectF(340, 38, 205, 46), Qt::AlignRight | Qt::AlignVCenter, house.below);
    const bool sketchFirst = letter == 'c';
    drawSketch(painter, QRectF(sketchFirst ? 70 : 350, 106, 180, 122), house.font, QColor(50, 50, 50));
    drawParagraph(painter, QRectF(sketchFirst ? 290 : 50, 106, 255, 124), house.font, 8, QColor(80, 80, 80),
                  dice);
    const QColor head = letter == 'a' ? QColor(226, 226, 226) : house.accent;
    drawTable(painter, QRectF(50, 758, 495, 32), sizeRows({house.title.section(' ', -1)}, dice), house.font,
              7, head);
    painter.setPen(QColor(110, 110, 110));
    painter.setFont(letters(house.font, 6));
    painter.drawText(QRectF(50, 800, 495, 10), Qt::AlignCenter,
                     "Sizes in millimetres. Figures for water of 20 degrees.");
}

Ageing ageingOf(char letter, int width, int height) {
    const House house = houseOf(letter);
    Ageing ageing;
    ageing.warp.turn_rad = house.turn_deg * std::numbers::pi / 180.0;
    ageing.warp.stretchX = house.stretchX;
    ageing.warp.stretchY = house.stretchY;
    ageing.warp.centre = {0.5 * (width - 1), 0.5 * (height - 1)};
    ageing.warp.shift = {2.3, -1.6};
    ageing.blur_px = house.blur_px;
    ageing.noise_grey = house.noise_grey;
    ageing.contrast = house.contrast;
    ageing.lightDrop = 0.12;
    ageing.lightTowards_rad = 0.7 + letter;
    ageing.paper[0] = 247;
    ageing.paper[1] = house.colour ? 245 : 247;
    ageing.paper[2] = house.colour ? 236 : 247;
    ageing.jpegQuality = house.jpegQuality;
    ageing.colour = house.colour;
    ageing.seed = static_cast<std::uint64_t>(letter);
    return ageing;
}

QString clicked(PixelPoint at, Dice& dice) {
    const auto off = [&](double place) { return QString::number(place + kHand_px * dice.normal(), 'f', 1); };
    const QString x = off(at.x_px);
    return "[" + x + ", " + off(at.y_px) + "]";
}

QString quantityWord(LineQuantity quantity) {
    switch (quantity) {
    case LineQuantity::efficiency:
        return "efficiency";
    case LineQuantity::power:
        return "power";
    case LineQuantity::npshRequired:
        return "npsh_required";
    default:
        return "head";
    }
}

QString readingText(const MadePage& page, const QString& picture, Dice& dice) {
    QStringList pins, lines;
    for (const MadePin& pin : page.pins)
        pins << QString("    {\"px\": %1, \"flow\": %2, \"value\": %3%4}")
                    .arg(clicked(pin.at, dice), figure(pin.flow), figure(pin.value),
                         pin.axis == ValueAxis::right ? ", \"axis\": \"right\"" : "");
    for (const MadeLine& line : page.lines)
        lines << QString("    {\"name\": \"%1\", \"quantity\": \"%2\"%3, \"follow_from\": [%4]}")
                     .arg(QString::fromStdString(line.name), quantityWord(line.quantity),
                          line.axis == ValueAxis::right ? ", \"axis\": \"right\"" : "",
                          clicked(line.middle, dice));
    const bool lower = page.lines[0].quantity == LineQuantity::power;
    return QString(
               "{\n  \"format\": \"headmark-reading\", \"version\": 1,\n  \"chart\": {\"path\": \"%1\"},\n"
               "  \"printed_units\": {\"flow\": \"%2\", %3},\n  \"pins\": [\n%4\n  ],\n  \"lines\": [\n%5\n  "
               "]\n}\n")
        .arg(picture, QString::fromStdString(page.units.flow),
             lower ? "\"power\": \"kW\", \"npsh_required\": \"m\"" : "\"head\": \"m\", \"efficiency\": \"%\"",
             pins.join(",\n"), lines.join(",\n"));
}

bool write(const QString& path, const QByteArray& bytes) {
    QFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size();
}

bool makeOne(const SamplePump& pump, const QDir& folder) {
    const char letter = pump.letter[0];
    Sheet sheet;
    sheet.size_pt = {kA4Width_pt, kA4Height_pt};
    const double left = letter == 'b' ? 92.0 : 88.0;
    sheet.charts = {chartOf(pump, QRectF(left, 254, 410, 256), LineQuantity::head, LineQuantity::efficiency,
                            "head [m]", "efficiency [%]"),
                    chartOf(pump, QRectF(left, 562, 410, 150), LineQuantity::power,
                            LineQuantity::npshRequired, "shaft power [kW]", "NPSH required [m]")};
    sheet.furniture = [letter](QPainter& painter) { furnish(painter, letter); };
    const QImage fine = renderSheet(sheet, kDpi * kOversample);
    const int width = fine.width() / kOversample, height = fine.height() / kOversample;
    const Ageing ageing = ageingOf(letter, width, height);
    const QString stem = QString("pump-%1").arg(letter);
    bool done = write(folder.filePath(stem + ".jpg"), ageToJpeg(fine, kOversample, width, height, ageing));
    Dice dice(std::string("hand ") + letter);
    for (std::size_t k = 0; k < 2; ++k) {
        MadePage page;
        tellTruth(
            sheet.charts[k], kDpi,
            [nominal = nominalPixels(kDpi), warp = ageing.warp](QPointF at) {
                return warp.forward(nominal(at));
            },
            page);
        done = write(folder.filePath(stem + (k == 0 ? "-head" : "-power") + ".reading.json"),
                     readingText(page, stem + ".jpg", dice).toUtf8()) &&
               done;
    }
    return done;
}

} // namespace

int main(int count, char** arguments) {
    if (count != 2) {
        std::fputs("make_sample_pages FOLDER\n", stderr);
        return 2;
    }
    ensureGuiApplication();
    const QDir folder(QString::fromLocal8Bit(arguments[1]));
    folder.mkpath(".");
    for (const SamplePump& pump : samplePumps()) {
        if (!makeOne(pump, folder)) {
            std::fprintf(stderr, "cannot write into %s\n", arguments[1]);
            return 2;
        }
    }
    return 0;
}
