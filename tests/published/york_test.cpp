// The fit of samples against Pearson's data with York's weights, the standard example of a straight line with
// errors in both axes. Data: Pearson, Philosophical Magazine 2 (1901) 559; weights: York, Can. J. Phys. 44
// (1966) 1079. Expected: York, Evensen, Martinez Lopez, De Basabe Delgado, Am. J. Phys. 72 (2004) 367, whose
// standard errors are taken at the adjusted points; more digits from Lybanon, Am. J. Phys. 52 (1984) 22, and
// Williamson, Can. J. Phys. 46 (1968) 1845, recomputed with 40 digits.

#include "analysis/curve/fit_samples.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

constexpr double kFiveDigits = 5e-6; // relative

struct Row {
    double x, weightX, y, weightY;
};

constexpr Row kPearson[] = {{0.0, 1000, 5.9, 1}, {0.9, 1000, 5.4, 1.8}, {1.8, 500, 4.4, 4},
                            {2.6, 800, 4.6, 8},  {3.3, 200, 3.5, 20},   {4.4, 80, 3.7, 20},
                            {5.2, 60, 2.8, 70},  {6.1, 20, 2.8, 70},    {6.5, 1.8, 2.4, 100},
                            {7.4, 1.0, 1.5, 500}};

std::vector<MeasuredSample> pearsonSamples(bool errorsInX) {
    std::vector<MeasuredSample> samples;
    for (const Row& row : kPearson)
        samples.push_back({row.x, row.y, errorsInX ? 1.0 / row.weightX : 0.0, 1.0 / row.weightY, 0.0});
    return samples;
}

// Intercept and slope are a + b x = (1, x) . J c; y = c0 + c1 (x - centre)/halfRange, range 0 to 7.4.
Eigen::Matrix2d monomialByLegendre() {
    Eigen::Matrix2d by;
    by << 1.0, -1.0, 0.0, 1.0 / 3.7;
    return by;
}

SampleFit lineThrough(const std::vector<MeasuredSample>& samples, bool scaleByResiduals) {
    SampleFitOptions options;
    options.degree = 1;
    options.robust = false;
    options.scaleByResiduals = scaleByResiduals;
    return fitSamples(samples, options).value();
}

TEST(York, PearsonsLineWithErrorsInBothAxes) {
    const SampleFit fit = lineThrough(pearsonSamples(true), false);
    const Eigen::VectorXd line = fit.curve.monomial(1.0);
    EXPECT_NEAR(line[0], 5.4799102240329, kFiveDigits * 5.48);
    EXPECT_NEAR(line[1], -0.4805334074462, kFiveDigits * 0.48);
    EXPECT_NEAR(fit.chiSquare, 11.86635319, kFiveDigits * 11.9);
    EXPECT_FALSE(fit.breaksSense);
}

TEST(York, StandardErrorsAtTheAdjustedPoints) {
    const SampleFit fit = lineThrough(pearsonSamples(true), false);
    const Eigen::Matrix2d by = monomialByLegendre();
    const Eigen::Matrix2d covariance = by * fit.curve.covariance() * by.transpose();
    EXPECT_NEAR(std::sqrt(covariance(0, 0)), 0.2949707355, kFiveDigits * 0.295);
    EXPECT_NEAR(std::sqrt(covariance(1, 1)), 0.0579850090, kFiveDigits * 0.058);
    EXPECT_NEAR(covariance(0, 1), -0.016472545, kFiveDigits * 0.0165);
}

TEST(York, WithErrorsInYAloneItIsWeightedLeastSquares) {
    const Eigen::VectorXd line = lineThrough(pearsonSamples(false), false).curve.monomial(1.0);
    EXPECT_NEAR(line[0], 6.10010929336, kFiveDigits * 6.1);
    EXPECT_NEAR(line[1], -0.61081295310, kFiveDigits * 0.61);
}

} // namespace
} // namespace headmark
