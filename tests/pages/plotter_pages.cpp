#include "plotter_pages.h"

#include "analysis/core/assertion.h"

#include <QBuffer>
#include <QFile>
#include <QPageSize>
#include <QPdfDocument>
#include <QPdfWriter>
#include <QProcess>
#include <QSvgRenderer>
#include <QTemporaryDir>
#include <QTextStream>

#include <cmath>

namespace headmark::pages {

namespace {

QImage throughPdf(const Sheet& sheet, QSize size) {
    QBuffer bytes;
    bytes.open(QIODevice::ReadWrite);
    {
        QPdfWriter writer(&bytes);
        writer.setResolution(1200);
        writer.setPageSize(QPageSize(sheet.size_pt, QPageSize::Point));
        writer.setPageMargins(QMarginsF(0, 0, 0, 0));
        QPainter painter(&writer);
        painter.scale(1200.0 / 72.0, 1200.0 / 72.0);
        sheet.furniture(painter);
        for (const Chart& chart : sheet.charts)
            drawChart(painter, chart);
    }
    bytes.seek(0);
    QPdfDocument document;
    document.load(&bytes);
    HEADMARK_ASSERT(document.pageCount() == 1, "the PDF that was written cannot be read");
    QImage image(size, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.drawImage(0, 0, document.render(0, size));
    return image;
}

struct Terminal {
    const char* name;
    QString opening; // after "set terminal"
    QString output;
    // screen = (pixel place + shift)/(size + grow), pixel places from the picture's left or lower edge
    double shift_px, grow_px;
    double pixelsPerWidth; // of "lw 1"
};

class Plot {
  public:
    Plot(const Sheet& sheet, double dpi, const Terminal& terminal, QSize size)
        : sheet_(sheet), dpi_(dpi), terminal_(terminal), size_(size), out_(&text_) {
        out_.setRealNumberPrecision(12);
        out_ << "set terminal " << terminal.opening << "\nset output '" << terminal.output
             << "'\nset encoding utf8\nset multiplot\n";
        for (const Chart& chart : sheet_.charts)
            plot(chart);
        out_ << "unset multiplot\nset output\n";
        out_.flush();
    }
    [[nodiscard]] QByteArray text() const { return text_.toUtf8(); }

  private:
    [[nodiscard]] double px(double length_pt) const { return length_pt * dpi_ / 72.0; }
    [[nodiscard]] QString x(double at_pt) const {
        return QString::number((px(at_pt) + terminal_.shift_px) / (size_.width() + terminal_.grow_px), 'g',
                               12);
    }
    [[nodiscard]] QString y(double at_pt) const {
        const double up = size_.height() - px(at_pt);
        return QString::number((up + terminal_.shift_px) / (size_.height() + terminal_.grow_px), 'g', 12);
    }
    [[nodiscard]] double width(double pen_pt) const { return px(pen_pt) / terminal_.pixelsPerWidth; }

    void axis(const char* name, const ChartAxis& axis);
    void data(const Chart& chart, std::size_t index);
    void words(const Chart& chart);
    void plot(const Chart& chart);

    const Sheet& sheet_;
    double dpi_;
    const Terminal& terminal_;
    QSize size_;
    QString text_;
    QTextStream out_;
};

void Plot::axis(const char* name, const ChartAxis& axis) {
    out_ << "set " << name << "range [" << axis.from << ":" << axis.to << "]\nset " << name << "label \""
         << axis.title << "\"\n";
    if (axis.scale == AxisScale::log10) {
        out_ << "set logscale " << name << "\nset " << name << "tics (";
        const char* between = "";
        for (const double mark : axis.marks()) {
            out_ << between << "'" << figure(mark) << "' " << mark;
            between = ", ";
        }
        for (const double mark : axis.finerMarks())
            out_ << ", '' " << mark << " 1";
        out_ << ") nomirror\n";
        return;
    }
    out_ << "set " << name << "tics " << axis.step << " nomirror\nset m" << name << "tics " << axis.finer
         << "\n";
}

void Plot::data(const Chart& chart, std::size_t index) {
    const ChartCurve& curve = chart.curves[index];
    out_ << "$line" << index << " << END\n";
    constexpr int kSteps = 300;
    for (const auto& [flow, value] : curve.places)
        out_ << flow << " " << value << "\n";
    for (int i = 0; i <= kSteps && curve.places.empty(); ++i) {
        const double flow = curve.flowFrom + (curve.flowTo - curve.flowFrom) * i / kSteps;
        out_ << flow << " " << curve.truth(flow) << "\n";
    }
    out_ << "END\n";
}

void Plot::words(const Chart& chart) {
    out_ << "unset label\nunset arrow\n";
    if (chart.look.labels == LabelPlace::legend) return;
    for (std::size_t k = 0; k < chart.curves.size(); ++k) {
        const ChartCurve& curve = chart.curves[k];
        if (!curve.places.empty()) continue;
        const bool across = chart.look.labels == LabelPlace::over || chart.look.labels == LabelPlace::gap;
        const double at = curve.flowFrom + (curve.flowTo - curve.flowFrom) * (across ? 0.72 : 1.0);
        const char* system = curve.axis == ValueAxis::right ? "second " : "first ";
        out_ << "set label \"" << curve.label << "\" at " << system << at << "," << curve.truth(at)
             << (across ? " center front\n" : " left offset 0.5,0 front\n");
        if (!chart.look.arrows) continue;
        const double tip =
            curve.flowFrom + (curve.flowTo - curve.flowFrom) * (0.25 + 0.04 * static_cast<double>(k));
        out_ << "set arrow from " << system << tip + 0.04 * chart.flow.to << "," << 1.12 * curve.truth(tip)
             << " to " << system << tip << "," << curve.truth(tip) << " filled front lw " << width(0.5)
             << "\n";
    }
}

void Plot::plot(const Chart& chart) {
    out_ << "set lmargin at screen " << x(chart.frame.left()) << "\nset rmargin at screen "
         << x(chart.frame.right()) << "\nset tmargin at screen " << y(chart.frame.top())
         << "\nset bmargin at screen " << y(chart.frame.bottom()) << "\n";
    axis("x", chart.flow);
    axis("y", chart.left);
    if (chart.right) axis("y2", *chart.right);
    out_ << "set border lw " << width(chart.look.frame_pt) << "\nset grid xtics mxtics ytics mytics lt 1 lw "
         << width(chart.look.grid_pt) << " lc rgb '" << chart.look.grid.name() << "', lt 1 lw "
         << width(chart.look.finerGrid_pt) << " lc rgb '" << chart.look.finerGrid.name() << "'\n";
    for (std::size_t k = 0; k < chart.curves.size(); ++k)
        data(chart, k);
    words(chart);
    out_ << (chart.look.labels == LabelPlace::legend ? "set key box opaque top right\n" : "unset key\n")
         << "plot ";
    const char* between = "";
    for (const ChartFill& fill : chart.fills) {
        if (fill.lower) continue;
        out_ << between << "$line" << fill.upper << " with filledcurves y1=0 fc rgb '" << fill.colour.name()
             << "' notitle";
        between = ", ";
    }
    for (std::size_t k = 0; k < chart.curves.size(); ++k) {
        const ChartCurve& curve = chart.curves[k];
        const double line = curve.line_pt > 0.0 ? curve.line_pt : chart.look.line_pt;
        const char* axes = curve.axis == ValueAxis::right ? "x1y2" : "x1y1";
        out_ << between << "$line" << k << " axes " << axes << " with lines lw " << width(line) << " lc rgb '"
             << curve.ink.name() << "' dt "
             << (curve.dash_pt.empty()      ? "1"
                 : curve.dash_pt.size() > 2 ? "(24,10,4,10)"
                                            : "(16,9)")
             << " title '" << curve.label << "'";
        between = ", ";
        if (!curve.thickBetween) continue;
        out_ << ", $line" << k << " using ($1>" << curve.thickBetween->first << "&&$1<"
             << curve.thickBetween->second << "?$1:NaN):2 axes " << axes << " with lines lw "
             << width(2.2 * line) << " lc rgb '" << curve.ink.name() << "' notitle";
    }
    out_ << "\n";
}

QImage plotted(const Sheet& sheet, double dpi, const Terminal& terminal, QSize size) {
    QTemporaryDir folder;
    QFile file(folder.filePath("page.gp"));
    HEADMARK_ASSERT(file.open(QIODevice::WriteOnly), "the temporary folder cannot be written");
    file.write(Plot(sheet, dpi, terminal, size).text());
    file.close();
    QProcess process;
    process.setWorkingDirectory(folder.path());
    process.start("gnuplot", {"page.gp"});
    const bool done = process.waitForFinished(60000) && process.exitCode() == 0;
    HEADMARK_ASSERT(done, process.readAllStandardError().constData());
    QImage image(size, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    if (terminal.output.endsWith(".svg")) {
        painter.setRenderHint(QPainter::Antialiasing);
        QSvgRenderer(folder.filePath(terminal.output)).render(&painter, QRectF(QPointF(0, 0), QSizeF(size)));
    } else {
        painter.drawImage(0, 0, QImage(folder.filePath(terminal.output)));
    }
    return image;
}

} // namespace

QImage renderThrough(const std::string& program, const Sheet& sheet, double dpi) {
    const QSize size(static_cast<int>(std::lround(sheet.size_pt.width() * dpi / 72.0)),
                     static_cast<int>(std::lround(sheet.size_pt.height() * dpi / 72.0)));
    if (program == "pdf") return throughPdf(sheet, size);
    const QString wanted = QString(" size %1,%2 ").arg(size.width()).arg(size.height());
    const QString font = QString(" font 'DejaVu Sans,%1' ").arg(std::lround(7.0 * dpi / 100.0));
    if (program == "cairo")
        return plotted(sheet, dpi, {"cairo", "pngcairo enhanced" + font + wanted, "page.png", 0.0, 0.0, 1.0},
                       size);
    if (program == "gd")
        return plotted(sheet, dpi,
                       {"gd", "png truecolor enhanced" + font + wanted, "page.png", 0.0, 0.0, 1.0}, size);
    HEADMARK_ASSERT(program == "svg", "no such program draws pages");
    return plotted(sheet, dpi, {"svg", "svg enhanced" + font + wanted, "page.svg", 0.0, 0.0, 1.0}, size);
}

} // namespace headmark::pages
