#include "analysis/chart/ink_field.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

// Cells large enough to average the noise away, small enough to lie between the rulings.
constexpr int kPaperCell = 8;
// The lightest of so many cells in each direction is paper: wider than any stroke or letter.
constexpr int kPaperReach = 7;
// A page darker than this is taken as dark paper rather than divided by almost nothing.
constexpr double kDarkestPaper = 40.0;

// The light of the bare paper, coarse.
cv::Mat1f paperOf(const cv::Mat1b& channel) {
    const cv::Size cells((channel.cols + kPaperCell - 1) / kPaperCell,
                         (channel.rows + kPaperCell - 1) / kPaperCell);
    cv::Mat1b coarse;
    cv::resize(channel, coarse, cells, 0.0, 0.0, cv::INTER_AREA);
    cv::dilate(coarse, coarse, cv::Mat::ones(kPaperReach, kPaperReach, CV_8U), cv::Point(-1, -1), 1,
               cv::BORDER_REPLICATE);
    cv::Mat1f paper;
    coarse.convertTo(paper, CV_32F);
    cv::GaussianBlur(paper, paper, cv::Size(kPaperReach, kPaperReach), 0.0, 0.0, cv::BORDER_REPLICATE);
    cv::max(paper, kDarkestPaper, paper);
    return paper;
}

// OpenCV reads through a pointer that is not const; nothing is written.
cv::Mat wrap(const std::vector<std::uint8_t>& bytes, int height, int width, int type) {
    return cv::Mat(height, width, type, const_cast<std::uint8_t*>(bytes.data()));
}

double cellAt(const cv::Mat1f& paper, double x, double y) {
    // Nearest cell: the light varies far more slowly than a cell.
    const int column = std::clamp(static_cast<int>(x) / kPaperCell, 0, paper.cols - 1);
    const int row = std::clamp(static_cast<int>(y) / kPaperCell, 0, paper.rows - 1);
    return static_cast<double>(paper(row, column));
}

double density(double light, double paper) { return std::clamp((paper - light) / paper, 0.0, 1.0); }

} // namespace

InkField::InkField(const Page& page, cv::Rect region)
    : page_(page), region_(region & cv::Rect(0, 0, page.width, page.height)) {
    HEADMARK_ASSERT(!region_.empty(), "an ink field needs a part of the page");
    if (!hasColour()) {
        paper_[0] = paperOf(wrap(page.grey, page.height, page.width, CV_8UC1)(region_));
        return;
    }
    const cv::Mat whole = wrap(page.colour, page.height, page.width, CV_8UC3);
    for (int c = 0; c < 3; ++c) {
        cv::Mat1b channel;
        cv::extractChannel(whole(region_), channel, c);
        paper_[static_cast<std::size_t>(c)] = paperOf(channel);
    }
}

bool InkField::contains(double x, double y) const {
    return region_.width > 1 && region_.height > 1 && x >= region_.x && y >= region_.y &&
           x <= region_.x + region_.width - 1 && y <= region_.y + region_.height - 1;
}

InkDensity InkField::pixelDensity(int x, int y) const {
    const auto index =
        static_cast<std::size_t>(y) * static_cast<std::size_t>(page_.width) + static_cast<std::size_t>(x);
    const double cx = x - region_.x, cy = y - region_.y;
    if (!hasColour()) {
        const double d = density(page_.grey[index], cellAt(paper_[0], cx, cy));
        return {d, d, d};
    }
    InkDensity d{};
    for (std::size_t c = 0; c < 3; ++c)
        d[c] = density(page_.colour[3 * index + c], cellAt(paper_[c], cx, cy));
    return d;
}

double InkField::pixel(int x, int y) const {
    const InkDensity d = pixelDensity(x, y);
    return std::max({d[0], d[1], d[2]});
}

double InkField::at(double x, double y) const {
    if (!contains(x, y)) return 0.0;
    const int left = std::min(static_cast<int>(x), region_.x + region_.width - 2);
    const int top = std::min(static_cast<int>(y), region_.y + region_.height - 2);
    const double fx = x - left, fy = y - top;
    double a, b, c, d;
    if (hasColour()) {
        a = pixel(left, top);
        b = pixel(left + 1, top);
        c = pixel(left, top + 1);
        d = pixel(left + 1, top + 1);
    } else {
        // By far the most frequent question: one look at the paper for all four.
        const double perPaper = 1.0 / cellAt(paper_[0], left - region_.x, top - region_.y);
        const std::uint8_t* row = page_.grey.data() +
                                  static_cast<std::size_t>(top) * static_cast<std::size_t>(page_.width) +
                                  static_cast<std::size_t>(left);
        const std::uint8_t* next = row + page_.width;
        const auto ink = [perPaper](std::uint8_t light) { return std::max(1.0 - light * perPaper, 0.0); };
        a = ink(row[0]);
        b = ink(row[1]);
        c = ink(next[0]);
        d = ink(next[1]);
    }
    return (a * (1.0 - fx) + b * fx) * (1.0 - fy) + (c * (1.0 - fx) + d * fx) * fy;
}

InkDensity InkField::densityAt(double x, double y) const {
    if (!contains(x, y)) return {0.0, 0.0, 0.0};
    const int left = std::min(static_cast<int>(x), region_.x + region_.width - 2);
    const int top = std::min(static_cast<int>(y), region_.y + region_.height - 2);
    const double fx = x - left, fy = y - top;
    const InkDensity a = pixelDensity(left, top), b = pixelDensity(left + 1, top),
                     c = pixelDensity(left, top + 1), d = pixelDensity(left + 1, top + 1);
    InkDensity mixed{};
    for (std::size_t i = 0; i < 3; ++i)
        mixed[i] = (a[i] * (1.0 - fx) + b[i] * fx) * (1.0 - fy) + (c[i] * (1.0 - fx) + d[i] * fx) * fy;
    return mixed;
}

InkDensity densityOf(const InkColour& colour) {
    return {1.0 - colour.red / 255.0, 1.0 - colour.green / 255.0, 1.0 - colour.blue / 255.0};
}

double likeness(const InkDensity& seen, const InkDensity& wanted) {
    const double ss = seen[0] * seen[0] + seen[1] * seen[1] + seen[2] * seen[2];
    const double ww = wanted[0] * wanted[0] + wanted[1] * wanted[1] + wanted[2] * wanted[2];
    // Hardly any ink has no colour to tell by.
    constexpr double kFaint = 0.01;
    if (ss < kFaint || ww < kFaint) return 1.0;
    const double sw = seen[0] * wanted[0] + seen[1] * wanted[1] + seen[2] * wanted[2];
    const double sine2 = std::max(0.0, 1.0 - sw * sw / (ss * ww));
    // Half way at about 17 degrees between the colours: JPEG smears colours by about 10.
    constexpr double kHalfSine2 = 0.085;
    return std::exp2(-sine2 / kHalfSine2);
}

bool isColoured(const InkDensity& d) {
    const double most = std::max({d[0], d[1], d[2]}), least = std::min({d[0], d[1], d[2]});
    return most > 0.15 && (most - least) / most > 0.3;
}

} // namespace headmark
