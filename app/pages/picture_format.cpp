#include "app/pages/picture_format.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace headmark {

namespace {

using namespace std::string_view_literals;

bool looksLikeBmp(std::string_view bytes) {
    if (!bytes.starts_with("BM") || bytes.size() < 18) return false;
    // "BM" also begins words: the size of the second header decides.
    constexpr std::array<unsigned, 7> kHeaderSizes{12, 40, 52, 56, 64, 108, 124};
    unsigned size = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        size |= static_cast<unsigned>(static_cast<unsigned char>(bytes[14 + i])) << (8 * i);
    }
    return std::find(kHeaderSizes.begin(), kHeaderSizes.end(), size) != kHeaderSizes.end();
}

bool looksLikeTiff(std::string_view bytes) {
    constexpr std::array kBeginnings{"II*\0"sv, "MM\0*"sv, "II+\0"sv, "MM\0+"sv};
    return std::any_of(kBeginnings.begin(), kBeginnings.end(),
                       [&](std::string_view begin) { return bytes.starts_with(begin); });
}

} // namespace

std::optional<PictureFormat> formatOf(std::string_view bytes) {
    if (bytes.starts_with("\x89PNG\r\n\x1a\n"sv)) return PictureFormat::png;
    if (bytes.starts_with("\xFF\xD8\xFF"sv)) return PictureFormat::jpeg;
    if (looksLikeTiff(bytes)) return PictureFormat::tiff;
    if (looksLikeBmp(bytes)) return PictureFormat::bmp;
    if (bytes.starts_with("RIFF"sv) && bytes.substr(0, 12).substr(8) == "WEBP"sv) return PictureFormat::webp;
    if (bytes.substr(0, 1024).find("%PDF-"sv) != std::string_view::npos) return PictureFormat::pdf;
    return std::nullopt;
}

std::string_view formatName(PictureFormat format) {
    switch (format) {
    case PictureFormat::png:
        return "PNG";
    case PictureFormat::jpeg:
        return "JPEG";
    case PictureFormat::tiff:
        return "TIFF";
    case PictureFormat::bmp:
        return "BMP";
    case PictureFormat::webp:
        return "WebP";
    case PictureFormat::pdf:
        return "PDF";
    }
    HEADMARK_ASSERT(false, "a format without a name");
    return {};
}

std::string_view mediaType(PictureFormat format) {
    switch (format) {
    case PictureFormat::png:
        return "image/png";
    case PictureFormat::jpeg:
        return "image/jpeg";
    case PictureFormat::tiff:
        return "image/tiff";
    case PictureFormat::bmp:
        return "image/bmp";
    case PictureFormat::webp:
        return "image/webp";
    case PictureFormat::pdf:
        return "application/pdf";
    }
    HEADMARK_ASSERT(false, "a format without a media type");
    return {};
}

} // namespace headmark
