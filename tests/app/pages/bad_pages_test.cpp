#include "app/pages/page_error_codes.h"
#include "tests/app/pages/page_files.h"
#include "tests/support/process.h"

#include <gtest/gtest.h>

#include <chrono>
#include <random>
#include <set>
#include <sys/stat.h>

namespace headmark {
namespace {

using test::TemporaryFolder;

Error refusalOf(const ChartPage& chart) {
    const auto before = std::chrono::steady_clock::now();
    const auto page = test::open(chart);
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - before;
    EXPECT_LT(taken.count(), 1.0);
    EXPECT_FALSE(page);
    return page ? Error{"opened", "", "", {}} : page.error();
}

ChartPage inFolder(const TemporaryFolder& folder, const std::string& name) {
    ChartPage chart;
    chart.folder = folder.file("");
    chart.path = name;
    return chart;
}

std::string smallPng() {
    QImage image(8, 8, QImage::Format_Grayscale8);
    image.fill(77);
    return test::encoded(image, "png");
}

TEST(FilePages, FindsAPathBesideTheReadingAndAnAbsoluteOne) {
    const TemporaryFolder folder;
    const std::string whole = folder.write("page.png", smallPng());
    EXPECT_TRUE(test::open(inFolder(folder, "page.png")));
    ChartPage absolute = inFolder(folder, whole);
    absolute.folder = "/nowhere";
    EXPECT_TRUE(test::open(absolute));
}

TEST(FilePages, TellsTheTypeByContentNotByName) {
    const TemporaryFolder folder;
    folder.write("page.jpg", smallPng());
    EXPECT_TRUE(test::open(inFolder(folder, "page.jpg")));
    folder.write("page.png",
                 "<?xml version='1.0'?><svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>");
    EXPECT_EQ(refusalOf(inFolder(folder, "page.png")),
              (Error{"not-a-picture", "page.png", "chart.path", {}}));
}

TEST(FilePages, NamesWhatIsNoReadableFile) {
    const TemporaryFolder folder;
    EXPECT_EQ(refusalOf(inFolder(folder, "none.png")), (Error{"no-such-file", "none.png", "chart.path", {}}));
    EXPECT_EQ(refusalOf(inFolder(folder, ".")).code, code::kIsFolder);
    ASSERT_EQ(::mkfifo(folder.file("pipe.png").c_str(), 0600), 0);
    EXPECT_EQ(refusalOf(inFolder(folder, "pipe.png")).code, code::kNotRegularFile);
    EXPECT_EQ(refusalOf(inFolder(folder, "/dev/zero")).code, code::kNotRegularFile);
    folder.write("empty.png", "");
    EXPECT_EQ(refusalOf(inFolder(folder, "empty.png")), (Error{"empty-file", "empty.png", "chart.path", {}}));
    folder.write("page.png", smallPng());
    EXPECT_EQ(refusalOf(inFolder(folder, std::string("page.png\0.txt", 13))).code, code::kNoSuchFile);
    const std::string huge = folder.write("huge.png", "");
    ASSERT_EQ(::truncate(huge.c_str(), 257L * 1024 * 1024), 0);
    EXPECT_EQ(refusalOf(inFolder(folder, "huge.png")).code, code::kFileTooLarge);
}

TEST(FilePages, RefusesAGiganticPictureByItsHeader) {
    EXPECT_EQ(refusalOf(test::embedded(test::pngClaiming(100000, 100000), "image/png")),
              (Error{"picture-too-large",
                     "",
                     "chart.base64",
                     {{"width_px", std::int64_t{100000}},
                      {"height_px", std::int64_t{100000}},
                      {"megapixels", 10000.0},
                      {"limit_megapixels", 100.0}}}));
    EXPECT_EQ(refusalOf(test::embedded(test::pngClaiming(10001, 10000), "image/png")).code,
              code::kPictureTooLarge);
    // Within the limit the data are looked at, and are none.
    EXPECT_EQ(refusalOf(test::embedded(test::pngClaiming(100, 100), "image/png")).code, code::kBrokenPicture);
    EXPECT_EQ(refusalOf(test::embedded(test::pngClaiming(0, 100), "image/png")).code, code::kBrokenPicture);
    EXPECT_EQ(refusalOf(test::embedded(test::pngClaiming(0x7FFFFFFF, 0x7FFFFFFF), "image/png")).code,
              code::kPictureTooLarge);
}

TEST(FilePages, ComparesEmbeddedBytesWithTheirMediaType) {
    EXPECT_TRUE(test::open(test::embedded(smallPng(), "image/png")));
    EXPECT_EQ(refusalOf(test::embedded(smallPng(), "image/jpeg")),
              (Error{"wrong-media-type",
                     "",
                     "chart.media_type",
                     {{"said", std::string("image/jpeg")}, {"found", std::string("image/png")}}}));
    EXPECT_EQ(refusalOf(test::embedded("", "image/png")), (Error{"empty-file", "", "chart.base64", {}}));
    EXPECT_EQ(refusalOf(test::embedded("hello", "image/png")),
              (Error{"not-a-picture", "", "chart.base64", {}}));
}

TEST(FilePages, RefusesKeysOfAPdfBesideAPicture) {
    ChartPage chart = test::embedded(smallPng(), "image/png");
    chart.page = 1;
    EXPECT_EQ(refusalOf(chart), (Error{"page-not-in-pdf",
                                       "",
                                       "chart.page",
                                       {{"key", std::string("page")}, {"format", std::string("PNG")}}}));
    chart.page.reset();
    chart.dpi = 150.0;
    EXPECT_EQ(refusalOf(chart).place, "chart.dpi");
}

TEST(FilePages, RefusesRandomBytesBehindEveryBeginning) {
    using namespace std::string_literals;
    std::mt19937 random(20240);
    for (const std::string& begin : {""s, "\x89PNG\r\n\x1a\n"s, "\xFF\xD8\xFF\xE0"s, "II*\0"s, "MM\0*"s,
                                     "RIFF    WEBP"s, "BM              \x28\0\0\0"s, "%PDF-1.4\n"s}) {
        std::string bytes = begin;
        for (int i = 0; i < 3000; ++i)
            bytes += static_cast<char>(random() & 0xFFU);
        testing::internal::CaptureStderr();
        const std::string found = test::refusalCode(bytes);
        EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
        EXPECT_TRUE(found == code::kBrokenPicture || found == code::kPictureTooLarge ||
                    found == code::kNotAPicture)
            << found;
    }
}

TEST(PageErrorCodes, StandOnceInTheirList) {
    const std::set<std::string_view> different(code::kPageCodes.begin(), code::kPageCodes.end());
    EXPECT_EQ(different.size(), code::kPageCodes.size());
}

} // namespace
} // namespace headmark
