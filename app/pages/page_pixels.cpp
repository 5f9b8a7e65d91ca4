#include "app/pages/page_pixels.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <array>
#include <cstring>

#include <sys/mman.h>
#include <unistd.h>

namespace headmark {

namespace {

constexpr int kVisibleDifference = 32;
constexpr std::size_t kLeastColouredPixels = 16;
constexpr int kBandRows = 64;

std::uint8_t greyOf(QRgb c) {
    // 77/256, 150/256 and 29/256 are the weights to 0.002; their sum is 1, so that grey stays what it is.
    return static_cast<std::uint8_t>((77 * qRed(c) + 150 * qGreen(c) + 29 * qBlue(c) + 128) >> 8);
}

bool coloured(QRgb c) {
    const int r = qRed(c), g = qGreen(c), b = qBlue(c);
    return std::max({r, g, b}) - std::min({r, g, b}) > kVisibleDifference;
}

QRgb onWhite(QRgb c) {
    const int a = qAlpha(c);
    const auto mixed = [a](int part) { return (part * a + 255 * (255 - a) + 127) / 255; };
    return qRgb(mixed(qRed(c)), mixed(qGreen(c)), mixed(qBlue(c)));
}

// A view of some rows, without a copy.
QImage band(const QImage& image, int from, int rows) {
    QImage view(image.constScanLine(from), image.width(), rows, image.bytesPerLine(), image.format());
    if (image.colorCount() > 0) view.setColorTable(image.colorTable());
    return view;
}

// Gives the memory of rows that are not looked at again back to the system, before the picture itself goes.
class RowRelease {
  public:
    RowRelease() = default; // gives nothing back
    explicit RowRelease(QImage& own) {
        constexpr qsizetype kLarge_bytes = qsizetype{32} << 20; // below, nobody misses the memory
        if (own.sizeInBytes() < kLarge_bytes || !own.isDetached()) return;
        begin_ = own.bits();
        rowBytes_ = own.bytesPerLine();
        given_ = wholePages(reinterpret_cast<std::uintptr_t>(begin_) + pageBytes() - 1);
    }
    void before(int row) {
        if (!begin_) return;
        const std::uintptr_t end = wholePages(reinterpret_cast<std::uintptr_t>(begin_ + row * rowBytes_));
        if (end <= given_) return;
        // Advice: where it is not taken, the memory goes with the picture.
        (void)madvise(reinterpret_cast<void*>(given_), end - given_, MADV_DONTNEED);
        given_ = end;
    }

  private:
    static std::uintptr_t pageBytes() {
        static const auto bytes = static_cast<std::uintptr_t>(sysconf(_SC_PAGESIZE));
        return bytes;
    }
    static std::uintptr_t wholePages(std::uintptr_t address) { return address / pageBytes() * pageBytes(); }

