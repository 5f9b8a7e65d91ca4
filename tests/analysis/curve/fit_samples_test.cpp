#include "analysis/curve/fit_samples.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace headmark {
namespace {

using Samples = std::vector<MeasuredSample>;

constexpr double kRange_m3_s = 0.004;

double shareOf(double flow_m3_s) { return flow_m3_s / kRange_m3_s; }
double fallingHead(double flow_m3_s) { return 43.0 - 25.0 * std::pow(shareOf(flow_m3_s), 1.9); }
double parabola(double flow_m3_s) {
    return 43.0 - 4.0 * shareOf(flow_m3_s) - 20.0 * std::pow(shareOf(flow_m3_s), 2);
}

// Values true to `truth` plus normal noise of `sigma`.
template <class Truth>
Samples noisy(int count, double sigma, Truth&& truth, unsigned seed = 1) {
    std::mt19937 random(seed);
    std::normal_distribution<double> normal(0.0, 1.0);
    Samples samples;
    for (int i = 0; i < count; ++i) {
        const double flow_m3_s = kRange_m3_s * i / (count - 1);
        samples.push_back({flow_m3_s, truth(flow_m3_s) + sigma * normal(random), 0.0, sigma * sigma, 0.0});
    }
    return samples;
}

SampleFitOptions optionsFor(CurveSense sense, std::optional<int> degree = {}) {
    SampleFitOptions options;
    options.sense = sense;
    options.degree = degree;
    return options;
}

template <class Truth>
double greatestError(const PolynomialCurve& curve, Truth&& truth) {
    double greatest = 0.0;
    for (int i = 0; i <= 200; ++i) {
        const double flow_m3_s = kRange_m3_s * i / 200.0;
        greatest = std::max(greatest, std::abs(curve.at(flow_m3_s) - truth(flow_m3_s)));
    }
    return greatest;
}

// Independent of the curve's own turning points: a fine scan for a slope that goes from down to up.
bool dipsInside(const PolynomialCurve& curve, double upwards) {
    bool fallen = false;
    for (int i = 0; i < 4000; ++i) {
        const double change =
            upwards * (curve.at(kRange_m3_s * (i + 1) / 4000.0) - curve.at(kRange_m3_s * i / 4000.0));
        if (change < -1e-9) fallen = true;
        if (fallen && change > 1e-9) return true;
    }
    return false;
}

TEST(FitSamples, FindsAnExactPolynomialAndItsDegree) {
    const auto fit = fitSamples(noisy(50, 0.0, parabola), optionsFor(CurveSense::oneMaximum));
    ASSERT_TRUE(fit.ok());
    EXPECT_EQ(fit->curve.degree(), 2);
    EXPECT_LT(greatestError(fit->curve, parabola), 1e-9 * 43.0);
    EXPECT_LT(fit->rms, 1e-9 * 43.0);
}

TEST(FitSamples, StaysWellWithinTheNoiseOfItsSamples) {
    for (const double power : {1.8, 2.0, 2.3, 2.5}) {
        const auto truth = [&](double q) { return 43.0 - 25.0 * std::pow(shareOf(q), power); };
        const double sigma = 0.02;
        const auto fit = fitSamples(noisy(300, sigma, truth), optionsFor(CurveSense::oneMaximum));
        ASSERT_TRUE(fit.ok());
        EXPECT_LT(greatestError(fit->curve, truth), sigma) << power;
        EXPECT_NEAR(fit->rms, sigma, 0.15 * sigma) << power;
    }
}

TEST(FitSamples, ScalingTheUnitsScalesTheFit) {
    const Samples samples = noisy(120, 0.03, fallingHead);
    Samples scaled = samples;
    for (MeasuredSample& sample : scaled) {
        sample = {sample.flow_m3_s * 3600.0, sample.value * 9806.65, 0.0,
                  sample.varianceValue * 9806.65 * 9806.65, 0.0};
    }
    const auto fit = fitSamples(samples, optionsFor(CurveSense::oneMaximum));
    const auto large = fitSamples(scaled, optionsFor(CurveSense::oneMaximum));
    ASSERT_TRUE(fit.ok() && large.ok());
    ASSERT_EQ(fit->curve.degree(), large->curve.degree());
    for (const double share : {0.0, 0.3, 0.71, 1.0}) {
        const double q = share * kRange_m3_s;
        EXPECT_NEAR(large->curve.at(q * 3600.0) / 9806.65, fit->curve.at(q), 1e-6);
        EXPECT_NEAR(large->curve.sigmaAt(q * 3600.0) / 9806.65, fit->curve.sigmaAt(q),
                    1e-4 * fit->curve.sigmaAt(q));
    }
    EXPECT_NEAR(large->chiSquare, fit->chiSquare, 1e-6 * fit->chiSquare);
}

TEST(FitSamples, TheOrderOfSamplesDoesNotMatter) {
    Samples samples = noisy(90, 0.03, fallingHead);
    SharedError shared{Eigen::MatrixXd::Zero(90, 1), Eigen::MatrixXd::Zero(90, 1),
                       Eigen::MatrixXd::Identity(1, 1)};
    for (Eigen::Index i = 0; i < 90; ++i)
        shared.valueBy(i, 0) = 0.1 * static_cast<double>(i * i) / 8100.0;
    const auto sorted = fitSamples(samples, optionsFor(CurveSense::oneMaximum), shared);
    std::reverse(samples.begin(), samples.end());
    shared.valueBy.col(0).reverseInPlace();
    const auto turned = fitSamples(samples, optionsFor(CurveSense::oneMaximum), shared);
    ASSERT_TRUE(sorted.ok() && turned.ok());
    EXPECT_EQ(sorted->curve.coefficients(), turned->curve.coefficients());
    EXPECT_EQ(sorted->curve.covariance(), turned->curve.covariance());
}

TEST(FitSamples, GrossOutliersMoveARobustCurveByLessThanTheNoise) {
    const double sigma = 0.02;
    Samples samples = noisy(300, sigma, fallingHead);
    const auto clean = fitSamples(samples, optionsFor(CurveSense::oneMaximum));
    std::mt19937 random(9);
    for (std::size_t i = 7; i < samples.size(); i += 20)
        samples[i].value += std::uniform_real_distribution<>(1.0, 6.0)(random);
    const auto robust = fitSamples(samples, optionsFor(CurveSense::oneMaximum));
    SampleFitOptions plainOptions = optionsFor(CurveSense::oneMaximum);
    plainOptions.robust = false;
    const auto plain = fitSamples(samples, plainOptions);
    ASSERT_TRUE(clean.ok() && robust.ok() && plain.ok());
    EXPECT_LT(greatestError(robust->curve, [&](double q) { return clean->curve.at(q); }), sigma);
    EXPECT_GT(greatestError(plain->curve, [&](double q) { return clean->curve.at(q); }), 3.0 * sigma);
}

TEST(FitSamples, TracingRipplesDoNotBreakTheSense) {
    // flat near zero flow, where a ripple of a few tenths of a pixel makes dips
    const auto flat = [](double q) { return 43.0 - 25.0 * std::pow(shareOf(q), 3.0); };
    for (const double ripple : {0.005, 0.0125, 0.025}) {
        for (const double waves : {2.5, 4.0, 9.0}) {
            const auto rippled = [&](double q) {
                return flat(q) + ripple * std::sin(2.0 * std::numbers::pi * waves * shareOf(q));
            };
            const auto fit = fitSamples(noisy(300, 0.005, rippled), optionsFor(CurveSense::oneMaximum));
            ASSERT_TRUE(fit.ok());
            EXPECT_GE(fit->curve.degree(), 3);
            EXPECT_FALSE(dipsInside(fit->curve, 1.0)) << ripple << " " << waves;
            EXPECT_FALSE(fit->breaksSense);
            EXPECT_LT(greatestError(fit->curve, flat), 2.0 * ripple + 0.01) << ripple << " " << waves;
        }
    }
}

TEST(FitSamples, ABoundCurveStaysNearItsSamplesWhereEveryDegreeWouldDip) {
    // a step down between two flats: every cubic and richer polynomial overshoots on the flats
    const auto step = [](double q) { return 30.0 - 10.0 * std::tanh(4.0 * (shareOf(q) - 0.5)); };
    const auto fit = fitSamples(noisy(200, 0.01, step), optionsFor(CurveSense::oneMaximum));
    ASSERT_TRUE(fit.ok());
    EXPECT_GE(fit->curve.degree(), 3);
    EXPECT_FALSE(dipsInside(fit->curve, 1.0));
    EXPECT_LT(fit->rms, 0.6); // the best straight line leaves 1.31, by numerical integration
    const auto rising = fitSamples(noisy(200, 0.01, [&](double q) { return 60.0 - step(q); }),
                                   optionsFor(CurveSense::oneMinimum));
    ASSERT_TRUE(rising.ok());
    EXPECT_FALSE(dipsInside(rising->curve, -1.0));
}

TEST(FitSamples, ADroopingHeadKeepsItsMaximumInside) {
    const auto drooping = [](double q) { return 40.0 + 8.0 * shareOf(q) - 25.0 * shareOf(q) * shareOf(q); };
    const auto fit = fitSamples(noisy(200, 0.02, drooping), optionsFor(CurveSense::oneMaximum));
    ASSERT_TRUE(fit.ok());
    // by hand: 8 - 50 x = 0
    EXPECT_NEAR(shareOf(fit->curve.flowOfMaximum()), 0.16, 0.01);
}

TEST(FitSamples, AForcedDegreeSaysThatItBreaksTheSense) {
    const auto wave = [](double q) { return 30.0 - 5.0 * std::sin(9.0 * shareOf(q)); };
    const auto fit = fitSamples(noisy(100, 0.01, wave), optionsFor(CurveSense::oneMaximum, 7));
    ASSERT_TRUE(fit.ok());
    EXPECT_EQ(fit->curve.degree(), 7);
    EXPECT_TRUE(fit->breaksSense);
    EXPECT_FALSE(fitSamples(noisy(100, 0.01, parabola), optionsFor(CurveSense::oneMaximum, 2))->breaksSense);
}

TEST(FitSamples, AFewClickedSpotsCanBeAParabola) {
    const auto three = fitSamples(noisy(3, 0.05, parabola), optionsFor(CurveSense::oneMaximum));
    ASSERT_TRUE(three.ok());
    EXPECT_EQ(three->curve.degree(), 2);
    const auto five = fitSamples(noisy(5, 0.05, parabola), optionsFor(CurveSense::oneMaximum));
    ASSERT_TRUE(five.ok());
    EXPECT_GE(five->curve.degree(), 2);
    EXPECT_LT(greatestError(five->curve, parabola), 0.25);
    EXPECT_EQ(fitSamples(noisy(2, 0.05, parabola), optionsFor(CurveSense::oneMaximum))->curve.degree(), 1);
}

TEST(FitSamples, TheRangeCanBeSetApartFromTheSamples) {
    SampleFitOptions options = optionsFor(CurveSense::oneMaximum);
    options.range_m3_s = {0.001, 0.003};
    const auto fit = fitSamples(noisy(100, 0.0, parabola), options);
    ASSERT_TRUE(fit.ok());
    EXPECT_DOUBLE_EQ(fit->curve.least_m3_s(), 0.001);
    EXPECT_DOUBLE_EQ(fit->curve.greatest_m3_s(), 0.003);
    EXPECT_NEAR(fit->curve.at(0.002), parabola(0.002), 1e-8);
}

// A shift that all samples share cannot be seen in the residuals: it adds its own variance everywhere.
TEST(FitSamples, ASharedShiftOfTheValueAddsItsVariance) {
    const Samples samples = noisy(200, 0.02, parabola);
    SharedError shared{Eigen::MatrixXd::Zero(200, 1), Eigen::MatrixXd::Ones(200, 1),
                       Eigen::MatrixXd::Constant(1, 1, 0.09)};
    const auto alone = fitSamples(samples, optionsFor(CurveSense::oneMaximum, 2));
    const auto shifted = fitSamples(samples, optionsFor(CurveSense::oneMaximum, 2), shared);
    ASSERT_TRUE(alone.ok() && shifted.ok());
    for (const double share : {0.0, 0.4, 1.0}) {
        const double q = share * kRange_m3_s;
        EXPECT_NEAR(shifted->curve.sigmaAt(q), std::hypot(alone->curve.sigmaAt(q), 0.3), 1e-6);
    }
}

// A shared shift of the flow moves the value by the slope: by hand 4 + 40 x over the range.
TEST(FitSamples, ASharedShiftOfTheFlowCountsByTheSlope) {
    const Samples samples = noisy(200, 1e-4, parabola);
    const double shift_m3_s = 0.01 * kRange_m3_s;
    SharedError shared{Eigen::MatrixXd::Ones(200, 1), Eigen::MatrixXd::Zero(200, 1),
                       Eigen::MatrixXd::Constant(1, 1, shift_m3_s * shift_m3_s)};
    const auto fit = fitSamples(samples, optionsFor(CurveSense::oneMaximum, 2), shared);
    ASSERT_TRUE(fit.ok());
    for (const double share : {0.1, 0.5, 0.9})
        EXPECT_NEAR(fit->curve.sigmaAt(share * kRange_m3_s), 0.01 * (4.0 + 40.0 * share), 1e-3);
}

TEST(FitSamples, RefusesWhatCannotBeFitted) {
    EXPECT_EQ(fitSamples({}, {}).error().code, "too-few-points");
    const auto one = fitSamples({{0.001, 40.0, 0.0, 0.01, 0.0}}, {});
    ASSERT_FALSE(one.ok());
    EXPECT_EQ(std::get<std::int64_t>(findFact(one.error().facts, "points")->value), 1);
    const Samples upright(5, {0.001, 40.0, 0.0, 0.01, 0.0});
    const auto repeated = fitSamples(upright, {});
    EXPECT_EQ(repeated.error().code, "repeated-flow");
    EXPECT_NEAR(std::get<double>(findFact(repeated.error().facts, "flow_m3_h")->value), 3.6, 1e-12);
    const auto high = fitSamples(noisy(4, 0.01, parabola), optionsFor(CurveSense::any, 4));
    EXPECT_EQ(high.error().code, "degree-too-high");
    EXPECT_EQ(std::get<std::int64_t>(findFact(high.error().facts, "degree")->value), 4);
    EXPECT_EQ(fitSamples(noisy(40, 0.01, parabola), optionsFor(CurveSense::any, 11)).error().code,
              "degree-too-high");
}

TEST(FitSamples, NeverGivesANumberThatIsNone) {
    std::mt19937 random(5);
    const auto unit = [&] { return std::uniform_real_distribution<>(0.0, 1.0)(random); };
    int fitted = 0;
    for (int round = 0; round < 400; ++round) {
        Samples samples;
        const int count = std::uniform_int_distribution<>(0, round % 10 ? 20 : 80)(random);
        const double size = std::pow(10.0, 12.0 * unit() - 6.0);
        for (int i = 0; i < count; ++i) {
            MeasuredSample sample;
            sample.flow_m3_s = unit() < 0.2 ? 0.01 * std::floor(4.0 * unit()) : 0.03 * unit();
            sample.value = unit() < 0.2 ? 0.0 : size * (unit() - 0.3);
            if (unit() < 0.8) sample.varianceValue = std::pow(size * unit() * 0.1, 2.0);
            if (unit() < 0.5) sample.varianceFlow = std::pow(0.003 * unit(), 2.0);
            sample.covariance = (unit() - 0.5) * std::sqrt(sample.varianceFlow * sample.varianceValue);
            samples.push_back(sample);
        }
        SampleFitOptions options = optionsFor(static_cast<CurveSense>(round % 3));
        if (unit() < 0.4) options.degree = std::uniform_int_distribution<>(0, 10)(random);
        options.robust = unit() < 0.7;
        options.scaleByResiduals = unit() < 0.7;
        const auto fit = fitSamples(samples, options);
        if (!fit.ok()) {
            EXPECT_FALSE(fit.error().code.empty());
            continue;
        }
        ++fitted;
        EXPECT_TRUE(fit->curve.coefficients().allFinite());
        EXPECT_TRUE(fit->curve.covariance().allFinite());
        EXPECT_TRUE(std::isfinite(fit->chiSquare) && std::isfinite(fit->rms));
        for (const double share : {0.0, 0.5, 1.0}) {
            const double q =
                fit->curve.least_m3_s() + share * (fit->curve.greatest_m3_s() - fit->curve.least_m3_s());
            EXPECT_TRUE(std::isfinite(fit->curve.sigmaAt(q)));
        }
    }
    EXPECT_GT(fitted, 200);
}

} // namespace
} // namespace headmark
