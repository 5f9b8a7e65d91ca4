#include "app/pages/picture_format.h"

#include "tests/app/pages/page_files.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

using test::encoded;

TEST(PictureFormat, IsToldByTheFirstBytes) {
    QImage image(8, 8, QImage::Format_RGB32);
    image.fill(Qt::white);
    EXPECT_EQ(formatOf(encoded(image, "png")), PictureFormat::png);
    EXPECT_EQ(formatOf(encoded(image, "jpeg")), PictureFormat::jpeg);
    EXPECT_EQ(formatOf(encoded(image, "tiff")), PictureFormat::tiff);
    EXPECT_EQ(formatOf(encoded(image, "bmp")), PictureFormat::bmp);
    EXPECT_EQ(formatOf(encoded(image, "webp")), PictureFormat::webp);
    EXPECT_EQ(formatOf(test::pdf({{"/MediaBox[0 0 9 9]", ""}})), PictureFormat::pdf);
}

TEST(PictureFormat, LeavesTextsAndDrawingsUnknown) {
    EXPECT_FALSE(formatOf(""));
    EXPECT_FALSE(formatOf("<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>"));
    EXPECT_FALSE(formatOf("BM is how this sentence begins, and it goes on."));
    EXPECT_FALSE(formatOf("GIF89a"));
    EXPECT_FALSE(formatOf("RIFF1234WAVEfmt "));
    EXPECT_FALSE(formatOf("\x89PNG"));
}

TEST(PictureFormat, FindsAPdfBehindAFewStrayBytes) {
    const std::string file = test::pdf({{"/MediaBox[0 0 9 9]", ""}});
    EXPECT_EQ(formatOf("\n\n" + file), PictureFormat::pdf);
    EXPECT_FALSE(formatOf(std::string(2000, ' ') + file));
}

} // namespace
} // namespace headmark
