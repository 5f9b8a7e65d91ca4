#include "app/pages/page_pixels.h"

#include "tests/app/pages/page_files.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using test::colourAt;
using test::greyAt;

QImage filled(int width, int height, QImage::Format format, QColor colour) {
    QImage image(width, height, format);
    image.fill(colour);
    return image;
}

TEST(PagePixels, KeepsEveryGreyInEveryFormat) {
    QImage ramp(256, 2, QImage::Format_RGB32);
    for (int x = 0; x < 256; ++x) {
        for (int y = 0; y < 2; ++y)
            ramp.setPixel(x, y, qRgb(x, x, x));
    }
    for (const auto format :
         {QImage::Format_Grayscale8, QImage::Format_Grayscale16, QImage::Format_RGB32, QImage::Format_ARGB32,
          QImage::Format_ARGB32_Premultiplied, QImage::Format_RGB888, QImage::Format_RGBA8888,
          QImage::Format_RGBX64, QImage::Format_RGBA64}) {
        const Page page = pageFromImage(ramp.convertToFormat(format));
        EXPECT_TRUE(page.colour.empty());
        for (int x = 0; x < 256; ++x)
            ASSERT_EQ(greyAt(page, x, 1), x) << "format " << format;
    }
}

// 36 MB: large enough for its memory to be given back row by row.
TEST(PagePixels, TakesALargePictureThatIsUsedUpWithoutLoss) {
    constexpr int kWidth = 3001, kHeight = 3000;
    const auto red = [](int x, int y) { return (x + 7 * y) % 256; };
    QImage image(kWidth, kHeight, QImage::Format_RGB32);
    for (int y = 0; y < kHeight; ++y) {
        auto* row = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < kWidth; ++x)
            row[x] = qRgb(red(x, y), 20, 200);
    }
    const QImage shared = image; // still looked at by someone: stays as it is
    (void)pageFromDecoded(image);
    EXPECT_EQ(shared.pixel(5, 0), qRgb(5, 20, 200));
    EXPECT_EQ(shared.pixel(0, kHeight - 1), qRgb(red(0, kHeight - 1), 20, 200));
    const Page page = pageFromDecoded(shared.copy());
    ASSERT_EQ(page.colour.size(), std::size_t{3} * kWidth * kHeight);
    for (int y = 0; y < kHeight; y += 37) {
        for (int x = 0; x < kWidth; x += 41)
            ASSERT_EQ(colourAt(page, x, y), (std::vector<int>{red(x, y), 20, 200})) << x << ", " << y;
    }
    EXPECT_EQ(colourAt(page, kWidth - 1, kHeight - 1),
              (std::vector<int>{red(kWidth - 1, kHeight - 1), 20, 200}));
}

TEST(PagePixels, WeighsColoursAsTheEyeDoes) {
    // ITU-R BT.601: 0.299, 0.587, 0.114 of 255
    EXPECT_NEAR(greyAt(pageFromImage(filled(9, 9, QImage::Format_RGB32, Qt::red)), 4, 4), 76.2, 1.0);
    EXPECT_NEAR(greyAt(pageFromImage(filled(9, 9, QImage::Format_RGB32, Qt::green)), 4, 4), 149.7, 1.0);
    EXPECT_NEAR(greyAt(pageFromImage(filled(9, 9, QImage::Format_RGB32, Qt::blue)), 4, 4), 29.1, 1.0);
}

TEST(PagePixels, UnpacksTwoTonesOfAnyWidthAndBothBitOrders) {
    for (const auto format : {QImage::Format_Mono, QImage::Format_MonoLSB}) {
        for (int width = 1; width < 20; ++width) {
            QImage image(width, 3, format);
            // Reversed palette: 1 is white ink on some scanners.
            image.setColorTable({qRgb(255, 255, 255), qRgb(10, 10, 10)});
            image.fill(0);
            for (int x = 0; x < width; x += 3)
                image.setPixel(x, 1, 1);
            const Page page = pageFromImage(image);
            for (int x = 0; x < width; ++x) {
                ASSERT_EQ(greyAt(page, x, 1), x % 3 == 0 ? 10 : 255) << width;
                ASSERT_EQ(greyAt(page, x, 2), 255);
            }
        }
    }
}

TEST(PagePixels, KeepsTheColourOfTwoColouredTones) {
    QImage image(16, 16, QImage::Format_Mono);
    image.setColorTable({qRgb(255, 255, 255), qRgb(200, 0, 0)});
    image.fill(1);
    EXPECT_EQ(colourAt(pageFromImage(image), 3, 3), (std::vector<int>{200, 0, 0}));
}

TEST(PagePixels, PutsTransparentPartsOnWhite) {
    EXPECT_EQ(greyAt(pageFromImage(filled(4, 4, QImage::Format_ARGB32, QColor(0, 0, 0, 0))), 1, 1), 255);
    // Half black over white: 255 - 128 = 127
    EXPECT_EQ(greyAt(pageFromImage(filled(4, 4, QImage::Format_ARGB32, QColor(0, 0, 0, 128))), 1, 1), 127);
    EXPECT_EQ(greyAt(pageFromImage(filled(4, 4, QImage::Format_RGBA64, QColor(0, 0, 0, 0))), 1, 1), 255);
    QImage palette(4, 4, QImage::Format_Indexed8);
    palette.setColorTable({qRgba(0, 0, 0, 0), qRgb(0, 0, 0)});
    palette.fill(0);
    palette.setPixel(2, 2, 1);
    const Page page = pageFromImage(palette);
    EXPECT_EQ(greyAt(page, 0, 0), 255);
    EXPECT_EQ(greyAt(page, 2, 2), 0);
}

TEST(PagePixels, HasColourOnlyWhereALineIsColoured) {
    QImage tinted = filled(200, 200, QImage::Format_RGB32, QColor(250, 245, 230)); // yellowed paper
    EXPECT_TRUE(pageFromImage(tinted).colour.empty());
    for (int x = 20; x < 180; ++x)
        tinted.setPixel(x, 100, qRgb(120, 160, 200));
    const Page page = pageFromImage(tinted);
    ASSERT_EQ(page.colour.size(), 3U * 200 * 200);
    EXPECT_EQ(colourAt(page, 50, 100), (std::vector<int>{120, 160, 200}));
    EXPECT_EQ(colourAt(page, 50, 99), (std::vector<int>{250, 245, 230}));
}

TEST(PagePixels, SeesNoColourInAGreyScanSavedInColour) {
    QImage scan(300, 200, QImage::Format_RGB32);
    for (int y = 0; y < 200; ++y) {
        for (int x = 0; x < 300; ++x) {
            const int tone = (x / 7 + y / 5) % 4 == 0 ? 30 : 235;
            // Fringes of up to 12 steps, as colour scanners leave at edges.
            scan.setPixel(x, y, qRgb(tone, tone + (x * 31 + y * 17) % 13, tone));
        }
    }
    const auto page = test::openEmbedded(test::encoded(scan, "jpeg", 40));
    ASSERT_TRUE(page);
    EXPECT_TRUE((*page)->colour.empty());
}

} // namespace
} // namespace headmark
