#include "made_page.h"

#include "analysis/core/assertion.h"
#include "sheet.h"

#include <QGuiApplication>

#include <array>
#include <cmath>

namespace headmark::pages {

namespace {

struct PageEntry {
    const char* name; // style, number, class; from it all else is drawn
    const char* style;
    double dpi;
    int charts;
};

constexpr std::array<PageEntry, 31> kEntries = {{
    {"plain-1-clean", "plain", 150, 1},
    {"plain-2-clean", "plain", 200, 1},
    {"plain-3-clean", "plain", 300, 1},
    {"family-1-clean", "family", 150, 1},
    {"family-2-clean", "family", 200, 1},
    {"family-3-clean", "family", 300, 1},
    {"stacked-1-clean", "stacked", 150, 2},
    {"stacked-2-clean", "stacked", 200, 2},
    {"stacked-3-clean", "stacked", 240, 2},
    {"coloured-1-clean", "coloured", 150, 1},
    {"coloured-2-clean", "coloured", 200, 1},
    {"coloured-3-clean", "coloured", 300, 1},
    {"plain-1-scan", "plain", 150, 1},
    {"plain-2-scan", "plain", 200, 1},
    {"plain-3-scan", "plain", 300, 1},
    {"family-1-scan", "family", 150, 1},
    {"family-2-scan", "family", 200, 1},
    {"family-3-scan", "family", 300, 1},
    {"stacked-1-scan", "stacked", 150, 2},
    {"stacked-2-scan", "stacked", 200, 2},
    {"stacked-3-scan", "stacked", 240, 2},
    {"coloured-1-scan", "coloured", 150, 1},
    {"coloured-2-scan", "coloured", 200, 1},
    {"coloured-3-scan", "coloured", 300, 1},
    {"plotted-1-clean", "plotted", 150, 1},
    {"plotted-2-clean", "plotted", 300, 1},
    {"logarithmic-1-clean", "logarithmic", 200, 1},
    {"plotted-1-scan", "plotted", 200, 1},
    {"plotted-2-scan", "plotted", 240, 1},
    {"logarithmic-1-scan", "logarithmic", 240, 1},
    {"logarithmic-2-clean", "logarithmic", 150, 1},
}};

const std::string kLower = "-lower";

MadePage made(const PageEntry& entry, std::size_t chart, const std::string& name) {
    constexpr int kOversample = 2;
    Dice dice{std::string(entry.name)};
    const Sheet sheet = drawSheet(entry.style, dice);
    MadePage page;
    page.name = name;
    const PixelFromPaper nominal = nominalPixels(entry.dpi);
    if (!std::string(entry.name).ends_with("-scan")) {
        page.pageClass = "clean";
        page.page = pageOf(renderSheet(sheet, entry.dpi), sheet.colour);
        tellTruth(sheet.charts[chart], entry.dpi, nominal, page);
        return page;
    }
    page.pageClass = "scan";
    const QImage fine = renderSheet(sheet, entry.dpi * kOversample);
    const int width = fine.width() / kOversample, height = fine.height() / kOversample;
    const Ageing ageing = drawAgeing(dice, width, height, sheet.colour);
    page.page = pageOf(age(fine, kOversample, width, height, ageing), sheet.colour);
    tellTruth(
        sheet.charts[chart], entry.dpi,
        [nominal, warp = ageing.warp](QPointF at) { return warp.forward(nominal(at)); }, page);
    return page;
}

} // namespace

void ensureGuiApplication() {
    if (QCoreApplication::instance()) return;
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    static int count = 1;
    static char name[] = "made_pages";
    static char* arguments[] = {name, nullptr};
    // Kept to the end of the program: fonts may be used by whatever is torn down last.
    static QGuiApplication* application = new QGuiApplication(count, arguments);
    (void)application;
}

std::vector<std::string> madePageNames() {
    std::vector<std::string> names;
    for (const PageEntry& entry : kEntries) {
        names.emplace_back(entry.name);
        if (entry.charts == 2) names.push_back(entry.name + kLower);
    }
    return names;
}

MadePage makePage(const std::string& name) {
    ensureGuiApplication();
    for (const PageEntry& entry : kEntries) {
        if (name == entry.name) return made(entry, 0, name);
        if (entry.charts == 2 && name == entry.name + kLower) return made(entry, 1, name);
    }
    HEADMARK_ASSERT(false, "no page of this name is made");
    return {};
}

Page pageOf(const QImage& image, bool colour) {
    const QImage rgb = image.convertToFormat(QImage::Format_RGB888);
    Page page;
    page.width = rgb.width();
    page.height = rgb.height();
    for (int y = 0; y < page.height; ++y) {
        const uchar* row = rgb.constScanLine(y);
        for (int x = 0; x < page.width; ++x) // luma of ITU-R BT.601
            page.grey.push_back(static_cast<std::uint8_t>(
                std::lround(0.299 * row[3 * x] + 0.587 * row[3 * x + 1] + 0.114 * row[3 * x + 2])));
        if (colour) page.colour.insert(page.colour.end(), row, row + 3 * page.width);
    }
    return page;
}

} // namespace headmark::pages
