#include "app/pages/page_error_codes.h"
#include "app/pages/pdf_resolution.h"
#include "tests/app/pages/page_files.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using test::blackDiamonds;
using test::pdf;

using Points = std::vector<std::pair<double, double>>;

constexpr double kWidth_pt = 9.0;

std::shared_ptr<const Page> draw(const std::string& file, double dpi, std::optional<int> number = {}) {
    ChartPage chart = test::embedded(file, "application/pdf");
    chart.dpi = dpi;
    chart.page = number;
    auto page = test::open(chart);
    EXPECT_TRUE(page) << (page ? "" : page.error().code);
    return page ? *page : nullptr;
}

// Centre of the ink within a diamond's width of where it should be, in pixels of the reading.
PixelPoint centreOfInk(const Page& page, PixelPoint near_px, double dpi) {
    const double reach = kWidth_pt * dpi / 72.0 * page.scale;
    const double x0 = (near_px.x_px + 0.5) * page.scale - 0.5, y0 = (near_px.y_px + 0.5) * page.scale - 0.5;
    double ink = 0.0, x_ink = 0.0, y_ink = 0.0;
    for (int y = std::max(0, int(y0 - reach)); y <= std::min(page.height - 1, int(y0 + reach)); ++y) {
        for (int x = std::max(0, int(x0 - reach)); x <= std::min(page.width - 1, int(x0 + reach)); ++x) {
            const double dark = 255.0 - test::greyAt(page, x, y);
            ink += dark;
            x_ink += dark * x;
            y_ink += dark * y;
        }
    }
    return {(x_ink / ink + 0.5) / page.scale - 0.5, (y_ink / ink + 0.5) / page.scale - 0.5};
}

// seen_pt: from the top-left corner of the page as seen, x right, y down.
void expectDiamonds(const std::string& file, const Points& seen_pt, double dpi) {
    const auto page = draw(file, dpi);
    ASSERT_TRUE(page);
    // A twentieth of a pixel, of the reading or as drawn, whichever is coarser: what the contract's
    // convention is held to.
    const double tolerance_px = 0.05 * std::max(1.0, 1.0 / page->scale);
    for (const auto& [x_pt, y_pt] : seen_pt) {
        // contract.md, "Reading file": pixel x = pt dpi / 72 - 0.5
        const PixelPoint expected{x_pt * dpi / 72.0 - 0.5, y_pt * dpi / 72.0 - 0.5};
        const PixelPoint found = centreOfInk(*page, expected, dpi);
        EXPECT_NEAR(found.x_px, expected.x_px, tolerance_px) << dpi << " dpi, scale " << page->scale;
        EXPECT_NEAR(found.y_px, expected.y_px, tolerance_px) << dpi << " dpi, scale " << page->scale;
    }
}

constexpr double kResolutions[] = {72.0, 150.0, 300.0, 1200.0};

TEST(PdfPage, PutsPointsWhereTheContractSays) {
    // A4 is no whole number of points, and of pixels at no resolution.
    const double h = 841.89;
    const Points user{{30, 30}, {560.3, 30.1}, {31.7, 810.2}, {297.6, 420.9}, {565.1, 811.3}};
    Points seen;
    for (const auto& [x, y] : user)
        seen.emplace_back(x, h - y);
    const std::string file = pdf({{"/MediaBox[0 0 595.276 841.89]", blackDiamonds(user, kWidth_pt)}});
    for (const double dpi : kResolutions)
        expectDiamonds(file, seen, dpi);
}

TEST(PdfPage, PutsPointsRightOnSmallAndLongPages) {
    struct Sheet {
        double width_pt, height_pt;
    };
    for (const Sheet sheet :
         {Sheet{61.3, 47.9}, Sheet{200.1, 53.3}, Sheet{333.33, 777.77}, Sheet{842, 595}}) {
        const Points user{
            {12, 12}, {sheet.width_pt - 12.4, 13.1}, {sheet.width_pt - 13, sheet.height_pt - 12}};
        Points seen;
        for (const auto& [x, y] : user)
            seen.emplace_back(x, sheet.height_pt - y);
        const std::string box =
            "/MediaBox[0 0 " + std::to_string(sheet.width_pt) + " " + std::to_string(sheet.height_pt) + "]";
        for (const double dpi : kResolutions)
            expectDiamonds(pdf({{box, blackDiamonds(user, kWidth_pt)}}), seen, dpi);
    }
}

TEST(PdfPage, CountsFromTheCropBox) {
    const Points user{{120, 250}, {290.5, 481.2}, {160, 300.3}};
    Points seen;
    for (const auto& [x, y] : user)
        seen.emplace_back(x - 100.3, 500.7 - y);
    const std::string file = pdf(
        {{"/MediaBox[-20 -30 595 842]/CropBox[100.3 220.2 310.1 500.7]", blackDiamonds(user, kWidth_pt)}});
    for (const double dpi : kResolutions)
        expectDiamonds(file, seen, dpi);
}

TEST(PdfPage, CountsAfterThePageIsTurned) {
    const double left = 10, bottom = 20, right = 310.4, top = 220.9;
    const Points user{{40, 50}, {280, 60}, {100, 190.5}};
    const std::string box = "/MediaBox[10 20 310.4 220.9]/Rotate ";
    // ISO 32000-1, table 30: turned clockwise when shown.
    Points quarter, half, threeQuarters;
    for (const auto& [x, y] : user) {
        quarter.emplace_back(y - bottom, x - left);
        half.emplace_back(right - x, y - bottom);
        threeQuarters.emplace_back(top - y, right - x);
    }
    for (const double dpi : {72.0, 300.0, 1200.0}) {
        expectDiamonds(pdf({{box + "90", blackDiamonds(user, kWidth_pt)}}), quarter, dpi);
        expectDiamonds(pdf({{box + "180", blackDiamonds(user, kWidth_pt)}}), half, dpi);
        expectDiamonds(pdf({{box + "270", blackDiamonds(user, kWidth_pt)}}), threeQuarters, dpi);
    }
}

