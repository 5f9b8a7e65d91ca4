// Samples, their errors and the fit, from traced pixels given by hand.
#include "analysis/chart/line_samples.h"

#include "drawn_chart.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

using namespace testing;

TracedLine tracedAt(double fromX, double toX, double (*y)(double), bool clicked = false) {
    TracedLine traced;
    for (double x = fromX; x <= toX; x += 2.0) {
        const double slope = y(x + 0.5) - y(x - 0.5), root = std::hypot(1.0, slope);
        traced.points.push_back({{x, y(x)}, {1.0 / root, slope / root}, 0.2, clicked});
    }
    StrokeLook look;
    look.width_px = 3.0;
    look.darkness = 0.9;
    if (!clicked) traced.look = look;
    return traced;
}

Result<ReadLine> samples(const Reading& reading, const TracedLine& traced) {
    const auto mapping = solveMapping(reading);
    Page page;
    page.width = 1000;
    page.height = 700;
    return lineFromTrace(reading, 0, mapping.value(), page, traced);
}

TEST(LineSamples, AreInSiByRisingFlow) {
    const auto line = samples(chartReading(), tracedAt(xOf(1), xOf(14), lineY));
    ASSERT_TRUE(line);
    EXPECT_NEAR(line->samples.front().flow_m3_s, 1.0 / 3600.0, 1e-9);
    // 43 - 0.2 - 0.08
    EXPECT_NEAR(line->samples.front().value, 42.72, 1e-6);
    EXPECT_LT(greatestOff(*line, 1.0, 14.0), 1e-3);
}

TEST(LineSamples, PrintedUnitsAreConverted) {
    Reading r = chartReading();
    r.printedUnits.flow = "l/s";
    r.printedUnits.head = "bar";
    const auto line = samples(r, tracedAt(xOf(1), xOf(14), lineY));
    ASSERT_TRUE(line);
    EXPECT_NEAR(line->samples.front().flow_m3_s, 1e-3, 1e-9);
    // 100 kPa / (9.80665 kPa per m), as the contract says
    EXPECT_NEAR(line->samples.front().value, 42.72 * 100.0 / 9.80665, 1e-4);
}

// Four pins of sigma 0.7 at the corners of the axes tie each scale at each end by the mean of two: variance
// 0.49/2. At the middle of the chart the error of the scale is that of the mean of four: 0.7/2 = 0.35 px; a
// level line at mid-height has 10 px per metre, so 0.035 m, and 0.2 px of its own 0.02 m: together 0.0403 m.
TEST(LineSamples, SigmaHoldsPinsAndInk) {
    const auto line = samples(chartReading(), tracedAt(xOf(2), xOf(14), [](double) { return yOf(25); }));
    ASSERT_TRUE(line);
    const auto middle = std::find_if(line->samples.begin(), line->samples.end(),
                                     [](const LineSample& s) { return s.flow_m3_s * 3600.0 >= 8.0; });
    EXPECT_NEAR(middle->sigma, 0.0403, 0.0005);
}

TEST(LineSamples, ALineThatStartsAtTheAxisHasItsRangeFromZeroFlow) {
    // The axis hides the first pixels.
    const auto near = samples(chartReading(), tracedAt(xOf(0) + 4.0, xOf(14), lineY));
    ASSERT_TRUE(near);
    EXPECT_EQ(near->fit->curve.least_m3_s(), 0.0);
    const auto far = samples(chartReading(), tracedAt(xOf(1), xOf(14), lineY));
    ASSERT_TRUE(far);
    EXPECT_NEAR(far->fit->curve.least_m3_s() * 3600.0, 1.0, 1e-6);
}

TEST(LineSamples, BetweenFlowsLimitsThem) {
    Reading r = chartReading();
    r.lines[0].betweenFlows = {4.0, 9.0};
    const auto line = samples(r, tracedAt(xOf(0), xOf(14), lineY));
    ASSERT_TRUE(line);
    EXPECT_GE(line->samples.front().flow_m3_s * 3600.0, 4.0 - 1e-9);
    EXPECT_LE(line->samples.back().flow_m3_s * 3600.0, 9.0 + 1e-9);
    r.lines[0].betweenFlows = {14.5, 15.5};
    const auto none = samples(r, tracedAt(xOf(0), xOf(14), lineY));
    ASSERT_FALSE(none);
    EXPECT_EQ(none.error().code, "nothing-between");
    EXPECT_EQ(none.error().place, "lines[0]");
}

