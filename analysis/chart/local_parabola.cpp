#include "analysis/chart/local_parabola.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <vector>

namespace headmark {

namespace {

constexpr std::size_t kLeastForBend = 10;
constexpr double kLeastStretch_px = 30.0;

} // namespace

LocalParabola::LocalParabola(std::span<const PathPoint> stretch, PagePoint origin, PagePoint direction)
    : origin_(origin), along_(direction), normal_{-direction.y, direction.x} {
    const std::size_t n = stretch.size();
    std::vector<double> s(n), d(n), w(n, 1.0);
    double least = 0.0, most = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        s[i] = dot(stretch[i].at - origin_, along_);
        d[i] = dot(stretch[i].at - origin_, normal_);
        least = i == 0 ? s[i] : std::min(least, s[i]);
        most = i == 0 ? s[i] : std::max(most, s[i]);
    }
    const bool bends = n >= kLeastForBend && most - least >= kLeastStretch_px;
    const double scale = std::max(most - least, 1.0);
    for (int round = 0; round < 2; ++round) {
        Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();
        Eigen::Vector3d right = Eigen::Vector3d::Zero();
        for (std::size_t i = 0; i < n; ++i) {
            const double t = s[i] / scale;
            const Eigen::Vector3d row(1.0, t, bends ? t * t : 0.0);
            normal += w[i] * row * row.transpose();
            right += w[i] * d[i] * row;
        }
        if (!bends) normal(2, 2) = 1.0;
        normal.diagonal().array() += 1e-12;
        const Eigen::Vector3d c = normal.ldlt().solve(right);
        a_ = c[0];
        b_ = c[1] / scale;
        c_ = c[2] / (scale * scale);
        // Once more with the far ones weighed down (Cauchy, at twice the median distance).
        std::vector<double> off(n);
        for (std::size_t i = 0; i < n; ++i)
            off[i] = std::abs(d[i] - (a_ + b_ * s[i] + c_ * s[i] * s[i]));
        std::vector<double> sorted = off;
        std::nth_element(sorted.begin(), sorted.begin() + static_cast<std::ptrdiff_t>(n / 2), sorted.end());
        const double reach = std::max(2.0 * sorted[n / 2], 0.1);
        for (std::size_t i = 0; i < n; ++i)
            w[i] = 1.0 / (1.0 + off[i] * off[i] / (reach * reach));
    }
}

PagePoint LocalParabola::at(double s) const {
    return origin_ + s * along_ + (a_ + b_ * s + c_ * s * s) * normal_;
}

PagePoint LocalParabola::directionAt(double s) const {
    const PagePoint d = along_ + (b_ + 2.0 * c_ * s) * normal_;
    return (1.0 / length(d)) * d;
}

double LocalParabola::offsetOf(PagePoint p) const {
    const double s = dot(p - origin_, along_);
    return dot(p - origin_, normal_) - (a_ + b_ * s + c_ * s * s);
}

} // namespace headmark
