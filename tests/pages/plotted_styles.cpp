// The styles drawn by gnuplot (pdfcairo) and turned to pixels by poppler, so that the pixel convention is
// checked by programs that know nothing of ours. The margins are fixed: gnuplot's "screen" is the page less
// half a point at every side (read off the path coordinates in the PDF it writes), so a place x points from
// the left edge is screen (x - 0.5)/(width - 1).
// poppler moves upright and level strokes (frame, grid) to whole pixels, as many viewers do: their ink may
// lie up to half a pixel from the true pins. Sloping lines stay where they are.

#include "analysis/core/assertion.h"
#include "maker.h"
#include "sheet.h"

#include <QFile>
#include <QProcess>
#include <QTemporaryDir>
#include <QTextStream>

#include <cmath>

namespace headmark::pages {

namespace {

class Script {
  public:
    explicit Script(QSizeF size_pt) : size_(size_pt), out_(&text_) {
        out_.setRealNumberPrecision(12);
        out_ << "set terminal pdfcairo enhanced color size " << size_.width() / 72.0 << "in,"
             << size_.height() / 72.0 << "in font 'DejaVu Sans,14' linewidth 1\n"
             << "set output 'page.pdf'\nset encoding utf8\n";
    }
    QTextStream& out() { return out_; }
    [[nodiscard]] QString x(double at_pt) const {
        return QString::number((at_pt - 0.5) / (size_.width() - 1.0), 'g', 12);
    }
    [[nodiscard]] QString y(double at_pt) const {
        return QString::number((size_.height() - at_pt - 0.5) / (size_.height() - 1.0), 'g', 12);
    }
    void words(double x_pt, double y_pt, const QString& text, int size, const char* more = "") {
        out_ << "set label \"" << text << "\" at screen " << x(x_pt) << "," << y(y_pt) << " left font ',"
             << size << "' " << more << "\n";
    }
    void box(QRectF r, const char* style) {
        out_ << "set object rectangle from screen " << x(r.left()) << "," << y(r.bottom()) << " to screen "
             << x(r.right()) << "," << y(r.top()) << " " << style << "\n";
    }
    [[nodiscard]] std::string text() {
        out_.flush();
        return text_.toStdString();
    }

