#include "analysis/chart/read_chart.h"

#include "drawn_chart.h"

#include <gtest/gtest.h>

#include <chrono>

namespace headmark {
namespace {

using namespace testing;

const Page& onePage() {
    static const Page page = chartPaper().curve(lineY, xOf(0), xOf(14)).page(false, 3.0);
    return page;
}

// 0.05 m is half a pixel here: more than ink and raster may take, less than any wrong way.
constexpr double kHalfPixel_m = 0.05;

TEST(ReadChart, ReadsACurveFromOneClick) {
    const auto read = readDrawn(followingFrom({onLine(7.3)}), onePage());
    ASSERT_TRUE(read) << read.error().code;
    const ReadLine& line = read->lines.front();
    EXPECT_EQ(line.trust, Trust::sure);
    EXPECT_EQ(line.name, "upper");
    EXPECT_EQ(line.fit->curve.least_m3_s(), 0.0);
    EXPECT_NEAR(line.fit->curve.greatest_m3_s() * 3600.0, 14.0, 0.12);
    EXPECT_LT(greatestOff(line, 0.0, 13.8), kHalfPixel_m);
    EXPECT_TRUE(read->mappingCautions.empty());
}

TEST(ReadChart, ReadsTheSameFiguresFromAPageHeldFiner) {
    const double scale = 1.37;
    DrawnPage fine(1370, 959);
    const auto held = [&](double reading) { return (reading + 0.5) * scale - 0.5; };
    fine.curve([&](double x) { return held(lineY((x + 0.5) / scale - 0.5)); }, held(xOf(0)), held(xOf(14)),
               {4.0, 0.8, 0.9});
    Page page = fine.page(false, 3.0);
    page.scale = scale;
    const auto read = readDrawn(followingFrom({onLine(7.3)}), std::move(page));
    ASSERT_TRUE(read) << read.error().code;
    EXPECT_LT(greatestOff(read->lines.front(), 0.0, 13.8), kHalfPixel_m);
    EXPECT_NEAR(read->lines.front().samples.back().at.x_px, xOf(14), 5.0);
}

TEST(ReadChart, SpotsAndFollowedInkGoTogether) {
    Reading r = followingFrom({onLine(7.3)});
    r.lines[0].spots = {onLine(3.0), onLine(11.0)};
    const auto read = readDrawn(r, onePage());
    ASSERT_TRUE(read) << read.error().code;
    EXPECT_LT(greatestOff(read->lines.front(), 0.0, 13.8), kHalfPixel_m);
}

TEST(ReadChart, SpotsAloneAreFittedWithTheirSigma) {
    Reading r = chartReading();
    r.lines[0].spots = {onLine(0.0), onLine(4.0), onLine(8.0), onLine(12.0), onLine(14.0)};
    const auto read = readDrawn(r, onePage());
    ASSERT_TRUE(read) << read.error().code;
    const ReadLine& line = read->lines.front();
    ASSERT_EQ(line.samples.size(), 5u);
    EXPECT_LT(greatestOff(line, 0.0, 14.0), 0.2);
    // 1 px of the spot, in both directions, and half a pixel or so of the pins: 0.1 m and somewhat more.
    EXPECT_GT(line.samples[2].sigma, 0.1);
    EXPECT_LT(line.samples[2].sigma, 0.2);
}

TEST(ReadChart, InkTellsCrossingLinesApart) {
    const Pen red{3.0, 0.6, 0.9, {200, 30, 30}}, blue{3.0, 0.6, 0.9, {30, 60, 200}};
    const auto rising = [](double x) { return lineY(xOf(7)) - 0.12 * (x - xOf(7)); };
    const Page page =
        chartPaper().curve(lineY, xOf(0), xOf(14), red).curve(rising, xOf(0), xOf(14), blue).page(true, 3.0);
    Reading r = followingFrom({onLine(7.0)}); // where they cross
    r.lines[0].ink = InkColour{200, 30, 30};
    r.lines.push_back(r.lines[0]);
    r.lines[1].ink = InkColour{30, 60, 200};
    const auto read = readDrawn(r, page);
    ASSERT_TRUE(read) << read.error().code;
    EXPECT_LT(greatestOff(read->lines[0], 0.2, 13.8), 2 * kHalfPixel_m);
    EXPECT_LT(
        greatestOff(read->lines[1], 0.2, 13.8, [](double q) { return headOf(7.0) + 0.12 * 5.0 * (q - 7.0); }),
        2 * kHalfPixel_m);
}

TEST(ReadChart, LogarithmicAxes) {
    // Flow 1 to 100 over 800 px, head 10 to 100 over 500 px; H = 60 / Q^0.3 is a straight line.
    const double slope = 0.3 * 500.0 / 400.0;
    const double start = 600.0 - 500.0 * std::log10(6.0);
    const Page page = DrawnPage(1000, 700)
                          .curve([&](double x) { return start + slope * (x - 100.0); }, 100, 800)
                          .page(false, 3.0);
    Reading r = followingFrom({{450.0, start + slope * 350.0}});
    r.flowScale = r.valueScale = AxisScale::log10;
    for (Pin& pin : r.pins) {
        pin.flow = *pin.flow == 0.0 ? 1.0 : 100.0;
        pin.value = *pin.value == 0.0 ? 10.0 : 100.0;
    }
    const auto read = readDrawn(r, page);
    ASSERT_TRUE(read) << read.error().code;
    for (const LineSample& s : read->lines[0].samples) {
        const double truth = 60.0 * std::pow(3600.0 * s.flow_m3_s, -0.3);
        EXPECT_NEAR(s.value / truth, 1.0, 0.003); // half a pixel is 0.23 %
    }
}

TEST(ReadChart, ARightAxisHasItsOwnScale) {
    Reading r = followingFrom({onLine(7.3)});
    r.lines[0].axis = ValueAxis::right;
    r.lines[0].quantity = LineQuantity::efficiency;
    for (const double share : {0.0, 100.0}) {
        Pin pin;
        pin.at = {xOf(16), yOf(share / 2.0)};
        pin.flow = 16.0;
        pin.value = share;
        pin.axis = ValueAxis::right;
        r.pins.push_back(pin);
    }
    const auto read = readDrawn(r, onePage());
    ASSERT_TRUE(read) << read.error().code;
    // 43 on the left is 86 % on the right.
    EXPECT_LT(greatestOff(read->lines[0], 0.0, 13.8, [](double q) { return headOf(q) / 50.0; }), 0.002);
}

TEST(ReadChart, ALineOfEqualEfficiencyIsFollowedRoundWithoutAFit) {
    DrawnPage drawn = chartPaper();
    PixelPoint last{};
    for (int k = 0; k <= 120; ++k) {
        const double a = -1.4 + 2.8 * k / 120; // an open arch, bent back in flow
        const PixelPoint next{400.0 + 200.0 * std::cos(a), 350.0 + 150.0 * std::sin(a)};
        if (k > 0) drawn.straight(last, next, {2.5, 0.6, 0.9});
        last = next;
    }
    Reading r = followingFrom({{600.0, 350.0}});
    r.lines[0].quantity = LineQuantity::isoEfficiency;
    r.lines[0].levelShare = 0.7;
    const auto read = readDrawn(r, drawn.page(false, 2.0));
    ASSERT_TRUE(read) << read.error().code;
    const ReadLine& line = read->lines[0];
    EXPECT_FALSE(line.fit);
    ASSERT_GT(line.samples.size(), 100u);
    double least = 1e9, most = 0.0;
    for (const LineSample& s : line.samples) {
        const double u = (s.at.x_px - 400.0) / 200.0, v = (s.at.y_px - 350.0) / 150.0;
        EXPECT_NEAR(std::hypot(u, v), 1.0, 0.01);
        least = std::min(least, s.at.y_px);
        most = std::max(most, s.at.y_px);
    }
    // Ends at 350 -+ 150 sin 1.4 = 202 and 498.
    EXPECT_LT(least, 212.0);
    EXPECT_GT(most, 488.0);
}

TEST(ReadChart, PinsThatContradictEachOtherAreSaid) {
    Reading r = followingFrom({onLine(7.3)});
    r.pins[3].at.x_px += 60.0;
    r.pins[0].at.y_px += 50.0; // three are wrong: none can be named
    r.pins[1].at.y_px += 40.0;
    r.mapping = MappingModel::upright;
    const auto read = readDrawn(r, onePage());
    ASSERT_TRUE(read) << read.error().code;
    ASSERT_EQ(read->mappingCautions.size(), 1u);
    EXPECT_EQ(read->mappingCautions[0].code, "pins-disagree");
}

TEST(ReadChart, TheOnePinThatIsWrongIsNamedWithWhatTheOthersPutThere) {
    Reading r = followingFrom({onLine(7.3)});
    Pin middle;
    middle.at = {xOf(8), yOf(30)};
    middle.flow = 8.0;
    middle.value = 80.0; // 30 misread
    r.pins.push_back(middle);
    r.mapping = MappingModel::affine;
    const auto read = readDrawn(r, onePage());
    ASSERT_TRUE(read) << read.error().code;
    ASSERT_EQ(read->mappingCautions.size(), 1u);
    const Caution& caution = read->mappingCautions[0];
    EXPECT_EQ(caution.code, "pin-contradicts");
    EXPECT_EQ(caution.place, "pins[4]");
    EXPECT_EQ(std::get<std::string>(findFact(caution.values, "what")->value), "value");
    EXPECT_NEAR(std::get<double>(findFact(caution.values, "expected")->value), 30.0, 0.1);
}

TEST(ReadChart, AClickOnARulingOrAFrameIsRefusedByName) {
    for (const PixelPoint click : {PixelPoint{xOf(5), yOf(10)}, PixelPoint{xOf(9), yOf(0)}}) {
        const auto read = readDrawn(followingFrom({click}), onePage());
        ASSERT_FALSE(read);
        EXPECT_EQ(read.error().code, "click-on-ruling");
    }
}

TEST(ReadChart, TheGridCarriesWhatThePinsMiss) {
    // Pins two pixels off on one side: 0.2 m. The six levels of the grid say where the heads are.
    Reading r = followingFrom({onLine(7.3)});
    r.pins[0].at.y_px += 2.0;
    r.pins[1].at.y_px += 2.0;
    const auto read = readDrawn(r, onePage());
    ASSERT_TRUE(read) << read.error().code;
    EXPECT_GT(read->mapping.rulings(), 8u);
    EXPECT_LT(greatestOff(read->lines[0], 0.5, 13.5), 0.05);
}

TEST(ReadChart, AClickWhereTwoAlikeCrossIsDoubtful) {
    const Page page =
        chartPaper()
            .curve(lineY, xOf(0), xOf(14))
            .curve([](double x) { return lineY(xOf(7)) - 0.35 * (x - xOf(7)); }, xOf(1), xOf(14))
            .page(false, 3.0);
    const auto read = readDrawn(followingFrom({onLine(7.0)}), page);
    ASSERT_TRUE(read) << read.error().code;
    EXPECT_EQ(read->lines[0].trust, Trust::doubtful);
    EXPECT_TRUE(hasCaution(read->lines[0], "line-ambiguous"));
}

// Whatever the page: an error that has a code and a place, or an answer; and never for ever.
void expectSane(const Reading& reading, Page page, bool maySurely) {
    const auto start = std::chrono::steady_clock::now();
    const auto read = readDrawn(reading, std::move(page));
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    constexpr double kForEver_s = 60.0; // how fast it is stands in tests/bench
    EXPECT_LT(took.count(), kForEver_s);
    if (!read) {
        EXPECT_FALSE(read.error().code.empty());
        EXPECT_FALSE(read.error().place.empty());
        return;
    }
    EXPECT_TRUE(maySurely || read->lines[0].trust == Trust::doubtful);
}

Page evenPage(int width, int height, std::uint8_t grey) {
    Page page;
    page.width = width;
    page.height = height;
    page.grey.assign(static_cast<std::size_t>(width) * static_cast<std::size_t>(height), grey);
    return page;
}

TEST(ReadChart, StandsPagesWithoutAnyChart) {
    const Reading r = followingFrom({onLine(7.3)});
    expectSane(r, evenPage(1000, 700, 255), false);
    expectSane(r, evenPage(1000, 700, 0), false);
    expectSane(r, evenPage(1, 1, 0), false);
    expectSane(followingFrom({{0.0, 0.0}}), evenPage(1, 1, 0), false);
    Page noise = evenPage(1000, 700, 0);
    std::mt19937 random(3);
    for (std::uint8_t& pixel : noise.grey)
        pixel = static_cast<std::uint8_t>(random() & 0xff);
    for (const double flow : {2.0, 5.5, 9.1, 13.0})
        expectSane(followingFrom({onLine(flow)}), noise, false);
}

TEST(ReadChart, AFrameOrARulingIsNoCurve) {
    // Upright: all of it at one flow.
    const auto upright = readDrawn(followingFrom({{xOf(0), yOf(15)}}), onePage());
    EXPECT_TRUE(!upright || upright->lines[0].trust == Trust::doubtful);
    // Level: as good as any curve, but a person sees what was followed.
    expectSane(followingFrom({{xOf(7.0), yOf(0)}}), onePage(), true);
    expectSane(followingFrom({{xOf(6.0), yOf(25)}}), onePage(), false);
}

} // namespace
} // namespace headmark
