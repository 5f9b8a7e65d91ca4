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
        // Sums of w t^k and of w d t^k: plain, since this is asked at every step of a path.
        double m0 = 0.0, m1 = 0.0, m2 = 0.0, m3 = 0.0, m4 = 0.0, r0 = 0.0, r1 = 0.0, r2 = 0.0;
        for (std::size_t i = 0; i < n; ++i) {
            const double t = s[i] / scale, t2 = bends ? t * t : 0.0, wd = w[i] * d[i];
            m0 += w[i];
            m1 += w[i] * t;
            m2 += w[i] * t * t;
            m3 += w[i] * t * t2;
            m4 += w[i] * t2 * t2;
            r0 += wd;
            r1 += wd * t;
            r2 += wd * t2;
        }
        const double corner = bends ? m2 : 0.0;
        Eigen::Matrix3d normal;
        normal << m0, m1, corner, m1, m2, m3, corner, m3, m4;
        const Eigen::Vector3d right(r0, r1, r2);
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