    uchar* begin_ = nullptr;
    qsizetype rowBytes_ = 0;
    std::uintptr_t given_ = 0; // up to here
};

// Calls use(y, row of QRgb, opaque) for every row.
template <class Use>
void forEachRow(const QImage& image, Use use, RowRelease release = {}) {
    const bool alpha = image.hasAlphaChannel();
    const QImage::Format format = alpha ? QImage::Format_ARGB32 : QImage::Format_RGB32;
    for (int from = 0; from < image.height(); from += kBandRows) {
        const int rows = std::min(kBandRows, image.height() - from);
        QImage part = band(image, from, rows);
        if (part.format() != format) part = std::move(part).convertToFormat(format);
        std::vector<QRgb> mixed(alpha ? static_cast<std::size_t>(image.width()) : 0);
        for (int y = 0; y < rows; ++y) {
            const auto* row = reinterpret_cast<const QRgb*>(part.constScanLine(y));
            if (alpha) {
                std::transform(row, row + image.width(), mixed.begin(), onWhite);
                row = mixed.data();
            }
            use(from + y, row);
        }
        release.before(from + rows);
    }
}

void fillFromColours(const QImage& image, Page& page, const RowRelease& release) {
    const auto width = static_cast<std::size_t>(page.width);
    std::size_t colouredPixels = 0;
    forEachRow(image, [&](int y, const QRgb* row) {
        std::transform(row, row + width, page.grey.data() + static_cast<std::size_t>(y) * width, greyOf);
        colouredPixels += static_cast<std::size_t>(std::count_if(row, row + width, coloured));
    });
    if (colouredPixels < kLeastColouredPixels) return;
    page.colour.reserve(page.grey.size() * 3); // filled row by row while the picture's rows go
    const auto take = [&](int y, const QRgb* row) {
        const std::size_t before = static_cast<std::size_t>(y) * width * 3;
        page.colour.resize(before + width * 3);
        std::uint8_t* out = page.colour.data() + before;
        for (std::size_t x = 0; x < width; ++x, out += 3) {
            out[0] = static_cast<std::uint8_t>(qRed(row[x]));
            out[1] = static_cast<std::uint8_t>(qGreen(row[x]));
            out[2] = static_cast<std::uint8_t>(qBlue(row[x]));
        }
    };
    forEachRow(image, take, release);
}

void fillFromGrey(const QImage& image, Page& page) {
    const auto width = static_cast<std::size_t>(page.width);
    for (int from = 0; from < page.height; from += kBandRows) {
        const int rows = std::min(kBandRows, page.height - from);
        QImage part = band(image, from, rows);
        if (part.format() != QImage::Format_Grayscale8)
            part = std::move(part).convertToFormat(QImage::Format_Grayscale8);
        for (int y = 0; y < rows; ++y) {
            std::memcpy(page.grey.data() + static_cast<std::size_t>(from + y) * width, part.constScanLine(y),
                        width);
        }
    }
}

// Two tones: eight pixels at a time through a table.
void fillFromBits(const QImage& image, Page& page) {
    const bool lowBitFirst = image.format() == QImage::Format_MonoLSB;
    const std::array<std::uint8_t, 2> tones{greyOf(onWhite(image.color(0))), greyOf(onWhite(image.color(1)))};
    std::array<std::array<std::uint8_t, 8>, 256> table{};
    for (unsigned byte = 0; byte < 256; ++byte) {
        for (unsigned i = 0; i < 8; ++i)
            table[byte][i] = tones[(byte >> (lowBitFirst ? i : 7 - i)) & 1U];
    }
    const auto width = static_cast<std::size_t>(page.width);
    for (int y = 0; y < page.height; ++y) {
        const uchar* bits = image.constScanLine(y);
        std::uint8_t* out = page.grey.data() + static_cast<std::size_t>(y) * width;
        std::size_t x = 0;
        for (; x + 8 <= width; x += 8)
            std::memcpy(out + x, table[bits[x / 8]].data(), 8);
        if (x < width) std::memcpy(out + x, table[bits[x / 8]].data(), width - x);
    }
}

bool twoGreys(const QImage& image) {
    if (image.format() != QImage::Format_Mono && image.format() != QImage::Format_MonoLSB) return false;
    return image.colorCount() == 2 && !coloured(image.color(0)) && !coloured(image.color(1));
}

Page pageOf(const QImage& image, const RowRelease& release) {
    HEADMARK_ASSERT(!image.isNull(), "a page needs a picture");
    Page page;
    page.width = image.width();
    page.height = image.height();
    page.grey.resize(static_cast<std::size_t>(page.width) * static_cast<std::size_t>(page.height));
    if (image.format() == QImage::Format_Grayscale8 || image.format() == QImage::Format_Grayscale16) {
        fillFromGrey(image, page);
    } else if (twoGreys(image)) {
        fillFromBits(image, page);
    } else {
        fillFromColours(image, page, release);
    }
    return page;
}

} // namespace

Page pageFromImage(const QImage& image) { return pageOf(image, RowRelease()); }

Page pageFromDecoded(QImage image) {
    HEADMARK_ASSERT(!image.isNull(), "a page needs a picture");
    RowRelease release(image);
    return pageOf(image, release);
}

} // namespace headmark
