#include "analysis/curve/fit_points.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace headmark {
namespace {

using Samples = std::vector<CurveSample>;

template <class Function>
Samples sampled(double least, double greatest, int count, Function&& function) {
    Samples samples;
    for (int i = 0; i < count; ++i) {
        const double flow = least + (greatest - least) * i / (count - 1);
        samples.push_back({flow, function(flow)});
    }
    return samples;
}

double pumpLike(double flow) { return 43.0 + 20.0 * flow - 9000.0 * flow * flow; }

bool hasMinimumInside(const PolynomialCurve& curve) {
    // Independent of the curve's own turning points: a fine scan for a slope that goes from down to up.
    bool fallen = false;
    const double step = (curve.greatest_m3_s() - curve.least_m3_s()) / 4000.0;
    for (int i = 0; i < 4000; ++i) {
        const double flow = curve.least_m3_s() + step * i;
        const double change = curve.at(flow + step) - curve.at(flow);
        if (change < -1e-9) fallen = true;
        if (fallen && change > 1e-9) return true;
    }
    return false;
}

TEST(FitPoints, PassesThroughUpToFourPoints) {
    const Samples all = {{0.0, 43.0}, {0.0022, 38.0}, {0.0039, 27.0}, {0.0041, 25.4}};
    for (std::size_t count = 2; count <= all.size(); ++count) {
        const Samples points(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(count));
        const auto fit = fitPoints(points, CurveSense::oneMaximum);
        ASSERT_TRUE(fit.ok());
        EXPECT_EQ(fit->curve.degree(), static_cast<int>(count) - 1);
        for (const CurveSample& point : points)
            EXPECT_NEAR(fit->curve.at(point.flow_m3_s), point.value, 1e-12 * 43.0);
        EXPECT_EQ(fit->curve.covariance().size(), 0) << "up to four points are taken as exact";
        EXPECT_EQ(fit->curve.sigmaAt(0.001), 0.0);
        EXPECT_LT(fit->greatestResidual, 1e-12 * 43.0);
    }
}

TEST(FitPoints, CoversExactlyTheFlowsOfItsPoints) {
    const auto fit = fitPoints({{0.004, 20.0}, {0.0, 40.0}, {0.002, 35.0}}, CurveSense::oneMaximum);
    ASSERT_TRUE(fit.ok());
    EXPECT_EQ(fit->curve.least_m3_s(), 0.0);
    EXPECT_EQ(fit->curve.greatest_m3_s(), 0.004);
}

TEST(FitPoints, DoesNotDependOnTheOrderOfThePoints) {
    Samples points = sampled(0.0, 0.05, 15, [](double q) { return pumpLike(q) + 0.3 * std::sin(900.0 * q); });
    const auto sorted = fitPoints(points, CurveSense::oneMaximum);
    std::reverse(points.begin(), points.end());
    std::swap(points[2], points[9]);
    const auto shuffled = fitPoints(points, CurveSense::oneMaximum);
    ASSERT_TRUE(sorted.ok() && shuffled.ok());
    EXPECT_EQ(sorted->curve.degree(), shuffled->curve.degree());
    EXPECT_NEAR(sorted->curve.at(0.03), shuffled->curve.at(0.03), 1e-12);
}

TEST(FitPoints, NamesWhyItCannotFit) {
    const auto one = fitPoints({{0.001, 4.0}}, CurveSense::oneMaximum);
    ASSERT_FALSE(one.ok());
    EXPECT_EQ(one.error().code, "too-few-points");
    EXPECT_EQ(fitPoints({}, CurveSense::oneMaximum).error().code, "too-few-points");

    const auto twice = fitPoints({{0.0, 43.0}, {0.002, 38.0}, {0.002, 37.0}}, CurveSense::oneMaximum);
    ASSERT_FALSE(twice.ok());
    EXPECT_EQ(twice.error().code, "repeated-flow");
    const Fact* flow = findFact(twice.error().facts, "flow_m3_h");
    ASSERT_NE(flow, nullptr);
    EXPECT_NEAR(std::get<double>(flow->value), 7.2, 1e-12); // 0.002 m3/s

    const auto high = fitPoints({{0.0, 43.0}, {0.002, 38.0}, {0.003, 30.0}}, CurveSense::oneMaximum, 3);
    ASSERT_FALSE(high.ok());
    EXPECT_EQ(high.error().code, "degree-too-high");
    EXPECT_EQ(std::get<std::int64_t>(findFact(high.error().facts, "degree")->value), 3);
    EXPECT_EQ(std::get<std::int64_t>(findFact(high.error().facts, "points")->value), 3);
}

TEST(FitPoints, KeepsTheDegreeItIsTold) {
    const Samples points = sampled(0.0, 0.05, 12, pumpLike);
    for (int degree = 1; degree <= 6; ++degree)
        EXPECT_EQ(fitPoints(points, CurveSense::oneMaximum, degree)->curve.degree(), degree);
    EXPECT_EQ(fitPoints({{0.0, 4.0}, {1.0, 3.0}, {2.0, 1.0}}, CurveSense::oneMaximum, 1)->curve.degree(), 1);
}

TEST(FitPoints, RecoversAParabolaFromAsFewAsFivePoints) {
    for (int count = 5; count <= 12; ++count) {
        const auto fit = fitPoints(sampled(0.0, 0.05, count, pumpLike), CurveSense::oneMaximum);
        ASSERT_TRUE(fit.ok());
        EXPECT_EQ(fit->curve.degree(), 2) << count << " points";
        EXPECT_NEAR(fit->curve.at(0.0333), pumpLike(0.0333), 1e-11);
    }
}

TEST(FitPoints, TakesNoFurtherDegreeForWhatIsOnlyRounding) {
    // A cubic part of a billionth of a metre in 43 m: real to the last digit, nothing to a pump.
    const auto nearly = [](double q) { return pumpLike(q) + 1e-9 * std::pow(q / 0.05, 3); };
    EXPECT_EQ(fitPoints(sampled(0.0, 0.05, 20, nearly), CurveSense::any)->curve.degree(), 2);
    EXPECT_EQ(fitPoints(sampled(0.0, 0.05, 6, nearly), CurveSense::any)->curve.degree(), 2);
}

TEST(FitPoints, ChoosesTheTrueDegreeOfNoisyDataMostTimes) {
    std::mt19937 random(20240229);
    std::normal_distribution<double> noise(0.0, 0.05);
    const auto cubic = [](double x) { return 40.0 - 2.0 * x + 1.5 * x * x - 3.0 * x * x * x; };
    const auto line = [](double x) { return 3.0 - 1.1 * x; };
    int cubics = 0, lines = 0, tooLow = 0;
    constexpr int kTrials = 200;
    for (int trial = 0; trial < kTrials; ++trial) {
        const auto ofCubic = fitPoints(
            sampled(0.0, 2.0, 30, [&](double x) { return cubic(x) + noise(random); }), CurveSense::any);
        const auto ofLine = fitPoints(
            sampled(0.0, 2.0, 30, [&](double x) { return line(x) + noise(random); }), CurveSense::any);
        cubics += ofCubic->curve.degree() == 3;
        tooLow += ofCubic->curve.degree() < 3;
        lines += ofLine->curve.degree() == 1;
    }
    // An information criterion takes one needless degree now and then (about one time in seven), never too
    // few where the effect is large against the noise.
    EXPECT_GT(cubics, kTrials * 7 / 10);
    EXPECT_GT(lines, kTrials * 7 / 10);
    EXPECT_EQ(tooLow, 0);
}

TEST(FitPoints, NeverChoosesAHeadCurveWithAMinimumInside) {
    // A falling stair, as hasty clicks on a print give: a free choice of degree follows its steps.
    const auto stair = [](double q) {
        return 40.0 - 200.0 * q + 3.0 * std::sin(2.0 * std::numbers::pi * q / 0.05);
    };
    const Samples points = sampled(0.0, 0.05, 17, stair);
    const auto free = fitPoints(points, CurveSense::any);
    ASSERT_TRUE(free.ok());
    ASSERT_TRUE(hasMinimumInside(free->curve)) << "these points must tempt";
    const auto head = fitPoints(points, CurveSense::oneMaximum);
    ASSERT_TRUE(head.ok());
    EXPECT_FALSE(hasMinimumInside(head->curve));
    EXPECT_LT(head->curve.degree(), free->curve.degree());
}

TEST(FitPoints, NeverChoosesAMinimumWhateverTheScatter) {
    std::mt19937 random(7);
    std::normal_distribution<double> noise(0.0, 2.0);
    for (int trial = 0; trial < 200; ++trial) {
        const int count = 5 + trial % 12;
        const auto fit =
            fitPoints(sampled(0.0, 0.05, count, [&](double q) { return pumpLike(q) + noise(random); }),
                      CurveSense::oneMaximum);
        ASSERT_TRUE(fit.ok());
        EXPECT_FALSE(hasMinimumInside(fit->curve)) << count << " points, trial " << trial;
    }
}

TEST(FitPoints, KeepsTheHumpOfADroopingHeadCurve) {
    const auto drooping = [](double q) { return 30.0 + 300.0 * q - 11000.0 * q * q; }; // highest at 0.01364
    const auto fit = fitPoints(sampled(0.0, 0.05, 10, drooping), CurveSense::oneMaximum);
    ASSERT_TRUE(fit.ok());
    EXPECT_NEAR(fit->curve.flowOfMaximum(), 300.0 / 22000.0, 1e-9);
    ASSERT_EQ(fit->curve.turningPoints().size(), 1U);
}

TEST(FitPoints, AllowsAWiggleWhereTheDegreeIsForced) {
    const auto wave = [](double q) { return 40.0 + std::sin(2.0 * std::numbers::pi * q / 0.05); };
    const auto fit = fitPoints(sampled(0.0, 0.05, 15, wave), CurveSense::oneMaximum, 5);
    ASSERT_TRUE(fit.ok());
    EXPECT_TRUE(hasMinimumInside(fit->curve));
}

TEST(FitPoints, TakesItsErrorFromTheResiduals) {
    // A line by hand: x = 0..4, y = 1, 2, 2, 4, 5: mean 2.8, slope 10/10 = 1, S = 0.8, so with 5 - 2 = 3
    // spare points sigma^2 = 0.8/3; var at the middle sigma^2/5, at the end sigma^2 (1/5 + 4/10).
    const Samples points = {{0, 1}, {1, 2}, {2, 2}, {3, 4}, {4, 5}};
    const auto fit = fitPoints(points, CurveSense::any, 1);
    ASSERT_TRUE(fit.ok());
    EXPECT_NEAR(fit->curve.at(2.0), 2.8, 1e-13);
    EXPECT_NEAR(fit->curve.slopeAt(2.0), 1.0, 1e-13);
    EXPECT_NEAR(fit->rms, std::sqrt(0.8 / 5.0), 1e-13);
    EXPECT_NEAR(fit->greatestResidual, 0.8, 1e-13);
    EXPECT_NEAR(fit->curve.sigmaAt(2.0), std::sqrt(0.8 / 3.0 / 5.0), 1e-13);
    EXPECT_NEAR(fit->curve.sigmaAt(4.0), std::sqrt(0.8 / 3.0 * 0.6), 1e-13);
}

TEST(FitPoints, TakesAStatedErrorInstead) {
    // Two points, 2 % each: at a point the curve is as uncertain as the point, halfway it is
    // sqrt(0.8^2 + 0.6^2)/2.
    const auto fit = fitPoints({{0.0, 40.0}, {2.0, 30.0}}, CurveSense::oneMaximum, {}, 0.02);
    ASSERT_TRUE(fit.ok());
    EXPECT_NEAR(fit->curve.sigmaAt(0.0), 0.8, 1e-13);
    EXPECT_NEAR(fit->curve.sigmaAt(2.0), 0.6, 1e-13);
    EXPECT_NEAR(fit->curve.sigmaAt(1.0), 0.5, 1e-13);
}

TEST(FitPoints, IsNotPulledByAPointOfValueZeroUnderAStatedError) {
    const Samples points = sampled(0.0, 0.05, 9, [](double q) { return 40.0 * (1.0 - q * q / 0.0025); });
    const auto plain = fitPoints(points, CurveSense::oneMaximum);
    const auto stated = fitPoints(points, CurveSense::oneMaximum, {}, 0.03);
    ASSERT_TRUE(plain.ok() && stated.ok());
    EXPECT_NEAR(stated->curve.at(0.02), 33.6, 1e-12); // 40 (1 - 0.16)
    EXPECT_NEAR(plain->curve.at(0.02), 33.6, 1e-12);
    EXPECT_GT(stated->curve.sigmaAt(0.02), 0.1);
}

TEST(FitPoints, HasAnErrorAsLargeAsTheScatterOfRepeatedFits) {
    std::mt19937 random(99);
    std::normal_distribution<double> noise(0.0, 0.4);
    double squares = 0.0, sigma = 0.0;
    constexpr int kTrials = 600;
    for (int trial = 0; trial < kTrials; ++trial) {
        const auto fit =
            fitPoints(sampled(0.0, 0.05, 20, [&](double q) { return pumpLike(q) + noise(random); }),
                      CurveSense::any, 2);
        squares += std::pow(fit->curve.at(0.04) - pumpLike(0.04), 2);
        sigma += fit->curve.sigmaAt(0.04);
    }
    // Spread of a standard deviation from 600 draws: 1/sqrt(1200), 3 %; four of these.
    EXPECT_NEAR(sigma / kTrials / std::sqrt(squares / kTrials), 1.0, 0.12);
}

TEST(FitDegree, FindsTheTurningPointsOfAChebyshevPolynomial) {
    // T7(t) = cos(7 acos t) turns at cos(k pi/7), k = 1..6; eight points make degree 7 exact.
    const auto chebyshev = [](double x) { return std::cos(7.0 * std::acos(std::clamp(x, -1.0, 1.0))); };
    const auto fit = fitDegree(sampled(-1.0, 1.0, 8, chebyshev), 7);
    ASSERT_TRUE(fit.ok());
    const std::vector<double> turns = fit->curve.turningPoints();
    ASSERT_EQ(turns.size(), 6U);
    for (std::size_t i = 0; i < turns.size(); ++i)
        EXPECT_NEAR(turns[i], std::cos(static_cast<double>(6 - i) * std::numbers::pi / 7.0), 1e-13);
}

TEST(FitDegree, AcceptsSeveralValuesAtOneFlow) {
    const auto fit = fitDegree({{0, 1}, {0, 3}, {1, 4}, {1, 6}}, 1);
    ASSERT_TRUE(fit.ok());
    EXPECT_NEAR(fit->curve.at(0.0), 2.0, 1e-14);
    EXPECT_NEAR(fit->curve.at(1.0), 5.0, 1e-14);
    EXPECT_EQ(fitDegree({{0, 1}, {0, 3}, {1, 4}, {1, 6}}, 2).error().code, "degree-too-high");
    EXPECT_EQ(fitDegree({{2, 1}, {2, 3}}, 1).error().code, "repeated-flow");
    EXPECT_EQ(fitDegree(sampled(0.0, 1.0, 20, pumpLike), 11).error().code, "degree-too-high");
}

} // namespace
} // namespace headmark
