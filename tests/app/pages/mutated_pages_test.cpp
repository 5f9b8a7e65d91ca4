// Small valid files with bytes changed, taken out and put in: whatever comes, an answer comes, soon, and
// nothing is written to stderr behind our back.
#include "app/pages/page_error_codes.h"
#include "tests/app/pages/page_files.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <random>

namespace headmark {
namespace {

class Mutator {
  public:
    explicit Mutator(unsigned seed) : random_(seed) {}

    std::string mutated(std::string bytes) {
        for (unsigned changes = 1 + below(4); changes > 0 && !bytes.empty(); --changes) {
            const std::size_t at = below(bytes.size());
            switch (below(5)) {
            case 0:
                bytes[at] = static_cast<char>(below(256));
                break;
            case 1:
                bytes[at] = static_cast<char>(bytes[at] ^ (1 << below(8)));
                break;
            case 2:
                bytes.erase(at, 1 + below(16));
                break;
            case 3:
                bytes.insert(at, 1 + below(16), static_cast<char>(below(256)));
                break;
            default:
                bytes.replace(at, 4, below(2) == 0 ? "\xFF\xFF\xFF\xFF" : std::string(4, '\0'));
            }
        }
        return bytes;
    }

  private:
    unsigned below(std::size_t limit) { return static_cast<unsigned>(random_() % limit); }

    std::mt19937 random_;
};

QImage smallPicture(QImage::Format format) {
    QImage image(24, 18, QImage::Format_RGB32);
    for (int y = 0; y < 18; ++y) {
        for (int x = 0; x < 24; ++x)
            image.setPixel(x, y, qRgb(x * 10, y * 12, 200));
    }
    return image.convertToFormat(format);
}

void expectAnswersToMutants(const std::vector<std::string>& files, int count) {
    Mutator mutator(4711);
    double longest_s = 0.0;
    testing::internal::CaptureStderr();
    for (int i = 0; i < count; ++i) {
        const auto before = std::chrono::steady_clock::now();
        const auto page =
            test::openEmbedded(mutator.mutated(files[static_cast<std::size_t>(i) % files.size()]));
        const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - before;
        // A mutant may still be a good page, of up to 100 megapixels, and take its time.
        if (!page) longest_s = std::max(longest_s, taken.count());
        if (page) {
            const auto pixels =
                static_cast<std::size_t>((*page)->width) * static_cast<std::size_t>((*page)->height);
            EXPECT_EQ((*page)->grey.size(), pixels);
            EXPECT_TRUE((*page)->colour.empty() || (*page)->colour.size() == 3 * pixels);
        } else {
            EXPECT_NE(std::find(code::kPageCodes.begin(), code::kPageCodes.end(), page.error().code),
                      code::kPageCodes.end())
                << page.error().code;
        }
    }
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
    EXPECT_LT(longest_s, 1.0);
}

TEST(MutatedPages, PngIsAnswered) {
    expectAnswersToMutants({test::encoded(smallPicture(QImage::Format_RGB32), "png"),
                            test::encoded(smallPicture(QImage::Format_Mono), "png")},
                           2000);
}

TEST(MutatedPages, JpegIsAnswered) {
    const std::string grey = test::encoded(smallPicture(QImage::Format_Grayscale8), "jpeg");
    expectAnswersToMutants(
        {grey, test::encoded(smallPicture(QImage::Format_RGB32), "jpeg"), test::withOrientation(grey, 6)},
        2000);
}

TEST(MutatedPages, TiffIsAnswered) {
    expectAnswersToMutants({test::encoded(smallPicture(QImage::Format_RGB32), "tiff"),
                            test::encoded(smallPicture(QImage::Format_Mono), "tiff"),
                            test::greyTiff(10, 10, {std::string(100, '\x50'), std::string(100, '\x60')})},
                           2000);
}

TEST(MutatedPages, BmpIsAnswered) {
    expectAnswersToMutants({test::encoded(smallPicture(QImage::Format_RGB32), "bmp"),
                            test::encoded(smallPicture(QImage::Format_Mono), "bmp")},
                           1500);
}

TEST(MutatedPages, WebpIsAnswered) {
    expectAnswersToMutants({test::encoded(smallPicture(QImage::Format_RGB32), "webp"),
                            test::encoded(smallPicture(QImage::Format_RGB32), "webp", 100)},
                           1500);
}

TEST(MutatedPages, PdfIsAnswered) {
    expectAnswersToMutants(
        {test::pdf({{"/MediaBox[0 0 40 30]", test::blackDiamonds({{20, 10}}, 6)},
                    {"/MediaBox[0 0 30 40]/CropBox[5 5 25 30]/Rotate 90", "0 0 1 RG 2 w 1 1 m 20 25 l S"}})},
        1000);
}

} // namespace
} // namespace headmark
