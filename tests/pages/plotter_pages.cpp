#include "plotter_pages.h"

#include "analysis/core/assertion.h"
#include "plot_script.h"

#include <QBuffer>
#include <QFile>
#include <QPageSize>
#include <QPdfDocument>
#include <QPdfWriter>
#include <QProcess>
#include <QSvgRenderer>
#include <QTemporaryDir>

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

QImage plotted(const Sheet& sheet, double dpi, const PlotTerminal& terminal, QSize size) {
    QTemporaryDir folder;
    QFile file(folder.filePath("page.gp"));
    HEADMARK_ASSERT(file.open(QIODevice::WriteOnly), "the temporary folder cannot be written");
    file.write(PlotScript(sheet, dpi, terminal, size).text());
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
        return plotted(sheet, dpi,
                       {"cairo", "pngcairo enhanced" + font + wanted, "page.png", 0.0, 0.0, 1.0, 0.25}, size);
    if (program == "gd")
        return plotted(sheet, dpi,
                       {"gd", "png truecolor enhanced" + font + wanted, "page.png", 0.0, 0.0, 1.0, 0.0},
                       size);
    HEADMARK_ASSERT(program == "svg", "no such program draws pages");
    return plotted(sheet, dpi, {"svg", "svg enhanced" + font + wanted, "page.svg", 0.0, 0.0, 1.0, 0.5}, size);
}

} // namespace headmark::pages
