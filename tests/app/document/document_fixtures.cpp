#include "document_fixtures.h"

#include "analysis/job/job_writer.h"
#include "analysis/job/reading_writer.h"

#include <QImage>
#include <QPainter>
#include <QPainterPath>

namespace headmark::test {

Pump tablePump(const std::string& name) {
    Pump pump;
    pump.name = name;
    CurvePoints head;
    head.points = {{Flow::fromCubicMetresPerHour(0.0), 43.0},
                   {Flow::fromCubicMetresPerHour(8.0), 38.0},
                   {Flow::fromCubicMetresPerHour(14.0), 27.0}};
    pump.curves[CurveQuantity::head] = head;
    return pump;
}

void drawPage(const QString& path, int drop_px) {
    QImage page(600, 400, QImage::Format_RGB32);
    page.fill(Qt::white);
    QPainter painter(&page);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(Qt::black, 3.0));
    QPainterPath line(QPointF(60, 80 + drop_px));
    line.quadTo(QPointF(340, 90 + drop_px), QPointF(540, 300 + drop_px));
    painter.drawPath(line);
    painter.end();
    page.save(path, "PNG");
}

Reading pageReading(const std::string& page) {
    Reading reading;
    reading.chart.path = page;
    reading.printedUnits.flow = "m3/h";
    reading.pins = {Pin{{60, 360}, 0.0, 0.0, ValueAxis::left, {}},
                    Pin{{540, 360}, 12.0, {}, ValueAxis::left, {}},
                    Pin{{60, 40}, {}, 40.0, ValueAxis::left, {}}};
    ChartLine upper;
    upper.name = "upper";
    // The middle of the bend: a quarter of both ends and half of the handle.
    upper.followFrom = {{60 / 4.0 + 340 / 2.0 + 540 / 4.0, 80 / 4.0 + 90 / 2.0 + 300 / 4.0}};
    reading.lines = {upper};
    return reading;
}

std::string textOf(const Workspace& workspace) {
    std::string text = writeJob(workspace.job);
    for (const ChartSheet& sheet : workspace.charts)
        text += sheet.path + "\n" + writeReading(*sheet.reading);
    return text;
}

Workspace chartedWorkspace(const std::string& page) {
    Workspace workspace = blankWorkspace();
    workspace.job.title = "Lower garden";
    Pump pump;
    pump.name = "From the page";
    pump.readings = {ReadingUse{"page.reading.json", {}}};
    workspace.job.pumps = {pump};
    workspace.charts = {{"page.reading.json", std::make_shared<const Reading>(pageReading(page))}};
    return workspace;
}

} // namespace headmark::test
