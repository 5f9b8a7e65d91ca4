#include "hard_ageing.h"

#include <QBuffer>
#include <QByteArray>

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace headmark::pages {

namespace {

cv::Mat planesOf(const QImage& image, bool colour) {
    const QImage rgb = image.convertToFormat(colour ? QImage::Format_RGB888 : QImage::Format_Grayscale8);
    const cv::Mat wrapped(rgb.height(), rgb.width(), colour ? CV_8UC3 : CV_8UC1,
                          const_cast<uchar*>(rgb.constBits()), static_cast<std::size_t>(rgb.bytesPerLine()));
    return wrapped.clone();
}

// The aged page: every pixel the mean of 2 x 2 looks at the drawing through the inverse warp, which is worked
// out at every eighth pixel and is straight in between to a hundredth of a pixel.
cv::Mat resampled(const cv::Mat& fine, double fineByNominal, int width, int height, const KnownWarp& warp) {
    constexpr int kLooks = 2, kCell = 8;
    cv::Mat1f coarseX(height / kCell + 2, width / kCell + 2), coarseY(coarseX.size());
    for (int j = 0; j < coarseX.rows; ++j) {
        for (int i = 0; i < coarseX.cols; ++i) {
            const PixelPoint p = warp.inverse({1.0 * i * kCell, 1.0 * j * kCell});
            coarseX(j, i) = static_cast<float>((p.x_px + 0.5) * fineByNominal - 0.5);
            coarseY(j, i) = static_cast<float>((p.y_px + 0.5) * fineByNominal - 0.5);
        }
    }
    cv::Mat1f mapX(height * kLooks, width * kLooks), mapY(mapX.size());
    for (int y = 0; y < mapX.rows; ++y) {
        const float v = std::max((static_cast<float>(y) + 0.5F) / kLooks - 0.5F, 0.0F) / kCell;
        const int j = static_cast<int>(v);
        const float fv = v - static_cast<float>(j);
        for (int x = 0; x < mapX.cols; ++x) {
            const float u = std::max((static_cast<float>(x) + 0.5F) / kLooks - 0.5F, 0.0F) / kCell;
            const int i = static_cast<int>(u);
            const float fu = u - static_cast<float>(i);
            const auto mixed = [&](const cv::Mat1f& m) {
                return (1 - fv) * ((1 - fu) * m(j, i) + fu * m(j, i + 1)) +
                       fv * ((1 - fu) * m(j + 1, i) + fu * m(j + 1, i + 1));
            };
            mapX(y, x) = mixed(coarseX);
            mapY(y, x) = mixed(coarseY);
        }
    }
    cv::Mat looked, aged;
    cv::remap(fine, looked, mapX, mapY, cv::INTER_LINEAR, cv::BORDER_CONSTANT, cv::Scalar::all(255));
    cv::resize(looked, aged, cv::Size(width, height), 0, 0, cv::INTER_AREA);
    return aged;
}

KnownWarp faxWarp(double stretchX, double stretchY, double turn_rad, PixelPoint centre) {
    const double c = std::cos(turn_rad), s = std::sin(turn_rad);
    KnownWarp warp;
    warp.forward = [=](PixelPoint p) {
        const double x = p.x_px - centre.x_px, y = p.y_px - centre.y_px;
        return PixelPoint{(centre.x_px + c * x - s * y + 0.5) * stretchX - 0.5,
                          (centre.y_px + s * x + c * y + 0.5) * stretchY - 0.5};
    };
    warp.inverse = [=](PixelPoint a) {
        const double x = (a.x_px + 0.5) / stretchX - 0.5 - centre.x_px;
        const double y = (a.y_px + 0.5) / stretchY - 0.5 - centre.y_px;
        return PixelPoint{centre.x_px + c * x + s * y, centre.y_px - s * x + c * y};
    };
    return warp;
}

// Places of the unit page, curled: d = amplitude sin(2 pi (waves . place) + phase), in both directions.
struct Curl {
    double amplitudeX_px = 0, amplitudeY_px = 0, wavesX[2] = {0, 0}, wavesY[2] = {0, 0}, phaseX = 0,
           phaseY = 0;
    double width = 1, height = 1;

    [[nodiscard]] PixelPoint at(PixelPoint p) const {
        const double u = p.x_px / width, v = p.y_px / height;
        constexpr double kTurn = 2.0 * std::numbers::pi;
        return {amplitudeX_px * std::sin(kTurn * (wavesX[0] * u + wavesX[1] * v) + phaseX),
                amplitudeY_px * std::sin(kTurn * (wavesY[0] * u + wavesY[1] * v) + phaseY)};
    }
};

KnownWarp photoWarp(const cv::Matx33d& flatFromAged, const Curl& curl) {
    const cv::Matx33d agedFromFlat = flatFromAged.inv();
    const auto through = [](const cv::Matx33d& m, PixelPoint p) {
        const cv::Vec3d q = m * cv::Vec3d(p.x_px, p.y_px, 1.0);
        return PixelPoint{q[0] / q[2], q[1] / q[2]};
    };
    KnownWarp warp;
    warp.inverse = [=](PixelPoint aged) {
        const PixelPoint flat = through(flatFromAged, aged), d = curl.at(flat);
        return PixelPoint{flat.x_px + d.x_px, flat.y_px + d.y_px};
    };
    warp.forward = [=](PixelPoint nominal) {
        PixelPoint flat = nominal;
        constexpr int kRounds = 12; // each some thirty times nearer
        for (int k = 0; k < kRounds; ++k) {
            const PixelPoint d = curl.at(flat);
            flat = {nominal.x_px - d.x_px, nominal.y_px - d.y_px};
        }
        return through(agedFromFlat, flat);
    };
    return warp;
}

double grain(Dice& dice, double sigma) { return sigma * dice.quickNormal(); }

// Light: falls off to one side, with a soft shade across the page.
void lightAndNoise(cv::Mat& page, Dice& dice) {
    const double towards = dice.between(0.0, 2.0 * std::numbers::pi), drop = dice.between(0.15, 0.45);
    const double shadeAt = dice.between(-0.6, 0.6), shadeWidth = dice.between(0.15, 0.5);
    const double shade = dice.between(0.0, 0.3), noise = dice.between(2.0, 7.0), ink = dice.between(0.7, 1.0);
    const double paper[3] = {dice.between(215, 250), dice.between(210, 245), dice.between(195, 240)};
    const int channels = page.channels();
    for (int y = 0; y < page.rows; ++y) {
        uchar* row = page.ptr<uchar>(y);
        for (int x = 0; x < page.cols; ++x) {
            const double u = 2.0 * x / page.cols - 1.0, v = 2.0 * y / page.rows - 1.0;
            const double along = 0.5 + 0.35 * (u * std::cos(towards) + v * std::sin(towards));
            const double across = u * std::sin(towards) - v * std::cos(towards) - shadeAt;
            const double light =
                (1.0 - drop * along) * (1.0 - shade / (1.0 + std::exp(-across / (0.2 * shadeWidth))));
            for (int c = 0; c < channels; ++c) {
                uchar& value = row[x * channels + c];
                const double reflected = 1.0 - ink * (1.0 - value / 255.0);
                value = cv::saturate_cast<uchar>(paper[channels == 1 ? 0 : c] * reflected * light +
                                                 grain(dice, noise));
            }
        }
    }
}

QImage throughJpeg(const cv::Mat& page, int quality) {
    const QImage image(page.data, page.cols, page.rows, static_cast<int>(page.step[0]),
                       page.channels() == 3 ? QImage::Format_RGB888 : QImage::Format_Grayscale8);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "JPEG", quality);
    return QImage::fromData(bytes, "JPEG");
}

} // namespace

