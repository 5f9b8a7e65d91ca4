#pragma once
// Pictures and PDFs made by hand for the tests, and short ways to open them.

#include "app/pages/file_pages.h"

#include <QImage>

#include <string>
#include <string_view>
#include <vector>

namespace headmark::test {

// Through Qt's own writer; format: "png", "jpeg", "tiff", "bmp", "webp".
[[nodiscard]] std::string encoded(const QImage& image, const char* format, int quality = -1);

// Grey pixels as an uncompressed TIFF; one directory for each picture, all width x height.
[[nodiscard]] std::string greyTiff(int width, int height, const std::vector<std::string>& pictures,
                                   int orientation = 1);

// The JPEG with an Exif block that says this orientation.
[[nodiscard]] std::string withOrientation(const std::string& jpeg, int orientation);

// A colour JPEG in CMYK, 40 x 30, all rgb(200, 60, 30); written by another program.
[[nodiscard]] std::string cmykJpeg();

// An 8-bit grey PNG that claims this size and ends after a few bytes of data; checksums are right.
[[nodiscard]] std::string pngClaiming(unsigned width, unsigned height);

struct PdfPageText {
    std::string boxes;   // "/MediaBox[0 0 100 100]" and whatever else belongs to the page
    std::string content; // drawing operators
};

[[nodiscard]] std::string pdf(const std::vector<PdfPageText>& pages, const std::string& trailerExtra = {});

// Filled black squares standing on a corner, `width` points wide, given by their centres in user space. (The
// renderer moves filled upright rectangles to whole pixels.)
[[nodiscard]] std::string blackDiamonds(const std::vector<std::pair<double, double>>& centres, double width);

[[nodiscard]] Result<std::shared_ptr<const Page>> open(const ChartPage& chart);
[[nodiscard]] Result<std::shared_ptr<const Page>> openEmbedded(std::string bytes);
[[nodiscard]] ChartPage embedded(std::string bytes, std::string mediaType);

// Code of the refusal; "opened" if there was none.
[[nodiscard]] std::string refusalCode(std::string bytes);

[[nodiscard]] int greyAt(const Page& page, int x, int y);
[[nodiscard]] std::vector<int> colourAt(const Page& page, int x, int y);

} // namespace headmark::test
