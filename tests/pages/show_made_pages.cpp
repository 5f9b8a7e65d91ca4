// show_made_pages FOLDER [--truth] [--hard | --strange]: writes every made page (--hard, --strange: one of
// every hard or strange style and class) as PNG, to be looked at, and the pages of each class beside each
// other as contact-CLASS.png. With
// --truth the true lines and pins are drawn over the ink.

#include "hard_pages.h"

#include <QDir>
#include <QImage>
#include <QPainter>

#include <algorithm>
#include <cstdio>
#include <cstring>
#include <map>

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

// The pages of one class beside each other, each about as large as a hand.
class Contacts {
  public:
    explicit Contacts(const QDir& folder) : folder_(folder) {}

    void take(const std::string& pageClass, const QImage& image) {
        of_[pageClass].push_back(
            image.scaled(kWide_px, kHigh_px, Qt::KeepAspectRatio, Qt::SmoothTransformation));
    }
    [[nodiscard]] bool save() const {
        bool done = true;
        for (const auto& [pageClass, images] : of_) {
            const int count = static_cast<int>(images.size()), columns = 4;
            QImage sheet(columns * kWide_px, (count + columns - 1) / columns * kHigh_px,
                         QImage::Format_RGB32);
            sheet.fill(Qt::darkGray);
            QPainter painter(&sheet);
            for (int k = 0; k < count; ++k)
                painter.drawImage(k % columns * kWide_px, k / columns * kHigh_px,
                                  images[static_cast<std::size_t>(k)]);
            painter.end();
            done =
                sheet.save(folder_.filePath(QString::fromStdString("contact-" + pageClass + ".png"))) && done;
        }
        return done;
    }

  private:
    static constexpr int kWide_px = 480, kHigh_px = 680;
    QDir folder_;
    std::map<std::string, std::vector<QImage>> of_;
};

} // namespace

int main(int count, char** arguments) {
    if (count < 2) {
        std::fputs("show_made_pages FOLDER [--truth] [--hard | --strange]\n", stderr);
        return 2;
    }
    ensureGuiApplication();
    const auto asked = [&](const char* option) {
        return std::any_of(arguments + 2, arguments + count,
                           [&](const char* given) { return std::strcmp(given, option) == 0; });
    };
    const bool truth = asked("--truth"), hard = asked("--hard"), strange = asked("--strange");
    const QDir folder(QString::fromLocal8Bit(arguments[1]));
    folder.mkpath(".");
    Contacts contacts(folder);
    for (const std::string& name : strange ? strangePageNames(1)
                                   : hard  ? hardPageNames(1)
                                           : madePageNames()) {
        const MadePage page = hard || strange ? makeHardPage(name) : makePage(name);
        QImage image = imageOf(page.page);
        if (truth) drawTruth(image, page);
        contacts.take(page.pageClass, image);
        if (!image.save(folder.filePath(QString::fromStdString(name + ".png")))) {
            std::fprintf(stderr, "cannot write %s\n", name.c_str());
            return 2;
        }
    }
    return contacts.save() ? 0 : 2;
}
