// show_made_pages FOLDER: writes every made page as PNG, to be looked at. With --truth the true lines and
// pins are drawn over the ink.

#include "made_page.h"

#include <QDir>
#include <QImage>
#include <QPainter>

#include <cstdio>
#include <cstring>

using namespace headmark;
using namespace headmark::pages;

namespace {

QImage imageOf(const Page& page) {
    if (page.colour.empty())
        return QImage(page.grey.data(), page.width, page.height, page.width, QImage::Format_Grayscale8)
            .copy();
    return QImage(page.colour.data(), page.width, page.height, 3 * page.width, QImage::Format_RGB888).copy();
}

void drawTruth(QImage& image, const MadePage& page) {
    image = image.convertToFormat(QImage::Format_RGB32);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(0.5, 0.5); // a pixel's centre is the painter's half
    painter.setPen(QPen(QColor(255, 0, 200), 1.0));
    for (const MadeLine& line : page.lines) {
        for (std::size_t k = 1; k < line.path.size(); ++k)
            painter.drawLine(QPointF(line.path[k - 1].x_px, line.path[k - 1].y_px),
                             QPointF(line.path[k].x_px, line.path[k].y_px));
        painter.drawEllipse(QPointF(line.middle.x_px, line.middle.y_px), 8, 8);
    }
    for (const MadePin& pin : page.pins)
        painter.drawEllipse(QPointF(pin.at.x_px, pin.at.y_px), 10, 10);
}

} // namespace

int main(int count, char** arguments) {
    if (count < 2) {
        std::fputs("show_made_pages FOLDER [--truth]\n", stderr);
        return 2;
    }
    ensureGuiApplication();
    const bool truth = count > 2 && std::strcmp(arguments[2], "--truth") == 0;
    const QDir folder(QString::fromLocal8Bit(arguments[1]));
    folder.mkpath(".");
    for (const std::string& name : madePageNames()) {
        const MadePage page = makePage(name);
        QImage image = imageOf(page.page);
        if (truth) drawTruth(image, page);
        if (!image.save(folder.filePath(QString::fromStdString(name + ".png")))) {
            std::fprintf(stderr, "cannot write %s\n", name.c_str());
            return 2;
        }
    }
    return 0;
}
