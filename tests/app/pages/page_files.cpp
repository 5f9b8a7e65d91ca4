#include "tests/app/pages/page_files.h"

#include "analysis/core/assertion.h"
#include "app/pages/picture_format.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QImageWriter>

#include <array>
#include <cstdio>

namespace headmark::test {

namespace {

std::string little(unsigned long value, int bytes) {
    std::string out;
    for (int i = 0; i < bytes; ++i)
        out += static_cast<char>((value >> (8 * i)) & 0xFFU);
    return out;
}

std::string big(unsigned long value) {
    std::string out = little(value, 4);
    return {out.rbegin(), out.rend()};
}

// Bit by bit, as annex D of the PNG specification writes it down.
unsigned long crc32(const std::string& bytes) {
    unsigned long crc = 0xFFFFFFFFUL;
    for (const char byte : bytes) {
        crc ^= static_cast<unsigned char>(byte);
        for (int bit = 0; bit < 8; ++bit)
            crc = (crc & 1UL) != 0 ? (crc >> 1) ^ 0xEDB88320UL : crc >> 1;
    }
    return crc ^ 0xFFFFFFFFUL;
}

std::string chunk(const std::string& type, const std::string& data) {
    return big(data.size()) + type + data + big(crc32(type + data));
}

// Qt's plugins are found through the application.
void needApplication() {
    static int count = 1;
    static char name[] = "test";
    static char* arguments[] = {name, nullptr};
    static const QCoreApplication application(count, arguments);
}

} // namespace

std::string encoded(const QImage& image, const char* format, int quality) {
    needApplication();
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QImageWriter writer(&buffer, format);
    writer.setQuality(quality);
    HEADMARK_ASSERT(writer.write(image), "the test's picture must be writable");
    return bytes.toStdString();
}

std::string greyTiff(int width, int height, const std::vector<std::string>& pictures, int orientation) {
    std::string bytes = "II*" + std::string(1, '\0');
    std::size_t link = bytes.size(); // where the offset of the next directory is to be written
    bytes += little(0, 4);
    for (const std::string& pixels : pictures) {
        const std::size_t data = bytes.size();
        bytes += pixels;
        if (bytes.size() % 2 != 0) bytes += '\0';
        bytes.replace(link, 4, little(bytes.size(), 4));
        const auto w = static_cast<unsigned long>(width), h = static_cast<unsigned long>(height);
        const auto turned = static_cast<unsigned long>(orientation);
        // tag, type (3 short, 4 long), value; in ascending order (TIFF 6.0, section 8)
        const std::vector<std::array<unsigned long, 3>> entries{
            {256, 4, w},    {257, 4, h},      {258, 3, 8}, {259, 3, 1}, {262, 3, 1},
            {273, 4, data}, {274, 3, turned}, {277, 3, 1}, {278, 4, h}, {279, 4, pixels.size()}};
        bytes += little(entries.size(), 2);
        for (const auto& [tag, type, value] : entries)
            bytes += little(tag, 2) + little(type, 2) + little(1, 4) + little(value, 4);
        link = bytes.size();
        bytes += little(0, 4);
    }
    return bytes;
}

std::string withOrientation(const std::string& jpeg, int orientation) {
    // Exif 2.3, 4.5: an APP1 segment with a small TIFF, of which only tag 274 matters here.
    const std::string zero(1, '\0');
    const std::string tiff = "II*" + zero + little(8, 4) + little(1, 2) + little(274, 2) + little(3, 2) +
                             little(1, 4) + little(static_cast<unsigned long>(orientation), 4) + little(0, 4);
    const std::string content = "Exif" + zero + zero + tiff;
    const std::string length = big(content.size() + 2).substr(2);
    return jpeg.substr(0, 2) + "\xFF\xE1" + length + content + jpeg.substr(2);
}

std::string cmykJpeg() {
    return QByteArray::fromBase64(
               "/9j/7gAOQWRvYmUAZAAAAAAC/"
               "9sAQwADAgICAgIDAgICAwMDAwQGBAQEBAQIBgYFBgkICgoJCAkJCgwPDAoLDgsJCQ0RDQ4PEBAR"
               "EAoMEhMSEBMPEBAQ/"
               "9sAQwEDAwMEAwQIBAQIEAsJCxAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQ"
               "EBAQEBAQ/8AAFAgAHgAoBAERAAIRAQMRAQQRAP/EABYAAQEBAAAAAAAAAAAAAAAAAAACCP/"
               "EABQQAQAAAAAAAAAAAAAAAAAAAAD/"
               "xAAVAQEBAAAAAAAAAAAAAAAAAAAACP/EABQRAQAAAAAAAAAAAAAAAAAAAAD/"
               "2gAOBAEAAhEDEQQAAD8AtQqCmwAAAAAAAAAAAAAA"
               "AAAAAAAAAAAB/9k=")
        .toStdString();
}

std::string pngClaiming(unsigned width, unsigned height) {
    const std::string zero(1, '\0');
    const std::string kind = "\x08" + zero + zero + zero + zero; // 8 bits, grey
    return "\x89PNG\r\n\x1a\n" + chunk("IHDR", big(width) + big(height) + kind) + chunk("IDAT", "x") +
           chunk("IEND", "");
}

std::string pdf(const std::vector<PdfPageText>& pages, const std::string& trailerExtra) {
    std::vector<std::string> objects{"<</Type/Catalog/Pages 2 0 R>>", ""};
    std::string kids;
    for (const PdfPageText& page : pages) {
        const std::string number = std::to_string(objects.size() + 1);
        const std::string contentNumber = std::to_string(objects.size() + 2);
        kids += number + " 0 R ";
        objects.push_back("<</Type/Page/Parent 2 0 R" + page.boxes + "/Contents " + contentNumber + " 0 R>>");
        objects.push_back("<</Length " + std::to_string(page.content.size()) + ">>stream\n" + page.content +
                          "\nendstream");
    }
    objects[1] = "<</Type/Pages/Kids[" + kids + "]/Count " + std::to_string(pages.size()) + ">>";
    std::string text = "%PDF-1.4\n", table = "0000000000 65535 f \n";
    for (std::size_t i = 0; i < objects.size(); ++i) {
        char entry[32];
        std::snprintf(entry, sizeof entry, "%010zu 00000 n \n", text.size());
        table += entry;
        text += std::to_string(i + 1) + " 0 obj" + objects[i] + "endobj\n";
    }
    const std::string count = std::to_string(objects.size() + 1), at = std::to_string(text.size());
    return text + "xref\n0 " + count + "\n" + table + "trailer<</Size " + count + "/Root 1 0 R" +
           trailerExtra + ">>\nstartxref\n" + at + "\n%%EOF\n";
}

std::string blackDiamonds(const std::vector<std::pair<double, double>>& centres, double width) {
    std::string content = "0 g\n";
    const double half = width / 2;
    for (const auto& [x, y] : centres) {
        char line[200];
        std::snprintf(line, sizeof line, "%.4f %.4f m %.4f %.4f l %.4f %.4f l %.4f %.4f l h f\n", x - half, y,
                      x, y - half, x + half, y, x, y + half);
        content += line;
    }
    return content;
}

Result<std::shared_ptr<const Page>> open(const ChartPage& chart) {
    needApplication();
    return FilePages().open(chart);
}

ChartPage embedded(std::string bytes, std::string type) {
    ChartPage chart;
    chart.bytes = std::make_shared<const std::string>(std::move(bytes));
    chart.mediaType = std::move(type);
    return chart;
}

Result<std::shared_ptr<const Page>> openEmbedded(std::string bytes) {
    const auto format = formatOf(bytes);
    return open(embedded(std::move(bytes), format ? std::string(mediaType(*format)) : "image/png"));
}

std::string refusalCode(std::string bytes) {
    const auto opened = openEmbedded(std::move(bytes));
    return opened ? "opened" : opened.error().code;
}

int greyAt(const Page& page, int x, int y) {
    return page.grey.at(static_cast<std::size_t>(y * page.width + x));
}

std::vector<int> colourAt(const Page& page, int x, int y) {
    const auto at = 3 * static_cast<std::size_t>(y * page.width + x);
    return {page.colour.at(at), page.colour.at(at + 1), page.colour.at(at + 2)};
}

} // namespace headmark::test
