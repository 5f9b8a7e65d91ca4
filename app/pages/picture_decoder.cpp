#include "app/pages/picture_decoder.h"

#include "analysis/core/assertion.h"
#include "app/pages/decoder_messages.h"
#include "app/pages/page_error_codes.h"
#include "app/pages/page_pixels.h"
#include "app/pages/page_refusal.h"
#include "app/pages/png_check.h"
#include "app/pages/watched_bytes.h"

#include <QImageReader>

#include <algorithm>
#include <cmath>
#include <optional>

namespace headmark {

namespace {

constexpr int kAllocationLimit_MiB = 512;

QByteArray decoderName(PictureFormat format) {
    switch (format) {
    case PictureFormat::png:
        return "png";
    case PictureFormat::jpeg:
        return "jpeg";
    case PictureFormat::tiff:
        return "tiff";
    case PictureFormat::bmp:
        return "bmp";
    case PictureFormat::webp:
        return "webp";
    case PictureFormat::pdf:
        break;
    }
    HEADMARK_ASSERT(false, "a PDF is no picture");
    return {};
}

// Pictures of 64 bits a pixel reach Qt's allocation limit before ours.
double greatestMegapixels(QImage::Format format) {
    const int bits = format == QImage::Format_Invalid ? 32 : QImage::toPixelFormat(format).bitsPerPixel();
    constexpr double kLimit_bytes = kAllocationLimit_MiB * 1024.0 * 1024.0;
    return std::min(kGreatestMegapixels, std::floor(kLimit_bytes / (std::max(bits, 8) / 8.0) / 1e6));
}

// Complaints of the JPEG library after which it goes on with made-up pixels. Bytes too many between two parts
// of a file do no harm, unless they stand inside the picture's data, before a restart marker (D0 to D7).
bool tellsOfMadeUpPixels(const std::string& message) {
    const auto has = [&](const char* part) { return message.find(part) != std::string::npos; };
    return has("premature end") || has("bad Huffman") || has("bad arithmetic") || has("instead of RST") ||
           has("bytes before marker 0xd0") || has("bytes before marker 0xd1") ||
           has("bytes before marker 0xd2") || has("bytes before marker 0xd3") ||
           has("bytes before marker 0xd4") || has("bytes before marker 0xd5") ||
           has("bytes before marker 0xd6") || has("bytes before marker 0xd7");
}

// What is wrong with a picture that the decoder calls good; empty: nothing.
std::string_view hiddenFault(PictureFormat format, const WatchedBytes& device,
                             const DecoderMessages& messages) {
    if (format == PictureFormat::jpeg) {
        if (device.askedBeyondEnd()) return code::kCutShort;
        if (std::any_of(messages.fromQt().begin(), messages.fromQt().end(), tellsOfMadeUpPixels))
            return code::kDamaged;
    }
    if (format == PictureFormat::bmp && device.gotLessThanAsked()) return code::kCutShort;
    if (format == PictureFormat::tiff && messages.tiffErrors()) return code::kDamaged;
    return {};
}

std::optional<Error> pngRefusal(std::string_view bytes) {
    if (const auto wrong = whatIsWrongWithPng(bytes); !wrong.empty())
        return brokenPicture(PictureFormat::png, wrong);
    const auto [width_px, height_px] = claimedPngSize(bytes);
    if (width_px < 1.0 || height_px < 1.0) return brokenPicture(PictureFormat::png, code::kDamaged);
    if (width_px * height_px > kGreatestMegapixels * 1e6)
        return pictureTooLarge(width_px, height_px, kGreatestMegapixels);
    return std::nullopt;
}

std::string_view faultOfUnread(const WatchedBytes& device) {
    return device.askedBeyondEnd() ? code::kCutShort : code::kDamaged;
}

} // namespace

Result<Page> decodePicture(std::string_view bytes, PictureFormat format) {
    if (format == PictureFormat::png) {
        if (auto error = pngRefusal(bytes)) return *error;
    }
    const DecoderMessages messages;
    WatchedBytes device(bytes);
    QImageReader::setAllocationLimit(kAllocationLimit_MiB);
    QImageReader reader;
    reader.setAutoDetectImageFormat(false);
    reader.setFormat(decoderName(format));
    reader.setAutoTransform(true);
    reader.setDevice(&device);
    // The first question loads the plugin, and reads nothing yet.
    if (!reader.supportsOption(QImageIOHandler::Size)) return refusal(code::kNotAPicture);
    if (format == PictureFormat::tiff) DecoderMessages::catchTiffMessages();
    const QSize size = reader.size();
    if (size.isEmpty()) return brokenPicture(format, faultOfUnread(device));
    const double limit_megapixels = greatestMegapixels(reader.imageFormat());
    if (size.width() * 1e-6 * size.height() > limit_megapixels)
        return pictureTooLarge(size.width(), size.height(), limit_megapixels);
    QImage image = reader.read();
    if (image.isNull()) return brokenPicture(format, faultOfUnread(device));
    if (const auto fault = hiddenFault(format, device, messages); !fault.empty())
        return brokenPicture(format, fault);
    return pageFromDecoded(std::move(image));
}

} // namespace headmark
