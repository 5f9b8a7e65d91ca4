#include "hard_pages.h"

#include "analysis/core/assertion.h"
#include "hard_ageing.h"
#include "hard_styles.h"
#include "plotter_pages.h"
#include "strange_styles.h"

#include <QStringList>

#include <array>
#include <cmath>
#include <span>

namespace headmark::pages {

namespace {

constexpr std::array kClasses = {"clean", "scan", "fax", "photo", "pdf"};
constexpr std::array kStyles = {"millimetre", "dashed", "filled", "onion", "plain", "family", "coloured"};
constexpr std::array kPrograms = {"painter", "cairo", "svg", "gd", "pdf"};
constexpr std::array kResolutions = {150.0, 200.0, 300.0};

QImage drawn(const std::string& program, const Sheet& sheet, double dpi) {
    return program == "painter" ? renderSheet(sheet, dpi) : renderThrough(program, sheet, dpi);
}

std::vector<std::string> namesOf(std::span<const char* const> styles, int each) {
    std::vector<std::string> names;
    std::size_t turn = 0;
    for (const char* pageClass : kClasses) {
        for (const char* style : styles) {
            for (int number = 1; number <= each; ++number) {
                const bool pdf = std::string(pageClass) == "pdf";
                const char* program = pdf ? "pdf" : kPrograms[turn++ % (kPrograms.size() - 1)];
                names.push_back(std::string(style) + "-" + std::to_string(number) + "-" + pageClass + "-" +
                                program);
            }
        }
    }
    return names;
}

} // namespace

std::vector<std::string> hardPageNames(int each) { return namesOf(kStyles, each); }
std::vector<std::string> strangePageNames(int each) { return namesOf(kStrangeStyles, each); }

MadePage makeHardPage(const std::string& name) {
    ensureGuiApplication();
    const QStringList parts = QString::fromStdString(name).split('-');
    HEADMARK_ASSERT(parts.size() == 4, "a hard page has four parts to its name");
    Dice dice{name};
    const std::string style = parts[0].toStdString();
    const Sheet sheet = isStrange(style) ? strangeSheet(style, dice) : hardSheet(style, dice);
    const std::string program = parts[3].toStdString();
    MadePage page;
    page.name = name;
    page.pageClass = parts[2].toStdString();
    const bool fax = page.pageClass == "fax";
    const double dpi = fax ? 204.0 : kResolutions[static_cast<std::size_t>(dice.whole(0, 2))];
    const PixelFromPaper nominal = nominalPixels(dpi);
    if (page.pageClass == "clean" || page.pageClass == "pdf") {
        page.page = pageOf(drawn(program, sheet, dpi), sheet.colour);
        tellTruth(sheet.charts[0], dpi, nominal, page);
        return page;
    }
    constexpr double kFiner = 2.0;
    const QImage fine = drawn(program, sheet, kFiner * dpi);
    KnownWarp warp;
    if (page.pageClass == "scan") {
        const int width = fine.width() / 2, height = fine.height() / 2;
        const Ageing ageing = drawAgeing(dice, width, height, sheet.colour);
        page.page = pageOf(age(fine, 2, width, height, ageing), sheet.colour);
        warp.forward = [w = ageing.warp](PixelPoint p) { return w.forward(p); };
    } else {
        const HardPage aged = fax ? faxed(fine, kFiner * dpi, dpi, dice)
                                  : photographed(fine, kFiner * dpi, dpi, sheet.colour, dice);
        page.page = pageOf(aged.image, sheet.colour && !fax);
        warp = aged.warp;
    }
    tellTruth(
        sheet.charts[0], dpi, [=](QPointF at) { return warp.forward(nominal(at)); }, page);
    return page;
}

} // namespace headmark::pages
