#include "analysis/chart/mapping.h"

#include "analysis/core/assertion.h"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace headmark {
namespace {

enum : std::size_t { a0, a1, a2, b0, b1, b2, c1, c2, r0, r1 };

// Keeps figures beyond the vanishing line, and of log axes far off the paper, finite.
constexpr double kLeastDeterminant = 1e-9;
constexpr double kLeastW = 1e-9;
constexpr double kGreatestExponent = 300.0;

double awayFromZero(double number, double least) {
    return std::abs(number) >= least ? number : std::copysign(least, number);
}

} // namespace

double ScaledAxis::scaledFrom(double figure) const {
    if (scale == AxisScale::linear) return (figure - centre) / halfRange;
    return (std::log10(std::max(figure, std::numeric_limits<double>::min())) - centre) / halfRange;
}

double ScaledAxis::figureFrom(double scaled) const {
    const double straight = centre + halfRange * scaled;
    if (scale == AxisScale::linear) return straight;
    return std::pow(10.0, std::clamp(straight, -kGreatestExponent, kGreatestExponent));
}

double ScaledAxis::figureByScaled(double scaled) const {
    return scale == AxisScale::linear ? halfRange : std::numbers::ln10 * halfRange * figureFrom(scaled);
}

SmoothWarp::Coefficients SmoothWarp::terms(double atU, double atV) {
    Coefficients t;
    int k = 0;
    double byU = 1.0;
    for (int i = 0; i <= kDegree; ++i, byU *= atU) {
        double both = byU;
        for (int j = 0; i + j <= kDegree; ++j, both *= atV)
            t[k++] = both;
    }
    return t;
}

Eigen::Vector2d SmoothWarp::shift(double atU, double atV) const {
    if (!active) return Eigen::Vector2d::Zero();
    const Coefficients t = terms(std::clamp(atU, -rim, rim), std::clamp(atV, -rim, rim));
    return {u.dot(t), v.dot(t)};
}

Eigen::Matrix2d SmoothWarp::byPlace(double atU, double atV) const {
    Eigen::Matrix2d result = Eigen::Matrix2d::Identity();
    if (!active) return result;
    constexpr double kStep = 1e-4;
    result.col(0) += (shift(atU + kStep, atV) - shift(atU - kStep, atV)) / (2.0 * kStep);
    result.col(1) += (shift(atU, atV + kStep) - shift(atU, atV - kStep)) / (2.0 * kStep);
    return result;
}

const ScaledAxis& ChartMapping::valueAxis(ValueAxis axis) const {
    const ScaledAxis& chosen = axis == ValueAxis::left ? left_ : right_;
    HEADMARK_ASSERT(chosen.halfRange > 0.0, "no pins gave this value axis a scale");
    return chosen;
}

bool ChartMapping::hasAxis(ValueAxis axis) const {
    return (axis == ValueAxis::left ? left_ : right_).halfRange > 0.0;
}

bool ChartMapping::onOwnScale(ValueAxis axis) const { return axis == ValueAxis::right && rightIsOwnScale_; }

double ChartMapping::ownScaled(double v, ValueAxis axis) const {
    return onOwnScale(axis) ? (v - parameters_[r0]) / parameters_[r1] : v;
}

// Two linear equations in u and v: (a1 - c1 x) u + (a2 - c2 x) v = x - a0, and the same with b and y.
ChartMapping::Place ChartMapping::placeOf(PixelPoint at) const {
    const MappingParameters& p = parameters_;
    const double x = (at.x_px - centre_.x_px) / halfExtent_;
    const double y = (at.y_px - centre_.y_px) / halfExtent_;
    const double m11 = p[a1] - p[c1] * x, m12 = p[a2] - p[c2] * x;
    const double m21 = p[b1] - p[c1] * y, m22 = p[b2] - p[c2] * y;
    const double determinant = awayFromZero(m11 * m22 - m12 * m21, kLeastDeterminant);
    Place place{((x - p[a0]) * m22 - (y - p[b0]) * m12) / determinant,
                ((y - p[b0]) * m11 - (x - p[a0]) * m21) / determinant, x, y};
    const Eigen::Vector2d shift = warp_.shift(place.u, place.v);
    place.flatU = place.u + shift[0];
    place.flatV = place.v + shift[1];
    return place;
}

Eigen::Matrix2d ChartMapping::pixelByPlace(const Place& at) const {
    const MappingParameters& p = parameters_;
    const double w = awayFromZero(1.0 + p[c1] * at.u + p[c2] * at.v, kLeastW);
    Eigen::Matrix2d result;
    result << p[a1] - p[c1] * at.x, p[a2] - p[c2] * at.x, p[b1] - p[c1] * at.y, p[b2] - p[c2] * at.y;
    return result / w;
}

// d(flow)/du and d(value)/dv.
Eigen::Vector2d ChartMapping::figuresByScaled(const Place& place, ValueAxis axis) const {
    const double own = valueAxis(axis).figureByScaled(ownScaled(place.flatV, axis));
    return {flow_.figureByScaled(place.flatU), onOwnScale(axis) ? own / parameters_[r1] : own};
}

AxisPoint ChartMapping::axisFromPixel(PixelPoint at, ValueAxis axis) const {
    const Place place = placeOf(at);
    return {flow_.figureFrom(place.flatU), valueAxis(axis).figureFrom(ownScaled(place.flatV, axis))};
}

