#include "analysis/chart/local_parabola.h"

#include <gtest/gtest.h>

#include <numbers>

namespace headmark {
namespace {

std::vector<PathPoint> along(int count, double step, double (*f)(double)) {
    std::vector<PathPoint> points;
    for (int i = 0; i < count; ++i) {
        PathPoint p;
        p.at = {i * step, f(i * step)};
        p.along = {1.0, 0.0};
        p.arc_px = i * step;
        points.push_back(p);
    }
    return points;
}

TEST(LocalParabola, GoesThroughAParabolaAndOn) {
    const auto points = along(50, 1.0, [](double x) { return 5.0 + 0.3 * x - 0.004 * x * x; });
    const LocalParabola p(points, points.back().at, {1.0, 0.0});
    // At x = 59: 5 + 17.7 - 13.924
    const PagePoint ahead = p.at(10.0);
    EXPECT_NEAR(ahead.x, 59.0, 1e-9);
    EXPECT_NEAR(ahead.y, 8.776, 1e-6);
    // slope 0.3 - 0.008 59 = -0.172
    EXPECT_NEAR(p.directionAt(10.0).y / p.directionAt(10.0).x, -0.172, 1e-6);
    EXPECT_NEAR(p.offsetOf({59.0, 10.776}), 2.0, 1e-6);
}

TEST(LocalParabola, AShortStretchIsStraight) {
    const auto points = along(20, 1.0, [](double x) { return 0.05 * x * x; });
    const LocalParabola p(points, points.back().at, {1.0, 0.0});
    EXPECT_NEAR(p.directionAt(0.0).y / p.directionAt(0.0).x, p.directionAt(50.0).y / p.directionAt(50.0).x,
                1e-12);
}

TEST(LocalParabola, OneFarPointPullsLittle) {
    auto points = along(60, 1.0, [](double) { return 0.0; });
    points[30].at.y = 4.0;
    const LocalParabola p(points, points[30].at, {1.0, 0.0});
    // Unweighted the mean alone would move by 4/60 = 0.07, at the middle of a parabola by 9/4 of it.
    EXPECT_NEAR(p.at(0.0).y, 0.0, 0.02);
}

TEST(LocalParabola, TurnsWithThePage) {
    const auto level = along(50, 1.0, [](double x) { return 0.002 * x * x; });
    auto upright = level;
    for (PathPoint& q : upright)
        q.at = {-q.at.y, q.at.x};
    const PagePoint a = LocalParabola(level, level.back().at, {1.0, 0.0}).at(8.0);
    const PagePoint b = LocalParabola(upright, upright.back().at, {0.0, 1.0}).at(8.0);
    EXPECT_NEAR(b.x, -a.y, 1e-9);
    EXPECT_NEAR(b.y, a.x, 1e-9);
}

} // namespace
} // namespace headmark
