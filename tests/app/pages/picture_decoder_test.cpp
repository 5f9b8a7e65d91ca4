#include "app/pages/page_error_codes.h"
#include "tests/app/pages/page_files.h"

#include <gtest/gtest.h>

#include <string>

namespace headmark {
namespace {

using test::colourAt;
using test::encoded;
using test::greyAt;
using test::openEmbedded;

// Blocks of 16 pixels, each of its own tone, three across and two down.
constexpr int kBlock = 16, kAcross = 3, kDown = 2;

int toneOfBlock(int column, int row) { return 20 + 40 * (row * kAcross + column); }

QImage blocks(QImage::Format format) {
    QImage image(kBlock * kAcross, kBlock * kDown, QImage::Format_Grayscale8);
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x)
            image.scanLine(y)[x] = static_cast<uchar>(toneOfBlock(x / kBlock, y / kBlock));
    }
    return image.convertToFormat(format);
}

void expectBlocks(const Page& page, int tolerance, const std::string& what) {
    ASSERT_EQ(page.width, kBlock * kAcross) << what;
    ASSERT_EQ(page.height, kBlock * kDown) << what;
    ASSERT_EQ(page.grey.size(), static_cast<std::size_t>(page.width * page.height));
    EXPECT_EQ(page.scale, 1.0);
    for (int row = 0; row < kDown; ++row) {
        for (int column = 0; column < kAcross; ++column) {
            EXPECT_NEAR(greyAt(page, column * kBlock + 8, row * kBlock + 8), toneOfBlock(column, row),
                        tolerance)
                << what;
        }
    }
}

TEST(PictureDecoder, OpensEveryFormatAtEveryDepth) {
    for (const char* format : {"png", "jpeg", "tiff", "bmp", "webp"}) {
        // Lossy formats may be off by a little.
        const int tolerance = std::string(format) == "jpeg" || std::string(format) == "webp" ? 3 : 0;
        for (const auto depth : {QImage::Format_Indexed8, QImage::Format_Grayscale8, QImage::Format_RGB32,
                                 QImage::Format_ARGB32, QImage::Format_Grayscale16, QImage::Format_RGBA64}) {
            const auto page = openEmbedded(encoded(blocks(depth), format, 95));
            ASSERT_TRUE(page) << format << " " << depth << " " << page.error().code;
            expectBlocks(**page, tolerance, std::string(format) + " " + std::to_string(depth));
            EXPECT_TRUE((*page)->colour.empty());
        }
    }
}

TEST(PictureDecoder, OpensTwoTones) {
    for (const char* format : {"png", "tiff", "bmp"}) {
        QImage image(19, 5, QImage::Format_Mono);
        image.setColorTable({qRgb(0, 0, 0), qRgb(255, 255, 255)});
        image.fill(1);
        image.setPixel(17, 3, 0);
        const auto page = openEmbedded(encoded(image, format));
        ASSERT_TRUE(page) << format;
        EXPECT_EQ(greyAt(**page, 17, 3), 0) << format;
        EXPECT_EQ(greyAt(**page, 16, 3), 255) << format;
        EXPECT_EQ(greyAt(**page, 17, 4), 255) << format;
    }
}

TEST(PictureDecoder, KeepsColour) {
    QImage image(64, 64, QImage::Format_RGB32);
    image.fill(qRgb(40, 90, 200));
    for (const char* format : {"png", "tiff", "bmp"}) {
        const auto page = openEmbedded(encoded(image, format));
        ASSERT_TRUE(page) << format;
        EXPECT_EQ(colourAt(**page, 5, 60), (std::vector<int>{40, 90, 200})) << format;
    }
}

TEST(PictureDecoder, PutsTransparentPicturesOnWhite) {
    QImage image(32, 32, QImage::Format_ARGB32);
    image.fill(Qt::transparent);
    image.setPixelColor(3, 4, Qt::black);
    for (const char* format : {"png", "tiff"}) {
        const auto page = openEmbedded(encoded(image, format));
        ASSERT_TRUE(page) << format;
        EXPECT_EQ(greyAt(**page, 0, 0), 255) << format;
        EXPECT_EQ(greyAt(**page, 3, 4), 0) << format;
    }
}

// Where the pixel stored at (x, y) is seen. TIFF 6.0, tag 274 (Exif 2.3 takes it over): which side of the
// picture row 0 and column 0 are.
std::pair<int, int> seenAt(int orientation, int x, int y, int width, int height) {
    const int right = width - 1 - x, up = height - 1 - y;
    switch (orientation) {
    case 2:
        return {right, y};
    case 3:
        return {right, up};
    case 4:
        return {x, up};
    case 5:
        return {y, x};
    case 6:
        return {up, x};
    case 7:
        return {up, right};
    case 8:
        return {y, right};
    default:
        return {x, y};
    }
}