TEST(PdfPage, IsDrawnAtAUsefulResolutionWhateverTheReadingSays) {
    const std::string file = pdf({{"/MediaBox[0 0 720 720]", ""}});
    // 720 pt are 10 inches.
    for (const auto& [dpi, drawn] : {std::pair{10.0, 160.0},
                                     {72.0, 288.0},
                                     {150.0, 150.0},
                                     {300.0, 300.0},
                                     {400.0, 400.0},
                                     {600.0, 300.0},
                                     {1200.0, 300.0},
                                     {4800.0, 300.0}}) {
        const auto page = draw(file, dpi);
        ASSERT_TRUE(page);
        EXPECT_EQ(page->width, static_cast<int>(10 * drawn)) << dpi;
        EXPECT_NEAR(page->scale, drawn / dpi, 1e-9) << dpi;
    }
}

TEST(PdfPage, KeepsAScanThatFillsThePagePixelForPixel) {
    // A4 as a scanner wraps it: 2480 x 3508 pixels at 300 dpi.
    const PdfResolution drawn = pdfResolution(2480 * 0.24, 3508 * 0.24, 300.0);
    EXPECT_EQ(drawn.width_px, 2480);
    EXPECT_EQ(drawn.height_px, 3508);
    EXPECT_NEAR(drawn.scale, 1.0, 1e-12);
}

TEST(PdfPage, LiesOnWhiteAndKeepsColour) {
    const std::string content = "1 0 0 rg 20 20 30 30 re f";
    const auto page = draw(pdf({{"/MediaBox[0 0 72 72]", content}}), 300.0);
    ASSERT_TRUE(page);
    ASSERT_EQ(page->width, 300);
    EXPECT_EQ(test::colourAt(*page, 5, 5), (std::vector<int>{255, 255, 255}));
    EXPECT_EQ(test::colourAt(*page, 150, 150), (std::vector<int>{255, 0, 0}));
    const auto plain = draw(pdf({{"/MediaBox[0 0 72 72]", "0.5 g 20 20 30 30 re f"}}), 300.0);
    EXPECT_TRUE(plain->colour.empty());
    EXPECT_NEAR(test::greyAt(*plain, 150, 150), 127.5, 1.0);
}

TEST(PdfPage, OpensThePageNamed) {
    const std::string file = pdf({{"/MediaBox[0 0 72 72]", ""}, {"/MediaBox[0 0 72 144]", ""}});
    EXPECT_EQ(draw(file, 300)->height, 300);
    EXPECT_EQ(draw(file, 300, 1)->height, 300);
    EXPECT_EQ(draw(file, 300, 2)->height, 600);
}

TEST(PdfPage, SaysHowManyPagesThereAre) {
    ChartPage chart = test::embedded(pdf({{"/MediaBox[0 0 72 72]", ""}}), "application/pdf");
    for (const int number : {2, 1'000'000}) {
        chart.page = number;
        const auto page = test::open(chart);
        ASSERT_FALSE(page);
        EXPECT_EQ(page.error(), (Error{"no-such-page",
                                       "",
                                       "chart.page",
                                       {{"page", std::int64_t{number}}, {"pages", std::int64_t{1}}}}));
    }
}

TEST(PdfPage, SaysThatItAsksForAPassword) {
    // An encryption dictionary (ISO 32000-1, 7.6.3) whose user key fits no empty password.
    const std::string key(64, 'A');
    const std::string trailer =
        "/Encrypt<</Filter/Standard/V 1/R 2/P -4/O<" + key + ">/U<" + key +
        ">>>/ID[<00112233445566778899AABBCCDDEEFF><00112233445566778899AABBCCDDEEFF>]";
    EXPECT_EQ(test::refusalCode(pdf({{"/MediaBox[0 0 72 72]", ""}}, trailer)), code::kLockedPdf);
}

TEST(PdfPage, IsRefusedWhereItWouldBeDrawnTooLarge) {
    const auto page = test::openEmbedded(pdf({{"/MediaBox[0 0 14400 14400]", ""}}));
    ASSERT_FALSE(page);
    // 14400 pt x 300 / 72 = 60000 px
    EXPECT_EQ(page.error(), (Error{"picture-too-large",
                                   "",
                                   "chart.base64",
                                   {{"width_px", std::int64_t{60000}},
                                    {"height_px", std::int64_t{60000}},
                                    {"megapixels", 3600.0},
                                    {"limit_megapixels", 100.0}}}));
    // A page may claim any size.
    EXPECT_EQ(test::refusalCode(pdf({{"/MediaBox[0 0 900000000 900000000]", ""}})), code::kPictureTooLarge);
}

TEST(PdfPage, IsRefusedWhenCutShort) {
    const std::string whole = pdf({{"/MediaBox[0 0 72 72]", blackDiamonds({{30, 30}}, 9)}});
    for (std::size_t length = 5; length + 7 < whole.size(); length += 11)
        EXPECT_EQ(test::refusalCode(whole.substr(0, length)), code::kBrokenPicture) << length;
    EXPECT_EQ(test::refusalCode(whole + std::string(4000, '\0')), "opened");
}

} // namespace
} // namespace headmark
