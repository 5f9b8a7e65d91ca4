#include "app/pages/file_pages.h"

#include "analysis/job/json_document.h"
#include "app/pages/page_error_codes.h"
#include "app/pages/page_refusal.h"
#include "app/pages/pdf_page.h"
#include "app/pages/picture_decoder.h"
#include "app/pages/picture_format.h"

#include <filesystem>
#include <new>

namespace headmark {

namespace {

constexpr std::size_t kGreatestPictureBytes = std::size_t{256} * 1024 * 1024;
constexpr int kDefaultPage = 1;

Result<std::string> bytesOfFile(const ChartPage& chart) {
    // A zero byte would end the name early, and open another file.
    if (chart.path.find('\0') != std::string::npos) return refusal(code::kNoSuchFile);
    const std::filesystem::path path = std::filesystem::path(chart.folder) / chart.path;
    return readRegularFile(path.string(), kGreatestPictureBytes);
}

// The key at fault, where it is neither path nor bytes.
std::string_view keyOf(const Error& error) {
    if (error.code == code::kWrongMediaType) return "media_type";
    if (error.code == code::kNoSuchPage) return "page";
    if (error.code == code::kPageNotInPdf) return std::get<std::string>(findFact(error.facts, "key")->value);
    return {};
}

Error placed(Error error, const ChartPage& chart) {
    const std::string_view key = keyOf(error);
    error.file = chart.path;
    error.place = "chart.";
    error.place += !key.empty() ? key : chart.path.empty() ? "base64" : "path";
    return error;
}

Result<Page> pageOfPicture(std::string_view bytes, PictureFormat format, const ChartPage& chart) {
    const auto notInPdf = [&](const char* key) {
        return refusal(code::kPageNotInPdf,
                       {{"key", std::string(key)}, {"format", std::string(formatName(format))}});
    };
    if (chart.page) return notInPdf("page");
    if (chart.dpi != ChartPage().dpi) return notInPdf("dpi");
    return decodePicture(bytes, format);
}

Result<Page> pageOfBytes(std::string_view bytes, const ChartPage& chart) {
    if (bytes.empty()) return refusal(code::kEmptyFile);
    const auto format = formatOf(bytes);
    if (!format) return refusal(code::kNotAPicture);
    if (chart.path.empty() && mediaType(*format) != chart.mediaType) {
        return refusal(code::kWrongMediaType,
                       {{"said", chart.mediaType}, {"found", std::string(mediaType(*format))}});
    }
    if (*format == PictureFormat::pdf)
        return drawPdfPage(bytes, chart.page.value_or(kDefaultPage), chart.dpi);
    return pageOfPicture(bytes, *format, chart);
}

Result<Page> pageOf(const ChartPage& chart) {
    if (chart.path.empty()) return pageOfBytes(chart.bytes ? std::string_view(*chart.bytes) : "", chart);
    const Result<std::string> bytes = bytesOfFile(chart);
    if (!bytes) return bytes.error();
    return pageOfBytes(*bytes, chart);
}

} // namespace

Result<std::shared_ptr<const Page>> FilePages::open(const ChartPage& chart) {
    try {
        Result<Page> page = pageOf(chart);
        if (!page) return placed(page.error(), chart);
        return std::shared_ptr<const Page>(std::make_shared<Page>(std::move(page).value()));
    } catch (const std::bad_alloc&) {
        return placed(refusal(code::kCannotRead, {{"why", std::string("not enough memory")}}), chart);
    }
}

} // namespace headmark
