#include "app/pages/pdf_page.h"

#include "app/pages/decoder_messages.h"
#include "app/pages/page_error_codes.h"
#include "app/pages/page_pixels.h"
#include "app/pages/page_refusal.h"
#include "app/pages/pdf_resolution.h"
#include "app/pages/picture_format.h"

#include <QBuffer>
#include <QPdfDocument>

#include <cmath>

namespace headmark {

namespace {

// The mark that ends every PDF stands in its last 1024 bytes (ISO 32000-1 annex H, implementation note 18);
// zeros and blanks that some transfers append do not count. The renderer would repair a file without it, and
// draw what is left of the page.
bool hasEndMark(std::string_view bytes) {
    constexpr std::string_view kPadding(" \t\r\n\f\0", 6);
    const std::size_t last = bytes.find_last_not_of(kPadding);
    if (last == std::string_view::npos) return false;
    const std::string_view content = bytes.substr(0, last + 1);
    return content.substr(content.size() - std::min<std::size_t>(content.size(), 1024)).find("%%EOF") !=
           std::string_view::npos;
}

std::optional<Error> loadRefusal(const QPdfDocument& document) {
    switch (document.error()) {
    case QPdfDocument::Error::None:
        break;
    case QPdfDocument::Error::IncorrectPassword:
    case QPdfDocument::Error::UnsupportedSecurityScheme:
        return refusal(code::kLockedPdf);
    default:
        return brokenPicture(PictureFormat::pdf, code::kDamaged);
    }
    if (document.status() != QPdfDocument::Status::Ready || document.pageCount() < 1)
        return brokenPicture(PictureFormat::pdf, code::kDamaged);
    return std::nullopt;
}

} // namespace

Result<Page> drawPdfPage(std::string_view bytes, int page, double dpi) {
    if (!hasEndMark(bytes)) return brokenPicture(PictureFormat::pdf, code::kCutShort);
    const DecoderMessages messages;
    QByteArray data = QByteArray::fromRawData(bytes.data(), static_cast<qsizetype>(bytes.size()));
    QBuffer device(&data);
    device.open(QIODevice::ReadOnly);
    QPdfDocument document; // after the device: it reads from it to its end
    document.load(&device);
    if (auto error = loadRefusal(document)) return *error;
    if (page < 1 || page > document.pageCount()) {
        return refusal(code::kNoSuchPage, {{"page", static_cast<std::int64_t>(page)},
                                           {"pages", static_cast<std::int64_t>(document.pageCount())}});
    }
    const QSizeF size_pt = document.pagePointSize(page - 1);
    if (!(size_pt.width() > 0.0 && size_pt.height() > 0.0 && std::isfinite(size_pt.width()) &&
          std::isfinite(size_pt.height())))
        return brokenPicture(PictureFormat::pdf, code::kDamaged);
    const PdfResolution drawn = pdfResolution(size_pt.width(), size_pt.height(), dpi);
    if (drawn.width_px * drawn.height_px > kGreatestMegapixels * 1e6)
        return pictureTooLarge(drawn.width_px, drawn.height_px, kGreatestMegapixels);
    QPdfDocumentRenderOptions options;
    options.setRenderFlags(QPdfDocumentRenderOptions::RenderFlag::Annotations);
    const QImage image = document.render(
        page - 1, QSize(static_cast<int>(drawn.width_px), static_cast<int>(drawn.height_px)), options);
    if (image.isNull()) return brokenPicture(PictureFormat::pdf, code::kDamaged);
    Page result = pageFromImage(image);
    result.scale = drawn.scale;
    return result;
}

} // namespace headmark