TEST(LineSamples, AWayThatTurnsBackInFlowKeepsItsLongerPart) {
    TracedLine traced = tracedAt(xOf(1), xOf(14), lineY);
    for (int k = 1; k <= 20; ++k) { // a hook at the end, as along a neighbour
        TracedPoint p = traced.points.back();
        p.at.x -= 6.0;
        p.at.y += 3.0;
        traced.points.push_back(p);
    }
    const auto line = samples(chartReading(), traced);
    ASSERT_TRUE(line);
    EXPECT_LT(greatestOff(*line, 1.0, 14.0), 0.05);
}

TEST(LineSamples, OfEqualEfficiencyKeepTheirOrderAndHaveNoFit) {
    Reading r = chartReading();
    r.lines[0].quantity = LineQuantity::isoEfficiency;
    r.lines[0].levelShare = 0.6;
    TracedLine traced;
    for (int k = 0; k < 40; ++k) { // an oval, against the flow on its way back
        const double a = 0.15 * k;
        traced.points.push_back(
            {{500.0 + 100.0 * std::cos(a), 350.0 + 60.0 * std::sin(a)}, {1.0, 0.0}, 0.2, false});
    }
    const auto line = samples(r, traced);
    ASSERT_TRUE(line);
    EXPECT_FALSE(line->fit);
    ASSERT_EQ(line->samples.size(), 40u);
    EXPECT_EQ(line->levelShare, 0.6);
    EXPECT_NEAR(line->samples[20].flow_m3_s * 3600.0, flowAt(500.0 + 100.0 * std::cos(3.0)), 1e-6);
}

TEST(LineSamples, ADroopingHeadIsSaid) {
    // Top at 5 m3/h, 2.5 m above shut-off.
    const auto line = samples(chartReading(), tracedAt(xOf(0), xOf(14), [](double x) {
                                  const double q = flowAt(x);
                                  return yOf(35.0 + q - 0.1 * q * q);
                              }));
    ASSERT_TRUE(line);
    const auto said = std::find_if(line->cautions.begin(), line->cautions.end(),
                                   [](const Caution& c) { return c.code == "head-drooping"; });
    ASSERT_NE(said, line->cautions.end());
    EXPECT_NEAR(std::get<double>(findFact(said->values, "flow_m3_h")->value), 5.0, 0.05);
    EXPECT_NEAR(std::get<double>(findFact(said->values, "head_m")->value), 37.5, 0.02);
}

// Pins 500 px apart up the page, each good to so many pixels: at mid height their scale is good to
// sigma/sqrt(2) of 500 px, of which two sigma are 1 % at sigma = 3.5 px.
TEST(LineSamples, AScaleThatThePinsLeaveUncertainIsSaid) {
    const auto readWith = [](double sigma_px) {
        Reading r = chartReading();
        r.sigmas.pin_px = sigma_px;
        return samples(r, tracedAt(xOf(0), xOf(14), lineY));
    };
    const auto sure = readWith(2.5), unsure = readWith(5.0);
    ASSERT_TRUE(sure && unsure);
    EXPECT_FALSE(hasCaution(*sure, "scale-uncertain"));
    EXPECT_EQ(sure->trust, Trust::sure);
    EXPECT_TRUE(hasCaution(*unsure, "scale-uncertain"));
    EXPECT_EQ(unsure->trust, Trust::doubtful);
}

TEST(LineSamples, BeyondThePinsIsSaid) {
    Reading r = chartReading();
    for (Pin& pin : r.pins)
        if (*pin.flow == 16.0) {
            pin.flow = 8.0;
            pin.at.x_px = xOf(8);
        }
    const auto line = samples(r, tracedAt(xOf(0), xOf(14), lineY));
    ASSERT_TRUE(line);
    EXPECT_TRUE(hasCaution(*line, "line-beyond-pins"));
}

} // namespace
} // namespace headmark