void expectTurnedBlocks(const Page& page, int orientation) {
    const QImage stored = blocks(QImage::Format_Grayscale8);
    for (int row = 0; row < kDown; ++row) {
        for (int column = 0; column < kAcross; ++column) {
            const auto [x, y] =
                seenAt(orientation, column * kBlock + 3, row * kBlock + 8, stored.width(), stored.height());
            ASSERT_LT(x, page.width);
            ASSERT_LT(y, page.height);
            EXPECT_NEAR(greyAt(page, x, y), toneOfBlock(column, row), 2) << "orientation " << orientation;
        }
    }
}

TEST(PictureDecoder, TurnsThePictureAsItsTagSays) {
    const QImage stored = blocks(QImage::Format_Grayscale8);
    std::string pixels;
    for (int y = 0; y < stored.height(); ++y)
        pixels.append(reinterpret_cast<const char*>(stored.constScanLine(y)),
                      static_cast<std::size_t>(stored.width()));
    for (int orientation = 1; orientation <= 8; ++orientation) {
        for (const std::string& file :
             {test::withOrientation(encoded(stored, "jpeg", 95), orientation),
              test::greyTiff(stored.width(), stored.height(), {pixels}, orientation)}) {
            const auto page = openEmbedded(file);
            ASSERT_TRUE(page);
            const bool onItsSide = orientation >= 5;
            EXPECT_EQ((*page)->width, onItsSide ? stored.height() : stored.width());
            EXPECT_EQ((*page)->height, onItsSide ? stored.width() : stored.height());
            expectTurnedBlocks(**page, orientation);
        }
    }
}

TEST(PictureDecoder, OpensJpegInPrintColours) {
    const auto page = openEmbedded(test::cmykJpeg());
    ASSERT_TRUE(page);
    EXPECT_EQ((*page)->width, 40);
    const std::vector<int> colour = colourAt(**page, 20, 15);
    EXPECT_NEAR(colour[0], 200, 4);
    EXPECT_NEAR(colour[1], 60, 4);
    EXPECT_NEAR(colour[2], 30, 4);
}

TEST(PictureDecoder, TakesTheFirstPictureOfSeveral) {
    const auto page = openEmbedded(test::greyTiff(4, 4, {std::string(16, '\x20'), std::string(16, '\x70')}));
    ASSERT_TRUE(page);
    EXPECT_EQ(greyAt(**page, 2, 2), 0x20);
}

TEST(PictureDecoder, RefusesEveryPictureThatIsCutShort) {
    QImage image(120, 90, QImage::Format_RGB32);
    for (int y = 0; y < 90; ++y) {
        for (int x = 0; x < 120; ++x)
            image.setPixel(x, y, qRgb(x * 2, y * 2, (x * y) & 255));
    }
    for (const char* format : {"png", "jpeg", "bmp", "webp"}) {
        for (const auto depth : {QImage::Format_RGB32, QImage::Format_Grayscale8}) {
            const std::string whole = encoded(image.convertToFormat(depth), format);
            ASSERT_EQ(test::refusalCode(whole), "opened") << format;
            for (const double share : {0.05, 0.3, 0.5, 0.7, 0.9, 0.99}) {
                const auto length = static_cast<std::size_t>(static_cast<double>(whole.size()) * share);
                const auto page = openEmbedded(whole.substr(0, length));
                ASSERT_FALSE(page) << format << " " << share;
                EXPECT_EQ(page.error().code, code::kBrokenPicture) << format << " " << share;
            }
            EXPECT_EQ(test::refusalCode(whole.substr(0, whole.size() - 1)), code::kBrokenPicture) << format;
        }
    }
    const std::string tiff = test::greyTiff(20, 20, {std::string(400, '\x40')});
    // The last four bytes only say that no other picture follows.
    for (std::size_t length = 8; length < tiff.size() - 4; length += 3)
        EXPECT_EQ(test::refusalCode(tiff.substr(0, length)), code::kBrokenPicture) << length;
}

TEST(PictureDecoder, SaysThatAJpegIsCutShort) {
    QImage image(400, 300, QImage::Format_Grayscale8);
    for (int y = 0; y < 300; ++y) {
        for (int x = 0; x < 400; ++x)
            image.scanLine(y)[x] = static_cast<uchar>((x * x + y * 7) & 255);
    }
    const std::string whole = encoded(image, "jpeg");
    const auto page = openEmbedded(whole.substr(0, whole.size() / 2));
    ASSERT_FALSE(page);
    EXPECT_EQ(page.error().facts,
              (Facts{{"format", std::string("JPEG")}, {"why", std::string("cut-short")}}));
    // The same with a proper end mark: the decoder must not make up the rest.
    const auto patched = openEmbedded(whole.substr(0, whole.size() / 2) + "\xFF\xD9");
    ASSERT_FALSE(patched);
    EXPECT_EQ(patched.error().facts,
              (Facts{{"format", std::string("JPEG")}, {"why", std::string("damaged")}}));
}

TEST(PictureDecoder, ForgivesBytesAfterTheEnd) {
    const QImage image = blocks(QImage::Format_RGB32);
    for (const char* format : {"png", "jpeg", "bmp", "tiff"})
        EXPECT_EQ(test::refusalCode(encoded(image, format) + std::string(5000, '\0')), "opened") << format;
}

} // namespace
} // namespace headmark