  private:
    QSizeF size_;
    QString text_;
    QTextStream out_;
};

void setAxis(Script& script, const char* name, const ChartAxis& axis) {
    QTextStream& out = script.out();
    out << "set " << name << "range [" << axis.from << ":" << axis.to << "]\n";
    out << "set " << name << "label \"" << axis.title << "\" font ',15'\n";
    if (axis.scale == AxisScale::log10) {
        out << "set logscale " << name << "\nset " << name << "tics (";
        bool first = true;
        for (const double mark : axis.marks()) {
            out << (first ? "" : ", ") << "'" << figure(mark) << "' " << mark;
            first = false;
        }
        for (const double mark : axis.finerMarks())
            out << ", '' " << mark << " 1";
        out << ") nomirror\n";
        return;
    }
    out << "set " << name << "tics " << axis.step << " nomirror\nset m" << name << "tics " << axis.finer
        << "\n";
}

// gnuplot's pdfcairo draws a line of "lw 1" half a point wide (the PDF says "0.5 w").
constexpr double kPointsPerWidth = 0.5;

void plot(Script& script, const Chart& chart) {
    QTextStream& out = script.out();
    const QRectF& frame = chart.frame;
    out << "set lmargin at screen " << script.x(frame.left()) << "\nset rmargin at screen "
        << script.x(frame.right()) << "\nset tmargin at screen " << script.y(frame.top())
        << "\nset bmargin at screen " << script.y(frame.bottom()) << "\n";
    setAxis(script, "x", chart.flow);
    setAxis(script, "y", chart.left);
    if (chart.right) setAxis(script, "y2", *chart.right);
    out << "set grid xtics mxtics ytics mytics lt 1 lw 0.5 lc rgb '#b8b8b8', lt 1 lw 0.35 lc rgb '#dcdcdc'\n";
    for (std::size_t k = 0; k < chart.curves.size(); ++k) {
        const ChartCurve& curve = chart.curves[k];
        constexpr int kSteps = 300;
        out << "$line" << k << " << END\n";
        for (int i = 0; i <= kSteps; ++i) {
            const double flow = curve.flowFrom + (curve.flowTo - curve.flowFrom) * i / kSteps;
            out << flow << " " << curve.truth(flow) << "\n";
        }
        out << "END\nset label \"" << curve.label << "\" at "
            << (curve.axis == ValueAxis::right ? "second " : "first ") << curve.flowTo << ","
            << curve.truth(curve.flowTo) << " left offset 0.4,0 font ',13'\n";
    }
    out << "plot ";
    for (std::size_t k = 0; k < chart.curves.size(); ++k)
        out << (k ? ", " : "") << "$line" << k << " axes "
            << (chart.curves[k].axis == ValueAxis::right ? "x1y2" : "x1y1") << " with lines lt 1 lw "
            << chart.look.line_pt / kPointsPerWidth << " lc rgb '" << chart.curves[k].ink.name()
            << "' notitle";
    out << "\n";
}

void furnish(Script& script, const Maker& maker, const Chart& chart, Dice& dice) {
    script.words(50, 52, maker.model, 34);
    script.words(50, 74, "technical sheet, water at 20 degrees", 15, "textcolor rgb '#505050'");
    script.box(QRectF(50, 88, 495, 2), "fc rgb '#303030' fs solid noborder");
    const char* rows[] = {"Cast casing, balanced impeller, seal without upkeep.",
                          "Inlet and outlet stand at right angles to each other;",
                          "the motor is cooled by its own fan. Fill the casing",
                          "before the first start. The lines are means of several",
                          "pumps of one kind, measured with an open tank."};
    for (int k = 0; k < 5; ++k)
        script.words(50, 108 + 13.0 * k, rows[k], 15, "textcolor rgb '#505050'");
    // The pump from the side, in plain boxes.
    script.box(QRectF(420, 120, 80, 48), "fs empty border rgb '#404040' lw 1.2");
    script.box(QRectF(500, 116, 18, 56), "fs empty border rgb '#404040' lw 1.2");
    script.box(QRectF(440, 108, 30, 12), "fs empty border rgb '#404040' lw 1.2");
    script.box(QRectF(385, 104, 26, 76), "fs empty border rgb '#404040' lw 1.2");
    script.box(QRectF(411, 132, 9, 24), "fs empty border rgb '#404040' lw 1.2");
    script.box(QRectF(365, 134, 20, 20), "fs empty border rgb '#404040' lw 1.2");
    script.box(QRectF(350, 186, 185, 1.2), "fc rgb '#404040' fs solid noborder");
    const double top = chart.frame.bottom() + 70.0;
    script.box(QRectF(50, top, 495, 16), "fc rgb '#e4e4e4' fs solid noborder");
    for (std::size_t r = 0; r <= chart.curves.size(); ++r) {
        const double y = top + 8.0 + 16.0 * static_cast<double>(r);
        script.words(56, y, r == 0 ? QString("line") : chart.curves[r - 1].label, 14);
        for (int c = 0; c < 4; ++c)
            script.words(170.0 + 95.0 * c, y,
                         r == 0 ? QString(QChar('a' + c)) : QString::number(dice.whole(60, 420)), 14);
        script.box(QRectF(50, y + 7.6, 495, 0.4), "fc rgb '#808080' fs solid noborder");
    }
}

// Two impellers and the efficiency of the larger, on linear axes.
Chart linearChart(const Maker& maker) {
    Chart chart;
    chart.frame = QRectF(90, 230, 410, 340);
    chart.look.line_pt = 1.0;
    const auto head = [&](double ratio) {
        return curveOf(maker, maker.pump.trimmed(ratio), LineQuantity::head);
    };
    chart.curves = {named(head(1.0), "head large", "large", ValueAxis::left, QColor(0, 0, 0)),
                    named(head(0.92), "head small", "small", ValueAxis::left, QColor(0, 0, 0)),
                    named(curveOf(maker, maker.pump, LineQuantity::efficiency), "efficiency",
                          QString::fromUtf8("η"), ValueAxis::right, QColor(0, 0, 0))};
    setAxes(chart, maker, 2, headTitle(maker), QString::fromUtf8("η [%]"));
    return chart;
}

double roundUp(double figure) {
    const double decade = std::pow(10.0, std::floor(std::log10(figure)));
    for (const double leading : {1.0, 2.0, 5.0})
        if (leading * decade >= figure) return leading * decade;
    return 10.0 * decade;
}

// Three impellers on logarithmic axes, from a tenth of the greatest flow on.
Chart logarithmicChart(Maker maker) {
    maker.firstFlow_share = 0.12;
    Chart chart;
    chart.frame = QRectF(90, 230, 410, 340);
    chart.look.line_pt = 0.8;
    double least = 1e9;
    for (const double ratio : {1.0, 0.88, 0.76}) {
        chart.curves.push_back(named(curveOf(maker, maker.pump.trimmed(ratio), LineQuantity::head),
                                     "impeller " + std::to_string(std::lround(200 * ratio)),
                                     QString::number(std::lround(200 * ratio)), ValueAxis::left,
                                     QColor(0, 0, 0)));
        least = std::min(least, chart.curves.back().truth(chart.curves.back().flowTo));
    }
    setAxes(chart, maker, 1, headTitle(maker));
    const double greatestHead = chart.left.to;
    chart.flow.scale = chart.left.scale = AxisScale::log10;
    chart.flow.to = roundUp(chart.curves.front().flowTo * 1.1);
    chart.flow.from = roundUp(chart.curves.back().flowFrom * 0.4);
    chart.left.to = roundUp(greatestHead);
    chart.left.from = roundUp(least * 0.2);
    return chart;
}

void run(const QString& program, const QStringList& arguments, const QString& folder) {
    QProcess process;
    process.setWorkingDirectory(folder);
    process.start(program, arguments);
    const bool done = process.waitForFinished(60000) && process.exitCode() == 0;
    HEADMARK_ASSERT(
        done, (program + ": " + QString::fromLocal8Bit(process.readAllStandardError())).toUtf8().constData());
}

} // namespace

Sheet plottedSheet(const std::string& style, Dice& dice) {
    const Maker maker = drawMaker(dice);
    Sheet sheet;
    sheet.size_pt = {kA4Width_pt, kA4Height_pt};
    const Chart chart = style == "plotted" ? linearChart(maker) : logarithmicChart(maker);
    sheet.charts = {chart};
    Script script(sheet.size_pt);
    furnish(script, maker, chart, dice);
    plot(script, chart);
    sheet.plotScript = script.text();
    return sheet;
}

QImage renderPlotScript(const Sheet& sheet, double dpi) {
    QTemporaryDir folder;
    QFile file(folder.filePath("page.gp"));
    HEADMARK_ASSERT(file.open(QIODevice::WriteOnly), "the temporary folder cannot be written");
    file.write(QByteArray::fromStdString(sheet.plotScript));
    file.close();
    run("gnuplot", {"page.gp"}, folder.path());
    run("pdftoppm", {"-gray", "-r", QString::number(dpi), "-singlefile", "page.pdf", "page"}, folder.path());
    QImage image(folder.filePath("page.pgm"));
    HEADMARK_ASSERT(!image.isNull(), "poppler wrote no picture");
    return image.convertToFormat(QImage::Format_RGB32);
}

} // namespace headmark::pages
