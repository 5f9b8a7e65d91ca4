#include "analysis/chart/iso_efficiency.h"

#include "drawn_chart.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

using namespace headmark;
using namespace headmark::testing;

namespace {

// At a trimmed or slower pump's similar points the efficiency is the same (affinity laws), and they lie on
// parabolas head = k flow^2 through no flow: lines of equal efficiency whose truth is known. eta = 0 without
// flow, 65 % at 8 m3/h, 0 at 16 m3/h.
double etaOf(double flow) { return 0.65 * (1.0 - std::pow((flow - 8.0) / 8.0, 2)); }

constexpr std::array kMeets = {3.0, 5.0,  6.5,
                               9.5, 11.0, 13.0}; // flows at which the lines meet the head curve

double parabola(double flow, double meets) { return headOf(meets) * std::pow(flow / meets, 2); }

// The parabola from 0.75 to 1.04 of where it meets the curve.
void drawIso(DrawnPage& drawn, double meets) {
    double before = 0.75 * meets;
    for (double flow = before + 0.05; flow <= 1.04 * meets; flow += 0.05) {
        drawn.straight({xOf(before), yOf(parabola(before, meets))}, {xOf(flow), yOf(parabola(flow, meets))},
                       {1.5, 0.6, 0.8});
        before = flow;
    }
}

Reading isoReading() {
    Reading reading = followingFrom({onLine(8.0)});
    for (const double meets : kMeets) {
        ChartLine line;
        line.name = std::to_string(meets);
        line.quantity = LineQuantity::isoEfficiency;
        line.levelShare = etaOf(meets);
        line.followFrom = {{xOf(0.88 * meets), yOf(parabola(0.88 * meets, meets))}};
        reading.lines.push_back(line);
    }
    return reading;
}

ReadLine straightIso(double level, double slope, double meets, double head) {
    ReadLine line;
    line.quantity = LineQuantity::isoEfficiency;
    line.levelShare = level;
    for (int k = -20; k <= 20; ++k) {
        const double flow = meets + 0.0001 * k;
        line.samples.push_back({{}, flow, head + slope * (flow - meets), 0.02});
    }
    return line;
}

} // namespace

// H = 40 m all over; a line at 10000 m per m3/s, 0.02 m off: 2e-6 m3/s.
TEST(IsoEfficiency, ACrossingHasTheLinesLevelAndTheErrorOfTheAngle) {
    const PolynomialCurve head(0.0, 0.01, Eigen::VectorXd::Constant(1, 40.0));
    const auto found = isoCrossings(head, straightIso(0.6, 10000.0, 0.004, 40.0));
    ASSERT_EQ(found.size(), 1U);
    EXPECT_NEAR(found[0].flow_m3_s, 0.004, 1e-9);
    EXPECT_EQ(found[0].level_share, 0.6);
    EXPECT_NEAR(found[0].sigmaFlow_m3_s, 2e-6, 1e-8);
}

TEST(IsoEfficiency, ALineThatDoesNotMeetTheCurveSaysNothing) {
    const PolynomialCurve head(0.0, 0.01, Eigen::VectorXd::Constant(1, 60.0));
    EXPECT_TRUE(isoCrossings(head, straightIso(0.6, 1000.0, 0.004, 40.0)).empty());
}

// H = 40 m all over 0.01 m3/s: a line that ends 0.5 m below it (an eightieth of its head) is carried on, one
// that ends 1.2 m below it (a thirty-third) is not; at 10000 m per m3/s the first meets it 0.00005 m3/s on.
TEST(IsoEfficiency, ALineThatEndsInTheCurvesInkMeetsTheCurve) {
    const PolynomialCurve head(0.0, 0.01, Eigen::VectorXd::Constant(1, 40.0));
    for (const bool turnedRound : {false, true}) {
        ReadLine line = straightIso(0.6, 10000.0, 0.004, 59.5); // 39.5 to 79.5 m
        std::erase_if(line.samples, [](const LineSample& s) { return s.value > 39.5 + 1e-9; });
        EXPECT_TRUE(isoCrossings(head, line).empty()); // one sample points nowhere
        line = straightIso(0.6, 10000.0, 0.004, 19.5); // to 39.5 m at 0.006 m3/s
        if (turnedRound) std::reverse(line.samples.begin(), line.samples.end());
        const auto found = isoCrossings(head, line);
        ASSERT_EQ(found.size(), 1U);
        EXPECT_NEAR(found[0].flow_m3_s, 0.00605, 1e-8);
        EXPECT_GT(found[0].sigmaFlow_m3_s, 2e-6); // less sure than where it is seen to cross
        EXPECT_TRUE(isoCrossings(head, straightIso(0.6, 10000.0, 0.004, 18.8)).empty());
    }
}

// eta = 0.65 (1 - ((Q - 8)/8)^2), Q in units of 0.001 m3/s: a parabola, which the fit holds exactly.
TEST(IsoEfficiency, CrossingsOfAParabolaGiveThatParabola) {
    std::vector<IsoCrossing> crossings;
    for (const double flow : kMeets)
        crossings.push_back({0.001 * flow, etaOf(flow), 1e-6});
    const auto fit = efficiencyFrom(crossings);
    ASSERT_TRUE(fit);
    for (const double flow : {1.0, 4.0, 8.0, 12.0})
        EXPECT_NEAR(fit->curve.at(0.001 * flow), etaOf(flow), 0.001) << flow;
    EXPECT_FALSE(fit->curve.contains(0.0131)); // never beyond the last line
}

TEST(IsoEfficiency, ThreeCrossingsAreTooFew) {
    const auto fit = efficiencyFrom({{0.003, 0.4, 1e-6}, {0.005, 0.5, 1e-6}, {0.006, 0.6, 1e-6}});
    ASSERT_FALSE(fit);
    EXPECT_EQ(fit.error().code, "too-few-crossings");
}

TEST(IsoEfficiency, LinesFollowedOnAPageGiveTheEfficiencyWithinItsInterval) {
    DrawnPage drawn = chartPaper();
    for (double x = xOf(0); x < xOf(14.5); x += 5.0)
        drawn.straight({x, lineY(x)}, {x + 5.0, lineY(x + 5.0)}, {2.5, 0.6, 0.9});
    for (const double meets : kMeets)
        drawIso(drawn, meets);
    OneDrawnPage source(drawn.page());
    const auto chart = readEachLine(isoReading(), source);
    ASSERT_TRUE(chart) << chart.error().code;
    ASSERT_TRUE(chart->lines[0].fit);
    std::vector<IsoCrossing> crossings;
    for (std::size_t k = 1; k < chart->lines.size(); ++k)
        for (const IsoCrossing& crossing : isoCrossings(chart->lines[0].fit->curve, chart->lines[k]))
            crossings.push_back(crossing);
    EXPECT_EQ(crossings.size(), kMeets.size());
    const auto fit = efficiencyFrom(crossings);
    ASSERT_TRUE(fit) << fit.error().code;
    constexpr double kToSi = 1.0 / 3600.0;
    for (const double flow : {2.0, 5.0, 8.0, 11.0}) {
        const double found = fit->curve.at(flow * kToSi), sigma = fit->curve.sigmaAt(flow * kToSi);
        EXPECT_NEAR(found, etaOf(flow), std::max(3.0 * sigma, 1e-4)) << flow;
        EXPECT_LT(sigma, 0.01) << flow;
    }
}
