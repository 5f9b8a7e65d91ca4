#pragma once
// Pages drawn for one test: strokes of known centre, thickness and blur on paper of known light.
// A stroke of width w, blurred by sigma s, has the density
//   c (Phi((d + w/2)/s) - Phi((d - w/2)/s))   at the distance d from its middle, Phi the normal distribution,
// overlaid on what is there as ink is: 1 - (1 - a)(1 - b). Pixels are sampled at their centres.

#include "analysis/chart/page.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <functional>
#include <memory>
#include <random>
#include <utility>
#include <vector>

namespace headmark::testing {

struct Pen {
    double width_px = 3.0, blur_px = 0.6;
    double darkness = 0.9;
    InkColour ink{0, 0, 0}; // of a coloured page
};

class DrawnPage {
  public:
    DrawnPage(int width, int height) : width_(width), height_(height) {
        for (auto& channel : light_)
            channel.assign(static_cast<std::size_t>(width * height), 1.0);
    }

    // y = f(x) from x = from to x = to, ends cut square to the page's x; distances by the slope there.
    DrawnPage& curve(const std::function<double(double)>& f, double from, double to, Pen pen = {}) {
        for (int x = std::max(0, static_cast<int>(from)); x <= std::min(width_ - 1, static_cast<int>(to));
             ++x) {
            if (x < from) continue;
            const double slope = f(x + 0.5) - f(x - 0.5), cosine = 1.0 / std::hypot(1.0, slope);
            const double reach = (0.5 * pen.width_px + 5.0 * pen.blur_px) / cosine + 1.0;
            for (int y = std::max(0, static_cast<int>(f(x) - reach));
                 y <= std::min(height_ - 1, static_cast<int>(f(x) + reach) + 1); ++y)
                ink(x, y, density(pen, (y - f(x)) * cosine), pen);
        }
        return *this;
    }

    // A straight stroke in any direction, round at its ends.
    DrawnPage& straight(PixelPoint from, PixelPoint to, Pen pen = {}) {
        const double dx = to.x_px - from.x_px, dy = to.y_px - from.y_px, square = dx * dx + dy * dy;
        for (int y = 0; y < height_; ++y) {
            for (int x = 0; x < width_; ++x) {
                const double s = std::clamp(((x - from.x_px) * dx + (y - from.y_px) * dy) / square, 0.0, 1.0);
                const double away = std::hypot(x - from.x_px - s * dx, y - from.y_px - s * dy);
                if (away < 0.5 * pen.width_px + 5.0 * pen.blur_px + 1.0) ink(x, y, density(pen, away), pen);
            }
        }
        return *this;
    }

    // Rulings across the whole page.
    DrawnPage& rulings(int every_px, Pen pen) {
        for (int x = every_px / 2; x < width_; x += every_px)
            straight({static_cast<double>(x), 0.0}, {static_cast<double>(x), height_ - 1.0}, pen);
        for (int y = every_px / 2; y < height_; y += every_px)
            straight({0.0, static_cast<double>(y)}, {width_ - 1.0, static_cast<double>(y)}, pen);
        return *this;
    }

    DrawnPage& wipe(int left, int top, int right, int bottom) {
        for (auto& channel : light_)
            for (int y = top; y < bottom; ++y)
                for (int x = left; x < right; ++x)
                    channel[index(x, y)] = 1.0;
        return *this;
    }

    // The far side of the page gets this share less of light.
    DrawnPage& unevenLight(double drop) {
        for (auto& channel : light_)
            for (int y = 0; y < height_; ++y)
                for (int x = 0; x < width_; ++x)
                    channel[index(x, y)] *= 1.0 - drop * x / width_;
        return *this;
    }

    [[nodiscard]] Page page(bool colour = false, double noise_grey = 0.0) const {
        std::mt19937 random(5);
        std::normal_distribution<double> noise(0.0, std::max(noise_grey, 1e-9));
        const auto byte = [&](double light) {
            return static_cast<std::uint8_t>(
                std::clamp(std::lround(250.0 * light + noise(random)), 0L, 255L));
        };
        Page p;
        p.width = width_;
        p.height = height_;
        for (std::size_t i = 0; i < light_[0].size(); ++i) {
            const double grey = 0.299 * light_[0][i] + 0.587 * light_[1][i] + 0.114 * light_[2][i];
            p.grey.push_back(byte(grey));
            if (colour)
                for (const auto& channel : light_)
                    p.colour.push_back(byte(channel[i]));
        }
        return p;
    }

  private:
    [[nodiscard]] std::size_t index(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) + static_cast<std::size_t>(x);
    }
    [[nodiscard]] static double density(const Pen& pen, double away) {
        const double s = pen.blur_px * std::sqrt(2.0);
        return 0.5 * pen.darkness *
               (std::erf((away + 0.5 * pen.width_px) / s) - std::erf((away - 0.5 * pen.width_px) / s));
    }
    void ink(int x, int y, double d, const Pen& pen) {
        const double own[3] = {1.0 - pen.ink.red / 255.0, 1.0 - pen.ink.green / 255.0,
                               1.0 - pen.ink.blue / 255.0};
        for (std::size_t c = 0; c < 3; ++c)
            light_[c][index(x, y)] *= 1.0 - d * own[c];
    }

    int width_, height_;
    std::array<std::vector<double>, 3> light_;
};

// Hands out one page.
class OneDrawnPage final : public PageSource {
  public:
    explicit OneDrawnPage(Page page) : page_(std::make_shared<const Page>(std::move(page))) {}
    Result<std::shared_ptr<const Page>> open(const ChartPage&) override { return page_; }

  private:
    std::shared_ptr<const Page> page_;
};

} // namespace headmark::testing