HardPage faxed(const QImage& fine, double dpi, double nominalDpi, Dice& dice) {
    constexpr double kAcross = 204.0, kFine = 196.0, kStandard = 98.0;
    const double down = dice.share() < 0.7 ? kFine : kStandard;
    const double fineByNominal = dpi / nominalDpi;
    const int nominalWidth = static_cast<int>(fine.width() / fineByNominal);
    const int nominalHeight = static_cast<int>(fine.height() / fineByNominal);
    HardPage page;
    page.warp =
        faxWarp(kAcross / nominalDpi, down / nominalDpi, dice.between(-1.0, 1.0) * std::numbers::pi / 180.0,
                {0.5 * nominalWidth, 0.5 * nominalHeight});
    cv::Mat smooth;
    cv::GaussianBlur(planesOf(fine, false), smooth, cv::Size(), 0.35 * dpi / kAcross);
    const cv::Mat grey =
        resampled(smooth, fineByNominal, static_cast<int>(nominalWidth * kAcross / nominalDpi),
                  static_cast<int>(nominalHeight * down / nominalDpi), page.warp);
    const double level = dice.between(120.0, 170.0), noise = dice.between(10.0, 26.0);
    const double specks = dice.between(0.0001, 0.0012);
    page.image = QImage(grey.cols, grey.rows, QImage::Format_Grayscale8);
    for (int y = 0; y < grey.rows; ++y) {
        uchar* out = page.image.scanLine(y);
        for (int x = 0; x < grey.cols; ++x) {
            const bool white = grey.at<uchar>(y, x) + grain(dice, noise) > level;
            out[x] = (white != (dice.share() < specks)) ? 255 : 0;
        }
    }
    return page;
}

