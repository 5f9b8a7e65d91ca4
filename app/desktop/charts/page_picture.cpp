#include "app/desktop/charts/page_picture.h"

#include <QtConcurrent>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr int kSmallest_px = 400; // no halving below: any screen shows so many

// The page's own memory; the image keeps the page alive.
QImage imageOf(const std::shared_ptr<const Page>& page) {
    auto* keep = new std::shared_ptr<const Page>(page);
    const auto drop = [](void* kept) { delete static_cast<std::shared_ptr<const Page>*>(kept); };
    if (page->colour.empty())
        return QImage(page->grey.data(), page->width, page->height, page->width, QImage::Format_Grayscale8,
                      drop, keep);
    return QImage(page->colour.data(), page->width, page->height, 3 * page->width, QImage::Format_RGB888,
                  drop, keep);
}

// Means of 2 x 2 pixels; an odd last row or column stands for itself.
QImage halved(const QImage& image) {
    const int channels = image.format() == QImage::Format_RGB888 ? 3 : 1;
    QImage half((image.width() + 1) / 2, (image.height() + 1) / 2, image.format());
    for (int y = 0; y < half.height(); ++y) {
        const uchar* upper = image.constScanLine(2 * y);
        const uchar* lower = image.constScanLine(std::min(2 * y + 1, image.height() - 1));
        uchar* out = half.scanLine(y);
        for (int x = 0; x < half.width(); ++x) {
            const int left = 2 * x * channels;
            const int right = std::min(2 * x + 1, image.width() - 1) * channels;
            for (int c = 0; c < channels; ++c) {
                const int sum = upper[left + c] + upper[right + c] + lower[left + c] + lower[right + c];
                out[x * channels + c] = static_cast<uchar>((sum + 2) / 4);
            }
        }
    }
    return half;
}

std::vector<QImage> halvesOf(QImage image) {
    std::vector<QImage> halves;
    while (std::min(image.width(), image.height()) > 2 * kSmallest_px) {
        image = halved(image);
        halves.push_back(image);
    }
    return halves;
}

} // namespace

PagePicture::PagePicture(QObject* parent) : QObject(parent) {
    connect(&watcher_, &QFutureWatcherBase::finished, this, [this] {
        if (inWork_ != page_ || !page_) return; // of a page before
        const std::vector<QImage> halves = watcher_.result();
        levels_.insert(levels_.end(), halves.begin(), halves.end());
        emit refined();
    });
}

void PagePicture::setPage(std::shared_ptr<const Page> page) {
    if (page == page_) return;
    page_ = std::move(page);
    levels_.clear();
    if (!page_ || page_->width < 1 || page_->height < 1) return;
    levels_.push_back(imageOf(page_));
    inWork_ = page_;
    watcher_.setFuture(QtConcurrent::run(halvesOf, levels_.front()));
}

void PagePicture::draw(QPainter& painter, const QRectF& visible, QPointF corner, double zoom) const {
    if (levels_.empty()) return;
    const QRectF whole(corner, QSizeF(page_->width * zoom, page_->height * zoom));
    const QRectF shown = whole & visible;
    if (shown.isEmpty()) return;
    // The level whose pixels are at most one screen pixel large.
    const int wanted = zoom < 1.0 ? static_cast<int>(std::floor(-std::log2(zoom))) : 0;
    const int level = std::min(wanted, static_cast<int>(levels_.size()) - 1);
    const QImage& image = levels_[static_cast<std::size_t>(level)];
    const double size = zoom * std::exp2(level); // of one pixel of the level on the screen
    // Whole pixels of the level around what is seen, so that their places on the screen are exact.
    const int left = std::max(0, static_cast<int>((shown.left() - corner.x()) / size) - 1);
    const int top = std::max(0, static_cast<int>((shown.top() - corner.y()) / size) - 1);
    const int right = std::min(image.width(), static_cast<int>((shown.right() - corner.x()) / size) + 2);
    const int bottom = std::min(image.height(), static_cast<int>((shown.bottom() - corner.y()) / size) + 2);
    painter.save();
    painter.setClipRect(shown, Qt::IntersectClip);
    constexpr double kSeePixels = 3.0; // from here on the page's pixels are shown as they are
    painter.setRenderHint(QPainter::SmoothPixmapTransform, size < kSeePixels && size != 1.0);
    painter.drawImage(QRectF(corner.x() + left * size, corner.y() + top * size, (right - left) * size,
                             (bottom - top) * size),
                      image, QRectF(left, top, right - left, bottom - top));
    painter.restore();
}

} // namespace headmark
