#include "ageing.h"

#include <QBuffer>
#include <QByteArray>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace headmark::pages {

namespace {

constexpr int kSubsamples = 2; // per pixel and direction

// Channels one after the other, row-major.
struct Planes {
    int width = 0, height = 0, channels = 1;
    std::vector<float> values;

    [[nodiscard]] float* row(int channel, int y) {
        return values.data() + (static_cast<std::size_t>(channel) * static_cast<std::size_t>(height) +
                                static_cast<std::size_t>(y)) *
                                   static_cast<std::size_t>(width);
    }
};

Planes emptyPlanes(int width, int height, int channels) {
    Planes planes{width, height, channels, {}};
    planes.values.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) *
                         static_cast<std::size_t>(channels));
    return planes;
}

// Four neighbours weighted by nearness; beyond the page is unprinted paper.
void addBilinear(const QImage& image, double x, double y, float (&sum)[3]) {
    const double floorX = std::floor(x), floorY = std::floor(y);
    const int left = static_cast<int>(floorX), top = static_cast<int>(floorY);
    const auto fx = static_cast<float>(x - floorX), fy = static_cast<float>(y - floorY);
    const bool inside = left >= 0 && top >= 0 && left + 1 < image.width() && top + 1 < image.height();
    if (!inside) {
        for (float& part : sum)
            part += 255.0F;
        return;
    }
    const auto* upper = reinterpret_cast<const QRgb*>(image.constScanLine(top)) + left;
    const auto* lower = reinterpret_cast<const QRgb*>(image.constScanLine(top + 1)) + left;
    const float weights[4] = {(1 - fx) * (1 - fy), fx * (1 - fy), (1 - fx) * fy, fx * fy};
    const QRgb corners[4] = {upper[0], upper[1], lower[0], lower[1]};
    for (int k = 0; k < 4; ++k) {
        sum[0] += weights[k] * static_cast<float>(qRed(corners[k]));
        sum[1] += weights[k] * static_cast<float>(qGreen(corners[k]));
        sum[2] += weights[k] * static_cast<float>(qBlue(corners[k]));
    }
}

Planes warped(const QImage& fine, int oversample, int width, int height, const Ageing& ageing) {
    Planes planes = emptyPlanes(width, height, ageing.colour ? 3 : 1);
    constexpr float kShare = 1.0F / static_cast<float>(kSubsamples * kSubsamples);
    // The inverse is affine: origin and steps in pixels of the fine drawing.
    const auto fineAt = [&](double x, double y) {
        const PixelPoint nominal = ageing.warp.inverse({x, y});
        return PixelPoint{(nominal.x_px + 0.5) * oversample - 0.5, (nominal.y_px + 0.5) * oversample - 0.5};
    };
    const PixelPoint origin = fineAt(0, 0), right = fineAt(1, 0), down = fineAt(0, 1);
    const double xByX = right.x_px - origin.x_px, yByX = right.y_px - origin.y_px;
    const double xByY = down.x_px - origin.x_px, yByY = down.y_px - origin.y_px;
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            float sum[3] = {0, 0, 0};
            for (int k = 0; k < kSubsamples * kSubsamples; ++k) {
                const double atX = x + (k % kSubsamples + 0.5) / kSubsamples - 0.5;
                const double atY = y + (k / kSubsamples + 0.5) / kSubsamples - 0.5;
                addBilinear(fine, origin.x_px + xByX * atX + xByY * atY,
                            origin.y_px + yByX * atX + yByY * atY, sum);
            }
            if (ageing.colour)
                for (int channel = 0; channel < 3; ++channel)
                    planes.row(channel, y)[x] = sum[channel] * kShare;
            else // luma weights of ITU-R BT.601
                planes.row(0, y)[x] = (0.299F * sum[0] + 0.587F * sum[1] + 0.114F * sum[2]) * kShare;
        }
    }
    return planes;
}

std::vector<float> gaussian(double sigma_px) {
    const int reach = static_cast<int>(std::ceil(4.0 * sigma_px));
    std::vector<float> kernel;
    float sum = 0.0F;
    for (int k = -reach; k <= reach; ++k) {
        kernel.push_back(static_cast<float>(std::exp(-0.5 * k * k / (sigma_px * sigma_px))));
        sum += kernel.back();
    }
    for (float& weight : kernel)
        weight /= sum;
    return kernel;
}

// Along the rows, then down the columns; ends repeated.
void blur(Planes& planes, double sigma_px) {
    if (sigma_px <= 0.0) return;
    const std::vector<float> kernel = gaussian(sigma_px);
    const int reach = static_cast<int>(kernel.size() / 2), width = planes.width, height = planes.height;
    Planes along = emptyPlanes(width, height, 1);
    std::vector<float> padded(static_cast<std::size_t>(width + 2 * reach));
    for (int channel = 0; channel < planes.channels; ++channel) {
        for (int y = 0; y < height; ++y) {
            const float* row = planes.row(channel, y);
            for (int k = -reach; k < width + reach; ++k)
                padded[static_cast<std::size_t>(k + reach)] = row[std::clamp(k, 0, width - 1)];
            float* out = along.row(0, y);
            std::fill(out, out + width, 0.0F);
            for (std::size_t i = 0; i < kernel.size(); ++i)
                for (int x = 0; x < width; ++x)
                    out[x] += kernel[i] * padded[static_cast<std::size_t>(x) + i];
        }
        for (int y = 0; y < height; ++y) {
            float* out = planes.row(channel, y);
            std::fill(out, out + width, 0.0F);
            for (int i = -reach; i <= reach; ++i) {
                const float* row = along.row(0, std::clamp(y + i, 0, height - 1));
                for (int x = 0; x < width; ++x)
                    out[x] += kernel[static_cast<std::size_t>(i + reach)] * row[x];
            }
        }
    }
}