HardPage photographed(const QImage& fine, double dpi, double nominalDpi, bool colour, Dice& dice) {
    const double fineByNominal = dpi / nominalDpi;
    const double w = fine.width() / fineByNominal, h = fine.height() / fineByNominal;
    constexpr double kMargin = 0.04, kSlant = 0.035;
    // Where the page's corners lie in the picture, which shows a little more than the page.
    std::vector<cv::Point2f> aged, flat = {{0, 0},
                                           {static_cast<float>(w), 0},
                                           {static_cast<float>(w), static_cast<float>(h)},
                                           {0, static_cast<float>(h)}};
    for (const cv::Point2f& corner : flat)
        aged.emplace_back(static_cast<float>(w * kMargin + corner.x + w * dice.between(-kSlant, kSlant)),
                          static_cast<float>(h * kMargin + corner.y + h * dice.between(-kSlant, kSlant)));
    const cv::Matx33d flatFromAged = cv::getPerspectiveTransform(aged, flat);
    Curl curl;
    curl.width = w;
    curl.height = h;
    curl.amplitudeX_px = dice.between(0.0, 0.0015) * w;
    curl.amplitudeY_px = dice.between(0.0, 0.005) * w;
    curl.wavesX[0] = dice.between(0.1, 0.5);
    curl.wavesX[1] = dice.between(0.1, 0.6);
    curl.wavesY[0] = dice.between(0.4, 1.0);
    curl.wavesY[1] = dice.between(-0.3, 0.3);
    curl.phaseX = dice.between(0.0, 6.0);
    curl.phaseY = dice.between(0.0, 6.0);
    HardPage page;
    page.warp = photoWarp(flatFromAged, curl);
    cv::Mat grey = resampled(planesOf(fine, colour), fineByNominal, static_cast<int>(w * (1 + 2 * kMargin)),
                             static_cast<int>(h * (1 + 2 * kMargin)), page.warp);
    cv::GaussianBlur(grey, grey, cv::Size(), dice.between(0.6, 1.4));
    lightAndNoise(grey, dice);
    page.image = throughJpeg(grey, dice.whole(60, 88));
    return page;
}

} // namespace headmark::pages
