#include "app/desktop/installation/sheet_files.h"

#include "analysis/connections/schematic.h"
#include "app/desktop/duty/picture_export.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/installation/sheet_pages.h"
#include "app/desktop/installation/strokes_painter.h"
#include "app/words/drawing_svg.h"
#include "app/words/sheet_rows.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QImage>
#include <QPdfWriter>

#include <cmath>

namespace headmark {

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(SheetFiles)
};

QByteArray pdfOf(const PumpFindings& pump, const Job& job) {
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    constexpr int kDotsPerInch = 300;
    QPdfWriter writer(&buffer);
    writer.setResolution(kDotsPerInch);
    writer.setTitle(Words::tr("Connection sheet: %1").arg(QString::fromStdString(pump.name)));
    writer.setCreator(QStringLiteral("Headmark"));
    paintSheet(writer, pump, job);
    return buffer.data();
}

QByteArray pngOf(const Schematic& drawing, const Phrasing& phrasing) {
    constexpr double kPixelsPerMillimetre = 6.0; // 150 dots an inch
    QImage image(static_cast<int>(std::ceil(drawing.width * kPixelsPerMillimetre)),
                 static_cast<int>(std::ceil(drawing.height * kPixelsPerMillimetre)), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.scale(kPixelsPerMillimetre, kPixelsPerMillimetre);
    paintStrokes(painter, drawing.strokes(), Qt::black, phrasing);
    painter.end();
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    return image.save(&buffer, "PNG") ? buffer.data() : QByteArray();
}

QString field(QString text) {
    text.replace(QLatin1Char('"'), QStringLiteral("\"\""));
    return QLatin1Char('"') + text + QLatin1Char('"');
}

QByteArray csvOf(const ConnectionSheet& sheet, const Phrasing& phrasing) {
    QStringList lines{
        QStringList{field(Words::tr("Pieces")), field(Words::tr("Part")), field(Words::tr("Numbers"))}.join(
            QLatin1Char(';'))};
    for (const QStringList& row : billRows(sheet, phrasing))
        lines << QStringList{row[0], field(row[1]), field(row[2])}.join(QLatin1Char(';'));
    return (lines.join(QLatin1Char('\n')) + QLatin1Char('\n')).toUtf8();
}

} // namespace

bool writeSheet(const QString& path, const PumpFindings& pump, const Job& job) {
    const Phrasing phrasing = screenPhrasing(job.site);
    const ConnectionSheet& sheet = pump.connections->sheet;
    const QString ending = pathEnding(path);
    QByteArray bytes;
    if (ending == QLatin1String("pdf"))
        bytes = pdfOf(pump, job);
    else if (ending == QLatin1String("svg"))
        bytes = drawingSvg(schematicOf(sheet), QString::fromStdString(pump.name), phrasing);
    else if (ending == QLatin1String("png"))
        bytes = pngOf(schematicOf(sheet), phrasing);
    else if (ending == QLatin1String("csv"))
        bytes = csvOf(sheet, phrasing);
    return !bytes.isEmpty() && writeWhole(path, bytes);
}

} // namespace headmark
