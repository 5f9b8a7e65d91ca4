// 95 % intervals of the mapping against redrawn pins. 500 draws of 4 corner pins: what one draw covers is far
// from independent over the chart, so a share of 95 % scatters by about 1 %.

#include "../mapping_readings.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace headmark {
namespace {

using namespace testing;

struct Tally {
    double covered = 0.0;    // share of true figures within two sigma
    double sigmaShare = 0.0; // median sigma over rms error, mean over the chart
};

Tally redrawn(const PageOf& page, const Reading& exact, int draws) {
    constexpr int kSteps = 8;
    std::mt19937_64 random(5);
    std::normal_distribution<double> click(0.0, 0.7);
    std::vector<std::vector<double>> sigmas(2 * (kSteps + 1) * (kSteps + 1));
    std::vector<double> squares(sigmas.size());
    double covered = 0.0;
    for (int draw = 0; draw < draws; ++draw) {
        Reading reading = exact;
        for (Pin& pin : reading.pins)
            pin.at = {pin.at.x_px + click(random), pin.at.y_px + click(random)};
        const ChartMapping mapping = solveMapping(reading).value();
        std::size_t k = 0;
        for (int i = 0; i <= kSteps; ++i) {
            for (int j = 0; j <= kSteps; ++j) {
                const double flow = 16.0 * i / kSteps, value = 50.0 * j / kSteps;
                const AxisPoint found = mapping.axisFromPixel(page(flow, value), ValueAxis::left);
                const Eigen::Matrix2d variance = mapping.axisCovariance(page(flow, value), ValueAxis::left);
                for (const auto& [error, square] : {std::pair(found.flow - flow, variance(0, 0)),
                                                    std::pair(found.value - value, variance(1, 1))}) {
                    covered += error * error <= 4.0 * square ? 1.0 : 0.0;
                    squares[k] += error * error / draws;
                    sigmas[k++].push_back(std::sqrt(square));
                }
            }
        }
    }
    Tally tally;
    tally.covered = covered / (draws * static_cast<double>(squares.size()));
    for (std::size_t k = 0; k < squares.size(); ++k) {
        std::nth_element(sigmas[k].begin(), sigmas[k].begin() + draws / 2, sigmas[k].end());
        tally.sigmaShare += sigmas[k][static_cast<std::size_t>(draws / 2)] / std::sqrt(squares[k]) /
                            static_cast<double>(squares.size());
    }
    return tally;
}

TEST(MappingStatistics, IntervalsHoldWhateverTheTurnOfThePage) {
    for (const double degrees : {0.0, 0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.2, 0.5, 1.0, 1.5}) {
        const PageOf page = turnedPage(degrees);
        for (const Reading& exact : {cornersOf(page), nineOf(page)}) {
            const Tally tally = redrawn(page, exact, 500);
            EXPECT_GT(tally.covered, 0.92) << degrees << " degrees, " << exact.pins.size() << " pins";
            EXPECT_LT(tally.covered, 0.98) << degrees << " degrees, " << exact.pins.size() << " pins";
            EXPECT_LT(tally.sigmaShare, 1.3) << degrees << " degrees, " << exact.pins.size() << " pins";
        }
    }
}

TEST(MappingStatistics, IntervalsHoldInPerspective) {
    const Tally tally = redrawn(slantedPage, nineOf(slantedPage), 500);
    EXPECT_GT(tally.covered, 0.92);
    EXPECT_LT(tally.covered, 0.98);
    EXPECT_LT(tally.sigmaShare, 1.3);
}

} // namespace
} // namespace headmark
