#include "paper_grain.h"

#include <algorithm>
#include <vector>

namespace headmark {

namespace {

// From the sample's pages as the desk shows them at about half their size; lighter is the desk's own white.
constexpr int kDarkestPaper = 200, kLightestPaper = 249, kMostColour = 14;
constexpr int kRulingArm_px = 14, kAround_px = 12;
constexpr double kDarkerBy = 3.0; // grey levels
constexpr double kMostly = 0.85;  // of a ruling's arm is paper, and no ink
constexpr int kPaper = 232, kRuling = 210;

bool isPaper(QRgb p) {
    const auto [least, most] = std::minmax({qRed(p), qGreen(p), qBlue(p)});
    return least >= kDarkestPaper && most <= kLightestPaper && most - least <= kMostColour;
}

// Sums over boxes of the paper alone.
class PaperMeans {
  public:
    explicit PaperMeans(const QImage& picture)
        : width_(picture.width()), height_(picture.height()), sum_(size()), count_(size()) {
        for (int y = 0; y < height_; ++y) {
            double sum = 0.0, count = 0.0;
            for (int x = 0; x < width_; ++x) {
                const QRgb p = picture.pixel(x, y);
                sum += isPaper(p) ? qGreen(p) : 0;
                count += isPaper(p) ? 1 : 0;
                sum_[at(x + 1, y + 1)] = sum_[at(x + 1, y)] + sum;
                count_[at(x + 1, y + 1)] = count_[at(x + 1, y)] + count;
            }
        }
    }

    // White where less than `share` of the box is paper.
    [[nodiscard]] double mean(const QRect& wanted, double share) const {
        const QRect box = wanted & QRect(0, 0, width_, height_);
        const double count = over(count_, box);
        return count > 0.0 && count >= share * box.width() * box.height() ? over(sum_, box) / count : 255.0;
    }

  private:
    [[nodiscard]] std::size_t size() const {
        return static_cast<std::size_t>(width_ + 1) * static_cast<std::size_t>(height_ + 1);
    }
    [[nodiscard]] std::size_t at(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_ + 1) +
               static_cast<std::size_t>(x);
    }
    [[nodiscard]] double over(const std::vector<double>& of, const QRect& box) const {
        const int right = box.x() + box.width(), bottom = box.y() + box.height();
        return of[at(right, bottom)] - of[at(box.x(), bottom)] - of[at(right, box.y())] +
               of[at(box.x(), box.y())];
    }
    int width_, height_;
    std::vector<double> sum_, count_;
};

bool isRuling(const PaperMeans& means, int x, int y) {
    constexpr int kArm = kRulingArm_px + 1;
    const double along =
        std::max(means.mean({x - kRulingArm_px, y, kArm, 1}, kMostly), means.mean({x, y, kArm, 1}, kMostly));
    const double down =
        std::max(means.mean({x, y - kRulingArm_px, 1, kArm}, kMostly), means.mean({x, y, 1, kArm}, kMostly));
    constexpr int kSide = 2 * kAround_px + 1;
    const double around = means.mean({x - kAround_px, y - kAround_px, kSide, kSide}, 0.0);
    return around - std::min(along, down) > kDarkerBy;
}

} // namespace

QImage withoutGrain(const QImage& picture, const QRect& page) {
    const QRect inside = page & picture.rect();
    QImage even = picture.convertToFormat(QImage::Format_RGB32);
    if (inside.isEmpty()) return even;
    const QImage part = even.copy(inside);
    const PaperMeans means(part);
    for (int y = 0; y < part.height(); ++y) {
        for (int x = 0; x < part.width(); ++x) {
            if (!isPaper(part.pixel(x, y))) continue;
            const int grey = isRuling(means, x, y) ? kRuling : kPaper;
            even.setPixel(inside.x() + x, inside.y() + y, qRgb(grey, grey, grey));
        }
    }
    return even;
}

} // namespace headmark