PixelPoint ChartMapping::pixelFromAxis(AxisPoint at, ValueAxis axis) const {
    const MappingParameters& p = parameters_;
    const double flatU = flow_.scaledFrom(at.flow);
    const double own = valueAxis(axis).scaledFrom(at.value);
    const double flatV = onOwnScale(axis) ? p[r0] + p[r1] * own : own;
    double u = flatU, v = flatV;
    constexpr int kRounds = 8; // the curl's slope is a few hundredths: each some thirty times nearer
    for (int k = 0; k < kRounds && warp_.active; ++k) {
        const Eigen::Vector2d shift = warp_.shift(u, v);
        u = flatU - shift[0];
        v = flatV - shift[1];
    }
    const double w = awayFromZero(1.0 + p[c1] * u + p[c2] * v, kLeastW);
    return {centre_.x_px + halfExtent_ * (p[a0] + p[a1] * u + p[a2] * v) / w,
            centre_.y_px + halfExtent_ * (p[b0] + p[b1] * u + p[b2] * v) / w};
}

Eigen::Matrix2d ChartMapping::axisByPixel(PixelPoint at, ValueAxis axis) const {
    const Place place = placeOf(at);
    return figuresByScaled(place, axis).asDiagonal() * warp_.byPlace(place.u, place.v) *
           pixelByPlace(place).inverse() / halfExtent_;
}

// The pixel is held: d(x, y)/d(u, v) d(u, v) + d(x, y)/dp dp = 0.
Eigen::Matrix2Xd ChartMapping::axisByParameters(PixelPoint at, ValueAxis axis, double scatter_px) const {
    const Place place = placeOf(at);
    const double u = place.u, v = place.v, x = place.x, y = place.y;
    const double w = awayFromZero(1.0 + parameters_[c1] * u + parameters_[c2] * v, kLeastW);
    Eigen::Matrix<double, 2, kMappingParameters> pixelByParameters;
    pixelByParameters << 1.0, u, v, 0.0, 0.0, 0.0, -x * u, -x * v, 0.0, 0.0, //
        0.0, 0.0, 0.0, 1.0, u, v, -y * u, -y * v, 0.0, 0.0;
    Eigen::Matrix<double, 2, kMappingParameters> scaled =
        -warp_.byPlace(u, v) * pixelByPlace(place).inverse() * pixelByParameters / w;
    if (onOwnScale(axis)) { // v = r0 + r1 own
        scaled(1, r0) -= 1.0;
        scaled(1, r1) -= ownScaled(place.flatV, axis);
    }
    const Eigen::Vector2d figures = figuresByScaled(place, axis);
    Eigen::Matrix2Xd result(2, covariance_.cols());
    for (std::size_t i = 0; i < free_.size(); ++i) {
        result.col(static_cast<Eigen::Index>(i)) =
            figures.cwiseProduct(scaled.col(static_cast<Eigen::Index>(free_[i])));
    }
    if (covariance_.cols() > static_cast<Eigen::Index>(free_.size()))
        addDrift(result, place, at, axis, scatter_px);
    return result;
}

void ChartMapping::addDrift(Eigen::Matrix2Xd& by, const Place& place, PixelPoint at, ValueAxis axis,
                            double scatter_px) const {
    auto next = static_cast<Eigen::Index>(free_.size());
    const Eigen::Matrix2d byPixel = axisByPixel(at, axis);
    for (Eigen::Index k = 0; k < 2; ++k)
        by.col(next++) = drift_.shiftOf_px(static_cast<std::size_t>(k), scatter_px) * byPixel.col(k);
    // Along the flow first, since lines run that way, turned so that steep ones meet the waves as well.
    const double along = place.u + 0.5 * place.v;
    for (Eigen::Index k = 0; k < 2; ++k) {
        const Eigen::Vector2d one =
            drift_.wave_px[static_cast<std::size_t>(k)] / std::sqrt(PageDrift::kWaves) * byPixel.col(k);
        for (int wave = 1; wave <= PageDrift::kWaves; ++wave) {
            by.col(next++) = std::sin(0.5 * std::numbers::pi * wave * along) * one;
            by.col(next++) = std::cos(0.5 * std::numbers::pi * wave * along) * one;
        }
    }
    const SmoothWarp::Coefficients terms = SmoothWarp::terms(std::clamp(place.u, -warp_.rim, warp_.rim),
                                                             std::clamp(place.v, -warp_.rim, warp_.rim));
    const Eigen::Vector2d figures = figuresByScaled(place, axis);
    for (const SmoothWarp::Coefficients& error : drift_.ofU)
        by.col(next++) = Eigen::Vector2d(figures[0] * error.dot(terms), 0.0);
    for (const SmoothWarp::Coefficients& error : drift_.ofV)
        by.col(next++) = Eigen::Vector2d(0.0, figures[1] * error.dot(terms));
}

void ChartMapping::widenByDrift() {
    const Eigen::Index own = covariance_.rows(), all = own + static_cast<Eigen::Index>(drift_.count());
    Eigen::MatrixXd wide = Eigen::MatrixXd::Identity(all, all);
    wide.topLeftCorner(own, own) = covariance_;
    covariance_ = std::move(wide);
}

// Strokes put on whole dots are stairs: a line that runs smooth was not. Rulings farther off than dots can
// put them are not all what they are taken for, which no line shows.
double PageDrift::shiftOf_px(std::size_t way, double scatter_px) const {
    constexpr double kOfPrint_px = 0.2, kMisread = 0.7, kLeastScatter_px = 0.05;
    const double all = shift_px[way];
    const double beyond = kMisread * std::sqrt(std::max(all * all - kOfPrint_px * kOfPrint_px, 0.0));
    return std::max(std::min(all, std::max(scatter_px, kLeastScatter_px)), beyond);
}

std::size_t PageDrift::count() const { return 2 + 4 * kWaves + ofU.size() + ofV.size(); }

Eigen::Matrix2d ChartMapping::axisCovariance(PixelPoint at, ValueAxis axis) const {
    const Eigen::Matrix2Xd by = axisByParameters(at, axis);
    return by * covariance_ * by.transpose();
}

} // namespace headmark
