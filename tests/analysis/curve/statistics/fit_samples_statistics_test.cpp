// The fit's 95 % bands against redrawn samples. 400 draws; what one draw covers is far from independent along
// the curve, so a share of 95 % scatters by about 1 %.

#include "analysis/curve/fit_samples.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>
#include <string>

namespace headmark {
namespace {

constexpr int kDraws = 400;
constexpr int kPlaces = 21;
constexpr double kRange_m3_s = 0.004;

struct Truth {
    std::string name;
    std::function<double(double)> at; // over 0 to 1
    double spread;
    CurveSense sense;
};

std::vector<Truth> truths() {
    return {
        {"head Q^2", [](double x) { return 43.0 - 25.0 * x * x; }, 25.0, CurveSense::oneMaximum},
        {"head Q^2.5", [](double x) { return 43.0 - 25.0 * std::pow(x, 2.5); }, 25.0, CurveSense::oneMaximum},
        {"head cubic", [](double x) { return 43.0 - 3.0 * x - 5.0 * x * x - 14.0 * x * x * x; }, 22.0,
         CurveSense::oneMaximum},
        {"drooping head", [](double x) { return 40.0 + 8.0 * x - 28.0 * x * x; }, 20.0,
         CurveSense::oneMaximum},
        {"efficiency", [](double x) { return 1.2 * x * (1.0 - std::pow(0.8 * x, 2.0)); }, 0.6,
         CurveSense::oneMaximum},
        {"NPSH", [](double x) { return 1.2 + 3.0 * std::pow(x, 2.3); }, 3.0, CurveSense::oneMinimum},
    };
}

struct Scatter {
    double noise;       // share of the spread
    double correlation; // of neighbouring samples
    double sharedShift; // of flow and of value, share of range and spread
};

struct Tally {
    double covered = 0.0;    // share of places within 1.96 sigma
    double sigmaShare = 0.0; // median sigma over rms error, mean over the places
};

Tally redrawn(const Truth& truth, const Scatter& scatter, int count) {
    std::mt19937_64 random(17);
    std::normal_distribution<double> normal(0.0, 1.0);
    std::vector<std::vector<double>> sigmas(kPlaces);
    std::vector<double> squares(kPlaces, 0.0);
    Tally tally;
    const double sigma = scatter.noise * truth.spread;
    SampleFitOptions options;
    options.sense = truth.sense;
    SharedError shared;
    if (scatter.sharedShift > 0.0) {
        shared.flowBy = Eigen::MatrixXd::Zero(count, 2);
        shared.valueBy = shared.flowBy;
        shared.flowBy.col(0).setConstant(scatter.sharedShift * kRange_m3_s);
        shared.valueBy.col(1).setConstant(scatter.sharedShift * truth.spread);
        shared.covariance = Eigen::MatrixXd::Identity(2, 2);
    }
    for (int draw = 0; draw < kDraws; ++draw) {
        std::vector<MeasuredSample> samples;
        const double flowShift = scatter.sharedShift * normal(random) * kRange_m3_s;
        const double valueShift = scatter.sharedShift * normal(random) * truth.spread;
        double noise = normal(random);
        for (int i = 0; i < count; ++i) {
            const double x = static_cast<double>(i) / (count - 1);
            noise = scatter.correlation * noise +
                    std::sqrt(1.0 - scatter.correlation * scatter.correlation) * normal(random);
            samples.push_back({x * kRange_m3_s + flowShift, truth.at(x) + sigma * noise + valueShift, 0.0,
                               sigma * sigma, 0.0});
        }
        const SampleFit fit = fitSamples(samples, options, shared).value();
        for (std::size_t k = 0; k < kPlaces; ++k) {
            const double x = 0.02 + 0.96 * static_cast<double>(k) / (kPlaces - 1);
            const double error = fit.curve.at(x * kRange_m3_s) - truth.at(x);
            const double oneSigma = fit.curve.sigmaAt(x * kRange_m3_s);
            tally.covered += std::abs(error) <= 1.96 * oneSigma ? 1.0 / (kDraws * kPlaces) : 0.0;
            squares[k] += error * error / kDraws;
            sigmas[k].push_back(oneSigma);
        }
    }
    for (std::size_t k = 0; k < kPlaces; ++k) {
        std::nth_element(sigmas[k].begin(), sigmas[k].begin() + kDraws / 2, sigmas[k].end());
        tally.sigmaShare += sigmas[k][kDraws / 2] / std::sqrt(squares[k]) / kPlaces;
    }
    return tally;
}

void expectHonest(const Scatter& scatter, int count) {
    for (const Truth& truth : truths()) {
        const Tally tally = redrawn(truth, scatter, count);
        EXPECT_GT(tally.covered, 0.92) << truth.name;
        EXPECT_LT(tally.covered, 0.98) << truth.name;
        EXPECT_LT(tally.sigmaShare, 1.3) << truth.name;
    }
}

TEST(FitSamplesStatistics, BandsHoldWithIndependentNoise) { expectHonest({0.0005, 0.0, 0.0}, 300); }

TEST(FitSamplesStatistics, BandsHoldWithCorrelatedNoise) { expectHonest({0.0005, 0.8, 0.0}, 300); }

TEST(FitSamplesStatistics, BandsHoldWithErrorsThatAllSamplesShare) {
    expectHonest({0.0005, 0.5, 0.0008}, 300);
}

TEST(FitSamplesStatistics, BandsHoldWithFewerSamples) { expectHonest({0.001, 0.0, 0.0}, 60); }

} // namespace
} // namespace headmark