// 0 at the light corner, 1 at the dark one, smooth between.
double darkness(double x, double y, double towards_rad) {
    const double along =
        0.5 + 0.5 * (x * std::cos(towards_rad) + y * std::sin(towards_rad)) / std::numbers::sqrt2;
    return along * along * (3.0 - 2.0 * along);
}

void fadeLightAndNoise(Planes& planes, const Ageing& ageing) {
    Dice dice(ageing.seed);
    for (int y = 0; y < planes.height; ++y) {
        for (int x = 0; x < planes.width; ++x) {
            const double light =
                1.0 - ageing.lightDrop * darkness(2.0 * x / planes.width - 1.0, 2.0 * y / planes.height - 1.0,
                                                  ageing.lightTowards_rad);
            for (int channel = 0; channel < planes.channels; ++channel) {
                float& value = planes.row(channel, y)[x];
                const double reflected = 1.0 - ageing.contrast * (1.0 - static_cast<double>(value) / 255.0);
                value = static_cast<float>(ageing.paper[channel] * reflected * light +
                                           ageing.noise_grey * dice.quickNormal());
            }
        }
    }
}

QImage toImage(Planes& planes) {
    const bool colour = planes.channels == 3;
    QImage image(planes.width, planes.height, colour ? QImage::Format_RGB888 : QImage::Format_Grayscale8);
    for (int y = 0; y < planes.height; ++y) {
        uchar* out = image.scanLine(y);
        for (int x = 0; x < planes.width; ++x)
            for (int channel = 0; channel < planes.channels; ++channel)
                out[x * planes.channels + channel] =
                    static_cast<uchar>(std::lround(std::clamp(planes.row(channel, y)[x], 0.0F, 255.0F)));
    }
    return image;
}

QByteArray jpegOf(const QImage& image, int quality) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "JPEG", quality);
    return bytes;
}

} // namespace

PixelPoint PageWarp::forward(PixelPoint nominal) const {
    const double x = stretchX * (nominal.x_px - centre.x_px), y = stretchY * (nominal.y_px - centre.y_px);
    const double c = std::cos(turn_rad), s = std::sin(turn_rad);
    return {centre.x_px + c * x - s * y + shift.x_px, centre.y_px + s * x + c * y + shift.y_px};
}

PixelPoint PageWarp::inverse(PixelPoint aged) const {
    const double x = aged.x_px - centre.x_px - shift.x_px, y = aged.y_px - centre.y_px - shift.y_px;
    const double c = std::cos(turn_rad), s = std::sin(turn_rad);
    return {centre.x_px + (c * x + s * y) / stretchX, centre.y_px + (c * y - s * x) / stretchY};
}

Ageing drawAgeing(Dice& dice, int width, int height, bool colour) {
    Ageing ageing;
    ageing.warp.turn_rad = dice.between(-1.5, 1.5) * std::numbers::pi / 180.0;
    ageing.warp.stretchX = 1.0 + dice.between(-0.0025, 0.0025);
    ageing.warp.stretchY = 1.0 + dice.between(-0.0025, 0.0025);
    ageing.warp.centre = {0.5 * (width - 1), 0.5 * (height - 1)};
    ageing.warp.shift = {dice.between(-4.0, 4.0), dice.between(-4.0, 4.0)};
    ageing.blur_px = dice.between(0.5, 1.2);
    ageing.contrast = dice.between(0.5, 1.0);
    ageing.noise_grey = dice.between(3.0, 12.0);
    ageing.lightDrop = dice.between(0.05, 0.25);
    ageing.lightTowards_rad = dice.between(0.0, 2.0 * std::numbers::pi);
    const double yellowing = colour ? dice.between(0.0, 16.0) : 0.0;
    ageing.paper[0] = dice.between(238.0, 250.0);
    ageing.paper[1] = ageing.paper[0] - 0.3 * yellowing;
    ageing.paper[2] = ageing.paper[0] - yellowing;
    ageing.jpegQuality = dice.whole(60, 90);
    ageing.colour = colour;
    ageing.seed = dice.next();
    return ageing;
}

QByteArray ageToJpeg(const QImage& fine, int oversample, int width, int height, const Ageing& ageing) {
    Planes planes = warped(fine.convertToFormat(QImage::Format_RGB32), oversample, width, height, ageing);
    blur(planes, ageing.blur_px);
    fadeLightAndNoise(planes, ageing);
    return jpegOf(toImage(planes), ageing.jpegQuality);
}

QImage age(const QImage& fine, int oversample, int width, int height, const Ageing& ageing) {
    return QImage::fromData(ageToJpeg(fine, oversample, width, height, ageing), "JPEG");
}

} // namespace headmark::pages
